// Form 8995 as it prints: each business with what comes off its profit, then the deduction line by line.
import { formOfYear } from '#ledger/form-editions.ts'
import { cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { Form8995 } from '#rules/forms/form-8995.ts'
import { PackPart } from '../parts.tsx'
import { LinesTable } from './lines-table.tsx'

interface QualifiedBusinessPartProps {
  id: string
  csv: string
  form: Form8995
  year: number
}

/** What goes on the form first: a phone shows it without moving the table. */
const columns = [
  ['(c) Income', 'income'],
  ['Profit', 'profit'],
  ['Half of SE tax', 'half'],
  ['Premiums', 'health'],
  ['Plans', 'plans'],
] as const

export const QualifiedBusinessPart = ({ id, csv, form, year }: QualifiedBusinessPartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="Form 8995"
    of={String(year)}
    says={
      form.isOverThreshold
        ? 'Qualified business income (QBI) is over the threshold of the simplified form: Form 8995-A takes its place, with a schedule for wages and property.'
        : 'Qualified business income (QBI) deduction by line, from the same figures as the tax worksheet.'
    }
  >
    {form.businesses.length === 0 ? null : (
      <table class="pack-table">
        <caption>Each business</caption>
        <thead>
          <tr>
            <th scope="col">Line</th>
            <th scope="col">Business</th>
            {columns.map(([head]) => (
              <th scope="col" class="number">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {form.businesses.map((one) => (
            <tr>
              <td>{one.line}</td>
              <th scope="row">{one.name}</th>
              {columns.map(([, key]) => (
                <td class="number">{formatCentsPlain(cents(one[key]))}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    )}
    <LinesTable
      caption={`Form 8995, ${year}`}
      totals={['4', '15', '16']}
      rows={form.lines.map(({ line, says, amount }) => ({
        line,
        says,
        shown: formatCentsPlain(cents(amount)),
      }))}
    />
    <p class="source">
      Source: 26 USC 199A; {formOfYear('Form 8995', year)}, line captions in our own words. Half of the tax is
      shared by the profits of its owner, contributions to plans by all profits, and premiums come off the
      business of Form 7206. Property sold belongs to the line of the business that sold it. Lines 6 to 9,
      dividends of real estate trusts, and patrons of cooperatives (Form 8995-A, Schedule D) are for a
      preparer, and so is whether each is a trade or business. Check each line against this year’s form.
    </p>
  </PackPart>
)
