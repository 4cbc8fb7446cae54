// By when required distributions must be taken: from one's own accounts, and from those that were inherited.
import { type Day, day, monthOfDay } from '#calendar/day.ts'
import { yearOf } from '#calendar/month.ts'
import type { DueDate } from './due-date.ts'
import { emptyBy, type InheritedAccount, inheritedPart } from './inherited-distributions.ts'
import { distributionDue, distributionStartAge } from './required-distributions.ts'

export const distributionDates = (
  person: { id: string; name: string; born: Day },
  year: number,
): DueDate[] => {
  const bornYear = yearOf(monthOfDay(person.born))
  if (year < bornYear + distributionStartAge(bornYear)) return []
  return [
    {
      id: `required-distribution-${person.id}-${year}`,
      day: distributionDue(bornYear, year),
      kind: 'required-distribution',
      title: `${person.name}: required distribution of ${year}`,
      says: 'From traditional accounts; a missed amount is taxed. The first one may wait until April 1, which puts two into one year.',
      source: '26 USC 401(a)(9), 4974',
    },
  ]
}

export interface InheritedOf {
  id: string
  name: string
  account: InheritedAccount
}

/** Each year's last day on which something must be out, up to the one by which all is. */
export const inheritedDates = ({ id, name, account }: InheritedOf, year: number): DueDate[] => {
  const last = emptyBy(account)
  const part = inheritedPart(account, year)
  if (part === 0 || (last !== null && year > last)) return []
  return [
    {
      id: `inherited-${id}-${year}`,
      day: day(`${year}-12-31`),
      kind: 'required-distribution',
      title: part === 1 ? `${name}: all of it must be out by today` : `${name}: yearly minimum of ${year}`,
      says:
        part === 1
          ? 'An inherited account is empty by now; a missed amount is taxed.'
          : `From an inherited account: last December’s balance divided by ${Math.round(10 / part) / 10}. Money taken from other accounts does not count for it.`,
      source: '26 USC 401(a)(9)(B), (H), 4974',
    },
  ]
}
