// Gives a side's books another name; what is posted does not change.
import { eq } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { sides } from '#db/schema.ts'
import type { SideId } from '#ledger/account.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'

export const renameSide = (
  books: Books,
  act: Act,
  sideId: SideId,
  name: string,
): Outcome<{ sideId: SideId }> =>
  once(books, act, 'side.rename', { sideId, name }, () => {
    if (name.trim() === '') return refuse({ path: 'name', message: 'Give these books a name' })
    const before = books.db.select().from(sides).where(eq(sides.id, sideId)).get()
    if (!before) return refuse({ path: '', message: 'There are no such books. Open the page again' })
    books.db.update(sides).set({ name: name.trim() }).where(eq(sides.id, sideId)).run()
    logChange(books, act, {
      kind: 'side.renamed',
      subject: sideId,
      sideId,
      summary: 'Books were given another name',
    })
    return { ok: true, result: { sideId } }
  })
