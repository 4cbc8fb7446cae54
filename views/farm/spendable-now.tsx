// What the farm could spend now, in one sentence for every page that says it: cash it has, what the plan adds to it, and the reserve.
import { dayName } from '#calendar/day.ts'
import { monthName } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'

export const SpendableNow = ({ purchases }: Pick<FarmFigures, 'purchases'>) => {
  const { cashNow, affordableNow, reserveNow, firstMonth } = purchases
  const has = cashNow.isFromBooks
    ? `By the books the farm had ${formatDollars(cashNow.dollars)} in cash on ${dayName(cashNow.asOf)}.`
    : `By the plan the farm has ${formatDollars(cashNow.dollars)} in cash on ${dayName(cashNow.asOf)}.`
  const intact = `with the reserve of ${formatDollars(reserveNow)} intact through the next twelve months, draws as planned.`
  if (affordableNow < 0.5) return <>{`${has} Nothing of it could be spent ${intact}`}</>
  // Of rounded parts, so that cash and what is planned less the reserve are what is said to be spent.
  const planned = Math.round(affordableNow) + Math.round(reserveNow) - Math.round(cashNow.dollars)
  const of =
    planned > 0
      ? `With ${formatDollars(planned)} of what ${monthName(firstMonth)} brings by the plan,`
      : 'Of that'
  return <>{`${has} ${of} ${formatDollars(affordableNow)} could be spent ${intact}`}</>
}
