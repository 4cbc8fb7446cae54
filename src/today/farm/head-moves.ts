// What the notebook tells of a herd's heads: counts, what came and went, and what left for the kitchen or was bartered.
import type { Day } from '#calendar/day.ts'
import { listGoods, listHeads } from '#db/notebook/field-notes.ts'
import type { Books } from '#db/open.ts'
import type { HeadMove } from '#farm/notebook/heads.ts'

/** Tallies with the heads that went to the kitchen or were bartered, which stand with the goods. */
export const headMoves = (books: Books, to: Day): HeadMove[] => [
  ...listHeads(books, to),
  ...listGoods(books, '0001-01-01' as Day, to).flatMap(({ day, herdId, headClass, kind, quantity }) =>
    herdId !== null && headClass !== null ? [{ day, herdId, headClass, kind, count: quantity }] : [],
  ),
]
