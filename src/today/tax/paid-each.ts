// The payments of a year's returns one by one, with the day of each: what was paid after the year stands among them.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { TaxReading } from '#ledger/tax/tax-payment.ts'
import { centsToDollars } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { movesOfTax } from './paid-for.ts'
import { likelierReadings } from './payment-readings.ts'
import type { ReturnKind } from './return-kinds.ts'

/** Dollars; below zero it came back. */
export interface PaidOnce {
  day: Day
  payee: string
  office: ReturnKind
  use: TaxReading['use']
  dollars: number
  /** Another reading fits too, and nobody said which. */
  undecided: boolean
}

export const paidEach = (books: Books, plan: Plan | null, year: number): PaidOnce[] =>
  movesOfTax(books).flatMap((move) => {
    const [{ office, use, taxYear }, ...others] = likelierReadings(books, plan, move)
    // Social security kept from pay, and sales tax, are on no such return.
    return taxYear !== year || use === 'withheld' || office === 'payroll' || office === 'sales'
      ? []
      : [
          {
            day: move.day,
            payee: move.payee,
            office,
            use,
            dollars: centsToDollars(move.amountCents),
            undecided: others.length > 0,
          },
        ]
  })
