// How much house money is in the farm, in one sentence.
import { monthName } from '#calendar/month.ts'
import type { LeakMonth } from '#ledger/leak.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import type { CrossingsFigures } from '#today/crossings/figures.ts'

export const HouseMoneyAnswer = ({
  figures: { leak, due },
}: {
  figures: Pick<CrossingsFigures, 'leak' | 'due'>
}) => {
  const last = leak.at(-1)
  if (!last || isQuiet(leak)) return null
  const amount = formatDollars(centsToDollars(Math.abs(last.runningCents) as Cents))
  const since = `since ${monthName(leak[0]!.month)}`
  const waits =
    due.length === 0
      ? ''
      : ` ${due.length === 1 ? 'One transfer waits' : `${due.length} transfers wait`} for you.`
  return (
    <p class="answer">
      {last.runningCents > 0 ? (
        <>
          <strong>{amount}</strong> of house money is in the farm {since}.
        </>
      ) : hasPutIn(leak) ? (
        <>
          The farm has paid the house <strong>{amount}</strong> more than the house put in {since}.
        </>
      ) : (
        <>
          The farm has paid the house <strong>{amount}</strong> {since}, and the house has put nothing in.
        </>
      )}
      {waits}
    </p>
  )
}

/** Whether any house money ever went into the farm. */
const hasPutIn = (months: readonly LeakMonth[]): boolean => months.some((one) => one.contributionCents > 0)

/** Nothing has crossed. */
export const isQuiet = (months: readonly LeakMonth[]): boolean =>
  months.every((one) => one.leakCents === 0 && one.contributionCents === 0)

/** What stands since the books' first month. */
export const leakNote = (last: LeakMonth, months: readonly LeakMonth[]): string => {
  const since = `since ${monthName(months[0]!.month)}`
  if (last.runningCents > 0) return `The household has put in more than it got out ${since}`
  return hasPutIn(months)
    ? `All that was put in ${since} is back`
    : `The household has put nothing in ${since}`
}
