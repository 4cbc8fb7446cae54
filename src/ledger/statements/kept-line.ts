// A statement line that an account has already.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'

/** A line already kept for the account. `text` is payee and memo as `textOfLine` gives them. */
export interface KeptLine {
  lineKey: string
  bankNumber: string
  day: Day
  amount: Cents
  text: string
  /** `aside`: it books nothing, on purpose. Waiting when left out. */
  state?: 'waiting' | 'booked' | 'aside'
}
