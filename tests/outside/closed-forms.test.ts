// The projection against closed forms of savings and draws: growing annuities, how long savings last, a ledger month by month.
// Formulas are standard; the numbers were computed outside this project from those formulas, each also checked there by a plain loop.
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { marketPlan } from '../runway/market-plan.ts'

/** Present value of n withdrawals, first W, growing at g, return r: W/(r−g)·(1−((1+g)/(1+r))^n), or n·W/(1+r) when r = g; start of period × (1+r). */
const growingAnnuities = [
  { first: 40_000, r: 0.05, g: 0.03, n: 30, end: 876_772.404396, start: 920_611.024616 },
  { first: 40_000, r: 0.03, g: 0.03, n: 30, end: 1_165_048.54369, start: 1_200_000 },
  { first: 12_000, r: 0.04, g: 0.06, n: 20, end: 278_216.85853, start: 289_345.532871 },
]

test.for(growingAnnuities)(
  '$n yearly withdrawals from $first growing by $g at a return of $r use up exactly their present value',
  ({ first, r, g, n, end, start }) => {
    for (const [timing, month, balance] of [
      ['end', 12, end],
      ['start', 1, start],
    ] as const) {
      const plan = marketPlan({
        balance,
        years: n,
        bills: r,
        inflation: g,
        timing,
        yearly: { amount: first, month, times: n },
      })
      const { months, milestones } = project(plan)
      const last = months.findLastIndex((one) => one.oneOffs > 0)
      expect(Math.abs(months[last]!.cash)).toBeLessThan(1e-3)
      expect(milestones.unmetNeed).toBeLessThan(1e-3)
      const short = project(
        marketPlan({
          balance: balance - 1,
          years: n,
          bills: r,
          inflation: g,
          timing,
          yearly: { amount: first, month, times: n },
        }),
      )
      expect(short.milestones.unmetNeed).toBeGreaterThan(0.5)
    }
  },
)

test('360 monthly withdrawals from 1,000 growing by 0.25 % a month at 0.4 % a month use up exactly their present value', () => {
  const of = (balance: number, timing: 'start' | 'end') =>
    project(
      marketPlan({
        balance,
        years: 30,
        bills: 1.004 ** 12 - 1,
        inflation: 1.0025 ** 12 - 1,
        priceSteps: 'monthly',
        timing,
        monthly: 1000,
      }),
    )
  expect(of(277_487.66927, 'end').months.at(-1)!.cash).toBeLessThan(1e-2)
  expect(of(277_487.66927, 'end').milestones.unmetNeed).toBeLessThan(1e-2)
  expect(of(278_597.619947, 'start').milestones.unmetNeed).toBeLessThan(1e-2)
  expect(of(278_597.619947 - 1, 'start').milestones.unmetNeed).toBeGreaterThan(1)
})

/** Savings S with draws from W growing g a period at return r: draws paid in full, and what is left at the first short draw. */
const yearlyExhaustions = [
  {
    savings: 500_000,
    draw: 30_000,
    r: 0.04,
    g: 0.03,
    fullEnd: 18,
    leftEnd: 44_468.21108,
    fullStart: 18,
    leftStart: 3951.880777,
  },
  {
    savings: 500_000,
    draw: 30_000,
    r: 0.03,
    g: 0.03,
    fullEnd: 17,
    leftEnd: 8264.238161,
    fullStart: 16,
    leftStart: 32_094.12878,
  },
  {
    savings: 200_000,
    draw: 30_000,
    r: 0.02,
    g: 0.05,
    fullEnd: 6,
    leftEnd: 11_525.24774,
    fullStart: 6,
    leftStart: 7020.598065,
  },
]

test.for(yearlyExhaustions)(
  '$savings with yearly draws of $draw growing by $g at $r pays the known number of draws in full',
  (of) => {
    for (const [timing, month, full, left] of [
      ['end', 12, of.fullEnd, of.leftEnd],
      ['start', 1, of.fullStart, of.leftStart],
    ] as const) {
      const plan = marketPlan({
        balance: of.savings,
        years: 40,
        bills: of.r,
        inflation: of.g,
        timing,
        yearly: { amount: of.draw, month, times: 40 },
      })
      const draws = project(plan).months.filter((one) => one.oneOffs > 0)
      const short = draws.findIndex((one) => one.unmetNeed > 0.005)
      expect(short).toBe(full)
      expect(draws[short]!.oneOffs - draws[short]!.unmetNeed).toBeCloseTo(left, 3)
    }
  },
)

test('a million with draws of 40,000 growing by 3 % at 7 % lasts 71 draws from the start of the year, and for ever from its end', () => {
  const of = (timing: 'start' | 'end', month: number) =>
    project(
      marketPlan({
        balance: 1_000_000,
        years: 80,
        bills: 0.07,
        inflation: 0.03,
        timing,
        yearly: { amount: 40_000, month, times: 80 },
      }),
    )
  const draws = of('start', 1).months.filter((one) => one.oneOffs > 0)
  expect(draws.findIndex((one) => one.unmetNeed > 0.005)).toBe(71)
  expect(of('end', 12).milestones.unmetNeed).toBe(0)
})

const monthlyExhaustions = [
  {
    savings: 120_000,
    draw: 2500,
    r: 0.04 / 12,
    g: 0.0025,
    fullEnd: 49,
    leftEnd: 365.3603371,
    fullStart: 48,
    leftStart: 2713.1871,
  },
  {
    savings: 120_000,
    draw: 2500,
    r: 0.0032737397822,
    g: 0.00486755056534,
    fullEnd: 46,
    leftEnd: 1377.12087,
    fullStart: 46,
    leftStart: 920.5377308,
  },
  { savings: 60_000, draw: 1500, r: 0, g: 0, fullEnd: 40, leftEnd: 0, fullStart: 40, leftStart: 0 },
  {
    savings: 60_000,
    draw: 1500,
    r: 0,
    g: 0.002,
    fullEnd: 38,
    leftEnd: 839.4860397,
    fullStart: 38,
    leftStart: 839.4860397,
  },
]

test.for(monthlyExhaustions)(
  '$savings with $draw a month growing by $g at $r pays the known number of months in full',
  (of) => {
    for (const [timing, full, left] of [
      ['end', of.fullEnd, of.leftEnd],
      ['start', of.fullStart, of.leftStart],
    ] as const) {
      const plan = marketPlan({
        balance: of.savings,
        years: 6,
        bills: (1 + of.r) ** 12 - 1,
        inflation: (1 + of.g) ** 12 - 1,
        priceSteps: 'monthly',
        timing,
        monthly: of.draw,
      })
      const { months, milestones } = project(plan)
      const short = months.findIndex((one) => one.unmetNeed > 0.005)
      expect(short).toBe(full)
      expect(months[short]!.living - months[short]!.unmetNeed).toBeCloseTo(left, 2)
      expect(milestones.monthsLeft).toBe(full)
    }
  },
)

/** balance = balance·(1+i) + income − spending with yearly steps, i = (1+R)^(1/12) − 1; the first year also in closed form. */
const ledgers = [
  {
    start: 40_000,
    income: 5200,
    spending: 6000,
    incomeStep: 0.02,
    spendingStep: 0.03,
    yearly: 0.03,
    ends: [31_468.7044745, 21_756.9970082, 10_789.0803666],
    firstNegative: 47,
  },
  {
    start: 120_000,
    income: 3000,
    spending: 5500,
    incomeStep: 0,
    spendingStep: 0.04,
    yearly: 0.04,
    ends: [94_253.8947342, 64_789.8879943, 31_351.7414309],
    firstNegative: 47,
  },
]

test.for(ledgers)(
  '$start with $income a month in and $spending out follows the monthly ledger to the cent',
  (of) => {
    const plan: Plan = {
      ...marketPlan({
        balance: of.start,
        years: 5,
        bills: of.yearly,
        inflation: of.spendingStep,
        timing: 'end',
        monthly: of.spending,
      }),
      draw: {
        policy: 'steps',
        steps: [{ from: '2027-01', perMonth: of.income }],
        growth: of.incomeStep,
        withPrices: false,
      },
    }
    const { months } = project(plan)
    of.ends.forEach((balance, year) => {
      expect(months[year * 12 + 11]!.cash).toBeCloseTo(balance, 2)
    })
    expect(months.findIndex((one) => one.unmetNeed > 0) + 1).toBe(of.firstNegative)
  },
)

/** Every path of returns that are either `up` or `down`, draws at the start of the year: share of paths that fall short, as a fraction of all. */
const binomial = {
  start: 100,
  draw: 10,
  growth: 0.03,
  up: 0.25,
  down: -0.15,
  years: 10,
  ruin: 265 / 512,
  mean: 27.4060838623,
}

test('over all 1,024 paths of good and bad years, draws fall short in exactly 265 of 512', () => {
  const of = binomial
  const plan = marketPlan({
    balance: of.start,
    years: of.years,
    stocks: 1,
    inflation: of.growth,
    yearly: { amount: of.draw, month: 1, times: of.years },
  })
  const rules = publishedRules(plan)
  const compiled = compilePlan(plan, rules)
  let ruined = 0
  let mean = 0
  for (let path = 0; path < 2 ** of.years; path += 1) {
    const shocks = expectedShocks(compiled.shape)
    for (let y = 0; y < of.years; y += 1) shocks.stocks[y] = (path >> y) & 1 ? of.up : of.down
    const { milestones, months } = project(plan, rules, shocks)
    const short = milestones.unmetNeed > 1e-9
    ruined += short ? 1 : 0
    mean += short ? 0 : months.at(-1)!.cash
  }
  expect(ruined / 2 ** of.years).toBe(of.ruin)
  expect(mean / 2 ** of.years).toBeCloseTo(of.mean, 6)
})

/** numpy-financial docstrings and tests (read, commit f47e8af), LibreOffice Calc help (read): what a projection can express of them. */
test.for([
  {
    what: '100 a month for 120 months at 5 %/12, 100 to begin with',
    rate: 0.05 / 12,
    months: 120,
    each: 100,
    first: 100,
    value: 15_692.92889433575,
  },
  { what: 'the same at 6 %/12', rate: 0.06 / 12, months: 120, each: 100, first: 100, value: 16_569.87435405 },
  { what: 'the same at 7 %/12', rate: 0.07 / 12, months: 120, each: 100, first: 100, value: 17_509.44688102 },
])('future value: $what', ({ rate, months: count, each, first, value }) => {
  const plan: Plan = {
    ...marketPlan({ balance: first, years: count / 12, bills: (1 + rate) ** 12 - 1, timing: 'end' }),
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: each }], growth: 0, withPrices: false },
  }
  expect(project(plan).months.at(-1)!.cash).toBeCloseTo(value, 4)
})

test('future value: 750 a year for two years at 4 % on 2,500 is 4,234', () => {
  const plan = marketPlan({
    balance: 2500,
    years: 2,
    bills: 0.04,
    timing: 'end',
    yearly: { amount: -750, month: 12, times: 2, todaysPrices: false },
  })
  expect(project(plan).months.at(-1)!.cash).toBeCloseTo(4234, 6)
})

test('present value: 127,128.17 at 7 % pays 12,000 at the end of each of 20 years', () => {
  const of = (balance: number) =>
    project(
      marketPlan({
        balance,
        years: 20,
        bills: 0.07,
        timing: 'end',
        yearly: { amount: 12_000, month: 12, times: 20 },
      }),
    )
  expect(of(127_128.170946194).months.at(-1)!.cash).toBeLessThan(1e-4)
  expect(of(127_128.170946194).milestones.unmetNeed).toBeLessThan(1e-4)
})

test('number of periods: 8,000 at 7 %/12 pays 150 a month 64 times in full (NPER 64.07)', () => {
  const plan = marketPlan({
    balance: 8000,
    years: 6,
    bills: (1 + 0.07 / 12) ** 12 - 1,
    timing: 'end',
    monthly: 150,
  })
  expect(project(plan).months.findIndex((one) => one.unmetNeed > 0.005)).toBe(64)
})

test('a farm loan of 25,000 over 36 months at 1.99 % costs 715.96 a month', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    years: 4,
    farm: {
      cash: 30_000,
      overheads: [{ id: 'office', name: 'Office', costs: 0 }],
      loans: [
        {
          id: 'tractor',
          name: 'Tractor',
          principal: 25_000,
          yearlyRate: 0.0199,
          months: 36,
          start: '2027-01',
        },
      ],
    },
    tax: { method: 'none' },
  })
  const paid = project(plan).months.map((one) => -one.farmLoans)
  expect(paid.slice(1, 37).every((amount) => Math.abs(amount - 715.9553344374) < 1e-6)).toBe(true)
  expect(Math.abs(paid[37]!)).toBe(0)
})
