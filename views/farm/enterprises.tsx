// Enterprises side by side: margins, what an hour brings, break-even, and what the books say of the last twelve months.

import { day, dayName } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
import { manyOf } from '#farm/herd/species-words.ts'
import { undoneSays } from '#farm/told/undone-told.ts'
import { formatCents, formatCount, formatDollars, formatDollarsAndCents } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { LinkButton } from '../parts/button.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { editOf, hourly } from './hour-chart.tsx'

type Line = FarmFigures['lines'][number]

export const EnterpriseSection = ({ figures }: { figures: FarmFigures }) => (
  <section id="enterprises" aria-labelledby="enterprises-title">
    <h2 id="enterprises-title" class="hidden-text">
      Enterprises
    </h2>
    {figures.lines.length === 0 ? (
      <EmptyState href="/farm/enterprises/new" action="Add an enterprise">
        The plan has no enterprise yet. One is enough to begin: a name, a year’s sales, a year’s costs.
      </EmptyState>
    ) : (
      <>
        <Undone summary={figures.summary} />
        <BudgetTable figures={figures} />
        <SavedHours figures={figures} />
        <BreakEvenTable lines={figures.lines} />
        {figures.actualsSpan ? <ActualTable figures={figures} /> : null}
        <p class="no-print">
          <LinkButton href="/farm/enterprises/new" quiet small>
            Add an enterprise
          </LinkButton>
        </p>
      </>
    )}
  </section>
)

/** The figures below are of the work that is done. */
export const Undone = ({ summary: { year, hours, worked } }: Pick<FarmFigures, 'summary'>) => {
  const says = undoneSays(year, { undone: hours - worked, worked })
  return says ? <p>{says}</p> : null
}

const BudgetTable = ({ figures }: { figures: FarmFigures }) => (
  <DataTable<Line>
    caption={`Budgets of ${figures.year}`}
    ofPlan
    csv={`/farm.csv?table=budgets&year=${figures.year}`}
    stack
    rows={figures.lines}
    columns={[
      { title: 'Enterprise', isHeader: true, cell: (line) => <a href={editOf(line)}>{line.name}</a> },
      {
        title: 'Units',
        isNumber: true,
        cell: (line) => `${plain(line.units)} ${line.units === 1 ? line.unit : manyOf(line.unit)}`,
      },
      { title: 'Sales', isNumber: true, cell: (line) => formatDollars(line.sales) },
      { title: 'Direct costs', isNumber: true, cell: (line) => formatDollars(line.directCosts) },
      { title: 'Gross margin', isNumber: true, cell: (line) => formatDollars(line.grossMargin) },
      { title: 'Hours', isNumber: true, cell: (line) => Math.round(line.hours).toLocaleString('en-US') },
      { title: 'Margin an hour', isNumber: true, cell: (line) => hourly(line.marginPerHour) },
      {
        title: 'Your hours, markets in them',
        isNumber: true,
        cell: (line) => Math.round(line.ownHours).toLocaleString('en-US'),
      },
      { title: 'Return to labor', isNumber: true, cell: (line) => formatDollars(line.returnToLabor) },
      { title: 'Return per hour', isNumber: true, cell: (line) => hourly(line.returnPerHour) },
    ]}
    foot={[
      'Total',
      '',
      formatDollars(total(figures.lines, (line) => line.sales)),
      formatDollars(total(figures.lines, (line) => line.directCosts)),
      formatDollars(total(figures.lines, (line) => line.grossMargin)),
      Math.round(total(figures.lines, (line) => line.hours)).toLocaleString('en-US'),
      '',
      Math.round(total(figures.lines, (line) => line.ownHours)).toLocaleString('en-US'),
      formatDollars(total(figures.lines, (line) => line.returnToLabor)),
      '',
    ]}
  />
)

/** Budgets are of the work as it is without them; the year as a whole counts what they save. */
const SavedHours = ({ figures: { lines, summary, year } }: { figures: FarmFigures }) => {
  const left = Math.max(0, summary.worked - summary.hiredHours)
  const saved = total(lines, (line) => line.ownHours) - left
  return saved < 0.5 ? null : (
    <p class="figure-note">
      Purchases save {formatCount(Math.round(saved))} of these hours in {year}:{' '}
      {formatCount(Math.round(left))} are left to work.
    </p>
  )
}

const total = (lines: readonly Line[], value: (line: Line) => number) =>
  lines.reduce((sum, line) => sum + value(line), 0)
/** Three significant figures, and no fewer than the whole ones: 0.108, 12.4, 1240. */
const plain = (value: number) =>
  formatCount(Math.abs(value) < 100 ? Number(value.toPrecision(3)) : Math.round(value))

type BreakEven = Line['breakEvens'][number]

const yieldWords = ({ yieldNeeded }: BreakEven): string =>
  yieldNeeded === null ? 'no yield covers them at no price' : plain(yieldNeeded)

const BreakEvenTable = ({ lines }: { lines: readonly Line[] }) => {
  const rows = lines.flatMap((line) => line.breakEvens.map((one) => ({ ...one, line })))
  const untold = lines.filter((line) => line.breakEvens.length === 0)
  if (rows.length === 0 && untold.length === 0) return null
  return (
    <details>
      <summary>Costs of a dozen, a head, a pound: break-even prices and yields</summary>
      {rows.length === 0 ? null : <BreakEvenRows rows={rows} />}
      {untold.length === 0 ? null : (
        <p>
          A yield in its form gives the break-even price of{' '}
          {untold.map((line, place) => (
            <>
              {place === 0 ? '' : ', '}
              <a href={editOf(line)}>{line.name}</a>
            </>
          ))}
          .
        </p>
      )}
    </details>
  )
}

const BreakEvenRows = ({ rows }: { rows: readonly (BreakEven & { line: Line })[] }) => (
  <>
    <DataTable<BreakEven & { line: Line }>
      caption="Price and yield that just cover the direct costs of a unit"
      ofPlan
      stack
      rows={rows}
      columns={[
        { title: 'Enterprise', isHeader: true, cell: ({ line }) => line.name },
        { title: 'Counted in', cell: (one) => one.measure },
        { title: 'Price now', isNumber: true, cell: (one) => formatDollarsAndCents(one.priceNow) },
        { title: 'Break-even price', isNumber: true, cell: (one) => formatDollarsAndCents(one.price) },
        {
          title: 'With its own hours paid',
          isNumber: true,
          cell: (one) => formatDollarsAndCents(one.priceWithWage),
        },
        {
          title: 'With markets, overheads and all hours paid',
          isNumber: true,
          cell: (one) => (one.priceWithAll === null ? 'none grown' : formatDollarsAndCents(one.priceWithAll)),
        },
        {
          title: 'Yield per unit',
          isNumber: true,
          cell: (one) => `${plain(one.yieldPerUnit)} per ${one.line.unit}`,
        },
        { title: 'Break-even yield', isNumber: true, cell: yieldWords },
      ]}
    />
    {rows.some(({ line }) => line.kind === 'herd') ? (
      <p class="hint">
        Of a herd or flock: a full year of it at its size of this year. Animals bought in place of others are
        in the costs, culls and what else it gives are taken off. A break-even price of $0.00: those alone
        cover the costs. A pound’s price is before kill and cutting.
      </p>
    ) : null}
  </>
)

const ActualTable = ({ figures }: { figures: FarmFigures }) => (
  <details>
    <summary>What the books say beside the budget</summary>
    <DataTable<Line>
      caption={actualsCaption(figures)}
      csv={`/farm.csv?table=actuals&year=${figures.year}`}
      stack
      rows={figures.lines}
      columns={[
        { title: 'Enterprise', isHeader: true, cell: (line) => line.name },
        { title: 'Sales in the books', isNumber: true, cell: (line) => centsOf(line, 'salesCents') },
        { title: 'Sales budgeted', isNumber: true, cell: (line) => formatDollars(line.sales) },
        { title: 'Costs in the books', isNumber: true, cell: (line) => centsOf(line, 'costsCents') },
        { title: 'Costs budgeted', isNumber: true, cell: (line) => formatDollars(line.directCosts) },
        { title: 'Bought for years to come', isNumber: true, cell: (line) => centsOf(line, 'assetsCents') },
      ]}
    />{' '}
  </details>
)

const actualsCaption = ({ actualsSpan, year }: FarmFigures): string => {
  const { from, to, months } = actualsSpan!
  const span = fromTo(dayName(day(from)), dayName(day(to)))
  return months === 12
    ? `In the books, ${span}, beside the budget of ${year}`
    : `The books hold ${months} ${months === 1 ? 'month' : 'months'}, ${span}: the budget beside them is of all 12 months of ${year}`
}

const centsOf = (line: Line, name: 'salesCents' | 'costsCents' | 'assetsCents') =>
  line.actual ? formatCents(line.actual[name]) : 'none under this tag'
