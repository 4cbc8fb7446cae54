// `estimate --kind premium`: premiums by age from one known premium, the family total, and the credit at an income.
import { z } from 'zod'
import { federalAgeCurve } from '#rules/data/age-curve.ts'
import * as marketplace from '#rules/data/marketplace.ts'
import { childFactor, familyTiers, stateAgeCurves } from '#rules/data/state-age-curves.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { regionIndex, regions } from '#rules/filing-status.ts'
import { lawFor } from '#rules/law.ts'
import { silverValueAt } from '#rules/marketplace/cost-sharing.ts'
import { ageFactor, ageRating, familyPremium } from '#rules/marketplace/premium-by-age.ts'
import {
  applicableHundredths,
  type Cover,
  creditAt,
  medicaidLineCents,
  povertyLineCents,
  wholePercent,
  yearlyContribution,
} from '#rules/marketplace/premium-credit.ts'
import type { Trace } from '#rules/return/trace.ts'
import { inDollars, wholeCents } from '#rules/rounding.ts'
import { estimateKind } from './estimate-kind.ts'

const age = z
  .number({ error: 'Enter an age in whole years, like 45' })
  .int('Enter an age in whole years')
  .min(0, 'Enter an age of 0 or more')
  .max(130, 'Enter an age up to 130')
const money = z.number({ error: 'Enter dollars as a number, like 520.5' }).min(0, 'Enter 0 or more').max(1e9)

const schema = z.strictObject({
  taxYear: z.number({ error: 'Enter a year, like 2026' }).int('Enter a whole year'),
  state: z
    .string()
    .regex(
      /^([A-Z]{2})?$/,
      'Enter the two letters of the state, like PA, or leave it out for the federal curve',
    )
    .default(''),
  region: z.enum(regions, { error: `Enter one of: ${regions.join(', ')}` }).default('contiguous'),
  covered: z.array(z.strictObject({ age })).min(1, 'List at least one covered person, like [{"age":45}]'),
  known: z.strictObject({ age, premiumMonthly: money }),
  benchmark: z.strictObject({ age, premiumMonthly: money }).optional(),
  householdIncome: money.optional(),
  householdSize: z.number().int().min(1, 'Enter 1 or more people').max(30).optional(),
  inflationPercent: z.number().min(-5).max(20).default(2.5),
})

export const premiumKind = estimateKind({
  schema,
  help: `premium: marketplace premiums by age, and the credit at an income

  taxYear            year of cover
  state              two letters; left out: the federal age curve
  region             contiguous, alaska or hawaii (federal poverty level)
  covered            [{"age":45},{"age":43},{"age":8}]: ages at the start of the policy year
  known              {"age":45,"premiumMonthly":520}: one premium of the plan at one age, dollars a month
  benchmark          the same for the second-lowest-cost silver plan; left out: the plan itself
  householdIncome    dollars a year, for the credit (optional)
  householdSize      people on the tax return; left out: the covered people
  inflationPercent   for years past the published law (2.5)

Prints: rating, premiumMonthly, perPerson, benchmarkMonthly, and with an income povertyLine, povertyPercent,
applicablePercent, yearlyContribution, premiumTaxCredit, netPremiumMonthly, silverValue, medicaidLine, trace.

Example: {"taxYear":2026,"covered":[{"age":45},{"age":43}],"known":{"age":45,"premiumMonthly":520},"householdIncome":60000}`,
  run: (input) => {
    const ages = input.covered.map((person) => person.age)
    const people = ages.map((years) => ({ age: years, isDependent: years < 21 }))
    const plan = familyPremium(input.known, people, input.state, input.taxYear)
    const benchmark = input.benchmark
      ? familyPremium(input.benchmark, people, input.state, input.taxYear)
      : plan
    const premiums = {
      rating: ageRating(input.state, input.taxYear),
      premiumMonthly: plan.total,
      perPerson: ages.map((years, place) => ({
        age: years,
        factor: ageFactor(input.state, years, input.taxYear),
        premiumMonthly: plan.perPerson[place]!,
      })),
      benchmarkMonthly: benchmark.total,
    }
    const trace = [premiumLine(input.state, plan.total, ages, input.known)]
    if (input.householdIncome === undefined) return { ...premiums, trace }
    const credit = creditFor(input, input.householdIncome, plan.total, benchmark.total)
    return { ...premiums, ...credit.figures, trace: [...trace, ...credit.trace] }
  },
})

const premiumLine = (
  state: string,
  total: number,
  ages: readonly number[],
  known: { age: number; premiumMonthly: number },
): Trace[number] => {
  const facts = {
    none: familyTiers,
    own: stateAgeCurves,
    'federal but children': childFactor,
    federal: federalAgeCurve,
  }
  const { rule, source } = facts[ageRating(state, Number.POSITIVE_INFINITY)]
  return {
    figure: 'premiumMonthly',
    amount: total,
    rule,
    source: `${source}; family rule 45 CFR 147.102(c)`,
    inputs: {
      state: state || 'federal curve',
      ages: ages.join(', '),
      knownAge: known.age,
      knownPremium: known.premiumMonthly,
    },
  }
}

const creditFor = (
  input: z.output<typeof schema>,
  householdIncome: number,
  premiumMonthly: number,
  benchmarkMonthly: number,
) => {
  const law = lawFor(input.taxYear, steadyIndexing(input.inflationPercent / 100))
  const region = regionIndex(input.region)
  const size = input.householdSize ?? input.covered.length
  const income = wholeCents(householdIncome)
  const cover: Cover = {
    povertyLine: povertyLineCents(law, region, size),
    medicaidLine: 0,
    months: 12,
    premium: wholeCents(premiumMonthly) * 12,
    benchmark: wholeCents(benchmarkMonthly) * 12,
    advance: 0,
    creditAllowed: 1,
    byMonth: null,
    repaymentSingle: 0,
  }
  const percent = wholePercent(income, cover.povertyLine)
  const credit = creditAt(law, cover, income)
  const figures = {
    basis: law.basis,
    povertyLine: inDollars(cover.povertyLine),
    povertyPercent: percent,
    applicablePercent: applicableHundredths(law, percent) / 100,
    yearlyContribution: inDollars(yearlyContribution(law, income, cover.povertyLine)),
    premiumTaxCredit: inDollars(credit),
    netPremiumMonthly: inDollars(Math.round((cover.premium - credit) / 12)),
    silverValue: silverValueAt(law, income, cover.povertyLine),
    medicaidLine: inDollars(medicaidLineCents(law, region, size)),
  }
  const trace: Trace = [
    line('povertyLine', figures.povertyLine, marketplace.povertyFirst, {
      size,
      region: input.region,
      guidelinesOf: law.year - 1,
    }),
    line('premiumTaxCredit', figures.premiumTaxCredit, marketplace.applicablePercentage, {
      householdIncome,
      povertyPercent: percent,
      applicablePercent: figures.applicablePercent,
      premium: inDollars(cover.premium),
      benchmark: inDollars(cover.benchmark),
    }),
    line('silverValue', figures.silverValue, marketplace.costSharing, { povertyPercent: percent }),
    line('medicaidLine', figures.medicaidLine, marketplace.medicaidPercent, {
      size,
      percent: law.medicaidPercent,
    }),
  ]
  return { figures, trace }
}

const line = (
  figure: string,
  amount: number,
  { rule, source }: { rule: string; source: string },
  inputs: Trace[number]['inputs'],
): Trace[number] => ({ figure, amount, rule, source, inputs })
