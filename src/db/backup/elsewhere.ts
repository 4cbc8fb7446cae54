// When a copy last left this computer's data folder. Kept beside the copies, not in the books: a copy changes nothing in them.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { type Day, parseDay } from '#calendar/day.ts'
import { placeBeside } from '#db/data-place.ts'
import { halfOf } from '#db/half.ts'
import { takePlace } from '#db/platform.ts'

/** The day of the newest copy that was sent to a browser or written outside the data folder; null when there was none. */
export const lastCopyElsewhere = (booksPath: string): Day | null => {
  const note = noteOf(booksPath)
  return existsSync(note) ? parseDay(readFileSync(note, 'utf8').trim()) : null
}

export const noteCopyElsewhere = (booksPath: string, today: Day): void => {
  const note = noteOf(booksPath)
  mkdirSync(dirname(note), { recursive: true })
  writeFileSync(halfOf(note), `${today}\n`, { flush: true })
  takePlace(halfOf(note), note)
}

/** Whether a file is out of the folder whose loss it is to outlive. */
export const isElsewhere = (booksPath: string, target: string): boolean =>
  !resolve(target).startsWith(`${placeBeside(booksPath).folder}/`)

const noteOf = (booksPath: string): string =>
  join(placeBeside(booksPath).backups, `${basename(booksPath, '.sqlite')}-last-elsewhere.txt`)
