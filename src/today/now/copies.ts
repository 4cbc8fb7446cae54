// What Now says about copies: whether the last one failed, and how long ago one left this computer.
import { type Day, dayNumber } from '#calendar/day.ts'
import { lastCopyElsewhere } from '#db/backup/elsewhere.ts'
import type { Books } from '#db/open.ts'

export interface CopiesFigures {
  /** Why the copy of the day could not be made. */
  problem: string | null
  lastElsewhere: Day | null
  daysSince: number | null
  /** True once the work of a month would go with this computer. */
  isDue: boolean
}

/** After this many days a copy is asked for (common practice: once a month, with the statements). */
const mostDays = 31

/** `begun`: the day of the first change in these books, by this computer’s calendar. */
export const copiesFigures = (
  books: Books,
  today: Day,
  begun: Day | null,
  problem: string | null,
): CopiesFigures => {
  const lastElsewhere = lastCopyElsewhere(books.path)
  const daysTo = (from: Day | null) => (from === null ? null : dayNumber(today) - dayNumber(from))
  const daysSince = daysTo(lastElsewhere)
  return { problem, lastElsewhere, daysSince, isDue: (daysSince ?? daysTo(begun) ?? 0) > mostDays }
}
