// One statement as its page shows it: under way with what may be ticked, or finished with what came since.
import { findAccount, listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { changedSince } from '#db/reconcile/changed-since.ts'
import {
  lastFinished,
  openReconciliation,
  reconcileLines,
  reconciliationState,
} from '#db/reconcile/reconcile-reader.ts'
import { balanceAsRead, growsByDebit } from '#ledger/account.ts'
import { likelySlips } from '#ledger/reconcile.ts'
import { cents } from '#money/cents.ts'
import type { ReconcileFigures } from '#today/reconcile/figures.ts'

export function tickingFigures(books: Books, id: string): ReconcileFigures | undefined {
  const state = reconciliationState(books, id)
  if (!state) return undefined
  const { reconciliation, tickedCents, differenceCents } = state
  const account = findAccount(books, reconciliation.accountId)!
  const side = listSides(books, { withArchived: true }).find((one) => one.id === account.sideId)!
  const lines = reconcileLines(books, id)
  const slips = new Set(likelySlips(differenceCents, lines).map((line) => line.postingId))
  const changed = changedSince(books, reconciliation)
  const asRead = (amount: typeof tickedCents) => balanceAsRead(account.kind, amount)
  return {
    id,
    account: { id: account.id, name: account.name, isDebt: !growsByDebit(account.kind) },
    side: { kind: side.kind, name: side.name },
    state: reconciliation.state,
    statementDay: reconciliation.statementDay,
    previousBalanceCents: asRead(reconciliation.previousBalanceCents),
    statementBalanceCents: asRead(reconciliation.statementBalanceCents),
    tickedCents: asRead(tickedCents),
    differenceCents: asRead(cents(differenceCents - (changed?.cents ?? 0))),
    changed: (changed?.lines ?? []).map((line) => ({
      entryNo: line.entryNo,
      day: line.day,
      payee: line.payee || line.memo,
      amountCents: asRead(line.amountCents),
      reversesNo: line.reversesNo,
    })),
    note: reconciliation.note,
    lines: lines.map((line) => ({
      postingId: line.postingId,
      entryNo: line.entryNo,
      day: line.day,
      payee: line.payee,
      memo: line.memo,
      amountCents: asRead(line.amountCents),
      ticked: line.ticked,
      isReversed: line.isReversed,
      reversesNo: line.reversesNo,
      isLikelySlip: slips.has(line.postingId),
    })),
    mayReopen:
      lastFinished(books, account.id)?.id === id && openReconciliation(books, account.id) === undefined,
  }
}
