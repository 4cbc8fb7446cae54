// The tax worksheet as CSV: what goes in, each figure with its rule, and what was paid.
import { cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { TaxWorksheet, YearPackFigures } from '#today/year-pack/figures.ts'
import { useWords } from '#views/tax-paid/tax-payments.tsx'
import { premiumCreditRows } from '#views/year-pack/tax/premium-credit-part.tsx'
import { selfEmploymentId } from '#views/year-pack/tax/self-employment-part.tsx'
import { paidRows } from '#views/year-pack/tax/tax-part.tsx'
import type { CsvTable } from '#web/forms/csv.ts'

export const taxTable = ({ tax }: YearPackFigures): CsvTable => {
  if (tax.status === 'cannot') return { header: ['figure'], rows: [] }
  const { inputs, trace, state } = tax.worksheet
  return {
    header: ['part', 'figure', 'amount', 'rule', 'source'],
    rows: [
      ...inputs.map((input) => ['in', input.label, input.dollars.toFixed(2), input.says, '']),
      ...[...trace, ...(state?.trace ?? [])].map((line) => [
        'out',
        line.figure,
        line.amount.toFixed(2),
        line.rule,
        line.source,
      ]),
    ],
  }
}

/** What was paid by the lines of the returns, then each payment with its day. */
export const taxPaidTable = ({ tax }: YearPackFigures): CsvTable => {
  if (tax.status === 'cannot') return { header: ['return'], rows: [] }
  const { payments, statePayments, localPayments, otherStates, paidEach } = tax.worksheet
  const sums = [
    ['federal', payments],
    ['state', statePayments],
    ['local', localPayments],
  ] as const
  return {
    header: ['return', 'what', 'amount', 'payee', 'undecided'],
    rows: [
      ...sums.flatMap(([office, paid]) =>
        paid === null
          ? []
          : paidRows(paid, office).map(({ label, dollars }) => [office, label, dollars.toFixed(2), '', '']),
      ),
      ...otherStates.flatMap(({ state, paid }) =>
        paidRows({ ...paid, stillOwed: null, comesBack: null }, 'state').map(({ label, dollars }) => [
          `state of ${stateNames[state]}`,
          label,
          dollars.toFixed(2),
          '',
          '',
        ]),
      ),
      ...paidEach.map(({ day, office, otherState, use, dollars, payee, undecided }) => [
        otherState === null ? office : `state of ${stateNames[otherState]}`,
        `${day} ${useWords[use]}`,
        dollars.toFixed(2),
        payee,
        undecided ? 'yes' : '',
      ]),
    ],
  }
}

export const selfEmploymentTables = ({ selfEmployment }: TaxWorksheet): Record<string, () => CsvTable> =>
  Object.fromEntries(
    selfEmployment.map(({ lines }, i) => [
      selfEmploymentId(i),
      () => ({
        header: ['line', 'what', 'amount'],
        rows: lines.map((one) => [one.line, one.says, centsToDecimalText(cents(one.cents))]),
      }),
    ]),
  )

export const healthInsuranceTables = ({ healthInsurance }: TaxWorksheet): Record<string, () => CsvTable> =>
  healthInsurance.length === 0
    ? {}
    : {
        'form-7206': () => ({
          header: ['line', 'what', 'amount'],
          rows: healthInsurance.map(({ line, says, amount, isShare }) => [
            line,
            says,
            isShare ? amount.toFixed(4) : centsToDecimalText(cents(amount)),
          ]),
        }),
      }

export const qualifiedBusinessTables = ({
  qualifiedBusiness,
}: TaxWorksheet): Record<string, () => CsvTable> => {
  if (qualifiedBusiness === null) return {}
  const plain = (value: number) => centsToDecimalText(cents(value))
  const { businesses, lines } = qualifiedBusiness
  return {
    'form-8995': () => ({
      header: ['line', 'what', 'amount', 'profit', 'half of SE tax', 'premiums', 'plans'],
      rows: [
        ...businesses.map(({ line, name, income, profit, half, health, plans }) => [
          line,
          name,
          ...[income, profit, half, health, plans].map(plain),
        ]),
        ...lines.map(({ line, says, amount }) => [line, says, plain(amount), '', '', '', '']),
      ],
    }),
  }
}

export const premiumCreditTables = ({ premiumCredit }: TaxWorksheet): Record<string, () => CsvTable> => {
  if (premiumCredit === null) return {}
  const plain = (value: number) => centsToDecimalText(cents(value))
  return {
    'form-8962': () => ({
      header: ['line', 'what', 'amount', 'benchmark', 'contribution', 'most', 'credit', 'advance'],
      rows: [
        ...premiumCreditRows(premiumCredit).map(({ line, says, shown }) => [
          line,
          says,
          shown.replaceAll(',', ''),
          ...['', '', '', '', ''],
        ]),
        ...premiumCredit.months.map((month) => [
          month.line,
          'month: premium and what follows',
          ...[
            month.premium,
            month.benchmark,
            month.contribution,
            month.most,
            month.credit,
            month.advance,
          ].map(plain),
        ]),
      ],
    }),
  }
}
