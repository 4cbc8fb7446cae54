// `estimate --kind social-security`: from an earnings record to the monthly benefit, with spouse, survivor, earnings test and quarters.
import { z } from 'zod'
import { Decimal } from '#money/decimal.ts'
import {
  averageWageIndex,
  bendPoints,
  costOfLivingPercent,
  delayedCreditRate,
  earlyReduction,
  earningsTestAmounts,
  familyShares,
  quarterOfCoverageAmount,
} from '#rules/data/social-security.ts'
import { steadyIndexing } from '#rules/dated.ts'
import type { Trace } from '#rules/return/trace.ts'
import { benefitLaw, firstLawYear } from '#rules/social-security/benefit-law.ts'
import {
  type BenefitLaw,
  type EarningsRecord,
  fullRetirementAgeMonths,
} from '#rules/social-security/benefits.ts'
import {
  benefitBirthYear,
  claimTerms,
  earliestClaimAgeMonths,
  spousePart,
  survivorBenefit,
  workerBenefit,
} from '#rules/social-security/claim.ts'
import { coverageStanding } from '#rules/social-security/coverage.ts'
import { earningsTest } from '#rules/social-security/earnings-test.ts'
import { type PrimaryAmount, primaryAmount } from '#rules/social-security/primary-amount.ts'
import { farmYearFigures, farmYearSchema, farmYearTrace } from './estimate-farm-year.ts'
import { dayInput, dollarsInput, factLine, growthPercentInput } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

const claimAge = z.strictObject({
  years: z
    .number({ error: 'Enter years, like 67' })
    .int()
    .min(62, 'A retirement benefit starts at 62')
    .max(70, 'Waiting past 70 adds nothing'),
  months: z.number().int().min(0).max(11, 'Enter 0 to 11 months').default(0),
})

const schema = z.strictObject({
  born: dayInput(),
  earnings: z
    .record(
      z.string().regex(/^(19[5-9]|20|21)\d+$/, 'Name each amount by its year, like "2020"'),
      dollarsInput(),
    )
    .refine((years) => Object.keys(years).length > 0, 'List covered earnings by year, like {"2020": 45000}'),
  claimAge,
  spouse: z
    .strictObject({ born: dayInput(), ownPrimaryAmount: dollarsInput().default(0), claimAge })
    .optional(),
  workWhileClaiming: dollarsInput().optional(),
  farmYear: farmYearSchema.optional(),
  inflationPercent: growthPercentInput(2.5),
  wageGrowthPercent: growthPercentInput(3.5),
})

type Input = z.output<typeof schema>

export const socialSecurityKind = estimateKind({
  schema,
  help: `social-security: the retirement benefit on an earnings record

  born                "1964-05-02"
  earnings            {"1990":24000,"1991":25500}: covered earnings by year: wages, and net self-employment earnings
                      (profit × 0.9235); years to come as well, in dollars of each year
  claimAge            {"years":67,"months":0}, 62 to 70
  spouse              {"born":"1966-01-10","ownPrimaryAmount":800,"claimAge":{"years":65}} (optional): adds the spouse's
                      part on this record, and what the spouse would be left with as a survivor at full age
  workWhileClaiming   earnings in the first full year after the claim, for the earnings test (optional)
  farmYear            {"year":2026,"netProfit":2500,"grossIncome":14000} (optional): what that year counts under the
                      regular and the farm optional method: covered earnings, tax, quarters, dollars a month later
  inflationPercent    prices past the published years (2.5); wageGrowthPercent: average wages (3.5)

Prints, dollars a month unless named otherwise: claimYear, quarters, insured, averageIndexedMonthlyEarnings, bendPoints,
primaryInsuranceAmount, claimFactor, monthlyBenefit, paidMonthly (before Medicare), firstMonthsFactor, spousePart,
survivorBenefit, withheldInYear, farmYear, basis, trace. The spouse and survivor rules are from memory.

Example: {"born":"1964-05-02","earnings":{"2012":31000,"2013":32000,"2014":33500,"2015":34000,"2016":36000,"2017":37500,"2018":39000,"2019":40000,"2020":38000,"2021":42000,"2022":45000,"2023":47000},"claimAge":{"years":67}}`,
  run: (input) => {
    const claim = claimOf(input)
    const indexing = steadyIndexing(input.inflationPercent / 100, input.wageGrowthPercent / 100)
    const lastYear = Math.max(2035, claim.year + 2, lastYearOf(input), input.farmYear?.year ?? 0)
    const law = benefitLaw(lastYear, indexing)
    const history = new Map(Object.entries(input.earnings).map(([year, amount]) => [Number(year), amount]))
    const bornYear = benefitBirthYear(input.born)
    const record = recordOf(law, bornYear, history)
    const standing = coverageStanding(law, record, claim.year)
    const insured = standing.quarters >= standing.needed
    const worked = primaryAmount(law, bornYear, history, claim.year)
    const amount = insured ? worked.amount : new Decimal(0)
    const terms = claimTerms(bornYear, claim.ageMonths, claim.monthOfYear)
    const paid = workerBenefit(amount, terms.factor)
    const family = spouseFigures(input, amount, terms.factor)
    const test = testFigures(input, law, claim, paid.monthly)
    const farmYear = input.farmYear && farmYearFigures(law, record, input.farmYear, indexing)
    return {
      basis: worked.projected ? 'projected' : 'enacted',
      claimYear: claim.year,
      quarters: standing.quarters,
      insured,
      averageIndexedMonthlyEarnings: worked.averageMonthly,
      bendPoints: worked.bendPoints,
      primaryInsuranceAmount: amount.toNumber(),
      claimFactor: terms.factor,
      firstMonthsFactor: terms.factorUntilJanuary,
      monthlyBenefit: paid.monthly.toNumber(),
      paidMonthly: paid.paidWholeDollars,
      ...family,
      ...test,
      ...(farmYear ? { farmYear } : {}),
      trace: [
        ...traceOf(input, worked, standing.quarters, terms.factor, paid.monthly),
        ...familyTrace(input, family, test),
        ...(farmYear && input.farmYear ? [farmYearTrace(input.farmYear, farmYear)] : []),
      ],
    }
  },
})

/** The month of the claim; a claim at 62 and no months moves to the first month a benefit can be paid for. */
const claimOf = (input: Input) => {
  const ageMonths = Math.max(
    input.claimAge.years * 12 + input.claimAge.months,
    earliestClaimAgeMonths(input.born),
  )
  const bornMonth = Number(input.born.slice(0, 4)) * 12 + Number(input.born.slice(5, 7)) - 1
  const at = bornMonth + ageMonths
  return { ageMonths, year: Math.floor(at / 12), monthOfYear: (at % 12) + 1, month: at }
}

const lastYearOf = (input: Input): number => Math.max(...Object.keys(input.earnings).map(Number))

const recordOf = (
  law: BenefitLaw,
  bornYear: number,
  history: ReadonlyMap<number, number>,
): EarningsRecord => {
  const earnings = new Float64Array(law.lastYear - firstLawYear + 1)
  for (const [year, amount] of history) earnings[year - firstLawYear] = amount
  return { bornYear, earnings }
}

const spouseFigures = (
  input: Input,
  amount: Decimal,
  factor: number,
): { spousePart?: number; survivorBenefit?: number } => {
  if (!input.spouse) return {}
  const { born, ownPrimaryAmount } = input.spouse
  const bornYear = benefitBirthYear(born)
  const ageMonths = input.spouse.claimAge.years * 12 + input.spouse.claimAge.months
  return {
    spousePart: spousePart(new Decimal(String(ownPrimaryAmount)), amount, bornYear, ageMonths).toNumber(),
    survivorBenefit: survivorBenefit(
      amount,
      factor,
      bornYear,
      fullRetirementAgeMonths(bornYear - 2),
    ).toNumber(),
  }
}

const testFigures = (input: Input, law: BenefitLaw, claim: ReturnType<typeof claimOf>, monthly: Decimal) => {
  if (input.workWhileClaiming === undefined) return {}
  const bornYear = benefitBirthYear(input.born)
  const fullYear = Math.floor((claim.month - claim.ageMonths + fullRetirementAgeMonths(bornYear)) / 12)
  const year = claim.year + 1
  const stage = year > fullYear ? 'over' : year === fullYear ? 'year-of' : 'under'
  const result = earningsTest(law, {
    year,
    stage,
    earnings: input.workWhileClaiming,
    benefits: monthly.times(12).toNumber(),
  })
  return { withheldInYear: result.withheld, monthsGivenBack: result.monthsGivenBack }
}

const traceOf = (
  input: Input,
  worked: PrimaryAmount,
  quarters: number,
  factor: number,
  monthly: Decimal,
): Trace => {
  const counted = worked.years.filter((row) => row.counted)
  const late = factor > 1
  return [
    factLine('quarters', quarters, quarterOfCoverageAmount, { yearsWithEarnings: worked.years.length }),
    factLine('averageIndexedMonthlyEarnings', worked.averageMonthly, averageWageIndex, {
      indexedTo: worked.eligibilityYear - 2,
      yearsCounted: counted.length,
      sumOfHighest35: worked.highest35.toNumber(),
    }),
    factLine('primaryInsuranceAmount', worked.atEligibility.toNumber(), bendPoints, {
      averageMonthly: worked.averageMonthly,
      firstBendPoint: worked.bendPoints[0],
      secondBendPoint: worked.bendPoints[1],
    }),
    ...worked.afterAdjustments.map((step) =>
      factLine('primaryInsuranceAmount', step.amount.toNumber(), costOfLivingPercent, {
        adjustmentOf: step.year,
        percent: step.percent,
      }),
    ),
    factLine('monthlyBenefit', monthly.toNumber(), late ? delayedCreditRate : earlyReduction, {
      claimAgeYears: input.claimAge.years,
      claimAgeMonths: input.claimAge.months,
      factor,
    }),
  ]
}

const familyTrace = (
  input: Input,
  family: { spousePart?: number; survivorBenefit?: number },
  test: { withheldInYear?: number },
): Trace => [
  ...(input.spouse
    ? [
        factLine('spousePart', family.spousePart!, familyShares, {
          ownPrimaryAmount: input.spouse.ownPrimaryAmount,
        }),
        factLine('survivorBenefit', family.survivorBenefit!, familyShares, {
          startsAt: 'full age for survivors',
        }),
      ]
    : []),
  ...(input.workWhileClaiming === undefined
    ? []
    : [
        factLine('withheldInYear', test.withheldInYear!, earningsTestAmounts, {
          earnings: input.workWhileClaiming,
        }),
      ]),
]
