// The course the levers give: milestones with their reasons, savings against the floor, draws against costs, and the years.
import type { Child } from 'hono/jsx'
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { RunwayFigures, YearLine } from '#today/runway/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart, type LineSeries } from '../charts/line-chart.tsx'
import { Button } from '../parts/button.tsx'
import { DollarsSwitch } from '../parts/dollars.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, Hidden, PlanFormIds } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'
import type { LeverShown } from './levers.tsx'

export interface CourseProps {
  figures: RunwayFigures
  levers: readonly LeverShown[]
  errors: FieldErrors
  formId: string
  /** The levers as a query, `?` left out; empty as planned. */
  query: string
  /** What stands under the years: storms, and what chance adds. */
  children?: Child
}

export const Course = (props: CourseProps) => (
  <div id="course" class="course">
    <ErrorSummary
      errors={props.errors}
      title="The course is still the one of before. Please look at this lever"
    />
    <DollarsSwitch />
    <Milestones figures={props.figures} />
    {props.figures.asPlanned ? null : <Keep {...props} />}
    <SavingsChart figures={props.figures} />
    <WholeChart figures={props.figures} />
    <CostsChart figures={props.figures} />
    <YearTable figures={props.figures} query={props.query} />
    <div id="months" />
    {props.children}
  </div>
)

const Milestones = ({ figures }: { figures: RunwayFigures }) => {
  const { milestones } = figures
  return (
    <section aria-labelledby="milestones-title">
      <h2 id="milestones-title">
        {figures.asPlanned ? figures.planName : `${figures.planName}, with the levers`}
      </h2>
      <Figures>
        <Figure
          label="Months left"
          word="months left"
          value={milestones.monthsLeft === null ? 'To the end' : String(milestones.monthsLeft)}
          note={
            milestones.floorMonth === null
              ? 'of the plan'
              : `floor crossed in ${nameOfMonth(milestones.floorMonth)}`
          }
        />
        <Figure
          label="Lowest spendable savings"
          word="spendable savings"
          value={formatDollars(milestones.lowestSpendable)}
          note={nameOfMonth(milestones.lowestMonth)}
        />
        {milestones.runsShort === null ? null : (
          <Figure
            label="Unmet costs"
            word="unmet costs"
            value={formatDollars(milestones.unmetNeed)}
            note={`in all, from ${nameOfMonth(milestones.runsShort)} on: nothing is left to pay them`}
          />
        )}
        <Figure
          label="Carry month"
          word="carry month"
          value={milestones.carryMonth === null ? 'None' : nameOfMonth(milestones.carryMonth)}
          note={`${milestones.firstDraw === null ? 'no draws' : `draws begin in ${nameOfMonth(milestones.firstDraw)}`}${milestones.carryJudgedTo === null ? '' : `; judged up to the first slower year, ${nameOfMonth(milestones.carryJudgedTo)}`}`}
        />
        {milestones.firstSlowerMonth === null ? null : (
          <Figure
            label="At the first slower year"
            word="slower year"
            value={formatDollars(milestones.savingsAtFirstSlower ?? 0)}
            note={`all savings, ${nameOfMonth(milestones.firstSlowerMonth)}`}
          />
        )}
      </Figures>
      <ul class="why">
        {figures.why.map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
    </section>
  )
}

const Keep = ({ figures, levers, formId }: CourseProps) => (
  <form method="post" action="/runway/keep" class="keep no-print">
    <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
    {levers.map(({ name, text }) => (
      <Hidden name={name} value={text} />
    ))}
    <p>The levers differ from the plan.</p>
    <Button small>Keep them in the plan</Button>
  </form>
)

/** Drawn month by month; the whole plan is drawn by its Decembers below. */
const nearMonths = 180

const x = (month: string): number => parseMonth(month)!

const SavingsChart = ({ figures }: { figures: RunwayFigures }) => {
  const months = figures.months.slice(0, nearMonths)
  if (months.length < 2) return null
  const { milestones } = figures
  const series: LineSeries[] = [
    {
      name: figures.saved === null ? 'Spendable savings' : 'Spendable savings with the levers',
      tone: 1,
      points: months.map((one) => ({ x: x(one.month), y: one.spendable })),
    },
    { name: 'Floor', tone: 2, points: months.map((one) => ({ x: x(one.month), y: one.floor })) },
  ]
  if (figures.saved !== null)
    series.push({
      name: 'As the plan stands',
      tone: 3,
      points: figures.saved.slice(0, nearMonths).map((one) => ({ x: x(one.month), y: one.spendable })),
    })
  if (figures.baseline !== null)
    series.push({
      name: 'As the plan was saved',
      tone: 4,
      isThin: true,
      points: figures.baseline.slice(0, nearMonths).map((one) => ({ x: x(one.month), y: one.spendable })),
    })
  const carry = milestones.carryMonth
  return (
    <LineChart
      id="savings-course"
      title="Spendable savings against the floor"
      summary={`${milestones.floorMonth === null ? 'Savings stay above the floor to the end of the plan' : `Savings fall below the floor in ${nameOfMonth(milestones.floorMonth)}`}; lowest ${formatDollars(milestones.lowestSpendable)} in ${nameOfMonth(milestones.lowestMonth)}${unmetWords(milestones)}. Drawn for ${Math.ceil(months.length / 12)} years.`}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={series}
      marks={
        carry !== null && x(carry) <= x(months.at(-1)!.month) ? [{ atX: x(carry), says: 'farm carries' }] : []
      }
      tableEvery={12}
    />
  )
}

const unmetWords = ({ runsShort, unmetNeed }: RunwayFigures['milestones']): string =>
  runsShort === null ? '' : `, and ${formatDollars(unmetNeed)} of costs stay unmet`

const WholeChart = ({ figures }: { figures: RunwayFigures }) => {
  const ends = figures.months.filter(
    (one, place) => one.month.endsWith('-12') || place === figures.months.length - 1,
  )
  if (figures.months.length <= nearMonths) return null
  const last = ends.at(-1)!
  return (
    <details>
      <summary>All savings to the end of the plan</summary>
      <LineChart
        id="savings-whole"
        title="All savings at each year’s end"
        summary={`At the end of the plan, ${nameOfMonth(last.month)}, spendable savings are ${formatDollars(last.spendable)} and retirement accounts hold ${formatDollars(last.traditional + last.roth)}: ${formatDollars(figures.savingsAtEnd)} together, less the tax owed.`}
        x="month"
        y={{ format: formatDollars, formatShort: dollarsShort }}
        series={[
          {
            name: 'Spendable and retirement together',
            tone: 1,
            points: ends.map((one) => ({ x: x(one.month), y: one.spendable + one.traditional + one.roth })),
          },
          { name: 'Spendable', tone: 2, points: ends.map((one) => ({ x: x(one.month), y: one.spendable })) },
        ]}
        tableEvery={2}
      />
    </details>
  )
}

const CostsChart = ({ figures }: { figures: RunwayFigures }) => {
  const years = figures.years.slice(0, 15)
  if (years.length < 2) return null
  const first = years.find(
    (year) => year.draws - year.contributions >= year.householdCosts && year.householdCosts > 0,
  )
  return (
    <BarChart
      id="draws-and-costs"
      title="Draws against household costs"
      summary={
        first
          ? `Draws, less what is put into the farm, first reach the year’s household costs in ${first.year}.`
          : 'In none of these years do draws reach household costs.'
      }
      categories={years.map((year) => String(year.year))}
      categoryTitle="Year"
      series={[
        { name: 'Draws', tone: 1, values: years.map((year) => year.draws) },
        { name: 'Household costs', tone: 2, values: years.map((year) => year.householdCosts) },
      ]}
      y={{ format: formatDollars, formatShort: dollarsShort }}
    />
  )
}

/** Years drawn in the charts stand open; those after them are a step away, so that storms are not a long walk below. */
const nearYears = nearMonths / 12

const YearTable = ({ figures, query }: { figures: RunwayFigures; query: string }) => {
  const later = figures.years.slice(nearYears)
  return (
    <>
      <YearRows
        caption="Year by year; a year’s name opens its months"
        years={figures.years.slice(0, nearYears)}
        query={query}
      />
      {later.length === 0 ? null : (
        <details>
          <summary>{`The years after: ${later[0]!.year} to ${later.at(-1)!.year}`}</summary>
          <YearRows caption="Later years" years={later} query={query} />
        </details>
      )}
      <p class="hint">
        Household costs are living, loan payments, premiums, care and taxes paid in the year; tax is what the
        year brings and is in part paid in the next. Spendable savings and retirement accounts are those of
        the year’s end; cover is draws, less what the household puts into the farm, over household costs.
      </p>
    </>
  )
}

const YearRows = (props: { caption: string; years: readonly YearLine[]; query: string }) => (
  <DataTable
    caption={props.caption}
    ofPlan
    rows={props.years}
    csv={`/runway.csv${props.query === '' ? '' : `?${props.query}`}`}
    columns={[
      {
        title: 'Year',
        isHeader: true,
        cell: (year: YearLine) => <YearLink year={year.year} query={props.query} />,
      },
      { title: 'Draws', isNumber: true, cell: (year) => drawsCell(year) },
      { title: 'Into the farm', isNumber: true, cell: (year) => formatDollars(year.contributions) },
      { title: 'Other income', isNumber: true, cell: (year) => formatDollars(year.otherIncome) },
      { title: 'Household costs', isNumber: true, cell: (year) => formatDollars(year.householdCosts) },
      {
        title: 'Tax',
        isNumber: true,
        cell: (year) => (year.tax === null ? '' : formatDollars(year.tax)),
      },
      { title: 'Spendable', isNumber: true, cell: (year) => formatDollars(year.spendable) },
      { title: 'Retirement', isNumber: true, cell: (year) => formatDollars(year.retirement) },
      {
        title: 'Cover',
        isNumber: true,
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
  const address = `/runway/years/${year}${query === '' ? '' : `?${query}`}`
  return (
    <a href={address} hx-get={address} hx-target="#months" hx-swap="outerHTML show:top">
      {String(year)}
    </a>
  )
}
