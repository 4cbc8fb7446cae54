// What the house does by itself while it is open: posts automatic standing transfers and keeps a backup of each day.
import type { Day } from '#calendar/day.ts'
import { fileProblem } from '#db/file-problem.ts'
import { postDueTransfers } from '#db/ledger/standing-store.ts'
import type { Books } from '#db/open.ts'
import type { Log, Upkeep } from '#web/server/context.ts'

export interface HousekeepingRound {
  books: Books
  backupFolder: string
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

/** Looks through the file and keeps the backup of the day, unless it was made already. What goes wrong stands on Now too. */
export async function keepBackup(round: HousekeepingRound): Promise<void> {
  const { books, backupFolder, today, log, upkeep } = round
  // Not by the door: a start does not wait for what only a backup needs.
  const { backUpDaily, isBackedUp } = await import('#db/backup/backup.ts')
  const problem =
    books.standing.problem() ??
    (isBackedUp(books, backupFolder, today) ? null : books.standing.checkPages('integrity_check'))
  const backup = problem ? { ok: false as const, problem } : backUpDaily(books, backupFolder, today)
  upkeep.backupProblem = backup && !backup.ok ? backup.problem.message : null
  if (backup && !backup.ok) log.error({ problem: backup.problem.kind }, 'the daily backup could not be made')
}

/** A proved copy takes a while on large books, so the first pages come before it. */
const backupDelayMilliseconds = 20_000

/** Posts now, backs up a little later, and does both every hour until stopped. What breaks is logged and does not stop the house. */
export function keepHouseHourly(round: () => HousekeepingRound): () => void {
  const carefully = async (work: (current: HousekeepingRound) => void | Promise<void>) => {
    const current = round()
    try {
      await work(current)
    } catch (error) {
      const says = fileProblem(error, current.books.path)?.message
      if (work === keepBackup)
        current.upkeep.backupProblem = says ?? 'The log of the server says where it broke.'
      current.log.error({ error: error instanceof Error ? error.name : 'unknown' }, 'housekeeping broke')
    }
  }
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
