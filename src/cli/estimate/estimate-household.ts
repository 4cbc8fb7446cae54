// The JSON a yearly estimate reads: its schema, and what no single key shows to be wrong.
import { z } from 'zod'
import { filingStatuses, regions } from '#rules/filing-status.ts'
import { stateCodes } from '#rules/places/state-names.ts'
import { averagingInput } from './estimate-averaging.ts'
import { withdrawalInput } from './estimate-withdrawals.ts'

const most = 1_000_000_000
const number = z.number({ error: 'Enter dollars as a number, like 1234.56' })
/** Gains and losses alike. */
const signed = number.min(-most, 'That is too small').max(most, 'That is too large')
const money = number.min(0, 'Enter 0 or more').max(most, 'That is too large')
const perPerson = (amount: typeof money) =>
  z
    .array(amount, { error: 'Enter a list with one amount for each person, like [30000, 0]' })
    .max(2, 'Enter at most two amounts')
const age = z
  .number({ error: 'Enter the age at the end of the year, like 45' })
  .int('Enter the age in whole years')
  .min(0, 'Enter an age of 0 or more')
  .max(130, 'Enter an age up to 130')
const choice = z.enum(['no', 'yes'], { error: 'Enter "no" or "yes"' })
const flag = z.boolean({ error: 'Enter true or false' })
const months = z
  .number({ error: 'Enter months, 0 to 12' })
  .int('Enter whole months')
  .min(0, 'Enter months, 0 to 12')
  .max(12, 'Enter months, 0 to 12')

const income = z.strictObject({
  wages: perPerson(money).default([]),
  farmProfit: perPerson(signed).default([]),
  farmGross: perPerson(money).optional(),
  otherSelfEmployment: perPerson(signed).default([]),
  otherSelfEmploymentGross: perPerson(money).optional(),
  interest: money.default(0),
  ordinaryDividends: money.default(0),
  qualifiedDividends: money.default(0),
  longTermGains: signed.default(0),
  shortTermGains: signed.default(0),
  section1231: signed.default(0),
  iraDistributions: money.default(0),
  socialSecurity: money.default(0),
  secondIraDistributions: money.default(0),
  secondSocialSecurity: money.default(0),
  pensions: perPerson(money).default([]),
  taxExemptInterest: money.default(0),
  businessGains: signed.default(0),
  otherIncome: signed.default(0),
  dependentsIncome: money.default(0),
  businessWages: money.default(0),
  businessProperty: money.default(0),
})

const deductions = z.strictObject({
  itemized: money.default(0),
  traditionalIra: money.default(0),
  rothIra: money.default(0),
  sep: money.default(0),
  simple: money.default(0),
  solo401k: money.default(0),
  hsa: money.default(0),
  coveredAtWork: z
    .array(flag, { error: 'Enter a list with true or false for each person' })
    .max(2)
    .optional(),
  earlyWithdrawalAmount: money.default(0),
})

/**
 * Left by other years. `capitalLoss` is all of it, `capitalLossShortTerm` the short-term part; so is `farmLoss` of `netOperatingLoss`.
 * `carriedBack` is a farming loss of a later year, on top.
 */
const carryforwards = z
  .strictObject({
    netOperatingLoss: money.default(0),
    farmLoss: money.default(0),
    carriedBack: money.default(0),
    qualifiedBusiness: money.default(0),
    capitalLoss: money.default(0),
    capitalLossShortTerm: money.default(0),
    section179: money.default(0),
  })
  .refine((carried) => carried.farmLoss <= carried.netOperatingLoss, {
    error:
      'The farming part is a part of netOperatingLoss; enter no more than that. A loss that a later year carries back to this one is carriedBack',
    path: ['farmLoss'],
  })
  .refine((carried) => carried.capitalLossShortTerm <= carried.capitalLoss, {
    error: 'The short-term part is a part of capitalLoss; enter no more than that',
    path: ['capitalLossShortTerm'],
  })

const dependentCare = z.strictObject({ costs: money })

const twelve = z.array(money).length(12, 'List twelve amounts, January first, 0 in a month without coverage')

const cover = z.strictObject({
  premiums: twelve.optional(),
  benchmarks: twelve.optional(),
  months: months.default(0),
  deductibleMonths: months.optional(),
  premiumMonthly: money.default(0),
  benchmarkMonthly: money.default(0),
  advanceMonthly: money.default(0),
  otherHealthPremiums: money.default(0),
  medicaidExpansion: flag.default(false),
})

const options = z.strictObject({
  taxTable: flag.default(false),
  farmOptionalMethod: choice.default('no'),
  nonfarmOptionalMethod: choice.default('no'),
  inflationPercent: number.min(-5, 'Enter -5 or more').max(20, 'Enter 20 or less').default(2.5),
})

const person = z.strictObject({ age, blind: flag.default(false) })
const dependent = z.strictObject({ age, student: flag.default(false) })

export const estimateSchema = z
  .strictObject({
    taxYear: z.number({ error: 'Enter the tax year, like 2026' }).int('Enter a whole year').max(2150),
    filingStatus: z.enum(filingStatuses, { error: `Enter one of: ${filingStatuses.join(', ')}` }),
    region: z.enum(regions, { error: `Enter one of: ${regions.join(', ')}` }).optional(),
    state: z.enum(stateCodes, { error: 'Enter the two letters of a state, like "PA"' }).optional(),
    propertyTax: money.default(0),
    rent: money.default(0),
    localRate: number.min(0, 'Enter 0 or more').max(0.5, 'Enter a share, like 0.01 for 1 percent').default(0),
    people: z
      .array(person, { error: 'List the people who sign, like [{"age":45},{"age":43}]' })
      .min(1, 'List at least one person')
      .max(2, 'At most two people sign a return'),
    dependents: z.array(dependent).max(30, 'List at most 30').default([]),
    income: income.prefault({}),
    deductions: deductions.prefault({}),
    farmAveraging: averagingInput.optional(),
    withdrawals: z.array(withdrawalInput).max(12, 'List at most 12').default([]),
    carryforwards: carryforwards.prefault({}),
    payments: z.strictObject({ withheld: money.default(0), estimated: money.default(0) }).prefault({}),
    cover: cover.prefault({}),
    dependentCare: dependentCare.optional(),
    options: options.prefault({}),
  })
  .superRefine((input, context) => {
    for (const fault of crossFaults(input)) context.addIssue({ code: 'custom', ...fault })
  })

export type EstimateInput = z.output<typeof estimateSchema>

type Fault = { path: (string | number)[]; message: string }

/** Amounts of both people, and the second one's part of them. */
const secondParts = [
  ['iraDistributions', 'secondIraDistributions'],
  ['socialSecurity', 'secondSocialSecurity'],
] as const

/** What no single key shows: amounts of a second person on a one-person return, dividends, months. */
const crossFaults = (input: {
  filingStatus: string
  state?: string | undefined
  localRate: number
  people: unknown[]
  income: z.output<typeof income>
  cover: z.output<typeof cover>
}): Fault[] => {
  const faults: Fault[] = []
  const joint = input.filingStatus === 'married_joint'
  if (!joint && input.people.length > 1) {
    faults.push({ path: ['people'], message: 'Only married_joint has two people; list the one who signs' })
  }
  const lists = [
    'wages',
    'farmProfit',
    'farmGross',
    'otherSelfEmployment',
    'otherSelfEmploymentGross',
    'pensions',
  ] as const
  for (const key of lists) {
    if (!joint && (input.income[key]?.[1] ?? 0) !== 0) {
      faults.push({
        path: ['income', key, 1],
        message: 'There is no second person on this return; enter 0 or leave it out',
      })
    }
  }
  for (const [whole, part] of secondParts)
    if (input.income[part] > (joint ? input.income[whole] : 0))
      faults.push({
        path: ['income', part],
        message: joint
          ? `The second person’s is a part of ${whole}; enter no more than that`
          : 'There is no second person on this return; enter 0 or leave it out',
      })
  if (input.localRate > 0 && input.state === undefined)
    faults.push({
      path: ['localRate'],
      message: 'Name the state: what local tax applies to differs by state',
    })
  if (input.income.qualifiedDividends > input.income.ordinaryDividends) {
    faults.push({
      path: ['income', 'qualifiedDividends'],
      message: 'Qualified dividends are a part of ordinary dividends; enter no more than those',
    })
  }
  return [...faults, ...coverFaults(input.cover)]
}

type Cover = z.output<typeof cover>

const coverFaults = (given: Cover): Fault[] => {
  const faults: Fault[] = []
  const { premiums, benchmarks } = given
  if ((premiums === undefined) !== (benchmarks === undefined))
    faults.push({
      path: ['cover', premiums ? 'benchmarks' : 'premiums'],
      message: 'List premiums and benchmarks both, twelve of each',
    })
  if (premiums && (given.months > 0 || given.premiumMonthly > 0))
    faults.push({
      path: ['cover', 'premiums'],
      message: 'Months one by one take the place of months and premiumMonthly; leave those out',
    })
  const covered = premiums?.filter((premium) => premium > 0).length ?? given.months
  if ((given.deductibleMonths ?? 0) > covered) {
    faults.push({ path: ['cover', 'deductibleMonths'], message: 'Enter no more than the months of cover' })
  }
  return faults
}
