// Markets of the plan at which nothing is sold yet: they cost fees, miles and hours, and bring nothing.
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { NoticeSection } from '../parts/message.tsx'
import { editOf } from './hour-chart.tsx'

export const UnsoldMarkets = ({ figures }: { figures: FarmFigures }) => {
  const { lines, markets, year } = figures
  const unsold = markets.filter((one) => !one.isNamed)
  if (unsold.length === 0) return null
  const names = unsold.map((one) => one.name)
  const costs = unsold.reduce((sum, one) => sum + one.costs, 0)
  return (
    <NoticeSection label="Markets at which nothing is sold">
      <p>
        Nothing is sold at {allOf(names)} yet: no enterprise or herd is sold there in the plan.
        {costs >= 0.5 ? ` Fees and miles of ${formatDollars(costs)} in ${year} count all the same.` : ''}{' '}
        <SayWhere lines={lines} />.
      </p>
    </NoticeSection>
  )
}

/** Each line's own form asks where it is sold. */
const SayWhere = ({ lines }: Pick<FarmFigures, 'lines'>) => {
  const [first, ...others] = lines
  if (!first) return <a href="/farm/enterprises/new">Add what you sell there</a>
  return others.length === 0 ? (
    <a href={editOf(first)}>Say at “Sold at” of {first.name} that it is sold there</a>
  ) : (
    <a href="/farm/enterprises">Say at “Sold at” of each enterprise what is sold there</a>
  )
}
