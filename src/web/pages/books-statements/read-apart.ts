// Reading in: on the spot what is short, and on a connection of its own, with turns for other pages, what is long.

import { writeApart } from '#db/apart/write-apart.ts'
import type { Books } from '#db/open.ts'
import { atOnce, type InTurns } from '#kept/in-turns.ts'
import type { PageContext } from '#web/forms/answer.tsx'
import { turns } from '#web/server/let-others.ts'

/** So many lines are read in within a tenth of a second. */
const fewLines = 2000

export const readApart = <Result>(
  c: PageContext,
  lines: number,
  work: (books: Books) => InTurns<Result>,
): Promise<Result> => {
  const { books, clock } = c.var.web
  return lines <= fewLines
    ? Promise.resolve(atOnce(work(books)))
    : writeApart(books, clock.now(), work, turns())
}
