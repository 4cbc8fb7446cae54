// Takes a booking of the desk back as one act: what it posted is reversed, its lines wait again, and what it taught is forgotten.
import { eq } from 'drizzle-orm'
import type { Change } from '#db/change-log.ts'
import { entryOfPosting } from '#db/ledger/entry-reader.ts'
import { voidEntry } from '#db/ledger/ledger-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { heldByStatements } from '#db/reconcile/held-by-statements.ts'
import { statementLines } from '#db/schema-statements.ts'
import { type Refusal, refuse } from '#ledger/problem.ts'
import type { Sorted, TaughtRule } from './sorted.ts'
import { forgetRule } from './sorting-rule-store.ts'

type Details = Sorted & { lines?: readonly number[]; taught?: readonly TaughtRule[] }

/** All or nothing; call it inside a write. A line that was corrected, taken back or sorted anew since is refused by name. */
export const undoSorting = (books: Books, act: Act, change: Change): { ok: true } | Refusal => {
  const { lines: ids, taught, replaced } = change.details as Details
  if (ids === undefined || replaced > 0)
    return refuse({
      path: '',
      message: 'What it booked is no longer known. Reverse its entries one by one, from their register',
    })
  const lines = ids.flatMap((id) => lineOf(books, id) ?? [])
  const changed = lines.find((line) => line.sortedAt !== change.at && line.state !== 'unsorted')
  if (changed)
    return refuse({ path: '', message: `“${changed.payee}” was sorted again since. Undo that first` })
  const tied = lines.flatMap(({ postingId }) => (postingId === null ? [] : [postingId]))
  const held = heldByStatements(books, tied)
  if (held) return refuse(held)
  for (const line of lines.filter(({ state }) => state === 'posted')) {
    // The other half of a transfer goes with the first.
    if (lineOf(books, line.id)!.postingId === null) continue
    const entry = entryOfPosting(books, line.postingId!)
    if (!entry.id.startsWith(`${change.subject}.`))
      return refuse({
        path: '',
        message: `“${line.payee}” was corrected since, by entry ${entry.no}. Undo that first`,
      })
    const back = voidEntry(
      books,
      { ...act, formId: `${act.formId}.${entry.no}` },
      entry.id,
      entry.day,
      'part',
    )
    if (!back.ok) return back
  }
  for (const { id } of lines)
    books.db
      .update(statementLines)
      .set({ state: 'unsorted', postingId: null, ruleId: null, sortedAt: null })
      .where(eq(statementLines.id, id))
      .run()
  for (const [index, rule] of (taught ?? []).entries())
    forgetRule(books, { ...act, formId: `${act.formId}.rule.${index}` }, rule)
  return { ok: true }
}

const lineOf = (books: Books, id: number) =>
  books.db.select().from(statementLines).where(eq(statementLines.id, id)).get()
