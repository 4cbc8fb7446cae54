// What the marketplace is paid each month, where that is not what the year costs after the credit, and what the return settles of it.
import { monthNames } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { PaidInMonths } from '#today/cover/paid-in-months.ts'

interface PaidProps {
  paid: PaidInMonths | null
  year: number
  /** Besides, what months that are over are read as, and where that is told. */
  withForm?: boolean
}

export const PaidEachMonth = ({ paid, year, withForm }: PaidProps) =>
  paid === null ? null : (
    <p class="figure-note">
      {paidWords(paid, year)}
      {paid.over === null || !withForm ? null : (
        <>
          {' '}
          What was paid below the premium counts as credit taken in advance;{' '}
          <a href={`/year-pack/cover-papers?year=${year}`}>Form 1095-A</a> tells it for certain.
        </>
      )}
    </p>
  )

const paidWords = (paid: PaidInMonths, year: number): string =>
  `${eachMonthWords(paid)} ${settledWords(paid.settles, year)}`

const eachMonthWords = ({ over, ahead }: PaidInMonths): string => {
  const goesOn = ahead && `${formatDollars(ahead.monthly)} ${sinceWords(ahead)}`
  if (over === null) return `Each month the marketplace is paid ${formatDollars(ahead!.monthly)}.`
  const before = `So far the marketplace was paid ${formatDollars(over.monthly)} a month`
  return goesOn === null ? `${before}.` : `${before}; it is ${goesOn}, as the advance credit goes on.`
}

const sinceWords = ({ months, from }: NonNullable<PaidInMonths['ahead']>): string => {
  const name = monthNames[from - 1]!
  return months === 1 ? `in ${name}` : `a month from ${name} on`
}

const settledWords = (settles: number, year: number): string =>
  settles > 0
    ? `${formatDollars(settles)} of the credit comes with the return of ${year}.`
    : `${formatDollars(-settles)} of the advance is paid back with the return of ${year}.`
