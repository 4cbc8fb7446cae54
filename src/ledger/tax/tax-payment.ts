// As what and for which year a payment of income tax counts: as people said it, else as its day, its entry and its words read.
import { addDays, type Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import type { Cents } from '#money/cents.ts'
import { farmerInstallmentDue, returnDue } from '#rules/estimated-tax.ts'
import { stateNamed } from './state-named.ts'
import type { paymentUses, TaxOffice } from './tax-use.ts'

/** What was paid of tax, or came back of it, in one line of an entry. */
export interface TaxMove {
  postingId: number
  entryNo: number
  day: Day
  payee: string
  memo: string
  account: string
  /** Whose tax the account says it is. */
  office: TaxOffice
  /** Debits positive: what was paid. Below zero it came back. */
  amountCents: Cents
  /** The instant in which it was booked. */
  postedAt: string
  /** Its entry books pay too, a pension, another income or what was taken out of retirement savings: then it was kept back from it. */
  isKeptFromPay: boolean
  said: TaxReading | null
  /** Years whose tax of this office came back by the books: nothing is paid with the return of such a year. */
  cameBack?: readonly number[]
}

export interface TaxReading {
  use: (typeof paymentUses)[number]
  office: TaxOffice
  /** Two letters; null of tax that no state takes, and where neither words nor a person said which: then it is the household's own. */
  state: string | null
  taxYear: number
}

/** Those that fit, the likelier first. */
export type TaxReadings = readonly [TaxReading, ...TaxReading[]]

export interface ReadMove {
  move: TaxMove
  readings: TaxReadings
}

/** Of more than one, only a person can say which is meant. */
export const readingsOf = (move: TaxMove): TaxReadings => {
  if (move.said) return [move.said]
  const year = yearIn(move.day)
  const text = `${move.payee} ${move.memo}`.toLowerCase()
  const office = move.office === 'state' && namesLocal(text) ? 'local' : move.office
  // An employer may bear a state's name: of what is kept from pay only the account tells.
  const words = move.isKeptFromPay ? move.account : `${move.account} ${move.payee} ${move.memo}`
  const state = office === 'state' ? stateNamed(words) : null
  const reading = (use: TaxReading['use'], taxYear: number): TaxReading => ({
    use,
    office,
    state,
    taxYear,
  })
  // Tax withheld is a credit of the year of the pay (26 USC 31(a)(2)), from pensions and savings alike (26 USC 3405, from memory).
  if (move.isKeptFromPay || move.office === 'payroll') return [reading('withheld', year)]
  const named = yearNamed(text, year)
  if (move.amountCents < 0) return [reading('refund', named ?? year - 1)]
  const use = useNamed(text)
  if (use !== null && named !== null) return [reading(use, named)]
  const byDay = withoutSettled(readingsByDay(move.day), move.cameBack ?? [])
  const fitting = byDay.filter(
    (one) => (use === null || one.use === use) && (named === null || one.taxYear === named),
  )
  const [first, ...more] = fitting.length > 0 ? fitting : byDay
  return [
    reading(use ?? first!.use, named ?? first!.taxYear),
    ...more.map((one) => reading(use ?? one.use, named ?? one.taxYear)),
  ]
}

/** Whether a person's word adds to what the books tell: of two readings it always does. */
export const isWorthSaying = (move: TaxMove, reading: TaxReading): boolean => {
  const [first, ...others] = readingsOf({ ...move, said: null })
  return others.length > 0 || !isSameReading(first, reading)
}

export const isSameReading = (a: TaxReading, b: TaxReading): boolean =>
  a.use === b.use && a.office === b.office && a.state === b.state && a.taxYear === b.taxYear

/**
 * The last installment of a year falls in January of the next; what comes between it and the month of the return goes with the
 * return; that month has the first installment of its own year too (26 USC 6654(c)(2), 6072). Later ones are installments.
 */
const readingsByDay = (day: Day): readonly Pick<TaxReading, 'use' | 'taxYear'>[] => {
  const year = yearIn(day)
  const before = year - 1
  if (day <= addDays(farmerInstallmentDue(before), lateDays)) return [{ use: 'estimate', taxYear: before }]
  const due = returnDue(before)
  if (day.slice(0, 7) < due.slice(0, 7)) return [{ use: 'balance', taxYear: before }]
  if (day.slice(0, 7) === due.slice(0, 7))
    return [
      { use: 'balance', taxYear: before },
      { use: 'estimate', taxYear: year },
    ]
  return [{ use: 'estimate', taxYear: year }]
}

const withoutSettled = (
  readings: ReturnType<typeof readingsByDay>,
  cameBack: readonly number[],
): ReturnType<typeof readingsByDay> => {
  const left = readings.filter(({ use, taxYear }) => use !== 'balance' || !cameBack.includes(taxYear))
  return left.length > 0 ? left : readings
}

/** Each move with the years of which its office gave money back, that of the same state. */
export const withRefunds = (moves: readonly TaxMove[]): TaxMove[] => {
  const yearsBack = new Map<string, Set<number>>()
  const officeOf = (move: TaxMove) => `${move.office} ${readingsOf(move)[0].state ?? ''}`
  for (const move of moves) {
    const [{ use, taxYear }] = readingsOf(move)
    if (use !== 'refund') continue
    yearsBack.set(officeOf(move), (yearsBack.get(officeOf(move)) ?? new Set()).add(taxYear))
  }
  return moves.map((move) => {
    const cameBack = yearsBack.get(officeOf(move))
    return cameBack ? { ...move, cameBack: [...cameBack] } : move
  })
}

/** A payment of the last day is on the bank's statement some days later. */
const lateDays = 7

/** Words of the forms themselves, as payers and banks write them. */
const useNamed = (text: string): TaxReading['use'] | null => {
  if (/1040-?\s?es\b|\bestimate|(?<!\breal )\best\.? (income )?tax\b|\btax est\b/.test(text))
    return 'estimate'
  return /1040-?\s?v\b|\bbalance\b|\btax return\b/.test(text) ? 'balance' : null
}

/** Cities, townships, counties and school districts, as their tax is named; the name of a place alone says nothing. */
const namesLocal = (text: string): boolean =>
  !/\bstate (income )?tax\b|\bstate of\b|\bdep(t|artment)\.? of (revenue|taxation)\b/.test(text) &&
  /\b(city|county|town|village|borough|township) of\b|\b(city|county|local|municipal|township|borough|village|school district)( \w+){0,2} tax(es)?\b|\bearned income tax\b|\bnet profits? tax\b|\boccupational (license|privilege) (tax|fee)\b|\b(township|borough|municipal) /.test(
    text,
  )

/** A year of the four before or this one, standing by itself. */
const yearNamed = (text: string, year: number): number | null => {
  const named = [...text.matchAll(/(?<![\d-])(\d{4})(?![\d-])/g)].map(([, digits]) => Number(digits))
  const fitting = named.filter((one) => one <= year && one >= year - 4)
  return fitting.length === 1 ? fitting[0]! : null
}
