// One statement as its page shows it: under way with what may be ticked, or finished with what came since.
import { findAccount, listSides } from '#db/ledger/account-store.ts'
import type { Books } from '#db/open.ts'
import { changedSince } from '#db/reconcile/changed-since.ts'
import {
  lastFinished,
  openReconciliation,
  type ReconcileLine,
  reconcileLines,
  reconciliationState,
} from '#db/reconcile/reconcile-reader.ts'
import { balanceAsRead, growsByDebit } from '#ledger/account.ts'
import { reconcileDifference } from '#ledger/reconcile.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { explained } from '#today/reconcile/explained.ts'
import type { ReconcileFigures } from '#today/reconcile/figures.ts'

/** `ticked`: as they stand on the screen and are not saved yet. */
export function tickingFigures(
  books: Books,
  id: string,
  ticked?: ReadonlySet<number>,
): ReconcileFigures | undefined {
  const state = reconciliationState(books, id)
  if (!state) return undefined
  const { reconciliation } = state
  const account = findAccount(books, reconciliation.accountId)!
  const side = listSides(books, { withArchived: true }).find((one) => one.id === account.sideId)!
  const lines = reconcileLines(books, id).map((line) =>
    ticked ? { ...line, ticked: ticked.has(line.postingId) } : line,
  )
  const tickedCents = ticked
    ? sumCents(lines.flatMap((line) => (line.ticked ? [line.amountCents] : [])))
    : state.tickedCents
  const differenceCents = reconcileDifference({ ...reconciliation, tickedCents })
  const explanations =
    reconciliation.state === 'finished'
      ? []
      : explained(books, account, {
          apart: cents(-differenceCents),
          through: reconciliation.statementDay,
          lines,
        })
  const explaining = new Set(explanations.flatMap((one) => one.lines.map((line) => line.postingId)))
  const changed = changedSince(books, reconciliation)
  const asRead = (amount: typeof tickedCents) => balanceAsRead(account.kind, amount)
  return {
    id,
    account: {
      id: account.id,
      sideId: account.sideId,
      name: account.name,
      isDebt: !growsByDebit(account.kind),
    },
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
    explanations,
    lines: lines.map((line) => lineFigures(line, asRead(line.amountCents), explaining)),
    mayReopen:
      lastFinished(books, account.id)?.id === id && openReconciliation(books, account.id) === undefined,
  }
}

const lineFigures = (
  { entryId: _, ...line }: ReconcileLine,
  amountCents: Cents,
  explaining: ReadonlySet<number | null>,
): ReconcileFigures['lines'][number] => ({
  ...line,
  amountCents,
  isExplaining: explaining.has(line.postingId),
})
