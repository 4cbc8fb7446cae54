// What a payment of tax may count as, the likelier first by what the year before owes, too.
import type { Books } from '#db/open.ts'
import { readingsOf, type TaxMove, type TaxReading } from '#ledger/tax/tax-payment.ts'
import type { Plan } from '#plan/plan.ts'
import { surelyPaidFor } from './paid-for.ts'
import { taxPayments } from './tax-payments.ts'

/** A return that asks for nothing more is hardly what was paid in its month: then it is rather the first installment of the new year. */
export const likelierReadings = (
  books: Books,
  plan: Plan | null,
  move: TaxMove,
): readonly [TaxReading, ...TaxReading[]] => {
  const [first, second, ...more] = readingsOf(move)
  if (second === undefined || first.use !== 'balance') return second ? [first, second, ...more] : [first]
  const to = first.office === 'federal' ? 'federal' : 'state'
  const { stillOwed, withReturn } = taxPayments(books, plan, first.taxYear, to)
  const said = surelyPaidFor(books, { plan, year: first.taxYear, to }).withReturn
  const owesNothing = stillOwed === 0 && withReturn - said < 0.005
  return owesNothing ? [second, first, ...more] : [first, second, ...more]
}
