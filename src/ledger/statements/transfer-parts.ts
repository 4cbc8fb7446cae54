// Two lines that are the halves of one transfer: what is booked of them, and what either teaches of the next one.
import { buildCrossing, type CrossingAccountOf, type CrossingResult } from '#ledger/crossing.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { EntryGround } from '#ledger/entry.ts'
import { moneyMoved } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import type { LineToSort } from './sorted-parts.ts'
import type { SortingTarget } from './sorting.ts'

type Half = LineToSort & { sideId: string }

/** `crossingKind` is null within one side. */
export const transferParts = (
  id: string,
  [out, into]: readonly [out: Half, into: Half],
  crossingKind: CrossingKind | null,
  { ground, crossingAccount }: { ground: EntryGround; crossingAccount: CrossingAccountOf },
): CrossingResult => {
  const amountCents = cents(-out.amount)
  const head = { id, day: out.day, payee: out.payee, memo: out.memo }
  if (crossingKind === null) {
    const entry = moneyMoved({ ...head, sideId: out.sideId }, out.accountId, into.accountId, amountCents)
    return { ok: true, crossings: [], entries: [{ ...entry, source: 'statement' }] }
  }
  return buildCrossing(
    {
      ...head,
      kind: crossingKind,
      amountCents,
      fromAccountId: out.accountId,
      toAccountId: into.accountId,
    },
    ground,
    crossingAccount,
    'statement',
  )
}

export const transferTarget = (accountId: number, crossingKind: CrossingKind | null): SortingTarget =>
  crossingKind === null
    ? { kind: 'account', accountId, enterpriseId: null }
    : { kind: 'crossing', crossingKind, otherAccountId: accountId }
