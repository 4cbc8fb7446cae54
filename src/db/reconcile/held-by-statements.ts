// Why what stands on a finished statement is not taken back by a press: which statements, of which accounts, and the way to them.
import { and, asc, eq } from 'drizzle-orm'
import { dayName } from '#calendar/day.ts'
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { accounts } from '#db/schema.ts'
import { reconciliations, reconciliationTicks } from '#db/schema-statements.ts'
import type { FieldProblem } from '#ledger/problem.ts'

export const wayToReconciliation = (id: string) => ({
  href: `/books/reconcile/${id}`,
  says: 'Open that reconciliation',
})

/** Null where none of the postings stands on a finished statement. */
export const heldByStatements = (books: Books, postingIds: readonly number[]): FieldProblem | null => {
  const held = books.db
    .selectDistinct({
      id: reconciliations.id,
      account: accounts.name,
      day: reconciliations.statementDay,
    })
    .from(reconciliationTicks)
    .innerJoin(reconciliations, eq(reconciliations.id, reconciliationTicks.reconciliationId))
    .innerJoin(accounts, eq(accounts.id, reconciliations.accountId))
    .where(and(isAmong(reconciliationTicks.postingId, postingIds), eq(reconciliations.state, 'finished')))
    .orderBy(asc(accounts.name), asc(reconciliations.statementDay))
    .all()
  // Of an account the last one is reopened first.
  const [last] = [...held].sort((a, b) => (a.day < b.day ? 1 : -1))
  if (!last) return null
  const named = held.map(({ account, day }) => `${account} of ${dayName(day)}`)
  const isOne = named.length === 1
  return {
    path: '',
    message: `Part of it is on the reconciled ${isOne ? 'statement' : 'statements'} of ${named.join(', ')}. Reopen ${isOne ? 'that reconciliation' : 'those reconciliations'} first`,
    way: wayToReconciliation(last.id),
  }
}
