// A month beside the same month of the year before: what the house spent, what the farm and the ventures brought in and cost.
import { addMonths, type Month } from '#calendar/month.ts'
import { listSides } from '#db/ledger/account-store.ts'
import { spanOfBooks } from '#db/ledger/balances.ts'
import { tradeMonth } from '#db/ledger/farm-months.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import type { SideKind } from '#ledger/account.ts'
import type { HouseholdMonth } from '#ledger/household-month.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import type { AgainstLastYear, AgainstRow } from './figures.ts'

/** Null before anything is booked in the month. */
export const againstLastYear = (books: Books, month: Month): AgainstLastYear | null => {
  const span = spanOfBooks(books)
  if (!span || month < span.first) return null
  const before = addMonths(month, -12)
  const isKnown = before >= span.first
  const sides = listSides(books).toSorted((one, other) => order.indexOf(one.kind) - order.indexOf(other.kind))
  const [now, then] = [
    householdMonths(books, month, month)[0]!,
    isKnown ? householdMonths(books, before, before)[0]! : null,
  ]
  const rows = sides.flatMap(({ id, kind, name }): AgainstRow[] => {
    if (kind === 'household')
      return [{ name: 'House, out', side: kind, cents: now.costCents, beforeCents: then?.costCents ?? null }]
    const toHouse: AgainstRow = {
      name: `${kind === 'farm' ? 'Farm' : name} to the house`,
      side: kind,
      cents: givenTo(now, id),
      beforeCents: then ? givenTo(then, id) : null,
    }
    if (kind === 'venture') return [toHouse]
    const trade = tradeMonth(books, id, month)
    const tradeThen = isKnown ? tradeMonth(books, id, before) : null
    return [
      { name: 'Farm, in', side: kind, cents: trade.inCents, beforeCents: tradeThen?.inCents ?? null },
      { name: 'Farm, costs', side: kind, cents: trade.costCents, beforeCents: tradeThen?.costCents ?? null },
      toHouse,
    ]
  })
  const told = rows.filter((row) => row.cents !== 0 || (row.beforeCents ?? 0) !== 0)
  return told.length === 0 ? null : { otherMonth: isKnown ? before : null, rows: told }
}

const order: readonly SideKind[] = ['household', 'farm', 'venture']

/** Draws and reimbursements that reached the house, less what it put in. */
const givenTo = ({ bySide }: HouseholdMonth, sideId: string): Cents => {
  const side = bySide.find((one) => one.sideId === sideId)
  return side ? cents(side.drawCents + side.reimbursementCents - side.contributionCents) : zeroCents
}
