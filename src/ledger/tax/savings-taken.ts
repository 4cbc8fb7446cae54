// What was taken out of retirement savings by the books, less what was put back into such savings in time.
import { addDays, type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, month, monthOfYear } from '#calendar/month.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { type SavingMove, savingReadingsOf } from './saving-move.ts'

/** One line of an entry that took money out of an account. */
export interface SavingTaken {
  entryNo: number
  day: Day
  accountId: number
  savingsKind: 'traditional' | 'roth'
  /** What left the account, positive. */
  amountCents: Cents
  /** What the whole entry put into accounts of the same kind: moved on, not taken out. */
  movedOnCents: Cents
  /** Of traditional savings, what the whole entry put into Roth savings: income, and no early withdrawal (26 USC 408A(d)(3)(A)(ii)). */
  convertedCents: Cents
}

/** Twelve sums of a year, January first, positive. */
export interface TakenOut {
  takenOutCents: Cents[]
  /** The same less what was converted. */
  paidOutCents: Cents[]
}

/** Days within which money taken out may be put back untaxed (26 USC 408(d)(3)(A), 402(c)(3)). */
export const rolloverDays = 60

/** By account; oldest first in `taken` and `putIn`. */
export const takenInYear = (
  taken: readonly SavingTaken[],
  putIn: readonly SavingMove[],
  year: number,
): Map<number, TakenOut> => {
  const paidOut = monthsOf(
    taken.map((one) => ({ ...one, movedOnCents: cents(one.movedOnCents + one.convertedCents) })),
    putIn,
    year,
  )
  const all = monthsOf(taken, putIn, year)
  return new Map(
    [...all].map(([id, takenOutCents]) => [
      id,
      { takenOutCents, paidOutCents: paidOut.get(id) ?? takenOutCents.map(() => zeroCents) },
    ]),
  )
}

const monthsOf = (
  taken: readonly SavingTaken[],
  putIn: readonly SavingMove[],
  year: number,
): Map<number, Cents[]> => {
  const left = lessMovedOn(taken)
  for (const move of putIn) {
    if (savingReadingsOf(move)[0].use !== 'rollover') continue
    let rest: number = move.amountCents
    for (const one of left) {
      const isInTime = one.day <= move.day && move.day <= addDays(one.day, rolloverDays)
      if (one.savingsKind !== move.savingsKind || !isInTime) continue
      const back = Math.min(rest, one.amountCents)
      one.amountCents = cents(one.amountCents - back)
      rest -= back
    }
  }
  const sums = new Map<number, Cents[]>()
  for (const { accountId, day, amountCents } of left) {
    const at = monthOfDay(day)
    if (amountCents === 0 || !isIn(at, year)) continue
    const months = sums.get(accountId) ?? Array.from({ length: 12 }, () => zeroCents)
    months[monthOfYear(at) - 1] = cents(months[monthOfYear(at) - 1]! + amountCents)
    sums.set(accountId, months)
  }
  return sums
}

const isIn = (at: Month, year: number): boolean => at >= month(year, 1) && at <= month(year, 12)

/** An entry that moves on less than it takes takes out the rest. */
const lessMovedOn = (taken: readonly SavingTaken[]): SavingTaken[] => {
  const moved = new Map<string, number>()
  return taken.map((one) => {
    const key = `${one.entryNo} ${one.savingsKind}`
    const on = moved.get(key) ?? one.movedOnCents
    const here = Math.min(on, one.amountCents)
    moved.set(key, on - here)
    return { ...one, amountCents: cents(one.amountCents - here) }
  })
}
