// The years of the course, each a step into its months.
import type { Child } from 'hono/jsx'
import { monthsWords } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { YearLine } from '#today/runway/figures.ts'
import { BelowZero } from '../charts/below-zero.tsx'
import { LaterYears } from '../parts/later-years.tsx'
import { DataTable } from '../parts/table.tsx'
import { withQuery } from '../parts/with-query.ts'

/** Years drawn in the charts stand open; those after them are a step away, so that storms are not a long walk below. */
export const YearTable = (props: { years: readonly YearLine[]; nearYears: number; query: string }) => {
  const { years, nearYears, query } = props
  const later = years.slice(nearYears)
  return (
    <>
      <YearRows
        caption="Year by year (select a year for its months)"
        years={years.slice(0, nearYears)}
        query={query}
      />
      <LaterYears years={later.map(({ year }) => year)}>
        <YearRows caption="Later years" years={later} query={query} />
      </LaterYears>
      <BelowZero savings={years.map((one) => one.spendable)} />
      <p class="hint">
        Household costs are living, loan payments, premiums, care and taxes paid in the year. Tax is what the
        year brings; part of it is paid in the next. Savings and retirement accounts are those of the year’s
        end. The tax owed so far is taken off spendable savings. Paid by the farm is draws over household
        costs, for the twelve months to the year’s end or since the plan began. What the household puts into
        the farm is taken off those draws. Short is what the farm could not pay of the planned draw.
      </p>
    </>
  )
}

const YearRows = (props: { caption: string; years: readonly YearLine[]; query: string }) => (
  <DataTable
    caption={props.caption}
    ofPlan
    rows={props.years}
    csv={withQuery('/runway.csv', props.query)}
    columns={[
      {
        title: 'Year',
        isHeader: true,
        cell: (year: YearLine) => (
          <>
            <YearLink year={year.year} query={props.query} />
            {year.months === 12 ? null : <span class="hint below">{monthsWords(year.months)}</span>}
          </>
        ),
      },
      { title: 'Draws', isNumber: true, cell: (year) => drawsCell(year) },
      {
        title: 'Into the farm',
        isNumber: true,
        isWide: true,
        cell: (year) => formatDollars(year.contributions),
      },
      {
        title: 'Other income',
        isNumber: true,
        isWide: true,
        cell: (year) => formatDollars(year.otherIncome),
      },
      { title: 'Household costs', isNumber: true, cell: (year) => formatDollars(year.householdCosts) },
      {
        title: 'Tax',
        isNumber: true,
        isWide: true,
        cell: (year) => (year.tax === null ? '' : formatDollars(year.tax)),
      },
      { title: 'Spendable', isNumber: true, cell: (year) => formatDollars(year.spendable) },
      { title: 'Retirement', isNumber: true, isWide: true, cell: (year) => formatDollars(year.retirement) },
      {
        title: 'Paid by the farm',
        isNumber: true,
        isWide: true,
        cell: (year) => (year.coverRatio === null ? '' : formatPercent(year.coverRatio, 0)),
      },
    ]}
  />
)

const drawsCell = (year: YearLine): Child =>
  year.unmetDraws < 1 ? (
    formatDollars(year.draws)
  ) : (
    <>
      {formatDollars(year.draws)}
      <span class="hint below">{formatDollars(year.unmetDraws)} short</span>
    </>
  )

const YearLink = ({ year, query }: { year: number; query: string }) => {
  const address = withQuery(`/runway/years/${year}`, query)
  return (
    <a href={address} hx-get={address} hx-target="#months" hx-swap="outerHTML show:top">
      {String(year)}
    </a>
  )
}
