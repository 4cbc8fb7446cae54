// Heads as the farm's notebook counted them.
import { and, asc, eq, lte } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { HeadClass } from '#farm/notebook/kinds.ts'
import { headTallies } from './schema-notes.ts'

export interface HeadCount {
  /** The herd's short name in the plan. */
  herd: string
  kind: HeadClass
  heads: number
  day: Day
}

/** Up to the end of a day, oldest first. */
export const countedHeads = (books: Books, day: Day): HeadCount[] =>
  books.db
    .select({
      herd: headTallies.herdId,
      kind: headTallies.headClass,
      heads: headTallies.count,
      day: headTallies.day,
    })
    .from(headTallies)
    .where(and(eq(headTallies.kind, 'counted'), lte(headTallies.day, day)))
    .orderBy(asc(headTallies.day), asc(headTallies.recordedAt))
    .all()
