// `dooryard estimate`: the federal return with marketplace cover of one household and year, or one subject by `--kind`, as JSON.
import { parseArgs } from 'node:util'
import { contributionFaults, deductibleTraditionalIra } from '#rules/contribution-check.ts'
import { type Indexing, RuleYearError, steadyIndexing } from '#rules/dated.ts'
import { coverMethods, type HouseholdYear } from '#rules/household-year.ts'
import { type LawYear, lawFor } from '#rules/law.ts'
import { compareOptionalMethods } from '#rules/return/compare-optional-methods.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import type { Trace } from '#rules/return/trace.ts'
import { stateLawFor } from '#rules/states/state-law.ts'
import { type Command, CommandError } from '#src/cli/command.ts'
import { readJson } from '#src/cli/read-json.ts'
import { readFileOrInput } from '#src/cli/read-text.ts'
import { describeHousehold, printedCarryforwards } from './describe-household.ts'
import { averagingHelp, averagingOf } from './estimate-averaging.ts'
import { type EstimateInput, estimateSchema } from './estimate-household.ts'
import type { EstimateKind } from './estimate-kind.ts'
import { estimateKinds } from './estimate-kinds.ts'

const kindNames = Object.keys(estimateKinds).join(', ')

export const estimateCommand: Command = {
  name: 'estimate',
  summary: 'Works out a federal return with marketplace coverage, or one subject of it, from JSON.',
  help: `dooryard estimate FILE|-
dooryard estimate --kind KIND FILE|-     KIND: ${kindNames}
dooryard estimate --kind KIND --help     its input and output

Reads JSON (a file, or - for the input) and prints JSON. Dollars a year unless said. Unknown keys and bad values are named by key, exit code 2.

Input, all but taxYear, filingStatus and people optional:
  taxYear        2024 or later; past 2026 the law is carried forward by options.inflationPercent and marked
  filingStatus   single, married_joint, head_of_household, married_separate, surviving_spouse (with a child, in the two
                 years after a spouse's death)
  region         contiguous, alaska, hawaii: whose federal poverty level counts; by default the state’s
  state          two letters, like "PA": adds stateIncomeTax; localRate is a part (0.01 is 1 percent) of what local income
                 tax applies to there; propertyTax and rent of the home in the year, for the state’s credits
  people         [{"age":45,"blind":false}]: those who sign, age at the end of the year
  dependents     [{"age":8,"student":false}]
  income         per person: wages, farmProfit, otherSelfEmployment, pensions (of former employers), and farmGross, otherSelfEmploymentGross for the
                 optional methods; interest, ordinaryDividends (with the qualified), qualifiedDividends, longTermGains,
                 shortTermGains, section1231 (net gain or loss on business property held long enough), businessGains (the ordinary
                 part of such sales), iraDistributions, socialSecurity (and of both the second person’s: secondIraDistributions,
                 secondSocialSecurity), taxExemptInterest, otherIncome, dependentsIncome,
                 businessWages, businessProperty (limits of the qualified business deduction at high income)
  deductions     itemized, traditionalIra, rothIra (saver's credit only), sep, simple, solo401k (plans of the own
                 business), hsa, earlyWithdrawalAmount; contributions
                 over the year's limits are refused. coveredAtWork: [false, true] by person, for the IRA deduction
  withdrawals    [{"from":"ira"|"workPlan"|"roth"|"hsa","amount":9000,"age":56.5}], on top of income.iraDistributions: with
                 contributionsLeft (roth: what comes out free), leftWorkInYearOfAge (workPlan: free of the addition from 55), forCare (hsa: what paid for care is free of tax)
                 evenPayment (true: one of a series of substantially equal payments) secondPerson (true)
                 and inherited (true: no addition at any age, and no Pennsylvania tax)
  ${averagingHelp}
  carryforwards  left by other years, each 0 or more: netOperatingLoss (farmLoss: the farming part of it, not on top),
                 carriedBack (a farming loss of a later year, on top), qualifiedBusiness, capitalLoss (capitalLossShortTerm: the
                 short-term part of it), section179
  payments       withheld, estimated
  cover          months, premiumMonthly, benchmarkMonthly, advanceMonthly, deductibleMonths, otherHealthPremiums; or, where the
                 months differ, premiums and benchmarks: twelve each, 0 in a month without coverage;
                 medicaidExpansion (true: no credit at or under the Medicaid line)
  dependentCare  {"costs":4800}: paid for care of dependents under 13 so that everyone can work; adds dependentCareCredit
  options        taxTable, farmOptionalMethod ("no", "yes"), nonfarmOptionalMethod, inflationPercent (2.5)

Output: incomeTax is the tax on taxable income with any minimum tax, before credits; totalTax is after nonrefundable
credits with all other taxes; premiumTaxCredit is the whole credit, advance included; totalPayments holds withheld and
estimated tax, refundable credits and the premium credit beyond the advance; balanceDue above 0 is owed.
carryforwards: what this year leaves to others, under the names of the input, so that it can be the input of the next year as it
stands. farmLoss is the part of netOperatingLoss that may instead be carried back two years, as their carriedBack; carriedBack is
what this year could not use of that.
stateIncomeTax: by the state’s own return with local tax, refundable credits taken off (below zero the state pays); in none of
the federal figures.
method: how the health deduction and the premium credit were found (${coverMethods.join(', ')}).
trace: rule, source and inputs of every figure, then what was assumed or left out.

An estimate, not advice: rules differ by place and change. Check with a licensed tax preparer or the agency.`,
  helpFor: async (args) => {
    const { kind } = readArguments(args)
    return kind === undefined ? null : (await kindOf(kind)).help
  },
  run: async (args, io) => {
    const { file, kind: name } = readArguments(args)
    const kind = name === undefined ? null : await kindOf(name)
    if (file === undefined)
      throw new CommandError(
        `Name one JSON file, or - for the input: dooryard estimate ${name === undefined ? '' : `--kind ${name} `}FILE`,
        2,
      )
    const text = await readFileOrInput(file, io)
    const result = withYearFaults(() =>
      kind ? kind.run(readJson(kind.schema, text) as never) : estimate(readJson(estimateSchema, text)),
    )
    io.out(JSON.stringify(result, null, 2))
    return 0
  },
}

const readArguments = (args: readonly string[]) => {
  const { values, positionals } = parseArgs({
    args: [...args],
    options: { kind: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
    allowPositionals: true,
  })
  if (positionals.length > 1) throw new CommandError('Name one file only.', 2)
  return { file: positionals[0], kind: values.kind }
}

const kindOf = async (name: string): Promise<EstimateKind> => {
  const load = Object.hasOwn(estimateKinds, name) ? estimateKinds[name] : undefined
  if (!load) throw new CommandError(`There is no kind “${name}”. Use one of: ${kindNames}`, 2)
  return load()
}

/** A year without law is the user's to mend: the rule and the year are named. */
const withYearFaults = <Result>(work: () => Result): Result => {
  try {
    return work()
  } catch (error) {
    if (error instanceof RuleYearError) throw new CommandError(`taxYear: ${error.message}`, 2)
    throw error
  }
}

/** Figures under the names of the output, in dollars, with their trace. */
export const estimate = (input: EstimateInput) => {
  const indexing = steadyIndexing(input.options.inflationPercent / 100)
  const law = lawFor(input.taxYear, indexing)
  const { household, assumed } = describeHousehold(input, law)
  household.averaging = averagingOf(input.farmAveraging, input.taxYear, indexing)
  limitContributions(input, law, household, indexing, assumed)
  if (input.state) household.state = stateLawFor(input.state, input.taxYear, indexing, input.localRate)
  const { figures, trace, cautions, state } = fileReturn(law, household, {
    taxTable: input.options.taxTable,
  })
  const { alternativeMinimumTax, netSelfEmploymentEarnings, medicareIncome, netPremium, method, ...rest } =
    figures
  const { dependentCareCredit, netOperatingLossDeduction, averagedFarmIncome, carried, ...others } = rest
  const { stateIncomeTax: _, localIncomeTax: ___, preferredIncome: __, healthSavingsTax, ...shown } = others
  return {
    ...shown,
    ...(input.dependentCare ? { dependentCareCredit } : {}),
    ...(input.farmAveraging ? { averagedFarmIncome } : {}),
    ...(household.healthSavingsTaxed > 0 ? { healthSavingsTax } : {}),
    ...(netOperatingLossDeduction > 0 ? { netOperatingLossDeduction } : {}),
    ...(state ? { stateIncomeTax: state.tax } : {}),
    carryforwards: printedCarryforwards(carried, input.carryforwards.carriedBack),
    method: coverMethods[method]!,
    trace: [
      ...trace,
      ...(state?.trace ?? []),
      methodLine(coverMethods[method]!),
      ...compareOptionalMethods(law, household).map(optionalMethodLine),
      basisLine(input, law.basis),
      ...[...assumed, ...cautions, ...(state?.cautions ?? [])].map(noteLine),
    ],
  }
}

/** Contributions over a limit are told at their field; of a traditional IRA only what may be deducted is. */
const limitContributions = (
  input: EstimateInput,
  law: LawYear,
  household: HouseholdYear,
  indexing: Indexing,
  assumed: string[],
): void => {
  const faults = contributionFaults(law, household, input.deductions, indexing)
  if (faults.length > 0)
    throw new CommandError(faults.map(({ field, says }) => `deductions.${field}: ${says}`).join('\n'), 2)
  const covered = input.deductions.coveredAtWork ?? household.age.map(() => household.sep > 0)
  const deductible = deductibleTraditionalIra(law, household, covered, indexing)
  const rest = household.traditionalIra - deductible
  if (rest <= 0) return
  assumed.push(
    `deductions.traditionalIra: ${deductible} of ${household.traditionalIra} may be deducted at this income beside a plan at work (26 USC 219(g))`,
  )
  household.traditionalIra = deductible
  // What is not deducted counts for the saver's credit alone, as a Roth contribution does.
  household.rothIra += rest
}

const methodLine = (method: string): Trace[number] => ({
  figure: 'method',
  amount: 0,
  rule: `deduction and credit: ${method}`,
  source: 'Rev. Proc. 2014-41, 26 CFR 1.162(l)-1',
  inputs: {},
})

const optionalMethodLine = (outcome: ReturnType<typeof compareOptionalMethods>[number]): Trace[number] => ({
  figure: 'selfEmploymentTax by method',
  amount: outcome.selfEmploymentTax,
  rule: `self-employment tax, ${outcome.method} method`,
  source: '26 USC 1402(a), (l), Schedule SE Part II',
  inputs: {
    balanceDue: outcome.balanceDue,
    netEarnings: outcome.netEarnings.join(', '),
    quartersOfCoverage: outcome.quarters.join(', '),
  },
})

const basisLine = (input: EstimateInput, basis: string): Trace[number] => ({
  figure: 'basis',
  amount: input.taxYear,
  rule: basis === 'enacted' ? 'law published for the year' : 'law carried past its last published year',
  source: 'see dooryard sources',
  inputs: { inflationPercent: input.options.inflationPercent },
})

const noteLine = (text: string): Trace[number] => ({
  figure: 'note',
  amount: 0,
  rule: text,
  source: 'this estimate',
  inputs: {},
})
