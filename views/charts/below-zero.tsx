// What savings below zero are, wherever they stand: no balance falls there, and only a bill that stays unpaid is being out of money.
import { nameOfMonth } from '#calendar/month.ts'

interface BelowZeroProps {
  /** Spendable savings as they are shown, dollars. */
  savings: readonly number[]
  /** The first month in which something stays unpaid, by a milestone of the same course; null: none; left out: not told here. */
  runsShort?: string | null
}

/** Nothing where none is below zero. */
export const BelowZero = ({ savings, runsShort }: BelowZeroProps) =>
  savings.some((one) => one < -0.5) ? (
    <p class="figure-note">
      Savings below zero: tax owed by then is more than what can be spent.{outWords(runsShort)}
    </p>
  ) : null

const outWords = (runsShort: string | null | undefined): string => {
  if (runsShort === undefined) return ' No account itself falls below zero.'
  return runsShort === null
    ? ' It is not due yet: no account falls below zero, and the plan is never out of money.'
    : ` The plan is out of money from ${nameOfMonth(runsShort)} on, the first month in which something stays unpaid.`
}
