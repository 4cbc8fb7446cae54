// The Runway page: the course under the levers, its years and months, and its storms.
import { Hono } from 'hono'
import { monthText } from '#calendar/month.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { firstDrawIn } from '#db/ledger/household-months.ts'
import { withMore } from '#kept/by-part.ts'
import { keeper } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import { leftFromOf } from '#runway/compile/plan-of-day.ts'
import type { Dollars } from '#runway/dollars/dollars.ts'
import { calledOn } from '#runway/farm/called-on.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { baselineOf, projectionIn, seenIn } from '#today/projection/courses.ts'
import type { RunwayFigures, StormLine } from '#today/runway/figures.ts'
import { monthTrace, runwayFigures, stormTable } from '#today/runway/runway-figures.ts'
import { Chance } from '#views/chance/chance.tsx'
import { Course, YearsPage } from '#views/runway/course.tsx'
import { FloorCalled, type Trying } from '#views/runway/levers.tsx'
import { MonthPage, YearMonths, YearPage } from '#views/runway/months.tsx'
import { RunwayPage } from '#views/runway/runway.tsx'
import { Storms, StormsPage, StormsToCome } from '#views/runway/storms.tsx'
import { type Answered, answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, columnsOf, tableOf } from '#web/forms/csv.ts'
import { type FormErrors, newFormId, readQuery, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { continuedToday, type PlanToday, projected, withPlan } from '#web/forms/with-plan.tsx'
import { chanceFigures } from '#web/pages/chance/chance-figures.ts'
import { foundTake } from '#web/pages/questions/question-run.ts'
import type { PageEnv } from '#web/server/context.ts'
import { hasCalled, type ReadLevers, readLevers, textsOf } from './runway-levers.ts'

export const runwayPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway', (c) => withCourse(c, (course) => showCourse(c, course)))
      .get('/runway/years', (c) => withCourse(c, (course) => showYears(c, course)))
      .get('/runway/years/:year', (c) => withCourse(c, (course) => showYear(c, course)))
      .get('/runway/months/:month', (c) => withCourse(c, (course) => showMonth(c, course)))
      .get('/runway/storms', (c) => withCourse(c, (course) => showStorms(c, course)))
      .post('/runway/keep', (c) => postPlan(c, '/runway', (form) => keepLevers(c, form))),
}

interface LeverCourse {
  current: PlanToday
  /** With its levers pulled, continued from this month. */
  plan: Plan
  levers: ReadLevers['levers']
  /** What of an answer is tried, as its address says it, and in words; null for nothing. */
  trying: Trying | null
  errors: FormErrors
  query: string
  dollars: Dollars
}

const withCourse = (c: PageContext, show: (course: LeverCourse) => Answered) =>
  withPlan(c, (current) => show(pulledCourse(c, current, readQuery(c))))

/** Pulled plans by what was asked of the plan, the last few: the storms of a course are asked for right after it. Each holds megabytes. */
const pulledOnce = keeper(4)

const pulledCourse = (c: PageContext, current: PlanToday, typed: TypedForm): LeverCourse => {
  const { trying, levers, errors, areUntouched, pull } = readTried(current, typed)
  const dollars = dollarsOf(c)
  if (areUntouched || Object.keys(errors).length > 0)
    return { current, plan: current.ongoing, levers, trying, errors, query: '', dollars }
  const query = new URLSearchParams({
    ...(trying?.gone === null ? { try: trying.address } : {}),
    ...textsOf(levers),
  }).toString()
  const plan = pulledOnce(current.plan, query, pull)
  const { books, today } = c.var.web
  return { current, plan: continuedPlan(books, plan, today()).plan, levers, trying, errors, query, dollars }
}

/** The levers of the plan, or of the plan with what an answer says in it. */
const readTried = (
  { plan, ongoing }: PlanToday,
  typed: TypedForm,
): ReadLevers & { trying: Trying | null } => {
  const begun = leftFromOf(ongoing)
  const address = typed.value('try')
  if (address === '') return { ...readLevers(plan, typed, begun), trying: null }
  const [job = '', which = ''] = address.split(' ')
  const found = foundTake(plan, job, which)
  if (!found.ok) {
    const gone = { address: '', label: '', question: '', gone: found.says }
    return { ...readLevers(plan, typed, begun), trying: gone }
  }
  const { question, take } = found
  const read = readLevers(found.changed, typed, begun)
  return { ...read, areUntouched: false, trying: { address, label: take.label, question, gone: null } }
}

const figuresOf = (c: PageContext, { current, plan, dollars }: LeverCourse): RunwayFigures =>
  runwayFigures(current, current.ongoing, plan, dollars, drawnSince(c, current))

/** By the books as soon as they hold anything, else as the plan was saved. */
const drawnSince = ({ var: { web } }: PageContext, { plan }: PlanToday): string | null => {
  if (spanOfBooks(web.books) === null) return baselineOf(plan).milestones.firstDraw
  const first = firstDrawIn(web.books)
  return first === null ? null : monthText(first)
}

const showCourse = (c: PageContext, course: LeverCourse) => {
  const figures = figuresOf(c, course)
  const { months } = seenIn(course.plan, course.dollars)
  const isCalledOn = hasCalled(course.levers, calledOn(months) !== null)
  const props = { figures, months, formId: newFormId(), ...course, isCalledOn }
  return answer(c, {
    title: 'Runway',
    dollars: course.dollars,
    switchesDollars: 'in a part',
    figures: withMore(figures, { levers: textsOf(course.levers) }),
    status: statusOf(course.errors),
    page: () => (
      <RunwayPage
        {...props}
        storms={<Storms {...stormsOf(course)} />}
        chance={
          <Chance
            figures={chanceFigures(c, projected(course.current), { beside: true })}
            errors={{}}
            place="chance-brief"
          />
        }
      />
    ),
    parts: {
      course: () => (
        <>
          <Course {...props} />
          <FloorCalled isCalledOn={isCalledOn} isBroughtIn />
          <StormsToCome query={course.query} />
        </>
      ),
    },
    tables: {
      years: () => tableOf(figures.years, columnsOf(figures.years[0])),
      months: () => tableOf(figures.months, columnsOf(figures.months[0])),
    },
  })
}

const showYears = (c: PageContext, course: LeverCourse) => {
  const { dollars, query } = course
  const figures = figuresOf(c, course)
  return answer(c, {
    title: 'Year by year',
    dollars,
    figures: { years: figures.years },
    page: () => <YearsPage figures={figures} query={query} />,
    tables: { years: () => tableOf(figures.years, columnsOf(figures.years[0])) },
  })
}

const showYear = (c: PageContext, course: LeverCourse) => {
  const year = Number(/^\d{4}$/.exec(c.req.param('year') ?? '')?.[0] ?? 0)
  const months = projectionIn(course.plan, course.dollars).months.filter((one) =>
    one.month.startsWith(`${year}-`),
  )
  if (months.length === 0) return notFound(c, 'The plan has no such year.')
  const props = { year, months, query: course.query }
  return answer(c, {
    title: `Runway ${year}`,
    dollars: course.dollars,
    figures: { year, months },
    page: () => <YearPage {...props} />,
    parts: { months: () => <YearMonths {...props} isBroughtIn /> },
  })
}

const showMonth = (c: PageContext, course: LeverCourse) => {
  const month = c.req.param('month') ?? ''
  const trace = monthTrace(course.plan, month, course.dollars)
  if (trace === null) return notFound(c, 'The plan has no such month.')
  return answer(c, {
    title: `Runway ${month}`,
    dollars: course.dollars,
    figures: trace,
    page: () => <MonthPage trace={trace} query={course.query} />,
  })
}

const stormsOf = ({ plan, query, dollars }: LeverCourse) => ({
  storms: stormTable(plan, dollars),
  monthsLeft: projectionIn(plan, dollars).milestones.monthsLeft,
  query,
})

const showStorms = (c: PageContext, course: LeverCourse) => {
  const props = stormsOf(course)
  const { storms } = props
  return answer(c, {
    title: 'Bad years',
    dollars: course.dollars,
    figures: { storms },
    page: () => <StormsPage {...props} />,
    parts: { storms: () => <Storms {...props} /> },
    tables: { storms: () => stormsCsv(storms) },
  })
}

const stormsCsv = (storms: readonly StormLine[]): CsvTable =>
  tableOf(storms, {
    'bad year': (storm) => storm.name,
    begins: (storm) => storm.from,
    'months left': (storm) => storm.monthsLeft,
    'carry month': (storm) => storm.carryMonth,
    'lowest savings': (storm) => storm.lowestSpendable.toFixed(2),
    in: (storm) => storm.lowestMonth,
    'runs short': (storm) => storm.runsShort,
    'unmet costs': (storm) => storm.unmetNeed.toFixed(2),
  })

/** Saves the plan with its levers pulled as the next revision. */
function keepLevers(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const { errors, pull, trying } = readTried(continuedToday(c, current), typed)
  if (trying && trying.gone !== null) return moveOn(c, '/runway', `Nothing was changed. ${trying.gone}`)
  const again = (errors: FormErrors) => {
    const course = pulledCourse(c, continuedToday(c, current), typed)
    return showCourse(c, { ...course, errors: { ...course.errors, ...errors } })
  }
  if (Object.keys(errors).length > 0) return again({})
  return savePlanForm(c, form, { changed: pull(), note: 'Levers kept' }, (issues) => again(errorsAt(issues)))
}
