// What the Crossings page says: equity of each side, leak by month, what is due, and the history.
import { type Day, monthOfDay } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { listAccounts, listSides, type Side } from '#db/ledger/account-store.ts'
import { balancesOn, spanOfBooks } from '#db/ledger/balances.ts'
import type { ListedCrossing } from '#db/ledger/crossing-store.ts'
import { farmCrossingMonths } from '#db/ledger/farm-months.ts'
import type { Books } from '#db/open.ts'
import { dueTransfers, listStanding } from '#db/transfers/standing-store.ts'
import { type Account, balanceAsRead } from '#ledger/account.ts'
import { crossingKindNames } from '#ledger/crossing-kind.ts'
import { type LeakMonth, leakByMonth } from '#ledger/leak.ts'
import { nextOccurrence } from '#ledger/standing.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import type { CrossingRow, DueRow, EquityFigures, StandingRow } from './figures.ts'

/** Owner's equity: what the side owns less what it owes, and how it came about. */
export function equityFigures(books: Books): EquityFigures[] {
  const balances = balancesOn(books)
  const accounts = listAccounts(books, { withArchived: true })
  const read = (account: Account) => balanceAsRead(account.kind, balances.get(account.id) ?? cents(0))
  return listSides(books).map((side) => {
    const own = accounts.filter((account) => account.sideId === side.id)
    const sumOf = (wanted: (account: Account) => boolean) => sumCents(own.filter(wanted).map(read))
    const parts = equityParts(own, read, sumOf)
    return {
      side: { id: side.id, kind: side.kind, name: side.name },
      equityCents: sumCents(parts.map((part) => part.cents)),
      parts: parts.filter((part) => part.cents !== 0),
      ownedCents: sumOf((account) => account.kind === 'asset'),
      owedCents: sumOf((account) => account.kind === 'liability'),
    }
  })
}

const equityParts = (
  own: readonly Account[],
  read: (account: Account) => Cents,
  sumOf: (wanted: (account: Account) => boolean) => Cents,
): EquityFigures['parts'][number][] => [
  ...own
    .filter((account) => account.kind === 'equity')
    .map((account) => ({ name: account.name, cents: read(account), accountId: account.id })),
  { name: 'Income since the start', cents: sumOf((account) => account.kind === 'income'), accountId: null },
  {
    name: 'Costs since the start',
    cents: negateCents(sumOf((account) => account.kind === 'expense')),
    accountId: null,
  },
]

/** Leak of every month from the first one in the books to today's. */
export function leakFigures(books: Books, today: Day): LeakMonth[] {
  const span = spanOfBooks(books)
  if (!span) return []
  const last = Math.max(span.first, Math.min(span.last, monthOfDay(today))) as Month
  return leakByMonth(farmCrossingMonths(books, span.first, last))
}

export const dueRows = (books: Books, today: Day): DueRow[] =>
  dueTransfers(books, today).map((due) => ({
    standingId: due.transfer.id,
    month: due.month,
    day: due.day,
    name: due.transfer.name,
    kindName: crossingKindNames[due.transfer.kind],
    amountCents: due.transfer.amountCents,
    isMissed: due.month < monthOfDay(today),
    wasTakenBack: due.wasTakenBack,
    alikeOn: due.alikeOn,
  }))

export function standingRows(books: Books, today: Day): StandingRow[] {
  const names = new Map(listAccounts(books, { withArchived: true }).map((one) => [one.id, one.name]))
  return listStanding(books).map((transfer) => {
    const next = nextOccurrence(transfer, today)
    return {
      id: transfer.id,
      name: transfer.name,
      kindName: crossingKindNames[transfer.kind],
      amountCents: transfer.amountCents,
      from: names.get(transfer.fromAccountId) ?? '',
      to: names.get(transfer.toAccountId) ?? '',
      nextDay: next?.day ?? null,
      endsAfter: transfer.lastMonth,
      isAutomatic: transfer.posting === 'automatic',
    }
  })
}

export const crossingRow = (crossing: ListedCrossing, sides: readonly Side[]): CrossingRow => {
  const side = (id: string) => {
    const found = sides.find((one) => one.id === id)
    const half = crossing.halves.find((one) => one.sideId === id)
    return {
      kind: found?.kind ?? ('venture' as const),
      name: found?.name ?? id,
      account: half?.accountName ?? '',
    }
  }
  return {
    id: crossing.id,
    day: crossing.day,
    kind: crossing.kind,
    kindName: crossingKindNames[crossing.kind],
    amountCents: crossing.amountCents,
    from: side(crossing.fromSideId),
    to: side(crossing.toSideId),
    memo: crossing.memo,
    goodsSay: crossing.goods ? `${crossing.goods.quantity} ${crossing.goods.unit}`.trim() : '',
    isTakenBack: crossing.reversedById !== null,
    takesBack: crossing.reversesId !== null,
  }
}
