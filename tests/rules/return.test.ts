// Lines of the return worked by hand: what each rule does at and around its thresholds.
import { describe, expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { type FilingStatus, statusIndex } from '#rules/filing-status.ts'
import { emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { compareOptionalMethods } from '#rules/return/compare-optional-methods.ts'
import { fileReturn } from '#rules/return/household-return.ts'

const steady = steadyIndexing(0)
const laws = new Map([2024, 2025, 2026, 2029].map((year) => [year, lawFor(year, steady)]))

const figures = (year: number, status: FilingStatus, facts: Partial<HouseholdYear>, taxTable = false) => {
  const people = status === 'married_joint' ? 2 : 1
  const household = { ...emptyHouseholdYear(), status: statusIndex(status), people, age: [45, 45], ...facts }
  return fileReturn(laws.get(year)!, household, { taxTable }).figures
}

describe('deductions', () => {
  test('65 and blind each add to the standard deduction: 16,100 + 2 × 2,050 in 2026, and the senior deduction', () => {
    expect(figures(2026, 'single', { age: [65, 0], blind: [1, 0] }).deduction).toBe(16_100 + 4100 + 6000)
    expect(figures(2029, 'single', { age: [65, 0] }).deduction).toBe(16_600 + 2100)
  })

  test('each of two people loses 6 % of income over 150,000 from the senior deduction', () => {
    const both = { age: [67, 66], iraDistributions: 170_000 }
    expect(figures(2026, 'married_joint', both).deduction).toBe(32_200 + 2 * 1650 + 2 * (6000 - 1200))
    expect(figures(2026, 'married_separate', { age: [67, 0] }).deduction).toBe(16_100 + 1650)
  })

  test('the larger of itemized and standard is taken', () => {
    expect(figures(2026, 'single', { itemized: 16_099 }).deduction).toBe(16_100)
    expect(figures(2026, 'single', { itemized: 16_101 }).deduction).toBe(16_101)
  })

  test('a capital loss is allowed up to 3,000 dollars, 1,500 when separate', () => {
    const loss = { wages: [50_000, 0], longTermGains: -8000, shortTermGains: 1000 }
    expect(figures(2026, 'single', loss).adjustedGrossIncome).toBe(47_000)
    expect(figures(2026, 'married_separate', loss).adjustedGrossIncome).toBe(48_500)
  })
})

describe('a surviving spouse with a child (26 USC 2(a))', () => {
  const family = { wages: [80_000, 0], childrenUnder17: 1, earnedCreditChildren: 1 }

  test('has the joint schedule and standard deduction, and signs alone', () => {
    const alone = figures(2026, 'surviving_spouse', family)
    const joint = figures(2026, 'married_joint', family)
    expect(alone).toMatchObject({ deduction: 32_200, incomeTax: joint.incomeTax, childTaxCredit: 2200 })
    // 80,000 − 32,200 = 47,800: 2,480 + 12 % of 23,000. A head of household pays 1,770 + 12 % of 38,150 on 55,850.
    expect(alone.incomeTax).toBe(5240)
    expect(figures(2026, 'head_of_household', family).incomeTax).toBe(6348)
    expect(figures(2026, 'surviving_spouse', { ...family, age: [66, 0] }).deduction).toBe(
      32_200 + 1650 + 6000 - 300,
    )
  })

  test('has the lines of an unmarried person where the law names a joint return alone', () => {
    const { childTaxCredit } = figures(2026, 'surviving_spouse', { ...family, wages: [201_000, 0] })
    expect(childTaxCredit).toBe(2150)
    const benefits = { socialSecurity: 20_000, iraDistributions: 20_000, childrenUnder17: 1 }
    expect(figures(2026, 'surviving_spouse', benefits).taxableSocialSecurity).toBe(2500)
    const pay = { ...family, wages: [30_000, 0] }
    expect(figures(2026, 'surviving_spouse', pay).earnedIncomeCredit).toBe(
      figures(2026, 'head_of_household', pay).earnedIncomeCredit,
    )
  })
})

describe('taxes', () => {
  test('gains stack on ordinary income: nothing to 98,900, then 15 %', () => {
    const couple = { wages: [62_200, 0], longTermGains: 80_000 }
    const { taxableIncome, incomeTax } = figures(2026, 'married_joint', couple)
    // Ordinary 30,000: 2,480 + 12 % of 5,200; gains: 68,900 at nothing, 11,100 at 15 %.
    expect(taxableIncome).toBe(110_000)
    expect(incomeTax).toBeCloseTo(2480 + 624 + 1665, 2)
  })

  test('the Tax Table looks up the middle of the row', () => {
    // 43,910 lies in the row 43,900 to 43,950: 1,240 + 12 % of (43,925 − 12,400) = 5,023.
    expect(figures(2026, 'single', { wages: [60_010, 0] }, true).incomeTax).toBe(5023)
    expect(figures(2026, 'single', { wages: [60_010, 0] }).incomeTax).toBeCloseTo(5021.2, 2)
  })

  test('with the exemption gone the minimum tax takes the standard deduction back: 20 % of 16,100', () => {
    const { incomeTax, alternativeMinimumTax } = figures(2026, 'single', { longTermGains: 700_000 })
    expect(alternativeMinimumTax).toBeCloseTo(3220, 2)
    expect(incomeTax).toBeCloseTo(496_050 * 0.15 + 138_400 * 0.2 + 3220, 2)
  })

  test('no self-employment tax under net earnings of 400, and none on a loss', () => {
    // 433.13 × 0.9235 = 400.00; 433 × 0.9235 = 399.88.
    expect(figures(2026, 'single', { farmProfit: [433, 0] }).selfEmploymentTax).toBe(0)
    expect(figures(2026, 'single', { farmProfit: [433.13, 0] }).selfEmploymentTax).toBe(61.2)
    expect(figures(2026, 'single', { farmProfit: [-5000, 0] }).selfEmploymentTax).toBe(0)
  })

  test('early withdrawals bear 10 % beside the income tax', () => {
    expect(figures(2026, 'single', { earlyWithdrawalAmount: 5000 })).toMatchObject({
      earlyWithdrawalTax: 500,
      totalTax: 500,
    })
  })
})

describe('optional methods', () => {
  const poor: Partial<HouseholdYear> = { farmProfit: [2000, 0], farmGross: [9000, 0] }

  test('report two thirds of gross farm income, at most four quarters’ worth', () => {
    const used = figures(2026, 'single', { ...poor, farmOptional: [1, 0] })
    expect(used.netSelfEmploymentEarnings[0]).toBe(6000)
    const most = figures(2026, 'single', { ...poor, farmGross: [30_000, 0], farmOptional: [1, 0] })
    expect(most.netSelfEmploymentEarnings[0]).toBe(7560)
  })

  test('are closed when gross and net farm income are both above their lines', () => {
    const rich = { farmProfit: [8186, 0], farmGross: [11_341, 0], farmOptional: [1, 0] }
    expect(figures(2026, 'single', rich).netSelfEmploymentEarnings[0]).toBe(7559.77)
    expect(figures(2026, 'single', { ...rich, farmGross: [11_340, 0] }).netSelfEmploymentEarnings[0]).toBe(
      7560,
    )
  })

  test('the nonfarm method needs net under 72.189 % of gross and shares the maximum with the farm method', () => {
    const both = {
      ...poor,
      farmOptional: [1, 0],
      otherSelfEmployment: [1000, 0],
      nonfarmGross: [6000, 0],
      nonfarmOptional: [1, 0],
    }
    expect(figures(2026, 'single', both).netSelfEmploymentEarnings[0]).toBe(7560)
    const high = { ...both, farmOptional: [0, 0], otherSelfEmployment: [4400, 0] }
    expect(figures(2026, 'single', high).netSelfEmploymentEarnings[0]).toBe(5910.4)
  })

  test('are compared with the regular one: tax, what is owed, and quarters of coverage', () => {
    const household = {
      ...emptyHouseholdYear(),
      ...poor,
      earnedCreditChildren: 2,
      childrenUnder17: 2,
      status: 2,
    }
    const [regular, optional] = compareOptionalMethods(laws.get(2026)!, household)
    expect([regular!.quarters[0], optional!.quarters[0]]).toEqual([0, 3])
    expect(optional!.selfEmploymentTax).toBeGreaterThan(regular!.selfEmploymentTax)
    // More earned income brings more earned income credit: the method can pay for itself.
    expect(optional!.balanceDue).toBeLessThan(regular!.balanceDue)
  })
})

describe('credits', () => {
  test('the saver’s credit follows income and ends with 2026', () => {
    const saver = (adjusted: number) => ({ wages: [adjusted + 3000, 0], traditionalIra: 3000 })
    expect(figures(2026, 'married_joint', saver(52_500)).saversCredit).toBe(600)
    expect(figures(2026, 'married_joint', saver(52_501)).saversCredit).toBe(300)
    expect(figures(2026, 'married_joint', saver(80_501)).saversCredit).toBe(0)
    expect(figures(2029, 'married_joint', saver(52_000)).saversCredit).toBe(0)
  })

  test('the care credit counts costs up to the cap and to what the one who earns least earns', () => {
    const family = { careChildren: 1, careCosts: 5000, childrenUnder17: 1 }
    const credit = (status: Parameters<typeof figures>[1], facts: Parameters<typeof figures>[2]) =>
      figures(2026, status, { ...family, ...facts }).dependentCareCredit
    expect(credit('married_joint', { wages: [60_000, 20_000] })).toBe(1050)
    expect(credit('married_joint', { wages: [60_000, 20_000], careChildren: 2 })).toBe(1750)
    // Self-employment counts after half of its tax: 2,000 less 141.30.
    const half = (2000 * 0.9235 * 0.153) / 2
    expect(credit('married_joint', { wages: [60_000, 0], farmProfit: [0, 2000] })).toBeCloseTo(
      (2000 - half) * 0.35,
      1,
    )
    expect(credit('married_joint', { wages: [60_000, 0] })).toBe(0)
    expect(credit('married_separate', { wages: [60_000, 0] })).toBe(0)
    expect(credit('head_of_household', { wages: [60_000, 0], careChildren: 0 })).toBe(0)
  })

  test('the care credit is used before the child credit, and neither gives back more than the tax', () => {
    const low = figures(2026, 'married_joint', {
      wages: [36_000, 5_000],
      careChildren: 2,
      careCosts: 6000,
      childrenUnder17: 2,
      earnedCreditChildren: 2,
    })
    expect(low.dependentCareCredit).toBe(low.incomeTax)
    expect(low.childTaxCredit).toBe(0)
    expect(low.additionalChildTaxCredit).toBeGreaterThan(0)
  })

  test('the child credit shrinks by 50 dollars for each 1,000 or part of it above 400,000', () => {
    const family = { childrenUnder17: 2, otherDependents: 1 }
    expect(figures(2026, 'married_joint', { ...family, wages: [400_000, 0] }).childTaxCredit).toBe(4900)
    expect(figures(2026, 'married_joint', { ...family, wages: [400_001, 0] }).childTaxCredit).toBe(4850)
  })

  test('with three children social taxes may bring more of the child credit than earnings do', () => {
    // 2026 self-employment 12,000: earned 11,152.22, 15 % of the part over 2,500 is 1,297.83; half tax less the larger
    // earned income credit is nothing, so earnings decide.
    const small = figures(2026, 'head_of_household', {
      farmProfit: [12_000, 0],
      childrenUnder17: 3,
      earnedCreditChildren: 3,
    })
    expect(small.additionalChildTaxCredit).toBeCloseTo(1297.83, 2)
    // Without the earned income credit (investment income), half of 15.3 % of pay decides only above it: pay of 4,000.
    const pay = figures(2026, 'married_joint', {
      wages: [4000, 0],
      interest: 13_000,
      childrenUnder17: 3,
      earnedCreditChildren: 3,
    })
    expect(pay.earnedIncomeCredit).toBe(0)
    expect(pay.additionalChildTaxCredit).toBeCloseTo(306, 2)
  })

  test('no earned income credit above the limit of investment income, when separate, or without children out of 25 to 64', () => {
    const family = { wages: [20_000, 0], childrenUnder17: 1, earnedCreditChildren: 1 }
    expect(figures(2026, 'single', { ...family, interest: 12_200 }).earnedIncomeCredit).toBeGreaterThan(0)
    expect(figures(2026, 'single', { ...family, interest: 12_200.01 }).earnedIncomeCredit).toBe(0)
    expect(figures(2026, 'married_separate', family).earnedIncomeCredit).toBe(0)
    expect(
      [24, 25, 64, 65].map(
        (age) => figures(2026, 'single', { wages: [9000, 0], age: [age, 0] }).earnedIncomeCredit > 0,
      ),
    ).toEqual([false, true, true, false])
  })
})

describe('marketplace cover on the return', () => {
  const covered = { coverMonths: 12, premiumMonthly: 500, benchmarkMonthly: 500 }

  test('an advance above the credit is paid back: up to 375 dollars in 2025, whole from 2026', () => {
    const person = { ...covered, wages: [28_000, 0], advanceMonthly: 480 }
    const [capped, whole] = [figures(2025, 'single', person), figures(2026, 'single', person)]
    expect(capped.povertyPercent).toBe(185)
    expect(capped.excessAdvance).toBe(Math.min(375, 5760 - capped.premiumTaxCredit))
    expect(whole.excessAdvance).toBeCloseTo(5760 - whole.premiumTaxCredit, 2)
    expect(whole.excessAdvance).toBeGreaterThan(1000)
  })

  test('what was not paid in advance comes with the payments', () => {
    const { premiumTaxCredit, totalPayments } = figures(2026, 'single', {
      ...covered,
      wages: [28_000, 0],
      advanceMonthly: 100,
    })
    expect(totalPayments).toBeCloseTo(premiumTaxCredit - 1200, 2)
  })

  test('below the poverty line only an advance paid on a good estimate keeps the credit', () => {
    expect(figures(2026, 'single', { ...covered, wages: [14_000, 0] }).premiumTaxCredit).toBe(0)
    // 2.1 % of 14,000 is the person's own share.
    expect(
      figures(2026, 'single', { ...covered, wages: [14_000, 0], advanceMonthly: 450 }).premiumTaxCredit,
    ).toBe(6000 - 294)
  })

  test('separate filers have none, and months count one by one', () => {
    expect(figures(2026, 'married_separate', { ...covered, wages: [28_000, 0] }).premiumTaxCredit).toBe(0)
    const year = figures(2026, 'single', { ...covered, wages: [28_000, 0] }).premiumTaxCredit
    expect(
      figures(2026, 'single', { ...covered, coverMonths: 6, wages: [28_000, 0] }).premiumTaxCredit,
    ).toBeCloseTo(year / 2, 1)
  })

  test('just above the 400 % line the deduction runs up to it: no credit stands against it (26 CFR 1.162(l)-1(a)(1))', () => {
    const couple = {
      age: [55, 55],
      coverMonths: 12,
      deductibleMonths: 12,
      premiumMonthly: 1900,
      benchmarkMonthly: 1800,
    }
    const [near, over] = [115_000, 116_000].map((profit) =>
      figures(2026, 'married_joint', { ...couple, farmProfit: [profit, 0] }),
    )
    // Net earnings 106,202.50, self-employment tax 13,169.11 + 3,079.87, half 8,124.49: 106,875.51 before the deduction,
    // and the line is 4 × 21,150 = 84,600. At 84,600 a credit of 21,600 − 8,426.16 would leave 9,626.16 to deduct.
    expect(near).toMatchObject({
      selfEmployedHealthDeduction: 22_275.5,
      adjustedGrossIncome: 84_600.01,
      premiumTaxCredit: 0,
    })
    expect(over!.selfEmployedHealthDeduction).toBe(22_800)
    expect(over!.balanceDue).toBeGreaterThan(near!.balanceDue)
  })

  test('a separate return has no credit, so none lowers its health deduction (26 USC 36B(c)(1)(C), 162(l))', () => {
    // Net earnings 16,623, tax 2,543.32, half 1,271.66: 16,728.34, less the whole 6,000 of premiums.
    const farmer = { ...covered, farmProfit: [18_000, 0], deductibleMonths: 12 }
    expect(figures(2026, 'married_separate', farmer)).toMatchObject({
      selfEmployedHealthDeduction: 6000,
      adjustedGrossIncome: 10_728.34,
      premiumTaxCredit: 0,
    })
  })

  test('a plan without a benchmark has no credit to keep: its premiums are deducted under the federal poverty level too', () => {
    const farmer = { ...covered, benchmarkMonthly: 0, farmProfit: [18_000, 0], deductibleMonths: 12 }
    expect(figures(2026, 'single', farmer).selfEmployedHealthDeduction).toBe(6000)
    // With one, 2.1 % of income is the household's own: d = 0.021 × (16,728.34 − d) is 344.07, and the credit pays the rest.
    const kept = figures(2026, 'single', { ...farmer, benchmarkMonthly: 500 })
    expect(kept.selfEmployedHealthDeduction).toBeCloseTo(344.07, 1)
    expect(kept.premiumTaxCredit).toBeCloseTo(5655.93, 1)
  })

  test('other health premiums come off first, within the earned income of the business', () => {
    const farmer = { farmProfit: [3000, 0], otherHealthPremiums: 5000 }
    // 3,000 less half of 423.88.
    expect(figures(2026, 'single', farmer).selfEmployedHealthDeduction).toBe(2788.06)
    expect(
      figures(2026, 'single', { ...farmer, farmProfit: [0, 0], wages: [30_000, 0] })
        .selfEmployedHealthDeduction,
    ).toBe(0)
  })
})

test('cautions are said only where they matter', () => {
  const file = (facts: Partial<HouseholdYear>, year = 2026) =>
    fileReturn(laws.get(year)!, { ...emptyHouseholdYear(), ...facts }).cautions.join(' ')
  expect(file({ wages: [40_000, 0] })).toBe('')
  expect(file({ wages: [40_000, 0] }, 2029)).toContain('not fully published')
  expect(file({ longTermGains: -9000 })).toContain('capital loss above the yearly limit')
  expect(file({ farmProfit: [-300_000, 0] })).toContain('461(l)')
  expect(file({ wages: [300_000, 0], itemized: 40_000 })).toContain('Alternative minimum tax might apply')
})
