// All that waits with what is proposed for it, worked out once until the books change: the desk, a line's own page and the month show it.
import { closedThrough } from '#db/ledger/ledger-writer.ts'
import type { Books } from '#db/open.ts'
import { type Desk, sortingDesk } from '#db/statements/sorting-desk.ts'
import { keptUntilChange } from '#today/kept.ts'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { groupRows } from './desk-groups.ts'
import { type Offers, offersOf } from './desk-places.ts'
import { deskRow, groundOf, loanSplits } from './desk-rows.ts'
import type { TargetGround } from './sorting-targets.ts'

export interface DeskRead {
  desk: Desk
  ground: TargetGround
  /** In the order of the desk's lines. */
  rows: readonly DeskRow[]
  /** Those of them that are not doubtful, by payee. */
  groups: readonly (readonly DeskRow[])[]
  /** Where they may go. */
  offers: Offers
}

/** Shared by whoever asks: nothing of it is changed. */
export const readDesk = (books: Books): DeskRead =>
  keptUntilChange(books, 'sorting desk', () => {
    const desk = sortingDesk(books)
    const ground = groundOf(books)
    const splits = loanSplits(books, desk.lines)
    const closed = new Map(ground.sides.map(({ id }) => [id, closedThrough(books, id)]))
    const rows = desk.lines.map((each) =>
      deskRow(each, ground, closed.get(each.line.sideId) ?? null, splits.get(each.line.id)),
    )
    const groups = groupRows(rows.filter((row) => row.doubt === ''))
    return { desk, ground, rows, groups, offers: offersOf(books, ground) }
  })
