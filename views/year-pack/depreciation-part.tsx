// Form 4562 by part, printed: what was deducted at once, what by class, what is listed.
import { dayName } from '#calendar/day.ts'
import {
  type DepreciationForm,
  depreciationFormSource,
  depreciationFormUnread,
} from '#ledger/reports/depreciation-form.ts'
import { costLeft } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCents, formatCentsPlain, formatPercent } from '#money/format.ts'
import { assetClasses } from '#rules/depreciation/recovery.ts'
import type { StatedDepreciation } from '#today/year-pack/figures.ts'
import { Caution } from '../parts/message.tsx'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'
import { LinesSource } from './whole/lines-source.tsx'

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
    <BesideLine22 form={form} />
    <p class="source">
      <LinesSource source={depreciationFormSource(form.year)} unread={depreciationFormUnread} />
    </p>
  </PackPart>
)

export interface DepreciationRow {
  part: string
  label: string
  note: string
  amountCents: Cents
}

/** Named by what it is, and not by its years (26 USC 168(c)). */
const residentialRental = 27.5

/** Of the form's general system, by recovery period; from memory, as all of its line numbers. */
const letterOfClass: Readonly<Record<number, string>> = {
  3: 'a',
  5: 'b',
  7: 'c',
  10: 'd',
  15: 'e',
  20: 'f',
  25: 'g',
  [residentialRental]: 'h',
}

/** Every line that line 22 is the sum of, in the order of the form. */
export const depreciationRows = (form: DepreciationForm): DepreciationRow[] => [
  ...filledRow('Part I, line 12', 'Section 179, deducted', '', form.section179.deductedCents),
  ...filledRow('Part II, line 14', 'Bonus depreciation', '', form.bonusCents),
  ...filledRow('Part III, line 17', 'Property of earlier years', '', form.earlierCents),
  ...form.placedThisYear.map(({ years, method, convention, basisCents, deductedCents }) => ({
    part: `Part III, line 19${letterOfClass[years] ?? ''}`,
    label:
      years === residentialRental
        ? 'Residential rental property of this year'
        : `${years}-year property of this year`,
    note: `${years === residentialRental ? `${years} years, ` : ''}${method}, ${convention}, basis ${formatCentsPlain(basisCents)}`,
    amountCents: deductedCents,
  })),
  ...form.listed.map(({ row, writeOff, section179Cents }) => ({
    part: 'Part V',
    label: row.holding.name,
    note: `${assetClasses[writeOff.assetClass].label}, ${formatPercent(writeOff.useShare)} business use, in use since ${dayName(row.holding.inServiceDay ?? row.holding.acquiredDay)}, ${writeOff.method}, ${row.convention ?? ''}, cost ${formatCentsPlain(costLeft(row.holding))}${section179Cents > 0 ? `, its section 179 of ${formatCentsPlain(section179Cents)} above` : ''}`,
    amountCents: cents(row.deductedThisYearCents - section179Cents),
  })),
]

/** What the form asks of section 179 beside what is deducted. */
export const section179Rows = ({ section179 }: DepreciationForm): DepreciationRow[] => {
  const { things, electedCents, businessIncomeCents, carriedCents } = section179
  if (electedCents === 0) return []
  const row = (label: string, line: number, amountCents: Cents, note = ''): DepreciationRow => ({
    part: `Part I, line ${line}`,
    label,
    note,
    amountCents,
  })
  const ofThings = sumCents(things.map((one) => one.electedCents))
  return [
    ...things.map((one) => row(one.name, 6, one.electedCents, `cost ${formatCentsPlain(one.costCents)}`)),
    ...(electedCents === ofThings
      ? []
      : [row('Listed property, from Part V', 7, cents(electedCents - ofThings))]),
    row('Section 179, elected', 8, electedCents, 'listed things included'),
    ...(businessIncomeCents === null
      ? []
      : [row('Business income, the most it may be', 11, businessIncomeCents)]),
    ...(carriedCents === 0 ? [] : [row('Left to later years', 13, carriedCents)]),
  ]
}

/** Deducted before, and income again: no part of line 22. */
export const incomeAgainRows = (form: DepreciationForm): DepreciationRow[] =>
  form.listed
    .filter(({ writeOff }) => writeOff.excessCents > 0)
    .map(({ row, writeOff }) => ({
      part: 'Form 4797, Part IV, lines 33 to 35',
      label: `${row.holding.name}: income again`,
      note: 'business use fell to half or less: deducted before beyond the straight line (26 USC 280F(b)(2)); other income of the form that deducted it, and back in its cost',
      amountCents: writeOff.excessCents,
    }))

/** Part VI, and what is deducted at once beside it: together a line of the business's form. */
export const startUpRows = ({ startUp }: DepreciationForm): DepreciationRow[] => {
  if (startUp === null) return []
  const { place, beganOn, isFirstYear, atOnceCents, spreadCents, byMonthsCents } = startUp
  const byMonths = `start-up costs, from ${dayName(beganOn)}, ${formatCentsPlain(spreadCents)}, section 195, 180 months`
  return [
    ...filledRow(place, 'Deducted at once', '26 USC 195(b)(1)(A)', atOnceCents),
    ...filledRow(
      `Part VI, line ${isFirstYear ? '42' : '43'}`,
      isFirstYear ? 'Amortization that begins this year' : 'Amortization that began before',
      byMonths,
      byMonthsCents,
    ),
    ...filledRow(
      'Part VI, line 44',
      'Total amortization',
      `with what is deducted at once on ${place}`,
      byMonthsCents,
    ),
  ]
}

const electionWords =
  'Deducting start-up costs is taken as elected by the return of the year in which the business begins; a statement with that return, filed in time, gives the deduction up for good (26 CFR 1.195-1(b)). What was paid for land, stock, machines, trees or goods for sale is none.'

/** What is elected by not taking bonus depreciation; empty where there is nothing to elect. */
const bonusWords = ({ bonus: { taken, notTaken } }: DepreciationForm): string => {
  if (notTaken.length === 0) return ''
  const both = notTaken.filter((years) => taken.includes(years))
  const named = (years: readonly number[]) => years.map((one) => `${one}-year`).join(', ')
  return `Bonus depreciation is not taken for ${named(notTaken)} property of this year: a statement with the return elects out, by class of property (26 USC 168(k)(7), 26 CFR 1.168(k)-2(f)).${both.length > 0 ? ` Of ${named(both)} property some takes it and some does not: the election holds for the whole class.` : ''}`
}

/** Beside the lines that add up: tables of their own. */
export const BesideLine22 = ({ form }: { form: DepreciationForm }) => {
  const words = bonusWords(form)
  return (
    <>
      <RowsTable caption="Section 179, beside line 12" rows={section179Rows(form)} />
      <RowsTable caption="Income again, no part of line 22" rows={incomeAgainRows(form)} />
      <RowsTable caption="Start-up costs, no part of line 22" rows={startUpRows(form)} />
      {form.startUp ? <p>{electionWords}</p> : null}
      {words === '' ? null : <p>{words}</p>}
    </>
  )
}

const RowsTable = ({ caption, rows }: { caption: string; rows: readonly DepreciationRow[] }) =>
  rows.length === 0 ? null : (
    <table class="pack-table">
      <caption>{caption}</caption>
      <tbody>
        {rows.map(({ part: at, label, note, amountCents }) => (
          <AmountRow label={label} note={`${at}${note ? `: ${note}` : ''}`} amounts={[amountCents]} />
        ))}
      </tbody>
    </table>
  )

const filledRow = (part: string, label: string, note: string, amountCents: Cents): DepreciationRow[] =>
  amountCents === 0 ? [] : [{ part, label, note, amountCents }]

/** Statements take what is booked, forms the schedule: each says which, and one press brings them together. */
export const DepreciationTaken = ({ of }: { of: StatedDepreciation }) => {
  const { bookedCents, scheduleCents, line, name, takenBack, differenceCents } = of
  if (bookedCents === 0 && scheduleCents === null) return null
  const isAlike = scheduleCents === null || scheduleCents === bookedCents
  return (
    <>
      <p class="source">
        {name}: depreciation here is {formatCents(bookedCents)}, as booked.{' '}
        {scheduleCents === null
          ? `${line} takes the same: nothing is written off by a schedule.`
          : `${line} takes the depreciation schedule of Form 4562: ${isAlike ? 'the same' : formatCents(scheduleCents)}.`}
        {takenBack.map(
          (one) =>
            ` ${formatCents(one.amountCents)} of ${one.name} is income again on the form; the books take it off depreciation.`,
        )}
      </p>
      <ToBook year={of.year} sideId={of.sideId} differenceCents={differenceCents} />
    </>
  )
}

const ToBook = ({
  year,
  sideId,
  differenceCents,
}: {
  year: number
  sideId: string
  differenceCents: Cents
}) =>
  differenceCents === 0 ? null : (
    <p class="no-print">
      <a href={`/year-pack/depreciation?year=${year}&side=${sideId}`}>Book the difference</a>
    </p>
  )

/** What the schedule has written off and the books have not stands in what things cost, of this year and of those before; so does what is gone. */
export const DepreciationLacking = ({ of }: { of: StatedDepreciation }) => {
  const lacking = [
    ...of.earlier,
    ...(of.differenceCents === 0 ? [] : [{ year: of.year, differenceCents: of.differenceCents }]),
  ]
  if (lacking.length === 0 && of.gone.length === 0) return null
  const lower = sumOf(lacking) + of.gone.reduce((sum, { leftCents }) => sum + leftCents, 0)
  return (
    <>
      <p class="notice">
        {of.name}: {[writtenOffWords(lacking), goneWords(of)].filter(Boolean).join('. Besides, ')}. What
        things cost, and equity with it, would be {formatCents(cents(Math.abs(lower)))}{' '}
        {lower >= 0 ? 'lower' : 'higher'}.
      </p>
      {lacking.map(({ year, differenceCents }) => (
        <ToBook year={year} sideId={of.sideId} differenceCents={differenceCents} />
      ))}
    </>
  )
}

const writtenOffWords = (lacking: StatedDepreciation['earlier']): string =>
  lacking.length === 0
    ? ''
    : `depreciation is shown here as booked. By the schedule of Form 4562 ${lacking
        .map(
          ({ year, differenceCents }) =>
            `${formatCents(cents(Math.abs(differenceCents)))} ${differenceCents > 0 ? 'more' : 'less'} is written off for ${year}`,
        )
        .join(', and ')}`

const goneWords = ({ gone }: StatedDepreciation): string =>
  gone.length === 0
    ? ''
    : `what is gone is still in the books’ columns, with ${formatCents(sumCents(gone.map(({ leftCents }) => leftCents)))} of cost that is not written off: ${gone.map(({ name }) => name).join(', ')}`

const sumOf = (lacking: readonly { differenceCents: Cents }[]): number =>
  lacking.reduce((sum, one) => sum + one.differenceCents, 0)
