// The plan held against what really happened: variance by line, and what the books' own pace would suggest. Nothing is applied by itself.
import { addMonths, monthText, nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { ProjectedMonth } from './project.ts'

/** One month of the household's books, dollars. */
export interface ActualMonth {
  month: string
  living: number
  premiums: number
  taxes: number
  draws: number
  contributions: number
  otherIncome: number
  /** At the month's end. */
  spendable: number
}

export interface VarianceLine {
  name: string
  planned: number
  actual: number
  /** Actual less planned. */
  difference: number
  /** True when the difference leaves less in savings than planned. */
  isWorse: boolean
}

export interface Variance {
  /** Months compared: the same months of plan and books, or the plan's first year against the books' last. */
  planned: { from: string; to: string }
  actual: { from: string; to: string }
  sameMonths: boolean
  lines: VarianceLine[]
}

/** Null when there is not a month of books to compare. Months of books must be whole and in order. */
export const varianceOf = (
  projected: readonly ProjectedMonth[],
  books: readonly ActualMonth[],
): Variance | null => {
  const byMonth = new Map(projected.map((month) => [month.month, month]))
  const shared = books.filter((month) => byMonth.has(month.month)).slice(-12)
  const sameMonths = shared.length > 0
  const actual = sameMonths ? shared : books.slice(-12)
  const planned = sameMonths
    ? shared.map(({ month }) => byMonth.get(month)!)
    : projected.slice(0, actual.length)
  if (actual.length === 0 || planned.length === 0) return null
  const total = <One>(list: readonly One[], pick: (one: One) => number) =>
    list.reduce((sum, one) => sum + pick(one), 0)
  const line = (
    name: string,
    isCost: boolean,
    ofPlan: (month: ProjectedMonth) => number,
    ofBooks: (month: ActualMonth) => number,
  ): VarianceLine => {
    const [a, b] = [total(planned, ofPlan), total(actual, ofBooks)]
    return { name, planned: a, actual: b, difference: b - a, isWorse: isCost ? b > a : b < a }
  }
  return {
    planned: { from: planned[0]!.month, to: planned.at(-1)!.month },
    actual: { from: actual[0]!.month, to: actual.at(-1)!.month },
    sameMonths,
    lines: [
      line(
        'Living, care and one-off items',
        true,
        (one) => one.living + one.care + one.oneOffs,
        (one) => one.living,
      ),
      line(
        'Premiums',
        true,
        (one) => one.premiums,
        (one) => one.premiums,
      ),
      line(
        'Taxes',
        true,
        (one) => one.taxes,
        (one) => one.taxes,
      ),
      line(
        'Draws',
        false,
        (one) => one.draw,
        (one) => one.draws,
      ),
      line(
        'Into the farm',
        true,
        (one) => one.contribution,
        (one) => one.contributions,
      ),
      line(
        'Other income',
        false,
        (one) => one.pay + one.side + one.socialSecurity,
        (one) => one.otherIncome,
      ),
    ],
  }
}

export interface Suggestion {
  says: string
  /** The plan with the suggestion in it, for a person to look at and save or not. */
  plan: Plan
}

/** From at least six months of books: living costs and draws at their own pace where it is off the plan's by more than 5 %. */
export const suggestionsFrom = (
  plan: Plan,
  variance: Variance,
  books: readonly ActualMonth[],
): Suggestion[] => {
  if (books.length < 6) return []
  const found: Suggestion[] = []
  const living = variance.lines.find((line) => line.name.startsWith('Living'))!
  if (living.planned > 0 && Math.abs(living.difference) > 0.05 * living.planned) {
    const share = living.actual / living.planned
    const more = share > 1 ? 'higher' : 'lower'
    found.push({
      says: `Living costs in the books run ${Math.round(Math.abs(share - 1) * 100)}% ${more} than the plan’s. Change every living line by that much`,
      plan: {
        ...plan,
        household: {
          ...plan.household,
          living: plan.household.living.map((line) => ({
            ...line,
            perMonth: Math.round(line.perMonth * share * 100) / 100,
          })),
        },
      },
    })
  }
  const draws = variance.lines.find((line) => line.name === 'Draws')!
  const pace = draws.actual / Math.min(12, books.length)
  if (variance.sameMonths && plan.draw.policy === 'steps' && draws.difference < -0.05 * draws.planned) {
    const next = monthText(addMonths(parseMonth(variance.actual.to)!, 1))
    const later = plan.draw.steps.filter((step) => step.from > next)
    found.push({
      says: `Draws come in at ${formatDollars(pace)} a month. Put that in the plan from ${nameOfMonth(next)} until its next step`,
      plan: {
        ...plan,
        draw: {
          ...plan.draw,
          steps: [
            ...plan.draw.steps.filter((step) => step.from < next),
            { from: next, perMonth: Math.round(pace) },
            ...later,
          ],
        },
      },
    })
  }
  return found
}
