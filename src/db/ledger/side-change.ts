// Changes of a side: its books renamed, put away and taken up again; what is posted does not change.
import { eq } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { sides } from '#db/schema.ts'
import type { SideId } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, refuse } from '#ledger/problem.ts'
import { listAccounts, type Side, sideNameProblem } from './account-store.ts'
import { hangingProblem, letGo } from './what-hangs.ts'

export interface SideChange {
  name: string
  archived?: boolean
  /** Said after what hangs on the books was shown: they are put away all the same. */
  anyway?: boolean
}

export const findSide = (books: Books, sideId: SideId): Side | undefined =>
  books.db.select().from(sides).where(eq(sides.id, sideId)).get()

export const changeSide = (
  books: Books,
  act: Act,
  sideId: SideId,
  change: SideChange,
): Outcome<{ sideId: SideId }> =>
  once(books, act, 'side.change', { sideId, ...change }, () => {
    const before = findSide(books, sideId)
    if (!before) return refuse({ path: '', message: 'There are no such books. Open the page again' })
    const { archived, anyway = false } = change
    const name = change.name.trim()
    const isPutAway = archived === true && before.archivedAt === null
    const own = listAccounts(books, { sideId })
    const problems: FieldProblem[] = name === '' ? [{ path: 'name', message: 'Give these books a name' }] : []
    const taken = sideNameProblem(books, name, sideId)
    if (taken) problems.push(taken)
    if (isPutAway && before.kind !== 'venture')
      problems.push({ path: 'archived', message: 'House and farm stay. Only a side venture can be archived' })
    else if (isPutAway && !anyway) problems.push(...hangingProblem(books, own))
    if (problems.length > 0) return refuse(...problems)
    if (isPutAway) letGo(books, act.at, own)
    const archivedAt =
      archived === undefined ? before.archivedAt : archived ? (before.archivedAt ?? act.at) : null
    books.db.update(sides).set({ name, archivedAt }).where(eq(sides.id, sideId)).run()
    logChange(books, act, {
      kind: 'side.changed',
      subject: sideId,
      sideId,
      summary: isPutAway ? 'Books were archived' : 'Books were changed',
      details: { before, change },
    })
    return { ok: true, result: { sideId } }
  })
