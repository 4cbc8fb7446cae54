// The tick that chooses a line of a register, and the way back to that register.
import { dayName } from '#calendar/day.ts'
import { formatCents } from '#money/format.ts'
import type { ChosenRow } from './change-figures.ts'

export const TickLine = ({ row, isTicked }: { row: ChosenRow; isTicked: boolean }) => (
  <input
    type="checkbox"
    name="ticked[]"
    value={String(row.postingId)}
    checked={isTicked}
    aria-label={`${row.payee || row.memo || 'Entry'}, ${dayName(row.day)}, ${formatCents(row.amountCents)}`}
  />
)

/** With its search, as query text. */
export const registerAddress = (accountId: number, back: string): string =>
  `/books/accounts/${accountId}${back === '' ? '' : `?${back}`}`
