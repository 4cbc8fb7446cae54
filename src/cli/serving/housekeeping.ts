// What the house does by itself while it is open: posts automatic standing transfers and keeps a copy of each day, made anew as the books go on.
import type { Day } from '#calendar/day.ts'
import { fileProblem } from '#db/file-problem.ts'
import type { Books } from '#db/open.ts'
import { postDueTransfers } from '#db/transfers/standing-store.ts'
import type { Log, Upkeep } from '#web/server/context.ts'

export interface HousekeepingRound {
  books: Books
  /** Keeps the copy of the day, unless it holds all that the books do; says in words why it could not. */
  copy(): Promise<string | null>
  now: Date
  today: Day
  log: Log
  upkeep: Upkeep
}

/** Posts what is due. Safe to call at every start and every hour: nothing is posted twice. */
export function postDue({ books, now, today, log }: HousekeepingRound): void {
  const caughtUp = postDueTransfers(books, { at: now.toISOString(), actor: 'housekeeping' }, today)
  if (caughtUp.refused.length > 0)
    log.warn({ waiting: caughtUp.refused.length }, 'standing transfers wait for a person')
}

/** Keeps the copy of the day. Why there is none stands on Now, and whether the file itself is whole is looked at then. */
export async function keepBackup({ books, copy, log, upkeep }: HousekeepingRound): Promise<void> {
  const away = books.standing.problem()
  upkeep.backupProblem = away ? away.message : await copy()
  if (upkeep.backupProblem === null) return
  log.error({ isAway: away !== null }, 'the daily backup could not be made')
  if (!away) books.standing.checkPages('quick_check')
}

/** A proved copy takes a while on large books, so the first pages come before it. */
const backupDelayMilliseconds = 20_000

type Work = (current: HousekeepingRound) => void | Promise<void>

/** What breaks is logged and does not stop the house. */
async function keptCarefully(work: Work, current: HousekeepingRound): Promise<void> {
  try {
    await work(current)
  } catch (error) {
    const says = fileProblem(error, current.books.path)?.message
    if (work === keepBackup)
      current.upkeep.backupProblem = says ?? 'The log of the server says where it broke.'
    current.log.error({ error: error instanceof Error ? error.name : 'unknown' }, 'housekeeping broke')
  }
}

/** What was entered since the last copy, as the house closes. Of books whose file is away nothing is copied here. */
export async function keepLastCopy(current: HousekeepingRound): Promise<void> {
  if (current.books.standing.problem() === null) await keptCarefully(keepBackup, current)
}

/** Posts now, backs up a little later, and does both every hour until stopped. */
export function keepHouseHourly(round: () => HousekeepingRound): () => void {
  const carefully = (work: Work) => keptCarefully(work, round())
  void carefully(postDue)
  const first = setTimeout(() => void carefully(keepBackup), backupDelayMilliseconds).unref()
  const hourly = setInterval(async () => {
    await carefully(postDue)
    await carefully(keepBackup)
  }, 3_600_000).unref()
  return () => {
    clearTimeout(first)
    clearInterval(hourly)
  }
}
