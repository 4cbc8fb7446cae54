// `estimate --kind social-security`: from an earnings record to the monthly benefit, with spouse, survivor, earnings test and quarters.
import { z } from 'zod'
import { yearIn } from '#calendar/month.ts'
import {
  averageWageIndex,
  bendPoints,
  costOfLivingPercent,
  delayedCreditRate,
  earlyReduction,
  earningsTestAmounts,
  quarterOfCoverageAmount,
} from '#rules/data/social-security.ts'
import { steadyIndexing } from '#rules/dated.ts'
import type { Trace } from '#rules/return/trace.ts'
import { downToDime, downToDollar } from '#rules/rounding.ts'
import { type BenefitLaw, benefitLaw, firstLawYear } from '#rules/social-security/benefit-law.ts'
import {
  benefitBirthYear,
  claimFactor,
  earliestClaimAgeMonths,
  factorUntilJanuary,
  fullRetirementAgeMonths,
} from '#rules/social-security/claim-factors.ts'
import { coverageStanding } from '#rules/social-security/coverage.ts'
import { monthsGivenBack, withheldOf } from '#rules/social-security/earnings-test.ts'
import {
  adjusted,
  type EarningsRecord,
  type PrimaryAmount,
  primaryAmount,
} from '#rules/social-security/primary-amount.ts'
import { familyFigures, familyInput, familyTrace } from './estimate-family-benefits.ts'
import { farmYearFigures, farmYearSchema, farmYearTrace } from './estimate-farm-year.ts'
import { claimAgeInput, dayInput, dollarsInput, factLine, growthPercentInput } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

const schema = z.strictObject({
  born: dayInput(),
  earnings: z
    .record(
      z.string().regex(/^(19[5-9]|20|21)\d+$/, 'Name each amount by its year, like "2020"'),
      dollarsInput(),
    )
    .refine((years) => Object.keys(years).length > 0, 'List covered earnings by year, like {"2020": 45000}'),
  claimAge: claimAgeInput(),
  ...familyInput,
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
  children            ["2016-04-02"] (optional): days of birth of the children, for what they and a parent who cares for
                      them are paid while this person lives, and after a death
  diesIn              2031 (optional): the year of a death: what the family is then paid on this record, in that year
  workWhileClaiming   earnings in the first full year after the claim, for the earnings test (optional)
  farmYear            {"year":2026,"netProfit":2500,"grossIncome":14000} (optional): what that year counts under the
                      regular and the farm optional method: covered earnings, tax, quarters, dollars a month later
  inflationPercent    prices past the published years (2.5); wageGrowthPercent: average wages (3.5)

Prints, dollars a month unless named otherwise: claimYear, quarters, insured, averageIndexedMonthlyEarnings, bendPoints,
primaryInsuranceAmount, claimFactor, monthlyBenefit, paidMonthly (before Medicare), firstMonthsFactor, spousePart,
survivorBenefit, familyMaximum, eachChild, afterDeath, withheldInYear, farmYear, basis, trace.

Example: {"born":"1964-05-02","earnings":{"2012":31000,"2013":32000,"2014":33500,"2015":34000,"2016":36000,"2017":37500,"2018":39000,"2019":40000,"2020":38000,"2021":42000,"2022":45000,"2023":47000},"claimAge":{"years":67}}`,
  run: (input) => {
    const claim = claimOf(input)
    const indexing = steadyIndexing(input.inflationPercent / 100, input.wageGrowthPercent / 100)
    const lastYear = Math.max(
      2035,
      claim.year + 2,
      lastYearOf(input),
      input.farmYear?.year ?? 0,
      (input.diesIn ?? 0) + 2,
    )
    const law = benefitLaw(lastYear, indexing)
    const history = new Map(Object.entries(input.earnings).map(([year, amount]) => [Number(year), amount]))
    const bornYear = benefitBirthYear(input.born)
    const record = recordOf(law, bornYear, history)
    const standing = coverageStanding(law, record, claim.year)
    const insured = standing.quarters >= standing.needed
    const worked = { ...primaryAmount(law, record, claim.year) }
    const amount = insured ? worked.amount : 0
    const factor = claimFactor(bornYear, claim.ageMonths)
    const monthly = downToDime(amount * factor)
    const family = familyFigures(input, law, record, claim.month, insured ? worked : null)
    const test = testFigures(input, law, claim, monthly)
    const farmYear = input.farmYear && farmYearFigures(law, record, input.farmYear, indexing)
    const year = Math.max(worked.eligibleYear - 2, claim.year - 1, (input.diesIn ?? 0) - 2)
    return {
      basis: year >= law.firstProjectedWageYear + 2 ? 'projected' : 'enacted',
      claimYear: claim.year,
      quarters: standing.quarters,
      insured,
      averageIndexedMonthlyEarnings: worked.average,
      bendPoints: [worked.firstBend, worked.secondBend],
      primaryInsuranceAmount: amount,
      claimFactor: factor,
      firstMonthsFactor: factorUntilJanuary(bornYear, claim.ageMonths, claim.monthOfYear),
      monthlyBenefit: monthly,
      paidMonthly: downToDollar(monthly),
      ...family,
      ...test,
      ...(farmYear ? { farmYear } : {}),
      trace: [
        ...traceOf(input, law, worked, standing.quarters, factor, monthly),
        ...familyTrace(input, family),
        ...testTrace(input, test),
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
  const bornMonth = yearIn(input.born) * 12 + Number(input.born.slice(5, 7)) - 1
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

const testFigures = (input: Input, law: BenefitLaw, claim: ReturnType<typeof claimOf>, monthly: number) => {
  if (input.workWhileClaiming === undefined) return {}
  const bornYear = benefitBirthYear(input.born)
  const fullYear = Math.floor((claim.month - claim.ageMonths + fullRetirementAgeMonths(bornYear)) / 12)
  const year = claim.year + 1
  const withheld =
    year > fullYear ? 0 : withheldOf(law, year, year === fullYear, input.workWhileClaiming, monthly * 12)
  return {
    withheldInYear: Math.round(withheld * 100) / 100,
    monthsGivenBack: monthsGivenBack(withheld, monthly),
  }
}

const traceOf = (
  input: Input,
  law: BenefitLaw,
  worked: PrimaryAmount,
  quarters: number,
  factor: number,
  monthly: number,
): Trace => [
  factLine('quarters', quarters, quarterOfCoverageAmount, { yearsWithEarnings: worked.yearsWithEarnings }),
  factLine('averageIndexedMonthlyEarnings', worked.average, averageWageIndex, {
    indexedTo: worked.eligibleYear - 2,
    yearsCounted: worked.yearsCounted,
    sumOfHighest: worked.sumOfHighest,
  }),
  factLine('primaryInsuranceAmount', worked.atEligibility, bendPoints, {
    averageMonthly: worked.average,
    firstBendPoint: worked.firstBend,
    secondBendPoint: worked.secondBend,
  }),
  ...adjustments(law, worked, claimOf(input).year).map((step) =>
    factLine('primaryInsuranceAmount', step.amount, costOfLivingPercent, {
      adjustmentOf: step.year,
      percent: step.percent,
    }),
  ),
  factLine('monthlyBenefit', monthly, factor > 1 ? delayedCreditRate : earlyReduction, {
    claimAgeYears: input.claimAge.years,
    claimAgeMonths: input.claimAge.months,
    factor,
  }),
]

const adjustments = (law: BenefitLaw, { eligibleYear, atEligibility }: PrimaryAmount, year: number) => {
  let amount = atEligibility
  return Array.from({ length: Math.max(0, year - eligibleYear) }, (_, k) => {
    const costOfLiving = law.costOfLiving[eligibleYear + k - law.firstYear]!
    amount = adjusted(amount, costOfLiving)
    return { year: eligibleYear + k, percent: Math.round(costOfLiving * 1000) / 10, amount }
  })
}

const testTrace = (input: Input, test: { withheldInYear?: number }): Trace =>
  input.workWhileClaiming === undefined
    ? []
    : [
        factLine('withheldInYear', test.withheldInYear!, earningsTestAmounts, {
          earnings: input.workWhileClaiming,
        }),
      ]
