// How many transactions wrote something and came to nothing since the books were opened. Each frees the id of the change that it had
// logged for another one, so whatever was read in between must not be found under that id.
import type { Books } from '#db/open.ts'

export const rollbacksOf = (books: Books): number => rollbacks.get(books) ?? 0

/** Told by the doorway of writes. */
export const countRollback = (books: Books): void => void rollbacks.set(books, rollbacksOf(books) + 1)

const rollbacks = new WeakMap<Books, number>()
