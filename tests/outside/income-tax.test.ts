// Published and fixture returns, table rows and single rules of the federal income tax, each with its source and its own tolerance.
import { describe, expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { type FilingStatus, statusIndex } from '#rules/filing-status.ts'
import { emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { type LawYear, lawFor } from '#rules/law.ts'
import { earnedIncomeCredit } from '#rules/return/earned-income-credit.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { tableTax } from '#rules/return/income-tax.ts'
import { netInvestmentIncomeTax } from '#rules/return/other-taxes.ts'
import { qualifiedBusinessDeduction } from '#rules/return/qualified-business.ts'
import { selfEmploymentTax } from '#rules/return/self-employment-tax.ts'
import { taxableBenefits } from '#rules/return/taxable-benefits.ts'
import { law2018, law2021, law2022 } from './older-law.ts'

const [law2025, law2026] = [2025, 2026].map((year) => lawFor(year, steadyIndexing(0))) as [LawYear, LawYear]

const household = (status: FilingStatus, facts: Partial<HouseholdYear>): HouseholdYear => ({
  ...emptyHouseholdYear(),
  status: statusIndex(status),
  people: status === 'married_joint' ? 2 : 1,
  age: [40, status === 'married_joint' ? 40 : 0],
  ...facts,
})

/** The sources' "income tax": after nonrefundable and refundable credits, apart from payroll taxes. */
const incomeTaxAfterCredits = (law: LawYear, facts: HouseholdYear): number => {
  const { figures } = fileReturn(law, facts)
  return (
    figures.incomeTax -
    figures.childTaxCredit -
    figures.dependentCareCredit -
    figures.saversCredit -
    figures.additionalChildTaxCredit -
    figures.earnedIncomeCredit
  )
}

const near = (actual: number, expected: number, tolerance: number): void =>
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance + 1e-9)

describe('Social Security benefits', () => {
  // IRS Pub. 17 (2025) ch. 7, the worksheet of Pub. 915, examples 1 and 2; tolerance 0.50.
  test('single, half of the excess is taxed: 2,990 (Pub. 915 example 1)', () => {
    const facts = household('single', {
      socialSecurity: 5980,
      iraDistributions: 18_600,
      wages: [9400, 0],
      interest: 990,
    })
    near(fileReturn(law2025, facts).figures.taxableSocialSecurity, 2990, 0.5)
  })

  test('joint, under the base: nothing is taxed (Pub. 915 example 2)', () => {
    const facts = household('married_joint', {
      socialSecurity: 5600,
      iraDistributions: 15_500,
      wages: [14_000, 0],
      interest: 250,
      traditionalIra: 1000,
    })
    near(fileReturn(law2025, facts).figures.taxableSocialSecurity, 0, 0.5)
  })

  // Fixtures on 26 USC 86 of an open rules encoding (rulespec-us), tolerance 0.01.
  test.for([
    { status: 'single', benefits: 10_000, other: 14_000, taxed: 0 },
    { status: 'married_joint', benefits: 12_000, other: 35_000, taxed: 4500 },
    { status: 'single', benefits: 20_000, other: 40_000, taxed: 17_000 },
  ] as const)('$status with $benefits beside $other: $taxed is taxed (26 USC 86 fixtures)', (row) => {
    const taxed = taxableBenefits(law2026, statusIndex(row.status), row.benefits * 100, row.other * 100)
    near(taxed / 100, row.taxed, 0.01)
  })
})

describe('self-employment tax', () => {
  const assess = (law: LawYear, net: number, wages = 0) =>
    selfEmploymentTax(law, {
      wages: wages * 100,
      farmProfit: net * 100,
      otherProfit: 0,
      useFarmOptional: false,
      farmGross: 0,
      useNonfarmOptional: false,
      nonfarmGross: 0,
    })

  // Fixtures on 26 USC 1401-1402 of an open rules encoding (rulespec-us), tolerance 0.01.
  test.for([
    { net: 50_000, wages: 0, tax: 7064.775, social: 5725.7, medicare: 1339.075 },
    { net: 120_000, wages: 0, tax: 16_955.46 },
    { net: 300_000, wages: 0, tax: 30_912.45, social: 22_878, medicare: 8034.45 },
    { net: 120_000, wages: 100_000, tax: 13_691.78, social: 10_478, medicare: 3213.78 },
    { net: 400, wages: 0, tax: 0 },
  ])('2026 profit $net beside wages $wages: $tax (26 USC 1401-1402 fixtures)', (row) => {
    const result = assess(law2026, row.net, row.wages)
    near(result.tax / 100, row.tax, 0.01)
    if (row.social !== undefined) near(result.socialSecurityPart / 100, row.social, 0.01)
    if (row.medicare !== undefined) near(result.medicarePart / 100, row.medicare, 0.01)
  })

  // IRS Pub. 517 (2007) and Pub. 560 (2004) sample forms in whole dollars, tolerance 0.50 of a rounded line.
  test('2007 profit of 44,044: net earnings 40,675, tax 6,223, half 3,112 (Pub. 517 sample return)', () => {
    const result = assess({ ...law2025, wageBase: 97_500 }, 44_044)
    near(result.netEarnings / 100, 40_675, 0.5)
    near(result.tax / 100, 6223, 0.5)
    near(result.half / 100, 3112, 0.5)
  })

  test('2004 profit of 200,000 over the base of 87,900: tax 16,256, half 8,128 (Pub. 560 sample forms)', () => {
    const result = assess({ ...law2025, wageBase: 87_900 }, 200_000)
    near(result.netEarnings / 100, 184_700, 0.5)
    near(result.tax / 100, 16_256, 0.5)
    near(result.half / 100, 8128, 0.5)
  })
})

describe('full returns', () => {
  test('2018 couple with benefits, high wages and three children (PolicyEngine US test file, unit 6)', () => {
    // Child care costs of 8,000 for the two of 12: a credit of 1,200. Tolerance 0.01.
    const facts = household('married_joint', {
      wages: [172_000, 114_000],
      socialSecurity: 47_000,
      childrenUnder17: 2,
      otherDependents: 1,
      careChildren: 2,
      careCosts: 8000,
    })
    const { figures } = fileReturn(law2018, facts)
    near(figures.taxableSocialSecurity, 39_950, 0.01)
    near(figures.adjustedGrossIncome, 325_950, 0.01)
    near(figures.taxableIncome, 301_950, 0.01)
    near(figures.incomeTax, 61_047, 0.01)
    near(figures.childTaxCredit, 4500, 0.01)
    near(figures.dependentCareCredit, 1200, 0.01)
    near(figures.incomeTax - figures.childTaxCredit - figures.dependentCareCredit, 55_347, 0.01)
    const withheld = 128_400 * 0.062 + 114_000 * 0.062 + 286_000 * 0.0145
    near(withheld + figures.additionalMedicareTax, 19_499.8, 0.01)
  })

  test('2021 single, 67, one business, deduction capped by income (TAXSIM-35 of 2022-12-02)', () => {
    const { figures } = fileReturn(
      law2021,
      household('single', { age: [67, 0], otherSelfEmployment: [136_010, 0] }),
    )
    near(figures.selfEmploymentTax, 19_217.6, 0.01)
    near(figures.adjustedGrossIncome, 126_401.2, 0.01)
    near(figures.taxableIncome + figures.qbiDeduction, 112_151.2, 0.01)
    near(figures.qbiDeduction, 22_430.24, 0.01)
    near(figures.incomeTax, 15_554.03, 0.01)
  })

  // Tax-Calculator 2026 current-law case outputs, tolerance 0.01. Income tax after refundable credits.
  test.for([
    { status: 'single', wages: [30_000, 0], kids: 0, standard: 16_100, taxable: 13_900, tax: 1420 },
    { status: 'single', wages: [60_000, 0], kids: 0, standard: 16_100, taxable: 43_900, tax: 5020 },
    { status: 'single', wages: [460_000, 0], kids: 0, standard: 16_100, taxable: 443_900, tax: 124_134.25 },
    {
      status: 'married_joint',
      wages: [30_000, 30_000],
      kids: 2,
      standard: 32_200,
      taxable: 27_800,
      tax: -2802.3,
    },
    {
      status: 'married_joint',
      wages: [120_000, 120_000],
      kids: 2,
      standard: 32_200,
      taxable: 207_800,
      tax: 30_740,
    },
    {
      status: 'head_of_household',
      wages: [30_000, 0],
      kids: 1,
      standard: 24_150,
      taxable: 5850,
      tax: -5065.62,
    },
    {
      status: 'head_of_household',
      wages: [120_000, 0],
      kids: 1,
      standard: 24_150,
      taxable: 95_850,
      tax: 11_788,
    },
  ] as const)('2026 $status, wages $wages, $kids children: $tax (Tax-Calculator cases)', (row) => {
    const facts = household(row.status, {
      wages: [...row.wages],
      childrenUnder17: row.kids,
      earnedCreditChildren: row.kids,
    })
    const { figures } = fileReturn(law2026, facts)
    near(figures.deduction, row.standard, 0.01)
    near(figures.taxableIncome, row.taxable, 0.01)
    near(incomeTaxAfterCredits(law2026, facts), row.tax, 0.01)
  })

  test('2026 parts of the credits: 1,560 and 1,242.30 joint, 1,615 and 3,450.62 head of household (Tax-Calculator cases)', () => {
    const joint = fileReturn(
      law2026,
      household('married_joint', { wages: [30_000, 30_000], childrenUnder17: 2, earnedCreditChildren: 2 }),
    ).figures
    near(joint.childTaxCredit, 2840, 0.01)
    near(joint.additionalChildTaxCredit, 1560, 0.01)
    near(joint.earnedIncomeCredit, 1242.3, 0.01)
    const head = fileReturn(
      law2026,
      household('head_of_household', { wages: [30_000, 0], childrenUnder17: 1, earnedCreditChildren: 1 }),
    ).figures
    near(head.additionalChildTaxCredit, 1615, 0.01)
    near(head.earnedIncomeCredit, 3450.62, 0.01)
  })

  test('2026 single with wages of 460,000: additional Medicare tax within payroll tax of 38,558 (Tax-Calculator cases)', () => {
    const { figures } = fileReturn(law2026, household('single', { wages: [460_000, 0] }))
    near(184_500 * 0.124 + 460_000 * 0.029 + figures.additionalMedicareTax, 38_558, 0.01)
  })

  // Tax-Calculator 2022 current-law case outputs, tolerance 0.01.
  test.for([
    { status: 'single', wages: 30_000, kids: 0, tax: 1840.5 },
    { status: 'single', wages: 60_000, kids: 0, tax: 5968 },
    { status: 'single', wages: 460_000, kids: 0, tax: 130_220.5 },
    { status: 'married_joint', wages: 60_000, kids: 2, tax: -319 },
    { status: 'married_joint', wages: 120_000, kids: 2, tax: 7936 },
    { status: 'married_joint', wages: 240_000, kids: 2, tax: 35_055 },
    { status: 'head_of_household', wages: 30_000, kids: 1, tax: -3095.77 },
    { status: 'head_of_household', wages: 60_000, kids: 1, tax: 2579 },
    { status: 'head_of_household', wages: 120_000, kids: 1, tax: 14_480 },
  ] as const)('2022 $status, wages $wages, $kids children: $tax (Tax-Calculator cases)', (row) => {
    const facts = household(row.status, {
      wages: [row.wages, 0],
      childrenUnder17: row.kids,
      earnedCreditChildren: row.kids,
    })
    near(incomeTaxAfterCredits(law2022, facts), row.tax, 0.01)
  })
})

describe('earned income credit', () => {
  test('2026, one child, 10,000 of wages: 3,400 (26 USC 32 fixture of rulespec-us)', () => {
    const facts = household('single', { wages: [10_000, 0], earnedCreditChildren: 1, childrenUnder17: 1 })
    near(fileReturn(law2026, facts).figures.earnedIncomeCredit, 3400, 0.01)
  })

  // Form 1040 (2025) instructions, EIC table: rows at least … but less than, for 0 to 3 children. Exact.
  const rows: [number, number[], number[]][] = [
    [8450, [649, 2882, 3390, 3814], [649, 2882, 3390, 3814]],
    [10_650, [645, 3630, 4270, 4804], [649, 3630, 4270, 4804]],
    [12_700, [488, 4328, 5090, 5726], [649, 4328, 5090, 5726]],
    [17_800, [98, 4328, 7130, 8021], [642, 4328, 7130, 8021]],
    [17_850, [94, 4328, 7152, 8046], [638, 4328, 7152, 8046]],
  ]
  test.for(rows)('2025 EIC table row from %d (Form 1040 instructions)', ([from, other, joint]) => {
    for (const income of [from, from + 49.99]) {
      for (const [status, credits] of [
        [0, other],
        [1, joint],
        [2, other],
      ] as const) {
        const found = credits.map((_, children) =>
          earnedIncomeCredit(
            law2025,
            status,
            {
              children,
              ageAllows: true,
              earnedIncome: Math.round(income * 100),
              adjustedGrossIncome: Math.round(income * 100),
              investmentIncome: 0,
            },
            true,
          ),
        )
        expect(found.map((cents) => cents / 100)).toEqual(credits)
      }
    }
  })
})

describe('tax tables and schedules', () => {
  // Form 1040 (2025) instructions, Tax Table: single, joint, separate, head of household. Exact.
  test.for([
    [81_600, [12_872, 9318, 12_872, 11_133]],
    [90_000, [14_720, 10_326, 14_720, 12_981]],
    [96_950, [16_249, 11_163, 16_249, 14_510]],
    [99_950, [16_909, 11_823, 16_909, 15_170]],
  ] as [number, number[]][])('2025 Tax Table row from %d (Form 1040 instructions)', ([from, taxes]) => {
    for (const income of [from, from + 25, from + 49.99]) {
      const found = [0, 1, 3, 2].map((status) => tableTax(law2025, status, Math.round(income * 100)) / 100)
      expect(found).toEqual(taxes)
    }
  })

  test('every base amount of the 2026 schedules is the printed one (Rev. Proc. 2025-32 sec. 4.01)', () => {
    expect(law2026.ordinaryTaxAtStart.slice(0, 4)).toEqual([
      [0, 1240, 5800, 17_966, 41_024, 58_448, 192_979.25],
      [0, 2480, 11_600, 35_932, 82_048, 116_896, 206_583.5],
      [0, 1770, 7740, 16_155, 39_207, 56_631, 191_171],
      [0, 1240, 5800, 17_966, 41_024, 58_448, 103_291.75],
    ])
  })
})

describe('single rules', () => {
  // 26 USC 199A fixtures of rulespec-us with the thresholds of Rev. Proc. 2025-32 sec. 4.26, tolerance 0.01.
  test.for([
    { status: 'single', income: 80_000, wages: 40_000, before: 60_000, deduction: 12_000 },
    { status: 'single', income: 100_000, wages: 50_000, before: 150_000, deduction: 20_000 },
    { status: 'married_joint', income: 150_000, wages: 60_000, before: 250_000, deduction: 30_000 },
    { status: 'single', income: 200_000, wages: 30_000, before: 239_250, deduction: 27_500 },
    { status: 'single', income: 300_000, wages: 0, before: 276_751, deduction: 0 },
  ] as const)(
    '2026 business income $income at $before: deduction $deduction (26 USC 199A fixtures)',
    (row) => {
      const business = {
        income: row.income * 100,
        activeIncome: 0,
        wagesPaid: row.wages * 100,
        property: 0,
        taxableBefore: row.before * 100,
        gains: 0,
      }
      near(qualifiedBusinessDeduction(law2026, statusIndex(row.status), business) / 100, row.deduction, 0.01)
    },
  )

  // 26 USC 1411 fixtures of rulespec-us, tolerance 0.01.
  test.for([
    { status: 'single', income: 170_000, investment: 20_000, tax: 0 },
    { status: 'single', income: 230_000, investment: 40_000, tax: 1140 },
    { status: 'married_joint', income: 300_000, investment: 100_000, tax: 1900 },
    { status: 'married_separate', income: 180_000, investment: 30_000, tax: 1140 },
    { status: 'married_joint', income: 300_000, investment: 60_000, tax: 1900 },
  ] as const)('$status with $investment of $income: $tax (26 USC 1411 fixtures)', (row) => {
    const tax = netInvestmentIncomeTax(
      law2026,
      statusIndex(row.status),
      row.investment * 100,
      row.income * 100,
    )
    near(tax / 100, row.tax, 0.01)
  })
})
