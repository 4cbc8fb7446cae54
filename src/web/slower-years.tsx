// The Slower years page: its figures, the answers that take a moment, its JSON and CSV, and the split of side income.
import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { parsePercent, parseQuantity } from '#money/parse.ts'
import type { Plan } from '#plan/plan.ts'
import { AnswersPart } from '#views/slower-years/answers.tsx'
import type { SlowerAnswers, SlowerFigures } from '#views/slower-years/figures.ts'
import { SlowerYearsPage } from '#views/slower-years/slower-years.tsx'
import { actOf } from './act.ts'
import { answer, formatAsked, moveOn, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import type { CsvTable } from './csv.ts'
import type { PlanInUse } from './current-plan.ts'
import { tableOf } from './farm-tables.ts'
import { newFormId, readForm, readQuery, type TypedForm } from './form.ts'
import type { PageRoom } from './page-room.ts'
import { saveChangedPlan } from './plan-saving.ts'
import { slowerAnswers } from './slower-years-answers.ts'
import { slowerFigures } from './slower-years-figures.ts'
import type { MixAsked } from './slower-years-work.ts'
import { withPlan } from './with-plan.tsx'

export const slowerYearsPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/slower-years', (c) => withPlan(c, (current) => showPage(c, current)))
      .post('/slower-years/split', async (c) => {
        const typed = await readForm(c)
        return withPlan(c, (current) => saveSplit(c, current, typed))
      }),
}

/** `aim=hours`, `keep[]=sheep`, `change=10`: how the mix is asked. */
export const mixAsked = (typed: TypedForm): MixAsked => {
  const change = parsePercent(typed.value('change'))
  const isShare = change.ok && change.value > 0 && change.value <= 1
  return {
    aim: typed.value('aim') === 'hours' ? 'fewest hours' : 'most net',
    pinned: [...typed.values('keep[]')].sort().slice(0, 40),
    largestChange: isShare ? change.value : null,
  }
}

async function showPage(c: PageContext, current: PlanInUse) {
  const { web } = c.var
  const typed = readQuery(c)
  const isPart = c.req.header('HX-Request') === 'true' && c.req.header('HX-Request-Type') !== 'full'
  const wantsAnswers = typed.value('answers') === 'yes' || isPart || formatAsked(c) !== 'html'
  const figures = slowerFigures(current.plan, current, web.today())
  const answers = wantsAnswers
    ? await slowerAnswers(current.plan, mixAsked(typed), monthOfDay(web.today()))
    : null
  return answer(c, {
    title: 'Slower years',
    figures: { ...figures, answers },
    page: () => <SlowerYearsPage figures={figures} answers={answers} query={queryOf(typed)} />,
    ...(answers ? { parts: { answers: () => <AnswersPart answers={answers} figures={figures} /> } } : {}),
    tables: slowerTables(figures, answers),
  })
}

const queryOf = (typed: TypedForm): string => {
  const query = new URLSearchParams({ answers: 'yes' })
  for (const name of ['aim', 'change']) if (typed.value(name)) query.set(name, typed.value(name))
  for (const id of typed.values('keep[]')) query.append('keep[]', id)
  return query.toString()
}

function saveSplit(c: PageContext, current: PlanInUse, typed: TypedForm) {
  const { plan } = current
  const months = parseQuantity(typed.value('reserveMonths'))
  const wrong: string[] =
    months.ok && months.value >= 0 ? [] : ['The reserve: enter months of costs, like 6.']
  const sideVentures = plan.household.sideVentures.map((venture) => {
    const share = parsePercent(typed.value(`share.${venture.id}`))
    if (share.ok && share.value >= 0 && share.value <= 1) return { ...venture, setAsideShare: share.value }
    wrong.push(`${venture.name}: enter a share from 0 to 100 %.`)
    return venture
  })
  if (wrong.length > 0 || !months.ok) return moveOn(c, '/slower-years#split', `Not saved. ${wrong.join(' ')}`)
  const changed: Plan = {
    ...plan,
    household: { ...plan.household, sideVentures },
    savings: { ...plan.savings, reserveMonths: months.value },
  }
  const basedOn = Number.parseInt(typed.value('basedOn'), 10) || 0
  const saved = saveChangedPlan(
    c.var.web.books,
    actOf(c, newFormId()),
    current,
    basedOn,
    changed,
    'Split of side income changed',
  )
  return moveOn(c, '/slower-years#split', savedWords(saved, 'The split is changed'))
}

export const savedWords = (saved: ReturnType<typeof saveChangedPlan>, said: string): string => {
  if (saved.ok) return `${said}; the plan is at revision ${saved.revisionNo}.`
  if (saved.kind === 'newer-revision')
    return `Nothing was written: the plan was saved elsewhere meanwhile, as revision ${saved.theirs.revisionNo}. Look at it here and change it again.`
  return saved.kind === 'refused'
    ? `Nothing was written. ${saved.message}`
    : `Nothing was written. ${saved.issues[0]?.message ?? ''}`
}

const slowerTables = (
  figures: SlowerFigures,
  answers: SlowerAnswers | null,
): Record<string, () => CsvTable> => ({
  years: () => ({
    header: Object.keys(figures.years[0] ?? { year: 0 }),
    rows: figures.years.map((year) =>
      Object.values(year).map((value: number) => Math.round(value * 100) / 100),
    ),
  }),
  phases: () =>
    tableOf(figures.phases, {
      from: (one) => one.from,
      phase: (one) => one.name,
      net: (one) => one.net,
      'net before': (one) => one.netBefore,
      hours: (one) => one.hours,
      'hours before': (one) => one.hoursBefore,
      'lease a year': (one) => one.leaseAYear,
    }),
  limits: () =>
    tableOf(figures.split.limits, {
      who: (one) => one.name,
      age: (one) => one.age,
      ira: (one) => one.ira,
      sep: (one) => one.sep,
      'solo 401(k)': (one) => one.soloPlan,
      'hsa self-only': (one) => one.hsaSelfOnly,
      'hsa family': (one) => one.hsaFamily,
    }),
  mixes: () =>
    tableOf(
      (answers?.mixes ?? []).flatMap((mix) =>
        mix.answer.kind === 'found' ? mix.answer.lines.map((line) => ({ mix, line })) : [],
      ),
      {
        from: ({ mix }) => mix.from,
        phase: ({ mix }) => mix.phase,
        line: ({ line }) => line.name,
        before: ({ line }) => line.today,
        mix: ({ line }) => line.scale,
      },
    ),
  path: () =>
    tableOf(
      (answers?.path ?? []).flatMap((year) => year.lines.map((line) => ({ year, line }))),
      {
        year: ({ year }) => year.year,
        line: ({ line }) => line.name,
        scale: ({ line }) => line.scale,
        net: ({ year }) => year.net,
        hours: ({ year }) => year.hours,
      },
    ),
  ...answerTables(answers),
})

const answerTables = (answers: SlowerAnswers | null): Record<string, () => CsvTable> => ({
  claims: () =>
    tableOf(
      (answers?.claims ?? []).flatMap((person) => person.choices.map((choice) => ({ person, choice }))),
      {
        who: ({ person }) => person.name,
        'claims at': ({ choice }) => choice.years,
        'household benefits a month from 71': ({ choice }) => choice.monthlyAfter70,
        'savings at the end': ({ choice }) => choice.savingsAtEnd,
        'months short': ({ choice }) => choice.monthsShort,
      },
    ),
  alone: () =>
    tableOf(answers?.alone ?? [], {
      who: (one) => one.name,
      from: (one) => one.from,
      'below the floor': (one) => one.floorMonth,
      'lowest spendable': (one) => one.lowestSpendable,
      in: (one) => one.lowestMonth,
      'months short': (one) => one.monthsShort,
      'savings at the end': (one) => one.savingsAtEnd,
    }),
})
