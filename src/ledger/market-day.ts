// A market day in the farm's books: what was sold for cash, where it lies, and what the stand cost, however that was paid.
import { allocate } from '#money/allocate.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import type { DraftLine } from './entry.ts'
import type { SimpleLine } from './simple-entry.ts'

export interface MarketDayMoney {
  /** Where the cash lies; null where the bank's statement brings it. */
  cashAccountId: number | null
  /** What was sold for cash, by product. */
  sales: readonly SimpleLine[]
  /** What is booked for the stand: the cost it is, and the farm's account that paid it, or the takings. */
  fee: { paidFrom: number | 'takings'; costAccountId: number; amountCents: Cents } | null
}

/**
 * The lines of the farm's entry; none where all comes by the bank's statement. Of a fee out of cash that goes to the bank, the statement
 * brings only what was left: the entry has the fee, and as much of each product's sales, so that both stand whole with the line.
 */
export const marketDayLines = ({ cashAccountId, sales, fee }: MarketDayMoney): DraftLine[] => {
  const cash = sumCents(sales.map(({ amountCents }) => amountCents))
  const isFromTakings = fee?.paidFrom === 'takings'
  const lines: DraftLine[] = [
    ...(cashAccountId !== null ? sales : isFromTakings ? shared(fee.amountCents, sales) : []).map((line) => ({
      ...line,
      amountCents: negateCents(line.amountCents),
    })),
    ...(fee ? [{ accountId: fee.costAccountId, amountCents: fee.amountCents }] : []),
    ...(fee && fee.paidFrom !== 'takings'
      ? [{ accountId: fee.paidFrom, amountCents: negateCents(fee.amountCents) }]
      : []),
  ]
  const left = cents(cash - (isFromTakings ? fee.amountCents : 0))
  return cashAccountId === null || left === 0
    ? lines
    : [{ accountId: cashAccountId, amountCents: left }, ...lines]
}

/** So much of the sales, as their amounts are to each other. */
const shared = (amount: Cents, sales: readonly SimpleLine[]): SimpleLine[] =>
  allocate(
    amount,
    sales.map(({ amountCents }) => amountCents),
  ).flatMap((amountCents, at) => (amountCents === 0 ? [] : [{ ...sales[at]!, amountCents }]))
