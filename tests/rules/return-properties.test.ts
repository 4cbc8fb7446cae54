// What must hold for every household: tax does not fall as income rises but where the law makes it, and money adds up.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Carryforwards } from '#rules/carryforwards.ts'
import { steadyIndexing } from '#rules/dated.ts'
import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdTax,
  type HouseholdYear,
} from '#rules/household-year.ts'
import { type LawYear, lawFor } from '#rules/law.ts'
import {
  methodBracketed,
  methodIterative,
  methodUpToLine,
  solveDeductionAndCredit,
} from '#rules/marketplace/deduction-and-credit.ts'
import { type Cover, creditAt } from '#rules/marketplace/premium-credit.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import type { BaseYear, FarmAveraging } from '#rules/return/farm-averaging.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { drawnCount, eachDrawn } from './drawn-households.ts'
import { randomHousehold, seeded } from './random-household.ts'

const indexing = steadyIndexing(0.025)
const laws = [2024, 2025, 2026, 2030].map((year) => lawFor(year, indexing))
const law2026 = laws[2]!

const assess = (law: LawYear, household: HouseholdYear): HouseholdTax => {
  const out = emptyHouseholdTax()
  assessHousehold(law, household, out)
  return out
}

/** What is owed apart from the two credits that pay more to those who earn more. */
const burden = (tax: HouseholdTax): number =>
  tax.balanceDue + tax.earnedIncomeCredit + tax.additionalChildTaxCredit

const incomes = [
  'wages',
  'farmProfit',
  'interest',
  'iraDistributions',
  'socialSecurity',
  'longTermGains',
] as const

/** Three years before, some below zero, averaged over as far as that costs least. */
const baseYears = (random: () => number, status: number): FarmAveraging => {
  const year = (): BaseYear => ({
    law: law2026,
    status,
    taxable: Math.floor(random() * 150_000) - 20_000,
    preferred: 0,
    ratio: 1,
  })
  return { years: [year(), year(), year()], elected: -1 }
}

const withMore = (household: HouseholdYear, kind: (typeof incomes)[number], more: number): HouseholdYear =>
  kind === 'wages' || kind === 'farmProfit'
    ? { ...household, [kind]: [household[kind][0]! + more, household[kind][1]!] }
    : { ...household, [kind]: household[kind] + more }

/**
 * Places where a dollar more of income lowers what is owed, each by law:
 * 1. refundable child and earned income credits phase in with earnings (26 USC 24(d), 32) — left out of `burden`;
 * 2. at the poverty line, and above the Medicaid line, the premium credit begins (26 USC 36B(c)(1));
 * 3. from 2026 business income of 1,000 dollars brings the minimum deduction of 400 (26 USC 199A(i));
 * 4. at a jump of the credit the health deduction takes up each further dollar (26 CFR 1.162(l)-1(a)(1)); where that dollar is
 *    untaxed benefits or a gain at the lower rates, the deduction saves more than the dollar costs;
 * 5. to 2025, a higher repayment tier raises the limitation on additional tax and with it the deduction
 *    (26 CFR 1.36B-4(a)(3)(iii));
 * 6. care costs count up to the lesser earned income, so that the care credit grows with it (26 USC 21(d));
 * 7. a loss carried here takes up to 80 % of the taxable income there would be without it, in which gains count in full and each
 *    dollar may draw benefits in (26 USC 172(a)(2)); and where farm income is averaged, all of a farm's dollar may be averaged while the
 *    loss takes up four fifths of it, so that more of much the same taxable income is taxed at the rates of other years (26 USC 1301);
 * 8. section 179 carried here comes off the farm profit as far as income goes, wages among it (26 USC 179(b)(3)).
 */
const excepted = (
  law: LawYear,
  household: HouseholdYear,
  kind: (typeof incomes)[number],
  before: HouseholdTax,
  after: HouseholdTax,
): boolean =>
  (before.premiumTaxCredit === 0 && after.premiumTaxCredit > 0) ||
  after.dependentCareCredit > before.dependentCareCredit ||
  (household.carried.netOperatingLoss + household.carried.farmLoss > 0 &&
    (kind === 'longTermGains' ||
      kind === 'socialSecurity' ||
      household.socialSecurity > 0 ||
      (kind === 'farmProfit' && household.averaging !== null))) ||
  household.carried.section179 > 0 ||
  ((kind === 'socialSecurity' || kind === 'longTermGains') &&
    (before.method === methodBracketed || before.method === methodUpToLine)) ||
  (law.qbiMinimum > 0 && after.qbiDeduction <= law.qbiMinimum && after.qbiDeduction > before.qbiDeduction) ||
  (law.repaymentBandTo.length > 0 && household.advanceMonthly > 0 && after.excessAdvance > 0)

describe('tax and income', () => {
  test('what is owed does not fall as income rises, but at the listed places', () => {
    const falls: unknown[] = []
    let tried = 0
    eachDrawn(31, 6000, (random, index) => {
      const law = laws[index % laws.length]!
      const household = { ...randomHousehold(random), farmOptional: [0, 0], nonfarmOptional: [0, 0] }
      if (index % 5 === 0) household.averaging = baseYears(random, household.status)
      const kind = incomes[index % incomes.length]!
      const more = [1, 50, 1000][index % 3]!
      const before = assess(law, household)
      const after = assess(law, withMore(household, kind, more))
      if (excepted(law, household, kind, before, after)) return
      tried += 1
      if (burden(after) < burden(before) - 0.05)
        falls.push({ year: law.year, kind, more, fell: burden(before) - burden(after), household })
    })
    expect(falls.slice(0, 2)).toEqual([])
    expect(tried).toBeGreaterThan(drawnCount(6000) / 2)
  })

  test('averaging farm income never costs more, and changes income tax alone', () => {
    let averaged = 0
    eachDrawn(33, 600, (random) => {
      const household = randomHousehold(random)
      const plain = assess(law2026, household)
      const spread = assess(law2026, { ...household, averaging: baseYears(random, household.status) })
      expect(spread.incomeTax).toBeLessThanOrEqual(plain.incomeTax)
      expect(spread.adjustedGrossIncome).toBe(plain.adjustedGrossIncome)
      expect(spread.selfEmploymentTax).toBe(plain.selfEmploymentTax)
      expect(spread.premiumTaxCredit).toBe(plain.premiumTaxCredit)
      if (spread.averagedFarmIncome > 0) averaged += 1
    })
    expect(averaged).toBeGreaterThan(drawnCount(600) / 12)
  })

  test('exception 1: earnings bring the refundable credits', () => {
    const family = { ...emptyHouseholdYear(), status: 2, childrenUnder17: 1, earnedCreditChildren: 1 }
    const owed = [5000, 10_000].map((wages) => assess(law2026, { ...family, wages: [wages, 0] }).balanceDue)
    expect(owed[1]).toBeLessThan(owed[0]!)
  })

  test('exception 2: at the poverty line the premium credit begins', () => {
    const single = { ...emptyHouseholdYear(), coverMonths: 12, premiumMonthly: 600, benchmarkMonthly: 600 }
    const [under, at] = [15_649, 15_650].map((wages) => assess(law2026, { ...single, wages: [wages, 0] }))
    expect(under!.premiumTaxCredit).toBe(0)
    expect(at!.premiumTaxCredit).toBeGreaterThan(6000)
    expect(at!.balanceDue).toBeLessThan(under!.balanceDue)
  })

  test('exception 3: business income of 1,000 dollars brings the minimum deduction from 2026, not before', () => {
    const worker = { ...emptyHouseholdYear(), wages: [60_000, 0] }
    const profit = (farm: number) => ({ ...worker, farmProfit: [farm, 0] })
    const deductions = laws.map((law) => assess(law, profit(1080)).qbiDeduction)
    expect(deductions[0]).toBeCloseTo(200.74, 2)
    expect(deductions[2]).toBe(400)
    const owed = [1070, 1080].map((farm) => assess(law2026, profit(farm)).incomeTax)
    expect(owed[1]).toBeLessThan(owed[0]!)
  })

  test('exception 4: at the line of the credit a further gain of 1,000 is deducted from income at 12 %', () => {
    const farmer = {
      ...emptyHouseholdYear(),
      status: 1,
      people: 2,
      age: [45, 45],
      coverMonths: 12,
      deductibleMonths: 12,
      premiumMonthly: 2000,
      benchmarkMonthly: 2000,
      farmProfit: [105_000, 0],
    }
    const [less, more] = [0, 1000].map((longTermGains) => assess(law2026, { ...farmer, longTermGains }))
    expect(less!.method).toBe(methodUpToLine)
    expect(more!.adjustedGrossIncome).toBe(less!.adjustedGrossIncome)
    // The gain lies under the end of the 0 % rate; 1,000 of farm profit less is taxed, of which QBI counts a fifth less.
    expect(less!.incomeTax - more!.incomeTax).toBeCloseTo(1000 * 0.12 * 0.8, 0)
  })

  test('exceptions 7 and 8: more gains let a carried loss take more, more wages let carried section 179 take more', () => {
    const carried = { ...emptyHouseholdYear().carried, netOperatingLoss: 80_000 }
    const saver = { ...emptyHouseholdYear(), wages: [50_000, 0], carried }
    const gains = [0, 10_000].map((longTermGains) => assess(law2026, { ...saver, longTermGains }))
    expect(gains[1]!.netOperatingLossDeduction - gains[0]!.netOperatingLossDeduction).toBe(8000)
    expect(gains[1]!.totalTax).toBeLessThan(gains[0]!.totalTax)
    const farmer = { ...emptyHouseholdYear(), farmProfit: [5000, 0] }
    const wages = [0, 4000].map((pay) =>
      assess(law2026, {
        ...farmer,
        wages: [pay, 0],
        carried: { ...farmer.carried, section179: 20_000 },
      }),
    )
    expect(wages.map((year) => year.carried.section179)).toEqual([15_000, 11_000])
  })

  test('exception 5: in 2025 a higher repayment tier raises the deduction', () => {
    const farmer = {
      ...emptyHouseholdYear(),
      status: 1,
      people: 2,
      age: [45, 45],
      coverMonths: 12,
      deductibleMonths: 12,
      premiumMonthly: 1200,
      benchmarkMonthly: 1200,
      advanceMonthly: 1100,
    }
    const deductions = [40_000, 60_000].map(
      (farm) => assess(laws[1]!, { ...farmer, farmProfit: [farm, 0] }).selfEmployedHealthDeduction,
    )
    expect(deductions[1]! - deductions[0]!).toBeGreaterThan(1000)
  })
})

describe('money adds up', () => {
  test('credit and net premium make the premium, and the credit never exceeds it', () => {
    eachDrawn(5, 500, (random, index) => {
      const household = randomHousehold(random)
      const tax = assess(laws[index % laws.length]!, household)
      const premium = Math.round(household.premiumMonthly * 100) * household.coverMonths
      expect(Math.round((tax.premiumTaxCredit + tax.netPremium) * 100)).toBe(premium)
      expect(tax.netPremium).toBeGreaterThanOrEqual(0)
    })
  })

  test('spouses may change places', () => {
    eachDrawn(13, 300, (random) => {
      const household = randomHousehold(random)
      if (household.people !== 2) return
      const turned = Object.fromEntries(
        Object.entries(household).map(([key, value]) => [
          key,
          Array.isArray(value) ? value.toReversed() : value,
        ]),
      ) as unknown as HouseholdYear
      const [one, other] = [assess(law2026, household), assess(law2026, turned)]
      expect(other.netSelfEmploymentEarnings).toEqual(one.netSelfEmploymentEarnings.toReversed())
      expect({ ...other, netSelfEmploymentEarnings: [] }).toEqual({ ...one, netSelfEmploymentEarnings: [] })
    })
  })

  test('a household and a law twice as large in dollars owe twice as much', () => {
    const doubled = scaledLaw(law2026, 2)
    eachDrawn(17, 300, (random) => {
      const household = { ...randomHousehold(random), childrenUnder17: 0, otherDependents: 0 }
      const once = assess(law2026, household)
      const twice = assess(doubled, scaledHousehold(household, 2))
      if (once.povertyPercent !== twice.povertyPercent || once.method !== twice.method) return
      expect(Math.abs(twice.balanceDue - 2 * once.balanceDue)).toBeLessThan(0.3)
    })
  })
})

describe('one return', () => {
  test('what a projection reads is what is traced: every figure of a traced return is the assessed one', () => {
    eachDrawn(20_261_125, 500, (random, index) => {
      const household = randomHousehold(random)
      const law = laws[index % laws.length]!
      const { figures, trace } = fileReturn(law, household)
      expect(figures).toEqual(assess(law, household))
      for (const { figure, amount } of trace) {
        const [name, part] = figure.split('.') as [keyof HouseholdTax, keyof Carryforwards]
        expect(amount, figure).toBe(part ? figures.carried[part] : figures[name])
      }
    })
  })

  test('the inputs a trace names make the figure they stand beside', () => {
    const near = (figure: string, amount: number, sum: number) =>
      expect(Math.abs(amount - sum), figure).toBeLessThan(0.005)
    eachDrawn(23, 300, (random, index) => {
      const { trace, figures } = fileReturn(laws[index % laws.length]!, randomHousehold(random))
      const of = (figure: string) =>
        trace.find((line) => line.figure === figure)!.inputs as Record<string, number>
      const income = of('adjustedGrossIncome')
      near(
        'adjustedGrossIncome',
        figures.adjustedGrossIncome,
        income.incomeBeforeBenefits! +
          income.taxableSocialSecurity! -
          income.halfSelfEmploymentTax! -
          (income.netOperatingLossDeduction ?? 0) -
          income.retirementAndHealthSavings! -
          income.selfEmployedHealthDeduction!,
      )
      const cover = of('householdIncome')
      near(
        'householdIncome',
        figures.householdIncome,
        cover.adjustedGrossIncome! +
          cover.untaxedSocialSecurity! +
          cover.taxExemptInterest! +
          cover.dependentsIncome!,
      )
      const taxable = of('taxableIncome')
      near(
        'taxableIncome',
        figures.taxableIncome,
        Math.max(0, taxable.adjustedGrossIncome! - taxable.deduction!) - taxable.qbiDeduction!,
      )
      const payments = Object.values(of('totalPayments')).reduce((sum, part) => sum + part, 0)
      near('totalPayments', figures.totalPayments, payments)
    })
  })

  test('a second household is not touched by what the one before left behind', () => {
    const random = seeded(7)
    const used = emptyHouseholdTax()
    for (let index = 0; index < 100; index += 1) {
      const household = randomHousehold(random)
      assessHousehold(law2026, randomHousehold(random), used)
      assessHousehold(law2026, household, used)
      expect(used).toEqual(fileReturn(law2026, household).figures)
    }
  })

  test('law posted to a worker gives the same figures', () => {
    const random = seeded(11)
    const posted = structuredClone(law2026)
    for (let index = 0; index < 200; index += 1) {
      const household = randomHousehold(random)
      expect(assess(posted, household)).toEqual(assess(law2026, household))
    }
  })
})

describe('deduction and credit', () => {
  const arbitrary = fc.record({
    year: fc.constantFrom(...laws),
    incomeBefore: fc.integer({ min: 0, max: 20_000_000 }),
    premium: fc.integer({ min: 0, max: 4_000_000 }),
    benchmark: fc.integer({ min: 0, max: 4_000_000 }),
    advanceShare: fc.constantFrom(0, 0, 0.4, 1),
    earnedLimit: fc.integer({ min: 0, max: 15_000_000 }),
    povertyLine: fc.constantFrom(1_565_000, 2_115_000, 3_215_000),
    medicaid: fc.boolean(),
    single: fc.boolean(),
  })

  test('the pair meets both definitions to a cent, or says how it fell back; together they stay within the premium', () => {
    const methods = new Map<number, number>()
    fc.assert(
      fc.property(arbitrary, (facts) => {
        const cover: Cover = {
          povertyLine: facts.povertyLine,
          medicaidLine: facts.medicaid ? Math.floor(facts.povertyLine * 1.38) : 0,
          months: 12,
          premium: facts.premium,
          benchmark: facts.benchmark,
          advance: Math.floor(facts.premium * facts.advanceShare),
          creditAllowed: 1,
          byMonth: null,
          repaymentSingle: facts.single ? 1 : 0,
        }
        const from = {
          incomeBefore: facts.incomeBefore,
          earnedLimit: facts.earnedLimit,
          deductiblePremium: facts.premium,
          deductibleMonths: 12,
        }
        const out = { deduction: 0, credit: 0, method: 0 }
        solveDeductionAndCredit(facts.year, cover, from, out)
        methods.set(out.method, (methods.get(out.method) ?? 0) + 1)
        expect(out.credit).toBe(creditAt(facts.year, cover, facts.incomeBefore - out.deduction))
        expect(out.deduction).toBeGreaterThanOrEqual(0)
        expect(out.deduction).toBeLessThanOrEqual(facts.earnedLimit)
        expect(out.deduction + out.credit).toBeLessThanOrEqual(facts.premium)
        const short = Math.min(facts.earnedLimit, facts.premium - out.credit) - out.deduction
        if (out.method === methodIterative && facts.year.repaymentBandTo.length === 0) {
          expect(short).toBeLessThanOrEqual(1)
        }
      }),
      { numRuns: drawnCount(2000), seed: 20_261_125 },
    )
    for (const method of [methodIterative, methodBracketed, methodUpToLine]) {
      expect(methods.get(method) ?? 0).toBeGreaterThan(20)
    }
  })
})

/** Rates, shares, percents and counts stay; every amount in dollars grows. */
const scaledLaw = (law: LawYear, factor: number): LawYear => {
  const kept =
    /Rate|Rates|Factor|Percent|Share|applicable|BandTo|costSharing|ShareLimit|^year$|basis|projected/
  const scale = (value: unknown): unknown =>
    typeof value === 'number' ? value * factor : Array.isArray(value) ? value.map(scale) : value
  return Object.fromEntries(
    Object.entries(law).map(([key, value]) => [key, kept.test(key) ? value : scale(value)]),
  ) as unknown as LawYear
}

const scaled = (value: unknown, factor: number): unknown => {
  if (typeof value === 'number') return value * factor
  if (value === null) return null
  if (Array.isArray(value)) return value.map((part) => scaled(part, factor))
  return Object.fromEntries(Object.entries(value as object).map(([key, part]) => [key, scaled(part, factor)]))
}

const scaledHousehold = (household: HouseholdYear, factor: number): HouseholdYear => {
  const kept =
    /^(status|people|age|blind|children|careChildren|earnedCreditChildren|otherDependents|region|farmOptional|nonfarmOptional|coverMonths|deductibleMonths|medicaidExpansion)/
  return Object.fromEntries(
    Object.entries(household).map(([key, value]) => [key, kept.test(key) ? value : scaled(value, factor)]),
  ) as unknown as HouseholdYear
}
