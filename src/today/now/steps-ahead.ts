// What lies ahead: the household's costs and income that the plan changes by much, and for good, within the next twelve months.
import { type Month, parseMonth } from '#calendar/month.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { aheadWords, type StepAhead } from './ahead-words.ts'

const monthsLookedAt = 12
/** So long it holds: what comes and goes with the seasons, or once, is none. */
const monthsHeld = 3
/** Of a month's household costs. What is less moves no decision. */
const leastShare = 0.1
const leastDollars = 100
const mostTold = 4

const told: readonly { of: StepAhead['of']; dollars(one: ProjectedMonth): number }[] = [
  { of: 'premiums', dollars: (one) => one.premiums },
  { of: 'living costs', dollars: (one) => one.living },
  { of: 'loan payments', dollars: (one) => one.loanPayments },
  { of: 'pay', dollars: (one) => one.pay },
  { of: 'side ventures', dollars: (one) => one.side },
  { of: 'Social Security', dollars: (one) => one.socialSecurity },
  { of: 'draws', dollars: (one) => one.draw },
]

/** The largest of them. `month`: of today. In the dollars of the projection. */
export const stepsAhead = ({ months }: Projection, month: Month): StepAhead[] => {
  const now = months.findIndex((one) => parseMonth(one.month) === month)
  if (now < 0) return []
  const seen = months.slice(now, now + monthsLookedAt + monthsHeld)
  const least = Math.max(leastDollars, leastShare * seen[0]!.householdCosts)
  const size = ({ before, after }: StepAhead) => Math.abs(after - before)
  return told
    .flatMap(({ of, dollars }) =>
      stepsOf(seen.map(dollars), least).map(({ at, before, after }): StepAhead => {
        const [last, first] = [seen[at - 1]!, seen[at]!]
        const creditEnds = of === 'premiums' && last.advanceCredit > 0.5 && first.advanceCredit < 0.5
        const step = { month: parseMonth(first.month)!, of, before, after, creditEnds }
        return { ...step, says: aheadWords(step) }
      }),
    )
    .sort((a, b) => size(b) - size(a))
    .slice(0, mostTold)
    .sort((a, b) => a.month - b.month)
}

/** Where all the months after are beyond all those before, by `least`, and these are alike. */
const stepsOf = (
  amounts: readonly number[],
  least: number,
): { at: number; before: number; after: number }[] =>
  amounts.flatMap((after, at) => {
    const since = amounts.slice(at, at + monthsHeld)
    const until = amounts.slice(Math.max(0, at - monthsHeld), at)
    if (at === 0 || since.length < monthsHeld) return []
    const spread = Math.max(...until) - Math.min(...until)
    const up = Math.min(...since) - Math.max(...until)
    const down = Math.min(...until) - Math.max(...since)
    return Math.max(up, down) >= Math.max(least, spread) ? [{ at, before: until.at(-1)!, after }] : []
  })
