// From the net income of the books to the profit of a form: what the form leaves out, and which lines hold other than their accounts.
import type { FormBridge } from '#ledger/reports/form-bridge.ts'
import type { Cents } from '#money/cents.ts'
import { AmountRow, TotalRow } from './parts.tsx'

export interface BridgeRow {
  part: string
  label: string
  note: string
  amountCents: Cents
}

/** `line`: the profit of the form, like line 34. */
export const bridgeRows = (
  { booksCents, leftOut, changed, formCents }: FormBridge,
  line: string,
): BridgeRow[] => [
  { part: '', label: 'Net income of the books, cash basis', note: '', amountCents: booksCents },
  ...leftOut.map(({ label, amountCents }) => ({ part: notOnForm, label, note: '', amountCents })),
  ...changed.map((one) => ({
    part: otherwise,
    label: `Line ${one.line}, ${one.label}`,
    note: one.says === one.label ? '' : one.says,
    amountCents: one.amountCents,
  })),
  { part: '', label: `Line ${line}`, note: '', amountCents: formCents },
]

const notOnForm = 'In the books, but not on this form'
const otherwise = 'On the form otherwise than booked'

interface BridgeProps {
  bridge: FormBridge
  line: string
  says: string
}

/** Nothing where books and form say the same. */
export const Bridge = ({ bridge, line, says }: BridgeProps) => {
  const rows = bridgeRows(bridge, line)
  if (rows.length === 2) return null
  const [first, last] = [rows[0]!, rows.at(-1)!]
  return (
    <>
      <h3>From the books to line {line}</h3>
      <table class="pack-table">
        <tbody>
          <AmountRow label={first.label} amounts={[first.amountCents]} />
          {[notOnForm, otherwise].map((part) => (
            <PartRows title={part} rows={rows.filter((row) => row.part === part)} />
          ))}
        </tbody>
        <tfoot>
          <TotalRow label={last.label} amounts={[last.amountCents]} />
        </tfoot>
      </table>
      <p class="source">{says}</p>
    </>
  )
}

const PartRows = ({ title, rows }: { title: string; rows: readonly BridgeRow[] }) =>
  rows.length === 0 ? null : (
    <>
      <tr class="pack-heading">
        <th scope="colgroup" colspan={2}>
          {title}
        </th>
      </tr>
      {rows.map(({ label, note, amountCents }) => (
        <AmountRow label={label} note={note} amounts={[amountCents]} />
      ))}
    </>
  )
