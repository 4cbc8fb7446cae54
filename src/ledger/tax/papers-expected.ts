// Papers that payers send about a year, as far as the books tell that they must come: pay, interest, pensions, farm payments.
import { type Cents, sumCents } from '#money/cents.ts'
import { type AccountYear, type BookYear, changeOf } from '../reports/book-year.ts'
import { sideKindOf } from '../schedule-lines.ts'
import { placeOfIncome } from './income-places.ts'
import { ownPremiums, wagesOf } from './pay-before-tax.ts'

export interface PapersExpected {
  key: string
  /** Its form. */
  paper: string
  accountId: number
  account: string
  side: string
  /** Whose it is, as the account says. */
  personId: string | null
  bookedCents: Cents
}

/** An account a row, in the order of the books. */
export const papersExpected = (sides: readonly BookYear[]): PapersExpected[] =>
  sides.flatMap((side) =>
    side.accounts.flatMap((row) => {
      const paper = paperOf(row)
      const booked = bookedOf(row)
      if (paper === null || booked === 0) return []
      return [
        {
          key: `a${row.account.id}`,
          paper,
          accountId: row.account.id,
          account: row.account.name,
          side: side.name,
          personId: row.account.personId,
          bookedCents: booked,
        },
      ]
    }),
  )

/** A plan at work and the premiums of an employer's plan stand on Form W-2. */
const bookedOf = (row: AccountYear): Cents =>
  row.account.kind !== 'expense'
    ? wagesOf(row)
    : row.account.purpose === 'premium'
      ? sumCents(ownPremiums(row))
      : changeOf(row)

const paperOf = ({ account, takenOutCents }: AccountYear): string | null => {
  if (account.kind === 'expense')
    return account.propertyLoan === 'interest' ||
      account.scheduleLine === '21a' ||
      account.scheduleLine === '16a'
      ? '1098'
      : account.purpose === 'premium'
        ? '1095-A, or a statement of the insurer'
        : null
  if (takenOutCents) return '1099-R'
  if (account.kind !== 'income') return null
  const { goes } = placeOfIncome(account)
  if (goes === null) return null
  return papers[sideKindOf(account)][goes.line] ?? null
}

const interest = '1099-INT'

/** By the line of the return. */
const papers: Readonly<Record<'farm' | 'household' | 'venture', Readonly<Record<string, string>>>> = {
  household: {
    '1a': 'W-2',
    '2a': interest,
    '2b': interest,
    '3a': '1099-DIV',
    '3b': '1099-DIV',
    '4b': '1099-R',
    '5b': '1099-R',
    '6a': 'SSA-1099',
    'S1-7': '1099-G',
  },
  farm: {
    '2b': interest,
    '3a': '1099-PATR',
    '4a': '1099-G or CCC-1099-G',
    '5b': '1099-A',
    '6a': '1099-MISC',
    '7': '1099-NEC, above the line of who paid',
  },
  venture: { '1': '1099-NEC or 1099-K, where one comes' },
}
