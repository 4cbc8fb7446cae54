// How much other income brings a household's income to an amount, to the cent: the law compares in cents, and half a dollar below a line
// is another percent of the poverty level.

/** Dollars of other income, from `start` on. Where no amount meets it, since a credit jumps there, the one that comes nearest. */
export const otherIncomeMeeting = (
  target: number,
  start: number,
  incomeWith: (otherIncome: number) => number,
): number => {
  let tried = start
  let nearest = start
  let least = Number.POSITIVE_INFINITY
  for (let pass = 0; pass < mostPasses && least > 0; pass += 1) {
    const off = Math.round((target - incomeWith(tried)) * 100)
    if (Math.abs(off) < least) {
      nearest = tried
      least = Math.abs(off)
    }
    tried = Math.round(tried * 100 + off) / 100
  }
  return nearest
}

const mostPasses = 40
