// Entries as people say them: money went out, came in, moved, a market was held, this is what was there at the start. Debits and credits follow.
import type { Day } from '#calendar/day.ts'
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import { type Account, growsByDebit, type SideId } from './account.ts'
import type { DraftLine, EntryDraft } from './entry.ts'

export interface SimpleLine {
  accountId: number
  /** Positive as typed; negative for a discount or something taken back. */
  amountCents: Cents
  memo?: string
  enterpriseId?: string | null
  batchId?: string | null
}

interface Head {
  id: string
  sideId: SideId
  day: Day
  payee: string
  memo: string
}

/** Money out of (or onto the card of) one account for one or more things. */
export const moneyOut = (
  head: Head,
  paidFromAccountId: number,
  lines: readonly SimpleLine[],
): EntryDraft => ({
  ...head,
  source: 'form',
  lines: [...lines, against(paidFromAccountId, lines, -1)],
})

/** Money into one account from one or more sources. */
export const moneyIn = (
  head: Head,
  receivedInAccountId: number,
  lines: readonly SimpleLine[],
): EntryDraft => ({
  ...head,
  source: 'form',
  lines: [
    against(receivedInAccountId, lines, 1),
    ...lines.map((line) => ({ ...line, amountCents: negateCents(line.amountCents) })),
  ],
})

/** Money from one account of a side to another one of the same side. */
export const moneyMoved = (
  head: Head,
  fromAccountId: number,
  toAccountId: number,
  amountCents: Cents,
): EntryDraft => ({
  ...head,
  source: 'form',
  lines: [
    { accountId: toAccountId, amountCents },
    { accountId: fromAccountId, amountCents: negateCents(amountCents) },
  ],
})

export interface MarketDayMoney {
  /** Where the cash lies; null where the bank's statement brings it. */
  cashAccountId: number | null
  /** What was sold for cash, by product. */
  sales: readonly SimpleLine[]
  /** What is booked for the stand: the cost it is, and the farm's account that paid it, or the takings. */
  fee: { paidFrom: number | 'takings'; costAccountId: number; amountCents: Cents } | null
}

/**
 * The lines of the farm's entry; none where all comes by the bank's statement. Of a fee out of cash that goes to the bank, the statement
 * brings only what was left: the entry has the fee, and as much of each product's sales, so that both stand whole with the line.
 */
export const marketDayLines = ({ cashAccountId, sales, fee }: MarketDayMoney): DraftLine[] => {
  const cash = sumCents(sales.map(({ amountCents }) => amountCents))
  const isFromTakings = fee?.paidFrom === 'takings'
  const lines: DraftLine[] = [
    ...(cashAccountId !== null ? sales : isFromTakings ? shared(fee.amountCents, sales) : []).map((line) => ({
      ...line,
      amountCents: negateCents(line.amountCents),
    })),
    ...(fee ? [{ accountId: fee.costAccountId, amountCents: fee.amountCents }] : []),
    ...(fee && fee.paidFrom !== 'takings'
      ? [{ accountId: fee.paidFrom, amountCents: negateCents(fee.amountCents) }]
      : []),
  ]
  const left = cents(cash - (isFromTakings ? fee.amountCents : 0))
  return cashAccountId === null || left === 0
    ? lines
    : [{ accountId: cashAccountId, amountCents: left }, ...lines]
}

/** So much of the sales, as their amounts are to each other. */
const shared = (amount: Cents, sales: readonly SimpleLine[]): SimpleLine[] =>
  allocate(
    amount,
    sales.map(({ amountCents }) => amountCents),
  ).flatMap((amountCents, at) => (amountCents === 0 ? [] : [{ ...sales[at]!, amountCents }]))

export interface OpeningBalance {
  account: Account
  /** As a person reads it: what is there, or what is owed, is positive. */
  balanceCents: Cents
  memo?: string
}

/** What was there on the first day, held against the side's opening balances. Zero balances are left out; null when all are. */
export const openingEntry = (
  head: Head,
  openingAccountId: number,
  balances: readonly OpeningBalance[],
): EntryDraft | null => {
  const lines: DraftLine[] = balances
    .filter(({ balanceCents }) => balanceCents !== 0)
    .map(({ account, balanceCents, memo }) => ({
      accountId: account.id,
      amountCents: growsByDebit(account.kind) ? balanceCents : negateCents(balanceCents),
      ...(memo ? { memo } : {}),
    }))
  if (lines.length === 0) return null
  const rest = negateCents(sumCents(lines.map((line) => line.amountCents)))
  if (rest !== 0) lines.push({ accountId: openingAccountId, amountCents: rest })
  return { ...head, source: 'opening', lines }
}

const against = (accountId: number, lines: readonly SimpleLine[], sign: 1 | -1): DraftLine => {
  const total = sumCents(lines.map((line) => line.amountCents))
  return { accountId, amountCents: sign === 1 ? total : negateCents(total) }
}
