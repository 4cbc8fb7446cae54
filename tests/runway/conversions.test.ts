// Conversions into Roth accounts: worked by hand, by the law of 26 USC 408A(d)(3) and (4) and the published bands of 2026.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { accountDoubts } from '#plan/doubting/account-doubts.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { randomPlan } from './random-plan.ts'

type Conversion = NonNullable<NonNullable<PlanInput['savings']>['conversions']>[number]

/** Una, born in 1975, with 40,000 in cash, 100,000 untaxed, and a Roth account with 10,000 of contributions. No income, no inflation. */
const una = (
  conversion: Partial<Conversion> | null,
  rest: PlanInput['household'] = {},
  born = '1975-03-10',
) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'una', name: 'Una', born, planToAge: 62, claimAge: { years: 70, months: 0 } }],
      living: [{ id: 'all', name: 'Living', perMonth: 0 }],
      ...rest,
    },
    savings: {
      accounts: [
        { id: 'jar', name: 'Checking', kind: 'cash', balance: 40_000 },
        { id: 'old', name: 'Old plan', kind: 'traditional', owner: 'una', balance: 100_000 },
        { id: 'roth', name: 'Roth', kind: 'roth', owner: 'una', balance: 10_000 },
      ],
      ...(conversion === null
        ? {}
        : { conversions: [{ id: 'c', from: 'old', into: 'roth', ...conversion }] }),
    },
    assumptions: { inflation: 0 },
  } satisfies PlanInput)

const yearOf = (plan: ReturnType<typeof una>, year: number) =>
  project(plan).years.find((one) => one.year === year)!
const inMonth = (plan: ReturnType<typeof una>, month: string) =>
  project(plan).months.find((one) => one.month === month)!

describe('up to a line', () => {
  test('as many whole dollars as the deduction leaves untaxed, or a bracket holds', () => {
    // 2026: standard deduction of a single 16,100, the band of 10 % to 12,400, of 12 % to 50,400 (Rev. Proc. 2025-32, sec. 4.01 and 4.14).
    const of = (rate: number) => inMonth(una({ upTo: 'bracket', rate }), '2026-12').converted
    expect(of(0)).toBe(16_100)
    expect(of(0.1)).toBe(16_100 + 12_400)
    expect(of(0.12)).toBe(16_100 + 50_400)
    // 1,240 and 12 % of 38,000.
    expect(yearOf(una({ upTo: 'bracket', rate: 0.12 }), 2026).incomeTax).toBe(5_800)
    expect(yearOf(una({ upTo: 'bracket', rate: 0 }), 2026).incomeTax).toBe(0)
    // No more than there is; and no rate above the highest.
    expect(of(0.37)).toBe(100_000)
  })

  test('of the poverty line that the premium credit of the year goes by', () => {
    // Coverage in 2026 goes by the guideline of 2025: 15,650 for one (90 FR 5917). Beside 12,000 of pay, 400 % leaves 50,600.
    const pay = { pay: [{ id: 'job', name: 'Job', person: 'una', perMonth: 1_000 }] }
    const plan = una({ upTo: 'poverty', percent: 400 }, pay)
    expect(inMonth(plan, '2026-12').converted).toBe(62_600 - 12_000)
    expect(yearOf(plan, 2026).householdIncome).toBe(62_600)
    // Over the line already: nothing.
    const rich = { pay: [{ id: 'job', name: 'Job', person: 'una', perMonth: 6_000 }] }
    expect(inMonth(una({ upTo: 'poverty', percent: 400 }, rich), '2026-12').converted).toBe(0)
  })

  test('where nothing fits under the line, January expects the year as it is, to the cent', () => {
    // 62,599.20 a year: less than a dollar under 400 %. Nothing withheld, so that payments ahead follow from what January expects.
    const pay = { pay: [{ id: 'job', name: 'Job', person: 'una', perMonth: 5_216.6 }] }
    const taxesOf = (conversion: Partial<Conversion> | null) =>
      project(una(conversion && { ...conversion, toYear: 2026 }, pay)).months.map(({ taxes }) => taxes)
    expect(taxesOf({ upTo: 'poverty', percent: 400 })).toEqual(taxesOf(null))
  })

  test('an amount in its years, in each year’s prices', () => {
    const plan = una({ perYear: 7_000, fromYear: 2027, toYear: 2028 })
    const { months } = project(plan)
    const converted = months.filter((one) => one.converted > 0)
    expect(converted.map((one) => [one.month, one.converted])).toEqual([
      ['2027-12', 7_000],
      ['2028-12', 7_000],
    ])
    expect(converted[1]!.traditional).toBe(86_000)
    expect(converted[1]!.roth).toBe(24_000)
  })
})

describe('what was converted', () => {
  test('is income of its year without the early addition', () => {
    // 30,000 at 51: taxable 13,900, tax 1,240 and 12 % of 1,500; no tenth on top (26 USC 408A(d)(3)(A)(ii)).
    expect(yearOf(una({ perYear: 30_000, toYear: 2026 }), 2026).tax).toBe(1_420)
  })

  /** All cash goes in the first month; from then on 1,000 a month come out of the Roth account alone. */
  const spent = (perYear: number, born = '1975-03-10') => {
    const plan = una(
      { perYear, toYear: 2026 },
      { living: [{ id: 'all', name: 'Living', perMonth: 1_000, from: '2027-01' }] },
      born,
    )
    plan.savings.accounts[0]!.balance = 0
    plan.savings.spendOrder = ['cash', 'roth']
    return plan
  }

  test('comes out after the contributions: within five years and before 59½ with the addition, without tax', () => {
    // 16,000 converted in 2026, all under the deduction. 10,000 of contributions last to October 2027; then conversions pay 2,000 in 2027
    // and 12,000 in 2028: a tenth is added, no income (26 USC 408A(d)(3)(F), (4)(B)).
    const plan = spent(16_000)
    expect(yearOf(plan, 2026).tax).toBe(0)
    expect(yearOf(plan, 2027).tax).toBe(200)
    expect(yearOf(plan, 2027).adjustedGrossIncome).toBe(0)
    expect(yearOf(plan, 2028).tax).toBeGreaterThanOrEqual(1_200)
    expect(yearOf(plan, 2028).adjustedGrossIncome).toBe(0)
  })

  test('comes out free from its fifth year after on', () => {
    const plan = spent(16_000)
    plan.household.living[0]!.from = '2031-01'
    // The five years of what was converted in 2026 end with 2030.
    for (const year of [2031, 2032]) {
      expect(yearOf(plan, year).tax).toBe(0)
      expect(yearOf(plan, year).adjustedGrossIncome).toBe(0)
    }
    plan.household.living[0]!.from = '2030-01'
    // 10,000 of contributions, 2,000 of conversions and no tax yet owed.
    expect(yearOf(plan, 2030).tax).toBe(200)
  })

  test('and at once after 59½', () => {
    const plan = spent(16_000, '1966-06-01')
    for (const year of [2026, 2027]) expect(yearOf(plan, year).tax).toBe(0)
  })
})

test('what the law does not let in is said at its field, and is not done', () => {
  const faultsOf = (change: (plan: ReturnType<typeof una>) => void) => {
    const plan = una({ perYear: 1_000 })
    change(plan)
    const doubts = accountDoubts(plan)
    const { months } = project(plan)
    expect(months.some((one) => one.converted > 0)).toBe(doubts.length === 0)
    return doubts.map(({ path, message }) => `${path.join('.')}: ${message}`)
  }
  expect(faultsOf(() => {})).toEqual([])
  expect(
    faultsOf((plan) => Object.assign(plan.savings.accounts[1]!, { inherited: 'tenYears' }))[0],
  ).toContain('savings.conversions.0.from: Choose a traditional account that was not inherited')
  expect(faultsOf((plan) => Object.assign(plan.savings.conversions[0]!, { into: 'jar' }))[0]).toContain(
    'savings.conversions.0.into: Choose a Roth IRA',
  )
  expect(
    faultsOf((plan) => {
      plan.household.people.push({ ...plan.household.people[0]!, id: 'bo', name: 'Bo', born: '1980-01-01' })
      Object.assign(plan.savings.accounts[2]!, { owner: 'bo' })
    })[0],
  ).toContain('savings.conversions.0.into: Choose a Roth account of the same owner')
})

test('a plan at work opens once that employer is left', () => {
  const plan = una({ perYear: 5_000 })
  Object.assign(plan.savings.accounts[1]!, { heldAs: 'workPlan', leftWork: '2028-02' })
  const first = project(plan).months.find((one) => one.converted > 0)
  expect(first!.month).toBe('2028-12')
})

test('no line is passed, in whole dollars, on random plans with both accounts', () => {
  let seen = 0
  fc.assert(
    fc.property(randomPlan(), fc.constantFrom(138, 200, 250, 400), (plan, percent) => {
      const [first] = plan.household.people
      const accounts = plan.savings.accounts.map((one) =>
        one.kind === 'traditional' || one.kind === 'roth'
          ? {
              ...one,
              owner: first?.id,
              heldAs: 'ira' as const,
              inherited: undefined,
              evenPaymentsFrom: undefined,
            }
          : one,
      )
      if (!first || accounts.length < 4) return
      const conversion = { id: 'c', from: 'traditional', into: 'roth', perYear: 0, rate: 0, percent }
      const { months, years } = project({
        ...plan,
        savings: { ...plan.savings, accounts, conversions: [{ ...conversion, upTo: 'poverty' }] },
      })
      for (const { month, converted } of months.filter((one) => one.converted > 0)) {
        const year = years.find((one) => one.year === Number(month.slice(0, 4)))!
        expect(year.povertyPercent).toBeLessThanOrEqual(percent)
        expect(converted).toBe(Math.floor(converted))
        seen += 1
      }
    }),
    { seed: 7, numRuns: 40 },
  )
  expect(seen).toBeGreaterThan(20)
}, 180_000)

test('the contributions of a Roth account may come first, and the rest of it last', () => {
  const plan = una(null, { living: [{ id: 'all', name: 'Living', perMonth: 1_000 }] })
  Object.assign(plan.savings.accounts[0]!, { balance: 0 })
  Object.assign(plan.savings.accounts[2]!, { balance: 10_000, basis: 4_000 })
  plan.savings.accounts.push({
    ...plan.savings.accounts[0]!,
    id: 'fund',
    name: 'Fund',
    kind: 'taxable',
    balance: 3_000,
    basis: 3_000,
  })
  plan.savings.spendOrder = ['cash', 'roth-contributions', 'taxable', 'traditional', 'roth']
  const taken = (month: string) => {
    const one = inMonth(plan, month)
    return [one.withdrawnRoth, one.withdrawnTaxable, one.withdrawnTraditional]
  }
  expect(taken('2026-04')).toEqual([1_000, 0, 0])
  expect(taken('2026-05')).toEqual([0, 1_000, 0])
  expect(taken('2026-08')).toEqual([0, 0, 1_000])
  // Only the traditional account's 5,000 bear the addition.
  expect(yearOf(plan, 2026).tax).toBe(500)
})
