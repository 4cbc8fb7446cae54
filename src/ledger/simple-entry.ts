// Entries as people say them: money went out, money came in, money moved, this is what was there at the start. Debits and credits follow.
import type { Day } from '#calendar/day.ts'
import { type Cents, negateCents, sumCents } from '#money/cents.ts'
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
