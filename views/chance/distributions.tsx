// How the milestones fall over the courses: percentiles side by side, and in which year the farm carries or the floor is crossed.
import { type Month, monthName } from '#calendar/month.ts'
import type { Spread, YearCounts } from '#chance/outcome.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { DataTable } from '../parts/table.tsx'
import type { ChanceOutcomeFigures } from './figures.ts'

export const Distributions = ({ figures }: { figures: ChanceOutcomeFigures }) => (
  <>
    <Percentiles figures={figures} />
    <YearChart
      id="chance-carry"
      title="The year from which the farm carries the household"
      counts={figures.outcome.carryYears}
      paths={figures.outcome.paths}
      never="it never comes to carry the household"
    />
    <YearChart
      id="chance-floor"
      title="The year in which savings first fall below the floor"
      counts={figures.outcome.floorYears}
      paths={figures.outcome.paths}
      never="they never do"
    />
  </>
)

interface Line {
  name: string
  cells: [string, string, string]
}

const Percentiles = ({ figures }: { figures: ChanceOutcomeFigures }) => {
  const { outcome, firstMonth } = figures
  const when = (month: number) =>
    Number.isFinite(month) ? monthName((firstMonth + Math.round(month)) as Month) : 'never'
  const left = (months: number) => (Number.isFinite(months) ? String(Math.round(months)) : 'to the end')
  const line = (name: string, spread: Spread | null, write: (value: number) => string): Line[] =>
    spread === null ? [] : [{ name, cells: [write(spread.p10), write(spread.p50), write(spread.p90)] }]
  /** In nine of ten runs nothing is short: a row of nevers and nothings would say no more than the sentence above. */
  const isShort = Number.isFinite(outcome.firstShortMonth.p10) || outcome.unmetNeed.p90 > 0.5
  const rows = [
    ...line('Months left', outcome.monthsLeft, left),
    ...line('Carry month', outcome.carryMonth, when),
    ...line('Lowest spendable savings', outcome.lowestSavings, formatDollars),
    ...(isShort ? line('First month short of need', outcome.firstShortMonth, when) : []),
    ...(isShort ? line('Unmet costs in all', outcome.unmetNeed, formatDollars) : []),
    ...line('All savings at the first slower year', outcome.atSlowerYear, formatDollars),
    ...line('All savings at the end', outcome.atEnd, formatDollars),
    ...line('The longer life ends', outcome.courseMonths, when),
  ]
  return (
    <DataTable
      caption="One in ten below, half below, one in ten above"
      rows={rows}
      ofPlan
      stack
      columns={[
        { title: 'Milestone', isHeader: true, cell: (row) => row.name },
        { title: '10th percentile', isNumber: true, cell: (row) => row.cells[0] },
        { title: 'Middle', isNumber: true, cell: (row) => row.cells[1] },
        { title: '90th percentile', isNumber: true, cell: (row) => row.cells[2] },
      ]}
    />
  )
}

const YearChart = (props: {
  id: string
  title: string
  counts: YearCounts
  paths: number
  never: string
}) => {
  const { counts, paths } = props
  const last = counts.counts.findLastIndex((count) => count > 0)
  const never = `In ${formatPercent(counts.never / paths, 1)} of simulations ${props.never}.`
  if (last < 0) return <p>{`${props.title}: ${never.charAt(0).toLowerCase()}${never.slice(1)}`}</p>
  const years = counts.counts.slice(0, last + 1)
  const most = years.indexOf(Math.max(...years))
  return (
    <BarChart
      id={props.id}
      title={props.title}
      summary={`Most often ${counts.firstYear + most}. ${never}`}
      categories={years.map((_, place) => String(counts.firstYear + place))}
      categoryTitle="Year"
      series={[{ name: 'Share of simulations', tone: 1, values: years.map((count) => count / paths) }]}
      y={{ format: (share) => formatPercent(share, 1), formatShort: (share) => formatPercent(share, 0) }}
    />
  )
}
