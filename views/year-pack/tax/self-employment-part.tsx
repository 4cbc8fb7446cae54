// Schedule SE of one person as it prints, line by line.
import { formOfYear } from '#ledger/form-editions.ts'
import { cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { ScheduleSeLine } from '#rules/forms/schedule-se.ts'
import { PackPart } from '../parts.tsx'
import { LinesTable } from './lines-table.tsx'

/** The sheet's own address, and the name of its table: by the place of the person on the return. */
export const selfEmploymentId = (place: number): string => `schedule-se-${place + 1}`

interface SelfEmploymentPartProps {
  id: string
  csv: string
  name: string
  lines: readonly ScheduleSeLine[]
  year: number
}

export const SelfEmploymentPart = ({ id, csv, name, lines, year }: SelfEmploymentPartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="Schedule SE"
    of={name}
    says={`Self-employment tax of ${year}, by line, from the farm’s and ventures’ forms.`}
  >
    <LinesTable
      caption={`Schedule SE, ${name}, ${year}`}
      totals={['4c', '6', '12']}
      rows={lines.map(({ line, says, cents: amount }) => ({
        line,
        says,
        shown: formatCentsPlain(cents(amount)),
      }))}
    />
    <p class="source">
      Source: 26 USC 1401, 1402; {formOfYear('Schedule SE (Form 1040)', year)}, line captions in our own
      words. Lines 1b, 5a, 5b and 8b to 8c are not asked here: rental payments of conservation programs, pay
      of church employees and unreported tips are for a preparer. Check each line against this year’s form.
    </p>
  </PackPart>
)
