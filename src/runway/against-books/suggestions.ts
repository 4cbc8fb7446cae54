// What the books' own pace would suggest for the plan, for a person to take or leave. Nothing is applied by itself.
import { addMonths, monthsBetween, monthText, nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import type { Variance } from './variance.ts'
import { type ActualMonth, drawLine, livingLine, oneOffLine } from './variance-lines.ts'

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
): Suggestion[] =>
  books.length < 6 ? [] : [...livingSuggestion(plan, variance), ...drawSuggestion(plan, variance, books)]

const livingSuggestion = (plan: Plan, variance: Variance): Suggestion[] => {
  const share = livingShare(plan, variance)
  if (share === null || Math.abs(share - 1) <= 0.05) return []
  const more = share > 1 ? 'higher' : 'lower'
  return [
    {
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
    },
  ]
}

/**
 * Living costs of the books as a share of the plan's, in the plan's prices. Books do not say which of their costs were the
 * plan's one-off items: what lies between the plan's living costs alone and with those items is as planned.
 */
const livingShare = (plan: Plan, variance: Variance): number | null => {
  const planned = lineNamed(variance, livingLine)?.planned ?? 0
  if (planned <= 0) return null
  const later = monthsBetween(parseMonth(variance.actual.from)!, parseMonth(variance.planned.from)!)
  const prices = variance.sameMonths ? 1 : (1 + plan.assumptions.inflation) ** (later / 12)
  const actual = lineNamed(variance, livingLine)!.actual * prices
  const oneOffs = lineNamed(variance, oneOffLine)
  const undone = Math.max(0, (oneOffs?.planned ?? 0) - Math.max(0, oneOffs?.actual ?? 0) * prices)
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
