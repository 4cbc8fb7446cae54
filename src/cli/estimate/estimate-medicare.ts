// `estimate --kind medicare`: what one person pays for Medicare in a year, from the income of two years before.
import { z } from 'zod'
import {
  incomeLinesJoint,
  incomeLinesSeparate,
  incomeLinesSingle,
  lateEnrollment,
  partAFullPremium,
  partBStandardPremium,
  partDBasePremium,
} from '#rules/data/medicare.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { filingStatuses } from '#rules/filing-status.ts'
import { medicareColumn, medicareCost } from '#rules/medicare/medicare-cost.ts'
import { dollarsInput, factLine, growthPercentInput, yearInput } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

const schema = z.strictObject({
  premiumYear: yearInput(),
  filingStatus: z.enum(filingStatuses, { error: `Enter one of: ${filingStatuses.join(', ')}` }),
  income: dollarsInput(),
  livedTogether: z.boolean().default(true),
  quarters: z.number({ error: 'Enter quarters of coverage, like 40' }).int().min(0).max(400).default(40),
  partBYearsLate: z.number().int().min(0).max(50).default(0),
  partDMonthsLate: z.number().int().min(0).max(600).default(0),
  partDPlanMonthly: dollarsInput().optional(),
  inflationPercent: growthPercentInput(2.5),
  premiumGrowthPercent: growthPercentInput(5),
})

const linesByColumn = [incomeLinesSingle, incomeLinesJoint, incomeLinesSeparate] as const

export const medicareKind = estimateKind({
  schema,
  help: `medicare: premiums of one person in a year

  premiumYear           year of the premium; the income is that of the return two years before
  filingStatus          of that return: single, married_joint, head_of_household, married_separate or surviving_spouse
  income                adjusted gross income plus tax-exempt interest of that return, dollars
  livedTogether         married_separate only: lived with the spouse in that year (true)
  quarters              of coverage, own or the spouse's, for Part A (40)
  partBYearsLate, partDMonthsLate   late enrollment (0; the rule is from memory)
  partDPlanMonthly      the drug plan's own premium; left out: the national base premium
  inflationPercent      for income lines past the published years (2.5); premiumGrowthPercent: for premiums (5)

Prints, dollars a month: partA, partB, partBAddition, partBLate, partDPlan, partDAddition, partDLate, monthly; yearly;
returnYear, tier (0 to 5), nextTier {income, addsMonthly}, deductibles, basis, trace.

Example: {"premiumYear":2026,"filingStatus":"married_joint","income":230000}`,
  run: (input) => {
    const growth = 1 + input.premiumGrowthPercent / 100
    const { projected, ...cost } = medicareCost(
      {
        premiumYear: input.premiumYear,
        status: input.filingStatus,
        livedTogether: input.livedTogether,
        income: input.income,
        quarters: input.quarters,
        partBYearsLate: input.partBYearsLate,
        partDMonthsLate: input.partDMonthsLate,
        ...(input.partDPlanMonthly === undefined ? {} : { partDPlanMonthly: input.partDPlanMonthly }),
      },
      steadyIndexing(input.inflationPercent / 100),
      (year) => growth ** (year - 2026),
    )
    const lines = linesByColumn[medicareColumn(input.filingStatus, input.livedTogether)]
    const late = cost.partBLate + cost.partDLate
    return {
      basis: projected ? 'projected' : 'enacted',
      ...cost,
      trace: [
        factLine('partA', cost.partA, partAFullPremium, { quarters: input.quarters }),
        factLine('partB', cost.partB, partBStandardPremium, { premiumYear: input.premiumYear }),
        factLine('partBAddition', cost.partBAddition, lines, {
          income: input.income,
          returnYear: cost.returnYear,
          tier: cost.tier,
        }),
        factLine('partDPlan', cost.partDPlan, partDBasePremium, { premiumYear: input.premiumYear }),
        factLine('partDAddition', cost.partDAddition, lines, { income: input.income, tier: cost.tier }),
        ...(late > 0
          ? [
              factLine('partBLate', late, lateEnrollment, {
                partBYearsLate: input.partBYearsLate,
                partDMonthsLate: input.partDMonthsLate,
              }),
            ]
          : []),
      ],
    }
  },
})
