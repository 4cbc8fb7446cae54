// How premiums, Medicare's premiums and care grow beyond prices, each up to a year of its own, and with prices after it.
import { yearOf } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import { grownBeyond, type Span } from '#runway/span.ts'

export interface Growth {
  rate: number
  /** The last year whose January steps by the rate. */
  until: number
}

export interface Growths {
  premiums: Growth
  medicare: Growth
  care: Growth
}

const forEver = Number.MAX_SAFE_INTEGER

export const growthsOf = ({ assumptions }: Plan): Growths => {
  const premiums = { rate: assumptions.premiumGrowth, until: assumptions.premiumGrowthUntil ?? forEver }
  return {
    premiums,
    medicare:
      assumptions.medicareGrowth === undefined
        ? premiums
        : { rate: assumptions.medicareGrowth, until: assumptions.medicareGrowthUntil ?? forEver },
    care: { rate: assumptions.careGrowth, until: assumptions.careGrowthUntil ?? forEver },
  }
}

/** Growth from the January of one year to that of another, which may be an earlier one. */
export const grownOver = ({ rate, until }: Growth, prices: number, from: number, to: number): number => {
  if (to < from) return 1 / grownOver({ rate, until }, prices, to, from)
  const steps = Math.max(0, Math.min(to, until) - from)
  return (1 + rate) ** steps * (1 + prices) ** (to - from - steps)
}

/** Growth up to the projection's first month, in the steps in which prices step. */
export const grownToStart = ({ rate, until }: Growth, prices: number, span: Span): number => {
  const stepsAfter = Math.max(0, span.firstYear - Math.max(until, yearOf(span.pricesOf)))
  return grownBeyond(span, 0, rate) * ((1 + prices) / (1 + rate)) ** stepsAfter
}
