// The months of one year, and one month opened into what made it.
import { monthNameShort, nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars, formatDollarsAndCents } from '#money/format.ts'
import type { ProjectedMonth } from '#runway/project.ts'
import type { MonthTrace } from '#today/runway/figures.ts'
import { BelowZero } from '../charts/below-zero.tsx'
import { PageTitle } from '../layout.tsx'
import { DataTable } from '../parts/table.tsx'
import { withQuery } from '../parts/with-query.ts'

export interface YearMonthsProps {
  year: number
  months: readonly ProjectedMonth[]
  query: string
}

/** Brought in by a year's link it takes the focus; on its own page the page does. */
export const YearMonths = (props: YearMonthsProps & { isBroughtIn?: boolean }) => (
  <section id="months" aria-labelledby="months-title" tabindex={-1} autofocus={props.isBroughtIn}>
    <h2 id="months-title">Months of {String(props.year)}</h2>
    <DataTable
      caption={`The months of ${props.year}; a month’s name opens what made it`}
      hideCaption
      ofPlan
      rows={props.months}
      csv={withQuery('/runway.csv', `table=months${props.query === '' ? '' : `&${props.query}`}`)}
      columns={[
        {
          title: 'Month',
          isHeader: true,
          cell: (one) => (
            <a href={withQuery(`/runway/months/${one.month}`, props.query)}>
              {monthNameShort(parseMonth(one.month)!)}
            </a>
          ),
        },
        { title: 'Farm sales', isNumber: true, isWide: true, cell: (one) => formatDollars(one.farmSales) },
        { title: 'Farm cash', isNumber: true, isWide: true, cell: (one) => formatDollars(one.farmCash) },
        { title: 'Draw', isNumber: true, cell: (one) => formatDollars(one.draw) },
        { title: 'Living', isNumber: true, cell: (one) => formatDollars(one.living) },
        {
          title: 'Premiums, care',
          isNumber: true,
          isWide: true,
          cell: (one) => formatDollars(one.premiums + one.care),
        },
        { title: 'Tax', isNumber: true, isWide: true, cell: (one) => formatDollars(one.taxes) },
        { title: 'One-offs', isNumber: true, isWide: true, cell: (one) => formatDollars(one.oneOffs) },
        { title: 'Unmet', isNumber: true, isWide: true, cell: (one) => formatDollars(one.unmetNeed) },
        { title: 'Spendable', isNumber: true, cell: (one) => formatDollars(one.spendable) },
        { title: 'Floor', isNumber: true, cell: (one) => formatDollars(one.floor) },
      ]}
    />
    <BelowZero savings={props.months.map((one) => one.spendable)} />
  </section>
)

export const YearPage = (props: YearMonthsProps) => (
  <>
    <PageTitle purpose="Each month of the year by this projection.">{`Runway: ${props.year}`}</PageTitle>
    <p>
      <a href={withQuery('/runway/years', props.query)}>All years</a>
    </p>
    <YearMonths {...props} />
  </>
)

export const MonthPage = ({ trace, query }: { trace: MonthTrace; query: string }) => {
  const year = trace.month.slice(0, 4)
  return (
    <>
      <PageTitle purpose="Everything in this month’s figures.">
        {`Runway: ${nameOfMonth(trace.month)}`}
      </PageTitle>
      <p>
        <a href={withQuery(`/runway/years/${year}`, query)}>All months of {year}</a>
      </p>
      {trace.groups.map((group) => (
        <TraceGroup group={group} />
      ))}
    </>
  )
}

/** How a line came about has a column only where any says it. */
const TraceGroup = ({ group }: { group: MonthTrace['groups'][number] }) => {
  const saysHow = group.lines.some(({ says }) => says !== undefined && says !== '')
  return (
    <DataTable
      caption={group.title}
      ofPlan
      rows={group.lines}
      columns={[
        { title: 'Line', isHeader: true, cell: (line) => line.name },
        ...(saysHow ? [{ title: 'How', cell: (line: (typeof group.lines)[number]) => line.says ?? '' }] : []),
        { title: 'Dollars', isNumber: true, cell: (line) => formatDollarsAndCents(line.dollars) },
      ]}
      foot={['Total', ...(saysHow ? [''] : []), formatDollarsAndCents(group.total)]}
    />
  )
}
