// Answers to questions against published studies, factors and worked examples: each with its source.
import { expect, test, vi } from 'vitest'
import { chanceModel } from '#chance/chance-model.ts'
import { prepareChance } from '#chance/prepare.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { solveClaim } from '#solve/claim.ts'
import { solveCushion } from '#solve/cushion.ts'
import type { Courses } from '#solve/question.ts'
import { solveStartWith } from '#solve/start-with.ts'
import { solveWays } from '#solve/ways.ts'
import { quiet } from '../chance/plans.ts'
import { marketPlan } from '../runway/market-plan.ts'
import { asking, courses } from '../solve/asking.ts'

vi.setConfig({ testTimeout: 240_000 })

/** The question asked of every starting year of published history in place of drawn courses. */
const historic: Courses = {
  figures: (run) => courses.figures({ ...run, from: 'history' }),
  thresholds: (run, task) => courses.thresholds({ ...run, from: 'history' }, task),
  bearings: (run, task) => courses.bearings({ ...run, from: 'history' }, task),
  yearEnds: (run, task) => courses.yearEnds({ ...run, from: 'history' }, task),
}

test('needed today: 30 years of withdrawals that rise with prices, from half stocks and half bonds', async () => {
  // W. P. Bengen, "Determining Withdrawal Rates Using Historical Data", Journal of Financial Planning, October 1994: 4.15 % of the start
  // in the worst case (1966; the rate read second hand). Cooley, Hubbard and Walz, AAII Journal, February 1998: 4 % held in 95 % of the
  // starts (read). Ours are R. Shiller's series from January to January with ten-year Treasuries: within eight percent.
  const plan = marketPlan({
    balance: 300_000,
    years: 30,
    stocks: 0.5,
    yearly: { amount: 12_000, month: 1, times: 30 },
  })
  const rules = publishedRules(plan)
  const { paths } = prepareChance(plan, rules, { seed: 1, paths: 1, from: 'history' })
  const ask = (confidence: number) =>
    solveStartWith(
      asking(plan, paths, {
        courses: historic,
        compile: (variant) => compilePlan(variant, rules),
        confidence,
      }),
    )
  const worst = await ask(0.99)
  if (worst.answer.kind !== 'reached') throw new Error(worst.sentence)
  const bengen = 12_000 / 0.0415
  expect(worst.answer.value / bengen).toBeGreaterThan(0.92)
  expect(worst.answer.value / bengen).toBeLessThan(1.08)
  const most = await ask(0.95)
  if (most.answer.kind !== 'reached') throw new Error(most.sentence)
  expect(most.answer.value).toBeLessThan((12_000 / 0.04) * 1.05)
  expect(most.answer.value).toBeGreaterThan((12_000 / 0.04) * 0.85)
})

test('claim: without interest the age that pays most by the agency’s factors for as long as the plan lasts', async () => {
  // Born in 1960 or later: 70 % of the primary amount at 62, 75, 80, 86 ⅔, 93 ⅓ at 63 to 66, 100 at 67, 108, 116 and 124 at 68 to 70
  // (42 USC 402(q), (w); the agency's own table of these shares is from memory).
  const factors = [0.7, 0.75, 0.8, 0.8667, 0.9333, 1, 1.08, 1.16, 1.24]
  const bestFor = (lived: number) =>
    62 +
    factors
      .map((factor, k) => factor * (lived - 62 - k))
      .reduce((best, each, k, all) => (each > all[best]! ? k : best), 0)
  expect([74, 80, 95].map(bestFor)).toEqual([62, 66, 70])
  for (const lived of [74, 80, 95]) {
    const plan = planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [
          {
            id: 'una',
            name: 'Una',
            born: '1965-06-15',
            sex: 'female',
            planToAge: lived,
            claimAge: { years: 67, months: 0 },
            earnings: Array.from({ length: 35 }, (_, k) => ({ year: 1990 + k, amount: 30_000 + 1_000 * k })),
          },
        ],
        living: [{ id: 'all', name: 'Living', perMonth: 500 }],
      },
      savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 100_000 }] },
      chance: quiet,
      tax: { method: 'none' },
      assumptions: { inflation: 0 },
    } satisfies PlanInput)
    const found = await solveClaim(asking(plan, 50))
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    expect(found.answer.strongest.ages).toEqual([bestFor(lived)])
  }
})

test('the cushion: what pays so much a year for ten years at five percent, by the published factor', async () => {
  // Present value of an ordinary annuity of 1: 7.7217 for ten periods at 5 % (tables of every textbook of finance; the factor from memory,
  // (1 − 1.05⁻¹⁰) ÷ 0.05). The first of ten payments of 100,000 ends the first of the slower years.
  const years = 12
  const market = marketPlan({
    balance: 500_000,
    years,
    bills: 0.05,
    timing: 'end',
    yearly: { amount: 100_000, month: 12, firstYear: 2, times: 10 },
  })
  const plan = planSchema.parse({
    ...market,
    farm: { phases: [{ from: '2029-01', name: 'Slower' }] },
    chance: { ...quiet, centre: 'plan' },
  })
  const found = await solveCushion(asking(plan, 50))
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  expect(found.answer.value).toBeGreaterThan(772_170 - 10)
  expect(found.answer.value).toBeLessThan(772_170 + 260)
  // Half a million grows to 551,250 in the two years before.
  expect(found.answer.medianThen).toBeCloseTo(500_000 * 1.05 ** 2, 2)
})

/** The least cushion with which the courses of a plan last, to the dollar, at first prices: its own dial, without the question's coarser search. */
const leastCushion = async (plan: Plan, month: number) => {
  const about = asking(plan, 1)
  const compiled = about.compile(plan)
  const model = chanceModel(plan, compiled.shape)
  const [least] = await about.courses.thresholds(
    { plan: compiled, model, seed: 1, paths: 1, from: 'chance', keepsMonths: false },
    {
      dial: { kind: 'cushion', month },
      criterion: { kind: 'held', fromMonth: month },
      from: 0,
      to: 5_000_000,
      start: 500_000,
      step: 100_000,
      within: 0.5,
      moreIsBetter: true,
    },
  )
  return least!
}

test('the cushion of costs that rise with prices is the present value of a growing annuity, to the dollar', async () => {
  // W ÷ (r − g) × (1 − ((1 + g) ÷ (1 + r))ⁿ), the first W at the end of the first of n years (every textbook of finance; from memory):
  // 40,000 growing 3 % a year for 30 years at 5 % are worth 876,772.40.
  const annuity = (40_000 / 0.02) * (1 - (1.03 / 1.05) ** 30)
  expect(annuity).toBeCloseTo(876_772.4, 1)
  const market = marketPlan({
    balance: 500_000,
    years: 32,
    bills: 0.05,
    inflation: 0.03,
    timing: 'end',
    yearly: { amount: 40_000, month: 12, firstYear: 2, times: 30 },
  })
  const plan = planSchema.parse({
    ...market,
    farm: { phases: [{ from: '2029-01', name: 'Slower' }] },
    chance: { ...quiet, centre: 'plan' },
  })
  // In 2029 the first payment is 40,000 at prices of 1.03², the sum is counted at those of December 2028: 1.03.
  expect(Math.abs((await leastCushion(plan, 24)) - annuity * 1.03)).toBeLessThan(1)
})

test('the cushion of an even month’s costs without price changes is the present value of an annuity due, to the dollar', async () => {
  // The same formula with g = 0, times (1 + r), since each month is paid as it begins: 2,000 a month for ten years at 5 % a year.
  const market = marketPlan({ balance: 60_000, years: 12, bills: 0.05, monthly: 2_000 })
  const plan = planSchema.parse({
    ...market,
    farm: { phases: [{ from: '2029-01', name: 'Slower' }] },
    chance: { ...quiet, centre: 'plan' },
  })
  const r = 1.05 ** (1 / 12) - 1
  const annuity = (2_000 / r) * (1 - (1 + r) ** -120) * (1 + r)
  expect(Math.abs((await leastCushion(plan, 24)) - annuity)).toBeLessThan(1)
})

test('what is missing of the cushion lies in savings that earn, not in a checking account, whatever is left in either by then', async () => {
  // As above, 7.7217 × 100,000, with 400 in a checking account that earns nothing and all savings used up before the slower year.
  const market = marketPlan({
    balance: 50_000,
    years: 12,
    bills: 0.05,
    timing: 'end',
    yearly: { amount: 100_000, month: 12, firstYear: 2, times: 10 },
  })
  const checking = { id: 'checking', name: 'Checking', kind: 'cash' as const, balance: 400 }
  const plan = planSchema.parse({
    ...market,
    savings: { ...market.savings, accounts: [checking, ...market.savings.accounts] },
    household: {
      ...market.household,
      oneOffs: [
        ...market.household.oneOffs,
        { id: 'roof', name: 'Roof', month: '2028-06', cost: 55_000, todaysPrices: false },
      ],
    },
    farm: { phases: [{ from: '2029-01', name: 'Slower' }] },
    chance: { ...quiet, centre: 'plan' },
  })
  expect(Math.abs((await leastCushion(plan, 24)) - 772_173.49)).toBeLessThan(1)
  const found = await solveCushion(asking(plan, 50))
  expect(found.earns).toContain(
    'What is missing is taken to lie in Account, which earns 5% a year before tax: 5% a year more than prices rise. It must last to December 2038.',
  )
})

const una = (born: string, balance: number, rest: object = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'una', name: 'Una', born, sex: 'female', planToAge: 80, claimAge: { years: 70, months: 0 } },
      ],
      living: [{ id: 'all', name: 'Living', perMonth: 900 }],
    },
    savings: {
      accounts: [
        { id: 'jar', name: 'Checking', kind: 'cash', balance: 90_000 },
        { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance, ...rest },
        { id: 'roth', name: 'Roth', kind: 'roth', owner: 'una', balance: 5_000 },
      ],
    },
    chance: quiet,
    assumptions: { inflation: 0 },
  } satisfies PlanInput)

test('account order: what must be taken out at 75 comes before what is converted', async () => {
  // IRS Pub. 590-B: 100,000 at 75 over 24.6 is 4,065 (read). What is required cannot be converted (26 USC 402(c)(4)(B), 408(d)(3)(E)).
  const found = await solveWays('account-order', asking(una('1951-02-01', 100_000), 50))
  const first = found.years.find(({ year }) => year === 2026)!
  expect(first.plan.traditional).toBeCloseTo(100_000 / 24.6, 6)
  expect(first.other.traditional).toBeGreaterThanOrEqual(100_000 / 24.6 - 1e-6)
  expect(first.other.converted + first.other.traditional).toBeLessThanOrEqual(100_000 + 1e-6)
})

test('account order: even payments at 50 by life expectancy', async () => {
  // The revenue service's questions and answers on even payments: 400,000 at 50 over 36.2 is 11,049.72 in the first year (from memory;
  // 36.2 is the Single Life Table of Treas. Reg. 1.401(a)(9)-9(b)).
  const found = await solveWays('account-order', asking(una('1976-02-01', 400_000), 50))
  const even = found.ways.find(({ id }) => id === 'even-payments')!
  expect(even).toBeDefined()
  const { project, plan } = asking(una('1976-02-01', 400_000, { evenPaymentsFrom: '2026-01' }), 50)
  const taken = project(plan)
    .months.slice(0, 12)
    .reduce((sum, month) => sum + month.withdrawnTraditional, 0)
  expect(taken).toBeCloseTo(11_049.72, 1)
})
