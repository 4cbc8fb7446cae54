// A business form row by row, with its accounts behind each line; where two owners file, each one's amounts beside.

import { dayName } from '#calendar/day.ts'
import type { FormRow } from '#ledger/reports/form-rows.ts'
import type { BusinessSaid } from '#ledger/tax/form-said.ts'
import { formatCents, formatCentsPlain } from '#money/format.ts'

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

/** Lines of a form that ask about its vehicle. */
interface VehicleLines {
  inUseSince: string
  businessMiles: string
  commutingMiles: string
  otherMiles: string
  evidence: string
  written: string
}

/** Form 4562, Part V: 24a and 24b, 30 to 32. Line numbers from memory. */
export const lines4562: VehicleLines = {
  inUseSince: '26b',
  evidence: '24a',
  written: '24b',
  businessMiles: '30',
  commutingMiles: '31',
  otherMiles: '32',
}

/** Schedule C, Part IV, where Form 4562 is not called for. Line numbers from memory. */
export const linesPartIV: VehicleLines = {
  inUseSince: '43',
  businessMiles: '44a',
  commutingMiles: '44b',
  otherMiles: '44c',
  evidence: '47a',
  written: '47b',
}

/** Of the vehicle, as the forms ask of it. */
export const vehicleAnswers = ({ vehicle }: BusinessSaid, lines: VehicleLines) => {
  const { by, booked, inUseSince, businessMiles, commutingMiles, otherMiles, evidence } = vehicle
  const isSaid = businessMiles !== null || inUseSince !== null || evidence !== null
  const miles = (count: number | null) => (count === null ? null : String(count))
  return [
    [
      '',
      'Vehicle deducted',
      !isSaid
        ? null
        : by === 'miles'
          ? 'By miles'
          : `By costs${booked === null ? '' : booked === 'whole' ? ', booked whole' : ', booked as the business’s part'}`,
    ],
    [lines.inUseSince, 'Vehicle in use since', inUseSince ? dayName(inUseSince) : null],
    [lines.businessMiles, 'Miles for the business', miles(businessMiles)],
    [lines.commutingMiles, 'Miles to a job', miles(commutingMiles)],
    [lines.otherMiles, 'Other miles', miles(otherMiles)],
    [lines.evidence, 'Evidence of the use', evidence === null ? null : evidence === 'none' ? 'No' : 'Yes'],
    [
      lines.written,
      'The evidence is written',
      evidence === null || evidence === 'none' ? null : evidence === 'written' ? 'Yes' : 'No',
    ],
  ] as const
}
