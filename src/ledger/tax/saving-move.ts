// For which year money put into retirement or health savings counts: as people said it, else as its day and its words read.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'
import { returnDue } from '#rules/estimated-tax.ts'
import type { savingUses } from './tax-use.ts'

/** What went into one account in one line of an entry. */
export interface SavingMove {
  postingId: number
  entryNo: number
  day: Day
  payee: string
  memo: string
  account: string
  savingsKind: 'traditional' | 'roth' | 'health'
  /** As the plan names its people; where the account says nobody, whose pay it was kept from. */
  personId: string | null
  amountCents: Cents
  /** Its entry books pay too: put in by the employer's plan before it was paid. */
  isKeptFromPay: boolean
  said: SavingReading | null
}

export interface SavingReading {
  use: (typeof savingUses)[number]
  taxYear: number
}

/**
 * The readings that fit, the likelier first: up to the day of the return it may be for the year before (26 USC 219(f)(3), 223(d)(4)(B),
 * 404(h)(1)(B)); whoever keeps the account takes it for the year of the day unless told.
 */
export const savingReadingsOf = (move: SavingMove): readonly [SavingReading, ...SavingReading[]] => {
  if (move.said) return [move.said]
  const year = yearIn(move.day)
  const of = (taxYear: number): SavingReading => ({ use: 'contribution', taxYear })
  if (/\broll-?\s?over\b|\btransfer of assets\b/i.test(textOf(move)))
    return [{ use: 'rollover', taxYear: year }]
  if (move.isKeptFromPay || move.day > returnDue(year - 1)) return [of(year)]
  const named = [...textOf(move).matchAll(/(?<![\d-])(\d{4})(?![\d-])/g)]
    .map(([, digits]) => Number(digits))
    .filter((one) => one === year || one === year - 1)
  if (named.length === 1) return [of(named[0]!)]
  return /\bprior year\b|\blast year\b/i.test(textOf(move)) ? [of(year - 1)] : [of(year), of(year - 1)]
}

const textOf = ({ payee, memo }: SavingMove): string => `${payee} ${memo}`

/** Whether a person's word adds to what the books tell: of two readings it always does. */
export const isSavingWorthSaying = (move: SavingMove, reading: SavingReading): boolean => {
  const [first, ...others] = savingReadingsOf({ ...move, said: null })
  return others.length > 0 || first.use !== reading.use || first.taxYear !== reading.taxYear
}
