// An answer that leaves more and is less sure says that first, and with what taken off it leaves more. Figures of our own invention.
import { expect, test } from 'vitest'
import type { Standing } from '#solve/standing.ts'
import type { WayTried } from '#solve/ways/ways-answer.ts'
import { sayWays } from '#solve/ways/ways-words.ts'

const share = (of: number) => ({ share: of, low: of, high: of, standardError: 0, of: 400 })
const amount = (value: number) => ({ value, low: value, high: value })

const tried = (id: string, name: string, change: Partial<WayTried>): WayTried => {
  const standing: Standing = {
    held: share(1),
    aboveFloor: share(0.95),
    monthsLeft: { p10: 300, median: 360 },
    carryMonth: amount(40),
    medianCarryMonth: 30,
    carries: share(1),
    lowestSavings: amount(52_000),
    atEnd: { p10: 100_000, median: 400_000 },
    farmAtEnd: { p10: 0, median: 0 },
  }
  const ends = { share: 0.2, low: 0.1, high: 0.3 }
  const none = { says: '', paths: 400, worse: false, surer: false, tax: 0, credit: 0, leftMore: 0 }
  return { id, name, ...standing, ...none, endsWithMore: ends, ...change }
}

const plan = tried('plan', 'As planned', {})

test('what is less sure comes first, and the part that is taken off beside what is left without it', () => {
  const best = tried('roth', 'Roth first', {
    aboveFloor: share(0.93),
    lowestSavings: amount(47_500),
    leftMore: 2_400,
    atEnd: { p10: 100_000, median: 398_900 },
  })
  const says = sayWays([plan, best], best, null, 0.15)
  expect(says).toMatch(
    /^What follows leaves more and is less sure than today’s plan: savings stay above the floor in 93% of simulations instead of 95%, and lowest savings are \$47,500 instead of \$52,000\. Best of those tried: Roth first\./,
  )
  expect(says).toContain(
    '$2,400 more is left at the end in the middle simulation than as planned, when what is left untaxed in traditional accounts counts 15% less; uncounted it is $1,100 less (',
  )
})

test('one that is as sure as the plan begins with its name', () => {
  const best = tried('roth', 'Roth first', { leftMore: 2_400, atEnd: { p10: 100_000, median: 402_400 } })
  const says = sayWays([plan, best], best, null, 0)
  expect(says).toMatch(/^Best of those tried: Roth first\. Then nothing goes unpaid in 100%/)
  expect(says).not.toContain('uncounted')
})
