// `estimate --kind coverage`: who is covered by what at a household income, by the rules of the state, and what the county's marketplace
// charges the rest.
import { z } from 'zod'
import { coverageKinds, medicare, marketplace as onMarketplace } from '#rules/coverage/coverage-kinds.ts'
import { coverageLimits, limitSource } from '#rules/coverage/coverage-limits.ts'
import { measureFor, programFor } from '#rules/coverage/measure.ts'
import { makesParents, medicareAge, standingOf } from '#rules/coverage/program-of.ts'
import { unbornAdded, unbornCounts } from '#rules/coverage/unborn.ts'
import { povertyFirst } from '#rules/data/marketplace.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { regionIndex } from '#rules/filing-status.ts'
import { lawFor } from '#rules/law.ts'
import { memberFactors } from '#rules/marketplace/premium-by-age.ts'
import {
  type Cover,
  creditAt,
  povertyLineCents,
  programPovertyLine,
} from '#rules/marketplace/premium-credit.ts'
import { countyNamed, regionOf } from '#rules/places/counties.ts'
import { countyPremiums, premiumSource } from '#rules/places/county-premiums.ts'
import { stateCodes } from '#rules/places/state-names.ts'
import type { Trace } from '#rules/return/trace.ts'
import { inDollars, wholeCents } from '#rules/rounding.ts'
import { CommandError } from '../command.ts'
import { estimateKind } from './estimate-kind.ts'

const schema = z.strictObject({
  taxYear: z.number({ error: 'Enter a year, like 2026' }).int('Enter a whole year'),
  state: z.enum(stateCodes, { error: 'Enter the two letters of the state, like PA' }),
  county: z.string({ error: 'Enter the county, like Erie County' }).optional(),
  people: z
    .array(
      z.strictObject({
        age: z.number({ error: 'Enter an age, like 45, or 0.5' }).min(0, 'Enter 0 or more').max(130),
        dependent: z.boolean({ error: 'Enter true or false' }).default(false),
        pregnant: z.boolean({ error: 'Enter true or false' }).default(false),
        expecting: z.number().int().min(1, 'Enter 1 or more children').max(8).default(1),
      }),
    )
    .min(1, 'List at least one person, like [{"age":45}]'),
  householdIncome: z.number({ error: 'Enter dollars a year, like 40000' }).max(1e9),
  householdSize: z.number().int().min(1, 'Enter 1 or more people').max(30).optional(),
  unbornForOthers: z.enum(unbornCounts, { error: `Enter one of: ${unbornCounts.join(', ')}` }).default('one'),
  inflationPercent: z.number().min(-5).max(20).default(2.5),
})

export const coverageKind = estimateKind({
  schema,
  help: `coverage: who is covered by what at an income, on January 1, and the county's premiums for the rest

  taxYear            year of coverage
  state, county      two letters, and the county as the state calls it; without a county no premiums
  people             [{"age":45},{"age":8,"dependent":true}]: ages on January 1; "pregnant": true where so, with "expecting" (1);
                     from 65 on Medicare covers, so that no credit is for them (26 USC 36B(c)(2)(B))
  householdIncome    dollars a year, as the premium tax credit counts it
  householdSize      people on the tax return; left out: the people listed
  unbornForOthers    how the state counts one who is pregnant for the others: "one", "two" or "expected" ("one")
  inflationPercent   for years past the published law (2.5)

Prints: percentOfPoverty (by the guidelines of the year), limits, people with coveredBy, and with a county premiumYear (the last
published year up to taxYear), benchmarkMonthly, bronzeMonthly, premiumTaxCredit on the benchmark plan, trace.

Example: {"taxYear":2026,"state":"PA","county":"Erie","people":[{"age":45},{"age":8,"dependent":true}],"householdIncome":40000}`,
  run: (input) => {
    const law = lawFor(input.taxYear, steadyIndexing(input.inflationPercent / 100))
    const region = regionIndex(regionOf(input.state))
    const size = input.householdSize ?? input.people.length
    const line = programPovertyLine(law, region, size)
    const percent = (input.householdIncome * 100) / line
    const limits = coverageLimits(input.state, `${input.taxYear}-01`)
    const isParent = input.people.some(({ age, dependent }) => dependent && makesParents(age * 12))
    const measure = measureFor(law, region, size, input.state)
    const unbornFor = (asked: (typeof input.people)[number]) =>
      input.people.reduce(
        (sum, one) =>
          sum + unbornAdded(one.pregnant ? one.expecting : 0, one === asked, input.unbornForOthers),
        0,
      )
    const people = input.people.map((person) => ({
      ...person,
      coveredBy:
        coverageKinds[
          person.age * 12 >= medicareAge
            ? medicare
            : programFor(
                limits,
                standingOf(person.age * 12, !person.dependent && isParent, person.pregnant),
                percent,
                percent,
                unbornFor(person),
                measure,
              )
        ]!,
    }))
    const trace: Trace = [
      {
        figure: 'limits',
        amount: Math.round(percent * 100) / 100,
        rule: 'household income in percent of the poverty level against each program’s limit',
        source: `${povertyFirst.source}; ${limitSource('adult')}`,
        inputs: { line, householdIncome: input.householdIncome },
      },
    ]
    const figures = { percentOfPoverty: Math.round(percent * 100) / 100, limits, people }
    if (input.county === undefined) return { ...figures, trace }
    const premiums = premiumsFor(input, law, region, size, people)
    return { ...figures, ...premiums.figures, trace: [...trace, ...premiums.trace] }
  },
})

const premiumsFor = (
  input: z.output<typeof schema>,
  law: ReturnType<typeof lawFor>,
  region: number,
  size: number,
  people: readonly { age: number; dependent: boolean; coveredBy: string }[],
) => {
  const county = countyNamed(input.state, input.county!)
  if (county === null)
    throw new CommandError(`county: ${input.state} has no county called ${input.county}`, 2)
  const place = { state: input.state, county }
  const rest = people.filter((one) => one.coveredBy === coverageKinds[onMarketplace])
  const rated = rest.map(({ age, dependent }) => ({ age: Math.floor(age), isDependent: dependent }))
  const factor = memberFactors(input.state, rated, input.taxYear).reduce((sum, one) => sum + one, 0)
  const monthly = (plan: 'benchmark' | 'bronze') => {
    const known = countyPremiums(plan, place).findLast(({ year }) => year <= input.taxYear)
    return known && { year: known.year, dollars: wholeCents(known.at21 * factor) / 100 }
  }
  const benchmark = monthly('benchmark')
  if (!benchmark) return { figures: { premiumYear: null }, trace: [] }
  const yearly = wholeCents(benchmark.dollars) * 12
  const cover: Cover = {
    povertyLine: povertyLineCents(law, region, size),
    medicaidLine: 0,
    months: rest.length > 0 ? 12 : 0,
    premium: yearly,
    benchmark: yearly,
    advance: 0,
    creditAllowed: 1,
    byMonth: null,
    repaymentSingle: 0,
  }
  return {
    figures: {
      premiumYear: benchmark.year,
      benchmarkMonthly: benchmark.dollars,
      bronzeMonthly: monthly('bronze')?.dollars ?? null,
      premiumTaxCredit: inDollars(creditAt(law, cover, wholeCents(input.householdIncome))),
    },
    trace: [
      {
        figure: 'benchmarkMonthly',
        amount: benchmark.dollars,
        rule: 'benchmark plan of the county’s rating area for those whom no program covers',
        source: premiumSource('benchmark'),
        inputs: { county, premiumYear: benchmark.year, factor: Math.round(factor * 1000) / 1000 },
      },
    ] satisfies Trace,
  }
}
