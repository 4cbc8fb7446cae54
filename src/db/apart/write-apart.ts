// Long writing without holding up others: one transaction on a connection of its own, with stops. Until it is through nobody sees any of it.
import { atOnce, type InTurns, withTurns } from '#kept/in-turns.ts'
import { type Books, openBooksOrThrow } from '../open.ts'
import { heldFor } from './making-way.ts'

/** After so many times that another write came first it is done in one go. */
const tries = 5

/**
 * Carries out `work`, which writes through the books it is handed. At each stop it waits for `turn`. Another write that comes meanwhile
 * goes first, and the work begins anew. Books in memory have one connection only: then it is done in one go.
 */
export async function writeApart<Result>(
  books: Books,
  now: Date,
  work: (own: Books) => InTurns<Result>,
  turn: () => Promise<void>,
): Promise<Result> {
  if (books.path === ':memory:') return atOnce(work(books))
  const before = last.get(books.sqlite) ?? Promise.resolve()
  const mine = before.then(() => inItsTurn(books, now, work, turn))
  // One that fails is told to whoever asked for it, not to the next one.
  last.set(
    books.sqlite,
    mine.catch(() => {}),
  )
  return mine
}

const last = new WeakMap<Books['sqlite'], Promise<unknown>>()

async function inItsTurn<Result>(
  books: Books,
  now: Date,
  work: (own: Books) => InTurns<Result>,
  turn: () => Promise<void>,
): Promise<Result> {
  for (let left = tries; left > 0; left -= 1) {
    const done = await tried(books, now, work, turn)
    if (done) return done.result
  }
  return atOnce(work(books))
}

/** Null when it went back for another write. */
async function tried<Result>(
  books: Books,
  now: Date,
  work: (own: Books) => InTurns<Result>,
  turn: () => Promise<void>,
): Promise<{ result: Result } | null> {
  books.standing.mustHold()
  const own = openBooksOrThrow(books.path, { now, mustExist: true })
  try {
    // The file at the path is still the one that is open.
    books.standing.mustHold()
    let wentBack = false
    heldFor(books, () => {
      wentBack = true
      if (own.sqlite.inTransaction) own.sqlite.prepare('ROLLBACK').run()
    })
    const result = await withTurns(work(own), async () => {
      await turn()
      if (wentBack) throw new WentBack()
    })
    books.standing.settle()
    return { result }
  } catch (error) {
    if (error instanceof WentBack) return null
    throw error
  } finally {
    heldFor(books, null)
    own.close()
  }
}

class WentBack extends Error {}
