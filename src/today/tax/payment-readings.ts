// What a payment of tax may count as, the likelier first by what the year before owes, too.
import type { Books } from '#db/open.ts'
import type { ReadMove, TaxReadings } from '#ledger/tax/tax-payment.ts'
import type { Plan } from '#plan/plan.ts'
import { keptUntilChange } from '#today/kept.ts'
import { type AheadKind, surelyPaidFor } from './paid-for.ts'
import { taxPayments } from './tax-payments.ts'

/** A return that asks for nothing more is hardly what was paid in its month: then it is rather the first installment of the new year. */
export const likelierReadings = (books: Books, plan: Plan | null, { readings }: ReadMove): TaxReadings => {
  const [first, second, ...more] = readings
  if (second === undefined || first.use !== 'balance') return readings
  const to = first.office === 'federal' ? 'federal' : 'state'
  return owesNothing(books, plan, first.taxYear, to) ? [second, first, ...more] : readings
}

const owesNothing = (books: Books, plan: Plan | null, year: number, to: AheadKind): boolean =>
  keptUntilChange(
    books,
    `owes nothing ${year} ${to}`,
    () => {
      const { stillOwed, withReturn } = taxPayments(books, plan, year, to)
      const said = surelyPaidFor(books, { plan, year, to }).withReturn
      return stillOwed === 0 && withReturn - said < 0.005
    },
    plan,
  )
