// What the year's worksheet takes in, in words, with where each figure comes from.
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { Carryforwards } from '#rules/carryforwards.ts'
import type { HouseholdYear } from '#rules/household-year.ts'

export interface TaxInput {
  label: string
  dollars: number
  /** Where it comes from. */
  says: string
}

/** `names` are of those who sign, in the plan's order. */
export const inputsOf = (
  household: HouseholdYear,
  income: YearIncome,
  names: readonly string[],
): TaxInput[] => [
  {
    label: 'Farm profit, Schedule F line 34',
    dollars: income.farmProfit,
    says: `${household.people > 1 ? splitWords(household, income, names) : 'from the farm’s books'}${before(income)}`,
  },
  payInput(income),
  {
    label: 'Side ventures',
    dollars: income.ventureProfit,
    says: `income less costs of their books${before(income)}`,
  },
  {
    label: 'Interest, with dividends that have no line',
    dollars: income.interest,
    says: `from the books, changes in value left out${before(income)}`,
  },
  ...lineInputs(income.lines),
  ...inheritedInputs(household),
  ...earlyInputs(household),
  {
    label: 'Breeding stock and equipment sold, section 1231 gain or loss',
    dollars: income.sold.section1231,
    says: 'held long enough; no self-employment tax; a loss counts in full',
  },
  {
    label: 'Breeding stock and equipment sold, ordinary part',
    dollars: income.sold.ordinary,
    says: 'depreciation recaptured, or held too short',
  },
  ...personalInputs(income.sold.personal),
  ...savingInputs(household),
  {
    label: 'Federal tax withheld, line 25 (a and b)',
    dollars: household.withheld,
    says: 'from pay, pensions and other income, by the household’s books; the forms of those who paid have the true figure',
  },
  {
    label: 'Estimated payments, line 26',
    dollars: household.estimated,
    says: `from the household’s books, by the year each was paid for${before(income)}`,
  },
  ...(household.fuelTaxCredit === 0
    ? []
    : [
        {
          label: 'Credit for tax on fuel, Form 4136',
          dollars: household.fuelTaxCredit,
          says: 'gallons burned on the farm for farming, as entered for Schedule F, by rates from memory; it is income of line 8 next year',
        },
      ]),
  ...carriedInputs(household.carried),
]

const payInput = (income: YearIncome): TaxInput => ({
  label: 'Pay',
  dollars: income.pay,
  says: `from the household’s books${lessBeforeTax(income)}${before(income)}`,
})

const lessBeforeTax = ({ beforeTax: { premiums, deferred } }: YearIncome): string => {
  const parts = [
    premiums === 0 ? [] : `${formatDollarsAndCents(premiums)} of premiums (26 USC 106)`,
    deferred === 0
      ? []
      : `${formatDollarsAndCents(deferred)} put into a plan at work (26 USC 402(e)(3)), which Social Security taxes`,
  ].flat()
  return parts.length === 0 ? '' : `, less what was taken off before tax: ${allOf(parts)}`
}

/** Whose the farm's profit is, and who said so. */
const splitWords = (
  { farmProfit: [first = 0, second = 0] }: HouseholdYear,
  { owners }: YearIncome,
  names: readonly string[],
): string => {
  const isSaid = owners?.ownership === 'one' || (owners?.firstShare ?? null) !== null
  const said = isSaid ? 'as entered for Schedule F' : 'as the plan says'
  const [one = 'the first person', other = 'the second person'] = names
  return first !== 0 && second !== 0
    ? `${formatDollarsAndCents(first)} is of ${one} and ${formatDollarsAndCents(second)} of ${other}, ${said}`
    : `all of ${second === 0 ? one : other}, ${said}`
}

const personalInputs = ({ longTerm, shortTerm }: YearIncome['sold']['personal']): TaxInput[] => {
  const says =
    'of things used in part for the business, sold: Form 8949; a loss on that part counts for nothing'
  return [
    { label: 'Personal part of things sold, held over a year', dollars: longTerm, says },
    { label: 'Personal part of things sold, held up to a year', dollars: shortTerm, says },
  ].filter(({ dollars }) => dollars !== 0)
}

const lineInputs = (lines: YearIncome['lines']): TaxInput[] => {
  const says = 'by the line of its account in the household’s books'
  return [
    { label: 'Dividends, line 3b', dollars: lines.ordinaryDividends, says },
    { label: 'Of them qualified, line 3a', dollars: lines.qualifiedDividends, says },
    { label: 'Interest that is not taxed, line 2a', dollars: lines.taxExemptInterest, says },
    {
      label: 'Taken from IRAs, line 4b',
      dollars: lines.iraDistributions,
      says: `${says}, and what was taken out of traditional retirement savings`,
    },
    { label: 'Pensions, line 5b', dollars: lines.pensions, says },
    { label: 'Social Security benefits, line 6a', dollars: lines.socialSecurity, says },
    { label: 'Unemployment pay and other taxed income', dollars: lines.other, says },
  ]
}

const inheritedInputs = ({ inheritedIra: [dollars = 0] }: HouseholdYear): TaxInput[] =>
  dollars === 0
    ? []
    : [
        {
          label: 'Of line 4b, from inherited accounts',
          dollars,
          says: 'by accounts of the books that bear the name of an inherited one of the plan; no tax is added at any age (26 USC 72(t)(2)(A)(ii))',
        },
      ]

const earlyInputs = ({ earlyWithdrawalAmount: dollars }: HouseholdYear): TaxInput[] =>
  dollars === 0
    ? []
    : [
        {
          label: 'Of line 4b, taken early, Form 5329 line 1',
          dollars,
          says: 'by its month and the owner’s birthday; what was converted to a Roth account is none (26 USC 408A(d)(3)(A)(ii))',
        },
      ]

const savingInputs = ({ traditionalIra, rothIra, sep, hsa }: HouseholdYear): TaxInput[] => {
  const says = 'put in by the books, as far as the year allows; see contributions'
  return [
    { label: 'Traditional IRAs deducted, Schedule 1 line 20', dollars: traditionalIra, says },
    { label: 'Plans of the own business, Schedule 1 line 16', dollars: sep, says },
    { label: 'Health savings accounts, Schedule 1 line 13', dollars: hsa, says },
    { label: 'Roth IRAs, for the saver’s credit alone', dollars: rothIra, says },
  ]
}

/** Not negative numbers: each lowers income, or the deduction it is named for. */
const carriedInputs = (carried: Carryforwards): TaxInput[] => {
  const says = 'left by earlier years: as the plan says, or as the year before came out by the books'
  return [
    { label: 'Operating loss of earlier years', dollars: carried.netOperatingLoss, says },
    { label: 'Business income of earlier years below zero', dollars: carried.qualifiedBusiness, says },
    { label: 'Short-term capital loss of earlier years', dollars: carried.shortTermLoss, says },
    { label: 'Long-term capital loss of earlier years', dollars: carried.longTermLoss, says },
    { label: 'Section 179 deduction of earlier years', dollars: carried.section179, says },
  ]
}

/** Books that begin within the year do not know all of it. */
const before = ({ earlier }: YearIncome): string =>
  earlier === undefined ? '' : ', with what the plan says came before them'
