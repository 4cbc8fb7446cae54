// A business form row by row, with its accounts behind each line; where two owners file, each one's amounts beside.

import { dayName } from '#calendar/day.ts'
import type { ReportLine } from '#ledger/reports/book-year.ts'
import type { FormRow } from '#ledger/reports/form-rows.ts'
import type { BusinessSaid } from '#ledger/tax/form-said.ts'
import { formatCents, formatCentsPlain } from '#money/format.ts'
import { AmountRow } from './parts.tsx'

interface FormTableProps {
  caption: string
  rows: readonly FormRow[]
  /** Names of two owners, where each files a form. */
  owners?: readonly string[]
}

export const FormTable = ({ caption, rows, owners = [] }: FormTableProps) => (
  <table class="pack-table">
    <caption class="hidden-text">{caption}</caption>
    <thead>
      <tr>
        <th scope="col">Line</th>
        <th scope="col">What</th>
        <th scope="col" class="number">
          {owners.length > 0 ? 'Both' : 'Amount'}
        </th>
        {owners.map((name) => (
          <th scope="col" class="number">
            {name}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {rows.map((row) => (
        <tr class={row.isTotal ? 'pack-subtotal' : undefined}>
          <td>{row.line}</td>
          <th scope="row">
            {row.label}
            {row.note ? <span class="pack-note"> {row.note}</span> : null}
            <MadeOf row={row} />
          </th>
          <td class="number">{formatCentsPlain(row.amountCents)}</td>
          {owners.map((_, i) => (
            <td class="number">{row.owners ? formatCentsPlain(row.owners[i]!) : ''}</td>
          ))}
        </tr>
      ))}
    </tbody>
  </table>
)

const MadeOf = ({ row: { accounts } }: { row: FormRow }) =>
  accounts.length === 0 ? null : (
    <details class="made-of no-print">
      <summary>Accounts</summary>
      <ul>
        {accounts.map((part) => (
          <li>
            <a href={`/books/accounts/${part.id}`}>{part.name}</a>
            <span>{formatCents(part.amountCents)}</span>
          </li>
        ))}
      </ul>
    </details>
  )

export const Beside = ({ lines, says }: { lines: readonly ReportLine[]; says: string }) =>
  lines.length === 0 ? null : (
    <>
      <h3>In the books, but not on this form</h3>
      <table class="pack-table">
        <tbody>
          {lines.map((line) => (
            <AmountRow label={line.label} amounts={[line.amountCents]} />
          ))}
        </tbody>
      </table>
      <p class="source">{says}</p>
    </>
  )

/** What was said of a business for the lines that hold no amount; nothing where nobody said anything. */
export const Answers = ({
  rows,
}: {
  rows: readonly (readonly [line: string, what: string, says: string | null])[]
}) => {
  const said = rows.filter(([, , says]) => says !== null && says !== '')
  return said.length === 0 ? null : (
    <table class="pack-table">
      <tbody>
        {said.map(([line, what, says]) => (
          <tr>
            <td>{line}</td>
            <th scope="row">{what}</th>
            <td>{says}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

export const yesOrNo = (word: 'yes' | 'no' | null): string | null =>
  word === null ? null : word === 'yes' ? 'Yes' : 'No'

/** Of the vehicle, as the forms ask of it. */
export const vehicleSaid = ({ vehicle }: BusinessSaid): string | null => {
  const { by, inUseSince, businessMiles, commutingMiles, otherMiles, evidence } = vehicle
  if (businessMiles === null && inUseSince === null && evidence === null) return null
  return [
    by === 'miles' ? 'By miles' : 'By costs',
    inUseSince ? `in use since ${dayName(inUseSince)}` : '',
    businessMiles === null ? '' : `${businessMiles} miles for the business`,
    commutingMiles === null ? '' : `${commutingMiles} to a job`,
    otherMiles === null ? '' : `${otherMiles} others`,
    evidence === null
      ? ''
      : { written: 'written record', unwritten: 'record that is not written', none: 'no record' }[evidence],
  ]
    .filter(Boolean)
    .join(', ')
}
