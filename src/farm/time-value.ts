// Time value of money: level payments, present worth, rates of return. Money paid out is negative, money received positive.

/** The level payment at each period's end that turns `present` into `future` over the periods. */
export const levelPayment = (rate: number, periods: number, present: number, future = 0): number => {
  if (rate === 0) return -(future + present) / periods
  const growth = (1 + rate) ** periods
  return (-(future + present * growth) * rate) / (growth - 1)
}

/** Worth today of flows one period apart; the first falls now. */
export const netPresentValue = (rate: number, flows: ArrayLike<number>): number => {
  let worth = 0
  for (let i = flows.length - 1; i >= 0; i -= 1) worth = flows[i]! + worth / (1 + rate)
  return worth
}

/**
 * The rate per period that makes the flows worth nothing. Of several, the one nearest to zero; `null` when there is none
 * (flows that never change sign, or that never come back).
 */
export const internalRate = (flows: ArrayLike<number>): number | null => {
  const all = Array.from(flows)
  // Where they never change sign there is nothing to find, and to look for it would take longest.
  if (all.some((flow) => flow > 0) !== all.some((flow) => flow < 0)) return null
  return rootNearestZero((rate) => netPresentValue(rate, flows))
}

/** Monthly rate that compounds to a yearly one. */
export const monthlyRate = (yearly: number): number => (1 + yearly) ** (1 / 12) - 1
/** Yearly rate that a monthly one compounds to. */
export const yearlyRate = (monthly: number): number => (1 + monthly) ** 12 - 1

/** Looks outwards from zero in growing steps for a change of sign, then bisects. */
const rootNearestZero = (value: (rate: number) => number): number | null => {
  const atZero = value(0)
  if (atZero === 0) return 0
  let [up, down] = [0, 0]
  let [atUp, atDown] = [atZero, atZero]
  for (let step = 1; step <= 400; step += 1) {
    const [nextUp, nextDown] = [1.0234 ** step - 1, 1.0234 ** -step - 1]
    const [nextAtUp, nextAtDown] = [value(nextUp), value(nextDown)]
    const found = [
      nextAtUp * atUp <= 0 ? bisect(value, up, nextUp) : null,
      nextAtDown * atDown <= 0 ? bisect(value, down, nextDown) : null,
    ].filter((rate) => rate !== null)
    if (found.length > 0) return found.reduce((a, b) => (Math.abs(a) <= Math.abs(b) ? a : b))
    ;[up, down, atUp, atDown] = [nextUp, nextDown, nextAtUp, nextAtDown]
  }
  return null
}

const bisect = (value: (rate: number) => number, from: number, to: number): number => {
  let [low, high] = [from, to]
  const sign = Math.sign(value(low))
  for (let i = 0; i < 200 && Math.abs(high - low) > 1e-15; i += 1) {
    const middle = (low + high) / 2
    if (Math.sign(value(middle)) === sign) low = middle
    else high = middle
  }
  return (low + high) / 2
}
