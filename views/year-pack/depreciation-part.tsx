// Form 4562 by part, printed: what was deducted at once, what by class, what is listed.
import { dayName } from '#calendar/day.ts'
import { type DepreciationForm, depreciationFormSource } from '#ledger/reports/depreciation-form.ts'
import type { Cents } from '#money/cents.ts'
import { formatCentsPlain, formatPercent } from '#money/format.ts'
import { assetClasses } from '#rules/depreciation/recovery.ts'
import { Caution } from '../parts/message.tsx'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'

interface DepreciationPartProps {
  id: string
  csv: string
  of: string
  form: DepreciationForm
}

export const DepreciationPart = ({ form, ...part }: DepreciationPartProps) => (
  <PackPart
    {...part}
    title="Depreciation for Form 4562"
    says={`${form.year}, part by part, from the inventory.`}
  >
    <Caution askWhom="a licensed tax preparer">
      Elections are made on the return. What is listed here needs a written record of its use.
    </Caution>
    <table class="pack-table">
      <caption class="hidden-text">Depreciation by part of Form 4562, {form.year}</caption>
      <tbody>
        {depreciationRows(form).map(({ part: at, label, note, amountCents }) => (
          <AmountRow label={label} note={`${at}${note ? `: ${note}` : ''}`} amounts={[amountCents]} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Line 22, to Schedule F line 14" amounts={[form.totalCents]} />
      </tfoot>
    </table>
    <p class="source">Source: {depreciationFormSource}. Check each line against this year’s form.</p>
  </PackPart>
)

export interface DepreciationRow {
  part: string
  label: string
  note: string
  amountCents: Cents
}

/** Every line of the form that holds something, in its order. */
export const depreciationRows = (form: DepreciationForm): DepreciationRow[] => [
  ...section179Rows(form),
  ...filledRow('Part II, line 14', 'Bonus depreciation', '', form.bonusCents),
  ...filledRow('Part III, line 17', 'Property of earlier years', '', form.earlierCents),
  ...form.placedThisYear.map(({ years, method, convention, basisCents, deductedCents }) => ({
    part: 'Part III, line 19',
    label: `${years}-year property of this year`,
    note: `${method}, ${convention}, basis ${formatCentsPlain(basisCents)}`,
    amountCents: deductedCents,
  })),
  ...form.listed.map(({ row, writeOff }) => ({
    part: 'Part V',
    label: row.holding.name,
    note: `${assetClasses[writeOff.assetClass].label}, ${formatPercent(writeOff.useShare)} business use, in use since ${dayName(row.holding.inServiceDay ?? row.holding.acquiredDay)}, ${writeOff.method}, ${row.convention ?? ''}, cost ${formatCentsPlain(row.holding.costCents)}${writeOff.section179Cents > 0 ? `, section 179 ${formatCentsPlain(writeOff.section179Cents)}` : ''}`,
    amountCents: row.deductedThisYearCents,
  })),
  ...form.listed
    .filter(({ writeOff }) => writeOff.excessCents > 0)
    .map(({ row, writeOff }) => ({
      part: 'Form 4797, Part IV, lines 33 to 35',
      label: `${row.holding.name}: income again`,
      note: 'business use fell to half or less: deducted before beyond the straight line (26 USC 280F(b)(2)); other income of the form that deducted it, and back in its cost',
      amountCents: writeOff.excessCents,
    })),
]

const section179Rows = ({ section179 }: DepreciationForm): DepreciationRow[] => {
  const { electedCents, businessIncomeCents, deductedCents, carriedCents } = section179
  if (electedCents === 0) return []
  const row = (label: string, line: number, amountCents: Cents, note = ''): DepreciationRow => ({
    part: `Part I, line ${line}`,
    label,
    note,
    amountCents,
  })
  return [
    row('Section 179, elected', 8, electedCents, 'listed things below included'),
    ...(businessIncomeCents === null
      ? []
      : [row('Business income, the most it may be', 11, businessIncomeCents)]),
    row('Section 179, deducted', 12, deductedCents),
    ...(carriedCents === 0 ? [] : [row('Left to later years', 13, carriedCents)]),
  ]
}

const filledRow = (part: string, label: string, note: string, amountCents: Cents): DepreciationRow[] =>
  amountCents === 0 ? [] : [{ part, label, note, amountCents }]
