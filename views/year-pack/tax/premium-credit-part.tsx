// Form 8962 as it prints: income and contribution, each month of Form 1095-A, and what is settled with the return.
import { formOfYear } from '#ledger/form-editions.ts'
import { cents } from '#money/cents.ts'
import { formatCentsPlain, formatPercent } from '#money/format.ts'
import type { Form8962 } from '#rules/forms/form-8962.ts'
import { PackPart } from '../parts.tsx'

interface PremiumCreditPartProps {
  id: string
  csv: string
  form: Form8962
  year: number
}

const amount = (value: number): string => formatCentsPlain(cents(value))

/** Lines 1 to 8 and 24 to 29, in the order of the form. */
export const premiumCreditRows = (form: Form8962): { line: string; says: string; shown: string }[] => [
  { line: '1', says: 'Family size', shown: String(form.size) },
  { line: '3', says: 'Household income', shown: amount(form.incomeCents) },
  { line: '4', says: 'Federal poverty level (FPL)', shown: amount(form.povertyLineCents) },
  { line: '5', says: 'Income, percent of that level', shown: `${form.percent}%` },
  { line: '7', says: 'Applicable figure', shown: form.applicable.toFixed(4) },
  { line: '8a', says: 'Own contribution in a year', shown: amount(form.contributionCents) },
  { line: '8b', says: 'In a month', shown: amount(Math.floor(form.contributionCents / 12 + 0.5)) },
  { line: '24', says: 'Credit of the year', shown: amount(form.creditCents) },
  { line: '25', says: 'Paid in advance', shown: amount(form.advanceCents) },
  { line: '26', says: 'Credit still to come, to Schedule 3', shown: amount(form.netCreditCents) },
  { line: '27', says: 'Paid in advance beyond the credit', shown: amount(form.excessCents) },
  {
    line: '28',
    says: 'The most that is paid back',
    shown: form.limitCents === null ? (form.excessCents > 0 ? 'no limit' : '') : amount(form.limitCents),
  },
  { line: '29', says: 'Paid back, to Schedule 2', shown: amount(form.repaidCents) },
]

export const PremiumCreditPart = ({ id, csv, form, year }: PremiumCreditPartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="Form 8962"
    of={String(year)}
    says="Premium tax credit by line, from Form 1095-A as entered."
  >
    <table class="pack-table">
      <caption class="hidden-text">{`Form 8962, ${year}, lines of the year`}</caption>
      <tbody>
        {premiumCreditRows(form).map(({ line, says, shown }) => (
          <tr>
            <td>{line}</td>
            <th scope="row">{says}</th>
            <td class="number">{shown}</td>
          </tr>
        ))}
      </tbody>
    </table>
    <table class="pack-table">
      <caption>By month</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          {['a premium', 'b benchmark', 'c contribution', 'd most', 'e credit', 'f advance'].map((head) => (
            <th scope="col" class="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {form.months.map((month) => (
          <tr>
            <th scope="row">{month.line}</th>
            {[
              month.premium,
              month.benchmark,
              month.contribution,
              month.most,
              month.credit,
              month.advance,
            ].map((value) => (
              <td class="number">{amount(value)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
    <p class="source">
      Source: 26 USC 36B; {formOfYear('Form 8962', year)}, line captions in our own words. The form rounds
      lines 8a and 8b to dollars; here they keep cents. Policies shared with others, marriage in the year and
      months without lawful residence are for a preparer. The applicable figure is{' '}
      {formatPercent(form.applicable, 2)} of income.
    </p>
  </PackPart>
)
