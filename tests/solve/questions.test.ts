import { describe, expect, test, vi } from 'vitest'
import type { ThresholdTask } from '#chance/by-path/thresholds.ts'
import { courseMemory, figureOf } from '#chance/course-run.ts'
import { startingSavings } from '#chance/dials.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { shareOf } from '#chance/percentiles.ts'
import { compileForChance, prepareChance } from '#chance/prepare.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { solveClaim } from '#solve/claim.ts'
import { solveCushion } from '#solve/cushion.ts'
import { solveDraw } from '#solve/draw.ts'
import { sayEarnings } from '#solve/earnings.ts'
import { solveFrontier, withPlowedBack } from '#solve/frontier.ts'
import { solveStartWith } from '#solve/start-with.ts'
import { amountFor } from '#solve/threshold-quantile.ts'
import { farmPlan, savingsPlan } from '../chance/plans.ts'
import { asking, courses, toldIn } from './asking.ts'
import { saidOf } from './said-of.ts'

// Workers and long courses are slow on a busy machine.
vi.setConfig({ testTimeout: 180_000 })

/** Share of courses of another seed in which the household never goes short. */
const heldIn = (plan: Plan, seed: number, paths: number) => {
  const run = prepareChance(plan, publishedRules(plan), { seed, paths, keepsMonths: false })
  const memory = courseMemory(run)
  takePaths(run, memory, makeWorkspace(run))
  const held = figureOf(memory.figures, 'held').reduce((sum, each) => sum + each, 0)
  return shareOf(held, paths)
}

const withSavings = (plan: Plan, amount: number): Plan => {
  const total = plan.savings.accounts
    .filter((account) => account.kind === 'cash' || account.kind === 'taxable')
    .reduce((sum, account) => sum + account.balance, 0)
  const scaled = plan.savings.accounts.map((account) =>
    account.kind === 'cash' || account.kind === 'taxable'
      ? {
          ...account,
          balance: (account.balance * amount) / total,
          basis: ((account.basis ?? account.balance) * amount) / total,
        }
      : account,
  )
  return { ...plan, savings: { ...plan.savings, accounts: scaled } }
}

describe('start with', () => {
  const plan = savingsPlan({ savings: 250_000, perMonth: 2_500, years: 12 })

  test('gives an amount that holds within its interval in fresh courses of another seed', async () => {
    const found = await solveStartWith(asking(plan, 500))
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    const { low, value, high } = found.answer
    expect(low).toBeLessThan(value)
    expect(high).toBeGreaterThan(value)
    // The interval is 95 %: at its ends another seed must come out on either side of what was asked for, allowing
    // for the second run's own error (three standard errors of 2,000 courses at 90 %: 2 points).
    expect(heldIn(withSavings(plan, high), 77, 2_000).share).toBeGreaterThan(0.9 - 0.02)
    expect(heldIn(withSavings(plan, low), 77, 2_000).share).toBeLessThan(0.9 + 0.02)
    const again = heldIn(withSavings(plan, value), 77, 2_000)
    // Error of both runs together: 0.9 with 500 and 2,000 courses, three standard errors.
    expect(Math.abs(again.share - 0.9)).toBeLessThan(3 * Math.sqrt(0.09 / 500 + 0.09 / 2_000))
  })

  test('with returns that do not stray gives the present value of the costs', async () => {
    const quiet = {
      markets: 'stated',
      centre: 'source',
      stocksMean: 0.05,
      stocksSpread: 0,
      inflationMean: 0,
      inflationSpread: 0,
      billsSpread: 0,
      bondsSpread: 0,
    } as const
    const sure = savingsPlan({
      savings: 100_000,
      perMonth: 1_000,
      years: 20,
      stocks: 1,
      chance: quiet,
      rest: { assumptions: { inflation: 0 } },
    })
    const found = await solveStartWith(asking(sure, 50))
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    // Annuity due of 240 months at 1.05^(1/12) − 1: 1,000 × (1 − 1.05⁻²⁰) / i × (1 + i) = $153,577.
    const monthly = 1.05 ** (1 / 12) - 1
    const due = ((1_000 * (1 - 1.05 ** -20)) / monthly) * (1 + monthly)
    expect(found.answer.value).toBeGreaterThanOrEqual(due - 1)
    expect(found.answer.value).toBeLessThan(due + 251)
  })

  test('says when no savings are needed', async () => {
    const found = await solveStartWith(asking(savingsPlan({ savings: 1_000, perMonth: 0, years: 5 }), 20))
    expect(found.answer).toMatchObject({ kind: 'reached', value: 0 })
    expect(saidOf(found)).toContain('even with no cash')
  })

  test('has a curve that never falls and passes the asked share at the answer', async () => {
    const found = await solveStartWith(asking(plan, 200))
    const shares = found.curve.map((point) => point.held.share)
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    const { value } = found.answer
    expect(found.curve.filter((point) => point.at >= value).every((point) => point.held.share >= 0.9)).toBe(
      true,
    )
  })

  test('cannot be reached when costs outgrow any savings', async () => {
    const growing = savingsPlan({ savings: 1_000, perMonth: 90_000_000, years: 2 })
    const found = await solveStartWith(asking(growing, 20))
    expect(found.answer.kind).toBe('cannot be reached')
    expect(saidOf(found)).toMatch(/^This cannot be reached, because in 100% of simulations even \$20,000,000/)
  })
})

describe('the cushion', () => {
  test('handed over at the slower year in fresh courses, lasts as often as asked', async () => {
    const plan = farmPlan({}, 71)
    const found = await solveCushion(asking(plan, 80))
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    expect(found.answer.value).toBeGreaterThan(0)
    expect(found.answer.low).toBeLessThanOrEqual(found.answer.value)
    // Courses of another seed that reach the slower year with at least the upper end of the interval hold from then on
    // in at least the asked share, less three standard errors of their number.
    const run = prepareChance(plan, publishedRules(plan), { seed: 99, paths: 300, keepsMonths: false })
    const figures = await courses.figures(run)
    const [then, prices, short] = [
      figureOf(figures, 'atSlowerYear'),
      figureOf(figures, 'pricesAtSlowerYear'),
      figureOf(figures, 'firstShortMonth'),
    ]
    const { high, month } = found.answer
    const enough = Array.from(then.keys()).filter((path) => then[path]! / prices[path]! >= high)
    expect(enough.length).toBeGreaterThan(30)
    const lasting = enough.filter((path) => !(short[path]! >= month && Number.isFinite(short[path]!))).length
    expect(lasting / enough.length).toBeGreaterThan(0.9 - 3 * Math.sqrt(0.09 / enough.length))
  })

  test('is told in the dollars asked for: those of its month are more by the prices the plan expects till then', async () => {
    const plan = farmPlan({}, 71)
    const today = await solveCushion(asking(plan, 20))
    const year = await solveCushion(asking(plan, 20, toldIn(plan, dollarsOfTheYear)))
    if (today.answer.kind !== 'reached' || year.answer.kind !== 'reached') throw new Error(today.sentence)
    // What is held as a month begins is counted at the prices of the month that ended.
    const { level } = project(plan).months[today.answer.month - 1]!
    expect(level).toBeGreaterThan(1.1)
    expect(year.answer.value).toBeCloseTo(today.answer.value * level, 6)
    // What is set aside begins now, at today's prices either way.
    expect(year.answer.setAside?.value).toBe(today.answer.setAside?.value)
  })

  test('cannot be reached without a slower year ahead', async () => {
    const found = await solveCushion(asking(savingsPlan({ savings: 1, perMonth: 1, years: 3 }), 20))
    expect(saidOf(found)).toMatch(/^This cannot be reached, because the plan has no slower year ahead/)
  })
})

describe('the draw', () => {
  test('is borne by the farm in as many fresh courses as asked', async () => {
    const plan = farmPlan({}, 71)
    const found = await solveDraw(asking(plan, 100), 2)
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    const { fromMonth, level } = found.answer
    const task: ThresholdTask = {
      dial: { kind: 'draw', fromMonth, toMonth: found.untilMonth },
      criterion: { kind: 'drawsMet', fromMonth, toMonth: found.untilMonth },
      from: 0,
      to: 100_000,
      start: 500,
      step: 500,
      within: 10,
      moreIsBetter: false,
    }
    const fresh = prepareChance(plan, publishedRules(plan), { seed: 1234, paths: 250, keepsMonths: false })
    const borne = await courses.thresholds(fresh, task)
    const shareAt = (value: number) => borne.filter((each) => each >= value).length / borne.length
    const error = 3 * Math.sqrt(0.09 / 250)
    expect(shareAt(level.low)).toBeGreaterThan(0.9 - error)
    expect(shareAt(level.high)).toBeLessThan(0.9 + error)
  })

  test('cannot be reached for a farm the plan does not describe', async () => {
    const about = asking(savingsPlan({ savings: 1, perMonth: 1, years: 3 }), 20)
    for (const found of [await solveDraw(about), await solveFrontier(about)])
      expect(saidOf(found)).toMatch(/^This cannot be reached, because the plan does not describe the farm/)
  })
})

describe('plow back or draw', () => {
  test('compares every share on the same courses, today’s plan beside them', async () => {
    const found = await solveFrontier(asking(farmPlan({}, 71), 30))
    expect(found.points.map((point) => point.plowedBack)).toEqual([
      0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1,
    ])
    expect(found.today.plowedBack).toBeNull()
    // With all of it left in the farm nothing is drawn: the farm never carries the household.
    expect(found.points.at(-1)!.carries.share).toBe(0)
    expect(found.points[0]!.held.share).toBeGreaterThanOrEqual(found.points.at(-1)!.held.share)
  })

  test('draws the rest of what is plowed back, from when draws begin', () => {
    const plan = withPlowedBack(farmPlan(), 0.25)
    expect(plan.draw).toEqual({ policy: 'share', from: '2026-11', share: 0.75 })
  })
})

describe('the claim ages', () => {
  test('are compared for every combination still open', async () => {
    const found = await solveClaim(asking(farmPlan({}, 71), 10))
    expect(found.tried).toHaveLength(81)
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    const { strongest, asStrong, planned } = found.answer
    expect(planned.ages).toEqual([67, 67])
    const best = Math.max(...found.tried.map((tried) => tried.held.share))
    const own = found.tried.find((tried) => tried.ages.join() === '67,67')!
    // The plan's own ages are among those tried: the same courses, the same figures.
    expect(own).toEqual(planned)
    expect(asStrong.length).toBeGreaterThan(0)
    expect(strongest.held.share).toBeLessThanOrEqual(best)
  })

  test('cannot be chosen for nobody', async () => {
    const found = await solveClaim(asking(savingsPlan({ savings: 1, perMonth: 1, years: 3 }), 20))
    expect(saidOf(found)).toMatch(/^This cannot be reached, because nobody in the plan/)
  })
})

describe('an amount read off thresholds', () => {
  const thresholds = Float64Array.from({ length: 100 }, (_, place) => 100 - place)

  test('is good in at least the asked share of courses', () => {
    expect(amountFor(thresholds, 0.9, true).value).toBe(90)
    expect(amountFor(thresholds, 0.9, false).value).toBe(11)
  })

  test('has an interval of 1.96 binomial standard deviations of places', () => {
    // √(0.9 × 0.1 × 100) = 3 places; 5.88 either way of the 90th.
    expect(amountFor(thresholds, 0.9, true)).toEqual({ value: 90, low: 84, high: 96 })
  })

  test('is what the plan has, when startingSavings reads it back', () => {
    const plan = farmPlan()
    const compiled = compileForChance(plan, publishedRules(plan))
    expect(startingSavings(compiled)).toBe(164_000)
  })
})

test('savings needed today say what money is taken to earn', () => {
  // 7 % in stocks, 4 % in bonds, 3 % in bills and prices up 2 % are the plan's; 10, 4.8, 3.4 and 3 % the means that it states.
  const assumptions = { stocks: 0.07, bonds: 0.04, bills: 0.03, inflation: 0.02 }
  const said = (chance: PlanInput['chance']) =>
    sayEarnings(savingsPlan({ savings: 1, perMonth: 0, years: 2, chance, rest: { assumptions } }))
  expect(said({})).toBe(
    'Stocks are taken to earn 7% a year, bonds 4%, bills and savings accounts 3%, and prices to rise 2%, on average as the plan expects, with ups and downs like those of the years 1928 to 2024.',
  )
  expect(said({ markets: 'january', centre: 'source' })).toBe(
    'Money is taken to earn, and prices to rise, what they did in the years 1871 to 2022.',
  )
  expect(said({ markets: 'stated', centre: 'source' })).toContain('earn 10% a year, bonds 4.8%')
  expect(said({ markets: 'stated' })).toContain('earn 7% a year')
})
