// What the books' own pace would suggest for the plan, for a person to take or leave. Nothing is applied by itself.
import { addMonths, monthsBetween, monthText, nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import { lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import type { Projection } from '#runway/project.ts'
import type { Variance } from './variance.ts'
import { type ActualMonth, drawLine, livingLine, oneOffLine } from './variance-lines.ts'

export interface Suggestion {
  /** `living-` and the short name of a line, `others` for those no account is named like, or `draws`. */
  id: string
  says: string
  /** The plan with the suggestion in it, for a person to look at and save or not. */
  plan: Plan
}

/** The plan in use as it was saved, held against the books; `linesPlanned`: of each living line, over the months compared. */
export interface Ground {
  plan: Plan
  variance: Variance
  books: readonly ActualMonth[]
  linesPlanned: ReadonlyMap<string, number>
}

/** From at least six months of books: each living line and draws at their own pace where it is off the plan's by more than 5 %. */
export const suggestionsFrom = (ground: Ground): Suggestion[] =>
  ground.books.length < 6
    ? []
    : [...livingSuggestions(ground), ...drawSuggestion(ground.plan, ground.variance, ground.books)]

/** What each living line was planned to cost over the months compared, in the prices of the books. */
export const linesPlannedIn = (plan: Plan, course: Projection, variance: Variance): Map<string, number> => {
  const lines = plan.household.living
  const cells = course.parts!.living
  // What life events cost stands in lines of its own, behind the plan's.
  const months = cells.length / Math.max(1, lived(plan).household.living.length)
  return new Map(
    lines.map(({ id }, place) => {
      const planned = course.months.reduce(
        (sum, { month }, m) =>
          month >= variance.planned.from && month <= variance.planned.to
            ? sum + cells[place * months + m]!
            : sum,
        0,
      )
      return [id, planned * variance.prices]
    }),
  )
}

interface Compared {
  id: string
  name: string
  ids: readonly string[]
  planned: number
  actual: number
}

/** A line is held against the account of its name, what is left of the lines against what is left of the accounts. */
function livingSuggestions({ plan, variance, books, linesPlanned }: Ground): Suggestion[] {
  const spent = spentByName(books, variance)
  const names = plan.household.living.map(({ name }) => name.toLowerCase())
  const isOnlyOne = (name: string) => names.indexOf(name) === names.lastIndexOf(name)
  const named = plan.household.living.filter(
    (_, place) => spent.has(names[place]!) && isOnlyOne(names[place]!),
  )
  const ofName: Compared[] = named.map(({ id, name }) => ({
    id: `living-${id}`,
    name,
    ids: [id],
    planned: linesPlanned.get(id) ?? 0,
    actual: spent.get(name.toLowerCase())!,
  }))
  const others = plan.household.living.filter((line) => !named.includes(line))
  const living = lineNamed(variance, livingLine)
  const left = (pick: (one: { planned: number; actual: number }) => number) =>
    (living ? pick(living) : 0) - ofName.reduce((sum, one) => sum + pick(one), 0)
  const ofOthers: Compared = {
    id: 'others',
    name: named.length === 0 ? 'Living costs' : 'The other living costs',
    ids: others.map(({ id }) => id),
    planned: left((one) => one.planned),
    // What is paid for care says nothing of rent and food.
    actual: left((one) => one.actual) - variance.careInLiving,
  }
  return [...ofName, ...(others.length > 0 ? [ofOthers] : [])].flatMap((one) =>
    suggested(plan, variance, one),
  )
}

const spentByName = (books: readonly ActualMonth[], { actual }: Variance): Map<string, number> => {
  const spent = new Map<string, number>()
  for (const { month, livingBy } of books)
    if (month >= actual.from && month <= actual.to)
      for (const [name, dollars] of Object.entries(livingBy))
        spent.set(name.toLowerCase(), (spent.get(name.toLowerCase()) ?? 0) + dollars)
  return spent
}

function suggested(
  plan: Plan,
  variance: Variance,
  { id, name, ids, planned, actual }: Compared,
): Suggestion[] {
  const share = paceOf(variance, planned, Math.max(0, actual))
  if (share === null || Math.abs(share - 1) <= 0.05) return []
  const off = `${Math.round(Math.abs(share - 1) * 100)}% ${share > 1 ? 'higher' : 'lower'}`
  const months = monthsBetween(parseMonth(variance.actual.from)!, parseMonth(variance.actual.to)!) + 1
  const aMonth = `${formatDollars(actual / months)} a month against ${formatDollars(planned / months)}`
  const change = ids.length === 1 ? 'Change that line' : 'Change each of those lines by that much'
  return [
    {
      id,
      says: `${name} in the books run${ids.length === 1 && id !== 'others' ? 's' : ''} ${off} than planned: ${aMonth}. ${change}`,
      plan: {
        ...plan,
        household: {
          ...plan.household,
          living: plan.household.living.map((line) =>
            ids.includes(line.id)
              ? { ...line, perMonth: Math.round(line.perMonth * share * 100) / 100 }
              : line,
          ),
        },
      },
    },
  ]
}

/**
 * Costs of the books as a share of the plan's. Books do not say which of their costs were the plan's one-off items: what lies
 * between the plan's costs alone and with those items is as planned.
 */
const paceOf = (variance: Variance, planned: number, actual: number): number | null => {
  if (planned <= 0) return null
  const oneOffs = lineNamed(variance, oneOffLine)
  const undone = Math.max(0, (oneOffs?.planned ?? 0) - Math.max(0, oneOffs?.actual ?? 0))
  return actual <= planned ? actual / planned : Math.max(planned, actual - undone) / planned
}

const drawSuggestion = (plan: Plan, variance: Variance, books: readonly ActualMonth[]): Suggestion[] => {
  const draws = lineNamed(variance, drawLine)!
  if (!variance.sameMonths || plan.draw.policy !== 'steps' || draws.difference >= -0.05 * draws.planned)
    return []
  const pace = draws.actual / Math.min(12, books.length)
  const next = monthText(addMonths(parseMonth(variance.actual.to)!, 1))
  return [
    {
      id: 'draws',
      says: `Draws come in at ${formatDollars(pace)} a month. Put that in the plan from ${nameOfMonth(next)} until its next step`,
      plan: {
        ...plan,
        draw: {
          ...plan.draw,
          steps: [
            ...plan.draw.steps.filter((step) => step.from < next),
            { from: next, perMonth: Math.round(pace) },
            ...plan.draw.steps.filter((step) => step.from > next),
          ],
        },
      },
    },
  ]
}

const lineNamed = (variance: Variance, name: string) => variance.lines.find((line) => line.name === name)
