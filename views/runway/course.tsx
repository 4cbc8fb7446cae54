// The course the levers give: milestones with their reasons, savings against the floor, draws against costs, and the years.
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { SeenMonth } from '#runway/dollars/seen-month.ts'
import type { RunwayFigures } from '#today/runway/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { BelowZero } from '../charts/below-zero.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import type { ChartNote, LineSeries } from '../charts/line-shape.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { DollarsSwitch } from '../parts/dollars.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, Hidden, PlanFormIds } from '../parts/field.tsx'
import { withQuery } from '../parts/with-query.ts'
import { type LeverShown, type Trying, WithLevers } from './levers.tsx'
import { Milestones } from './milestones.tsx'
import { YearTable } from './year-table.tsx'

export interface CourseProps {
  figures: RunwayFigures
  /** Of its months what is drawn and said here. */
  months: readonly SeenMonth[]
  levers: readonly LeverShown[]
  errors: FieldErrors
  formId: string
  trying: Trying | null
  /** The levers as a query, `?` left out; empty as planned. */
  query: string
  /** The farm gives beyond the planned draws what holds the floor, and the levers of draws do not say already that they move nothing. */
  isCalledOn: boolean
}

type Drawn = Pick<CourseProps, 'figures' | 'months'>

export const Course = (props: CourseProps) => (
  <div id="course" class="course">
    <ErrorSummary errors={props.errors} title="The chart has not changed. Check this field" />
    <p class="answer">{props.figures.why[0]}</p>
    <SavingsChart {...props} />
    <BelowZero
      savings={props.months.map((one) => one.spendable)}
      runsShort={props.figures.milestones.runsShort}
    />
    {props.figures.asPlanned ? null : <Keep {...props} />}
    <Milestones {...props} />
    <p>
      <a href={withQuery('/runway/years', props.query)}>
        Draws against costs, year by year, and the months of each
      </a>
    </p>
    <DollarsSwitch />
  </div>
)

/** The years of the same course: a room of their own. */
export const YearsPage = ({ figures, query }: Pick<CourseProps, 'figures' | 'query'>) => (
  <>
    <PageTitle purpose="What comes in, what it costs and what is left, each year to the end of the plan.">
      Year by year
    </PageTitle>
    <WithLevers query={query} />
    <p class="answer">{costsInWords(figures)}</p>
    <CostsChart figures={figures} />
    <YearTable years={figures.years} nearYears={yearsInTable} query={query} />
    <div id="months" />
    <WholeChart figures={figures} />
  </>
)

/** The rest are a step away. */
const yearsInTable = 15

const Keep = ({ figures, levers, formId, trying }: CourseProps) => (
  <form method="post" action="/runway/keep" class="keep no-print">
    <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
    {levers.map(({ name, text }) => (
      <Hidden name={name} value={text} />
    ))}
    {trying?.gone === null ? <Hidden name="try" value={trying.address} /> : null}
    <p>The levers differ from the plan.</p>
    <Button small>Keep them in the plan</Button>
  </form>
)

/** Drawn month by month; the whole plan is drawn by its Decembers below. */
const nearMonths = 180

const x = (month: string): number => parseMonth(month)!

const SavingsChart = ({ figures, months: all }: Drawn) => {
  const months = all.slice(0, nearMonths)
  if (months.length < 2) return null
  const { milestones } = figures
  const series: LineSeries[] = [
    {
      name: figures.saved === null ? 'Spendable savings' : 'Spendable savings with the levers',
      short: figures.saved === null ? 'as planned' : 'with the levers',
      tone: 2,
      points: months.map((one) => ({ x: x(one.month), y: one.spendable })),
    },
    {
      name: 'Floor',
      short: 'floor',
      tone: 4,
      isGround: true,
      points: months.map((one) => ({ x: x(one.month), y: one.floor })),
    },
  ]
  if (figures.saved !== null)
    series.push({
      name: 'Before these changes',
      short: 'before',
      // The same savings, dashed.
      tone: 2,
      points: figures.saved.slice(0, nearMonths).map((one) => ({ x: x(one.month), y: one.spendable })),
    })
  // With levers pulled the line before them is what one looks for: a third one beside it would only be taken for it.
  if (figures.baseline !== null && figures.saved === null)
    series.push({
      name: 'As the plan was saved',
      short: 'as saved',
      tone: 4,
      isThin: true,
      points: figures.baseline.slice(0, nearMonths).map((one) => ({ x: x(one.month), y: one.spendable })),
    })
  return (
    <LineChart
      id="savings-course"
      title="Spendable savings against the floor"
      summary={`${courseWords(milestones)}. The chart shows ${Math.ceil(months.length / 12)} years.`}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={series}
      notes={notesOf(figures, months)}
      isCloseUp
      tableEvery={12}
    />
  )
}

/** Where savings come nearest to the floor, or first fall below it, and from when the farm carries the house. */
function notesOf({ milestones }: RunwayFigures, months: readonly SeenMonth[]): ChartNote[] {
  const notes: ChartNote[] = []
  const broken = months.find((one) => one.month === milestones.floorMonth)
  const nearest = months.reduce((least, one) =>
    one.spendable - one.floor < least.spendable - least.floor ? one : least,
  )
  const low = broken ?? nearest
  notes.push({
    x: x(low.month),
    y: low.spendable,
    mark: 'ring',
    tone: 2,
    says: broken
      ? ['Below the floor', nameOfMonth(low.month)]
      : [`${formatDollars(low.spendable - low.floor)} above the floor`, nameOfMonth(low.month)],
  })
  const carry = months.find((one) => one.month === milestones.carryMonth)
  if (carry)
    notes.push({
      x: x(carry.month),
      y: carry.spendable,
      mark: 'dot',
      tone: 2,
      says: ['Farm carries the house', `from ${nameOfMonth(carry.month)}`],
    })
  return notes
}

const courseWords = (milestones: RunwayFigures['milestones']): string => {
  const { floorMonth, runsShort, unmetNeed, lowestSpendable, lowestMonth } = milestones
  const floor =
    floorMonth === null
      ? 'Savings stay above the floor to the end of the plan'
      : `Savings fall below the floor in ${nameOfMonth(floorMonth)}`
  if (runsShort !== null)
    return `${floor}; the plan is out of money from ${nameOfMonth(runsShort)} on, and ${formatDollars(unmetNeed)} of costs stay unmet`
  // Below zero is no balance of an account.
  const afterTax = lowestSpendable < -0.5 ? ', once the tax owed by then is taken off' : ''
  return `${floor}; lowest ${formatDollars(lowestSpendable)} in ${nameOfMonth(lowestMonth)}${afterTax}`
}

const WholeChart = ({ figures }: { figures: RunwayFigures }) => {
  const ends = figures.months.filter(
    (one, place) => one.month.endsWith('-12') || place === figures.months.length - 1,
  )
  if (figures.months.length <= nearMonths) return null
  const last = ends.at(-1)!
  return (
    <LineChart
      id="savings-whole"
      title="All savings at each year’s end"
      summary={
        Math.abs(figures.savingsAtEnd) < 1
          ? `At the end of the plan, ${nameOfMonth(last.month)}, no savings are left.`
          : `At the end of the plan, ${nameOfMonth(last.month)}, spendable savings are ${formatDollars(last.spendable)} and retirement accounts hold ${formatDollars(last.traditional + last.roth + last.health)}: ${formatDollars(figures.savingsAtEnd)} in all, less the tax owed.`
      }
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        {
          name: 'Spendable and retirement, total',
          short: 'all savings',
          tone: 2,
          points: ends.map((one) => ({
            x: x(one.month),
            y: one.spendable + one.traditional + one.roth + one.health,
          })),
        },
        {
          name: 'Spendable',
          short: 'spendable',
          tone: 4,
          points: ends.map((one) => ({ x: x(one.month), y: one.spendable })),
        },
      ]}
      tableEvery={2}
    />
  )
}

/** A year of which the plan has a few months only would stand beside the others as a poor one. */
const wholeYears = ({ years }: RunwayFigures) =>
  years.slice(0, yearsInTable).filter(({ months }) => months === 12)

const costsInWords = (figures: RunwayFigures): string => {
  const first = wholeYears(figures).find(
    (year) => year.draws - year.contributions >= year.householdCosts && year.householdCosts > 0,
  )
  return first
    ? `Draws, less what is put into the farm, first reach a whole year’s household costs in ${first.year}.`
    : 'In none of these years do draws reach household costs.'
}

const CostsChart = ({ figures }: { figures: RunwayFigures }) => {
  const years = wholeYears(figures)
  if (years.length < 2) return null
  return (
    <BarChart
      id="draws-and-costs"
      title="Draws against household costs"
      summary={costsInWords(figures)}
      isSaidAbove
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
