// Form 7206 as it prints: premiums, what the business leaves for them, and the deduction.
import { formOfYear } from '#ledger/form-editions.ts'
import { cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { Form7206Line } from '#rules/forms/form-7206.ts'
import { PackPart } from '../parts.tsx'
import { LinesTable } from './lines-table.tsx'

interface HealthInsurancePartProps {
  id: string
  csv: string
  lines: readonly Form7206Line[]
  year: number
}

export const HealthInsurancePart = ({ id, csv, lines, year }: HealthInsurancePartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="Form 7206"
    of={String(year)}
    says="Self-employed health insurance deduction by line, from the same figures as the tax worksheet."
  >
    <LinesTable
      caption={`Form 7206, ${year}`}
      totals={['3', '13', '14']}
      rows={lines.map(({ line, says, amount, isShare }) => ({
        line,
        says,
        shown: isShare ? amount.toFixed(4) : formatCentsPlain(cents(amount)),
      }))}
    />
    <p class="source">
      Source: 26 USC 162(l); {formOfYear('Form 7206', year)}, line captions in our own words. The cover is
      taken as standing under the business that leaves most for it; where plans stand under several, each has
      a form of its own. Months in which an employer’s plan was open to you do not count. Line 2, long-term
      care cover, and line 11, corporations, are for a preparer. Check each line against this year’s form.
    </p>
  </PackPart>
)
