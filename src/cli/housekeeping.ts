// What the house does by itself while it is open: posts automatic standing transfers and keeps a backup of each day.
import type { Day } from '#calendar/day.ts'
import { postDueTransfers } from '#db/ledger/standing-store.ts'
import type { Books } from '#db/open.ts'
import type { Log } from '#web/server/context.ts'

export interface HousekeepingRound {
  books: Books
  backupFolder: string
  now: Date
  today: Day
  log: Log
}

/** Posts what is due. Safe to call at every start and every hour: nothing is posted twice. */
export function postDue({ books, now, today, log }: HousekeepingRound): void {
  const caughtUp = postDueTransfers(books, { at: now.toISOString(), actor: 'housekeeping' }, today)
  if (caughtUp.refused.length > 0)
    log.warn({ waiting: caughtUp.refused.length }, 'standing transfers wait for a person')
}

/** Keeps the backup of the day, unless it was made already. */
export async function keepBackup({ books, backupFolder, today, log }: HousekeepingRound): Promise<void> {
  // Not by the door: a start does not wait for what only a backup needs.
  const { backUpDaily } = await import('#db/backup/backup.ts')
  const backup = backUpDaily(books, backupFolder, today)
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
