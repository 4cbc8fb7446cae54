// A statement line whose entry was corrected to something else: in words, so that a person decides and nothing is booked twice.
import { type Day, dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'

const begins = 'Was booked as '

export interface CorrectedLine {
  /** The amount of the line, as it was booked. */
  amount: Cents
  payee: string
  /** What stands in for the entry; `amount` in the account of the line, null when it no longer touches that account. */
  now: { entryNo: number; day: Day; amount: Cents | null }
}

export const correctedNote = ({ amount, payee, now }: CorrectedLine): string =>
  `${begins}${payee ? `“${payee}”, ` : ''}${formatCents(amount)}, corrected to ${
    now.amount === null ? 'another account' : formatCents(now.amount)
  } on ${dayName(now.day)} ${byEntry(now.entryNo)} whether the books have it by that entry`

const byEntry = (entryNo: number): string => `(entry ${entryNo}): choose`

/** Whether it is this entry that the line is held against. */
export const isHeldAgainst = (note: string, entryNo: number): boolean =>
  note.startsWith(begins) && note.includes(byEntry(entryNo))

const tookBack = 'Its booking was reversed'

/** Of a line that waits again since a person took its booking back. */
export const takenBackNote = `${tookBack}. Skip it if it did not happen, or choose where it goes`

/** Of a line that the file has a second time, and whose second booking a person took back: it happened once. */
export const happenedOnceNote = `${tookBack}, and the bank has the same transaction of this day once more`

/** Also once a person has let the line wait: it is booked only by a tick of their own. */
export const wantsTick = (note: string): boolean => note.startsWith(begins) || note.startsWith(tookBack)
