// What is ticked and chosen on the desk and not booked yet: kept in the file, so that paging, filtering and leaving drop nothing.
import { isAmong } from '#db/among.ts'
import { atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { lineChoices } from '#db/schema-statements.ts'

export interface LineChoice {
  take: boolean
  /** As the list of targets has it; `''` when nothing is chosen. */
  to: string
}

/** By the id of the line. */
export const listLineChoices = (books: Books): Map<number, LineChoice> =>
  new Map(
    books.db
      .select()
      .from(lineChoices)
      .all()
      .map(({ lineId, take, goesTo }) => [lineId, { take, to: goesTo }]),
  )

/** Keeps each choice over the one before; null lets it go, and so does a line that waits no more. The same twice is the same. */
export const keepLineChoices = (
  books: Books,
  at: string,
  choices: ReadonlyMap<number, LineChoice | null>,
): void => {
  if (choices.size === 0) return
  const keep = books.sqlite.prepare(
    `INSERT INTO line_choices (line_id, take, goes_to, chosen_at)
     SELECT id, @take, @to, @at FROM statement_lines WHERE id = @id AND state IN ('unsorted', 'doubtful')
     ON CONFLICT (line_id) DO UPDATE SET take = excluded.take, goes_to = excluded.goes_to, chosen_at = excluded.chosen_at`,
  )
  atomically(books, () => {
    forgetLineChoices(
      books,
      [...choices].flatMap(([id, choice]) => (choice === null ? [id] : [])),
    )
    for (const [id, choice] of choices)
      if (choice !== null) keep.run({ id, take: choice.take ? 1 : 0, to: choice.to, at })
    return { ok: true }
  })
}

/** What waits no more needs no choice; call it inside a write. */
export const forgetLineChoices = (books: Books, lineIds: readonly number[]): void => {
  books.db.delete(lineChoices).where(isAmong(lineChoices.lineId, lineIds)).run()
}
