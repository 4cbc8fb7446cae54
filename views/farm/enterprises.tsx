// Enterprises side by side: margins, what an hour brings, break-even, and what the books say of the last twelve months.

import { day, dayName } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
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
        cell: (line) => `${plain(line.units)} ${line.units === 1 ? line.unit : `${line.unit}s`}`,
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

const yieldWords = ({ breakEven }: Line): string =>
  breakEven!.yieldNeeded === null ? 'no yield covers them at no price' : plain(breakEven!.yieldNeeded)

const BreakEvenTable = ({ lines }: { lines: readonly Line[] }) => {
  const rows = lines.filter((line) => line.breakEven !== null)
  if (rows.length === 0) return null
  return (
    <details>
      <summary>Break-even prices and yields</summary>
      <DataTable<Line>
        caption="Price and yield that just cover the direct costs of a unit"
        ofPlan
        stack
        rows={rows}
        columns={[
          { title: 'Enterprise', isHeader: true, cell: (line) => line.name },
          { title: 'Counted in', cell: (line) => line.breakEven!.measure },
          {
            title: 'Price now',
            isNumber: true,
            cell: (line) => formatDollarsAndCents(line.breakEven!.priceNow),
          },
          {
            title: 'Break-even price',
            isNumber: true,
            cell: (line) => formatDollarsAndCents(line.breakEven!.price),
          },
          {
            title: 'With its own hours paid',
            isNumber: true,
            cell: (line) => formatDollarsAndCents(line.breakEven!.priceWithWage),
          },
          {
            title: 'With markets, overheads and all hours paid',
            isNumber: true,
            cell: (line) =>
              line.breakEven!.priceWithAll === null
                ? 'none grown'
                : formatDollarsAndCents(line.breakEven!.priceWithAll),
          },
          { title: 'Yield per unit', isNumber: true, cell: (line) => plain(line.breakEven!.yieldPerUnit) },
          { title: 'Break-even yield', isNumber: true, cell: (line) => yieldWords(line) },
        ]}
      />
    </details>
  )
}

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
