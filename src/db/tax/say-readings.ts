// What people say an amount of the books counts as for tax: kept with its posting, in one act.
import { eq } from 'drizzle-orm'
import { logChange } from '#db/change-log.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { postingTax } from '#db/schema-year.ts'
import { householdSide } from '#ledger/account.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'

type Stored = typeof postingTax.$inferInsert

interface KeptReading {
  use: Stored['taxUse']
  taxYear: number
  /** Of payments of tax only. */
  office?: Stored['office']
  state?: Stored['state']
}

interface Saying<Move, Reading> {
  /** The act's name under its form's id, and what the log calls it. */
  act: string
  kind: Parameters<typeof logChange>[2]['kind']
  summary: string
  /** Said where one of the amounts is no longer in the books. */
  gone: string
  /** All amounts of the books that can be said of. */
  moves: () => readonly Move[]
  /** Whether the books do not tell it by themselves; what they tell is not kept, and what was said before then goes. */
  isWorthSaying: (move: Move, reading: Reading) => boolean
  isSame: (a: Reading, b: Reading) => boolean
}

/** Says it of all of these, or of none. */
export const sayReadings = <
  Reading extends KeptReading,
  Move extends { postingId: number; said: Reading | null },
>(
  books: Books,
  act: Act,
  said: readonly { postingId: number; reading: Reading }[],
  saying: Saying<Move, Reading>,
): Outcome<{ said: number }> =>
  once(books, act, saying.act, { said }, () => {
    const known = new Map(saying.moves().map((move) => [move.postingId, move]))
    if (said.some(({ postingId }) => !known.has(postingId))) return refuse({ path: '', message: saying.gone })
    const isSame = (a: Reading | null, b: Reading | null) =>
      a === null || b === null ? a === b : saying.isSame(a, b)
    const changed = said
      .map(({ postingId, reading }) => ({ move: known.get(postingId)!, reading }))
      .map(({ move, reading }) => ({ move, reading: saying.isWorthSaying(move, reading) ? reading : null }))
      .filter(({ move, reading }) => !isSame(move.said, reading))
    for (const { move, reading } of changed) keep(books, act.at, move.postingId, reading)
    logChange(books, act, {
      kind: saying.kind,
      subject: householdSide,
      sideId: householdSide,
      summary: saying.summary,
      details: {
        changed: changed.map(({ move, reading }) => ({
          postingId: move.postingId,
          before: move.said,
          reading,
        })),
      },
    })
    return { ok: true, result: { said: changed.length } }
  })

const keep = (books: Books, at: string, postingId: number, reading: KeptReading | null): void => {
  books.db.delete(postingTax).where(eq(postingTax.postingId, postingId)).run()
  if (reading === null) return
  const { use, office = null, state = null, taxYear } = reading
  books.db.insert(postingTax).values({ postingId, taxUse: use, office, state, taxYear, saidAt: at }).run()
}
