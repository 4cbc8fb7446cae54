// Whole-cent arithmetic of the return: every line is rounded half up to the cent, exactly, without binary drift.

/** Dollars (a finite number) to whole cents. */
export const wholeCents = (dollars: number): number => Math.floor(dollars * 100 + 0.5 + 1e-6)

/** Whole cents to dollars. */
export const inDollars = (cents: number): number => cents / 100

/** Cents times a rate of at most six decimals, rounded half up. Exact up to thousands of millions of dollars. Most lines of a return are nothing. */
export const atRate = (cents: number, rate: number): number =>
  cents === 0 ? 0 : Math.floor((cents * Math.round(rate * 1_000_000)) / 1_000_000 + 0.5)

/** Cents times `part` over `whole` (both whole numbers), rounded half up. */
export const shareOf = (cents: number, part: number, whole: number): number =>
  Math.floor((cents * part) / whole + 0.5)

/** Down to ten cents (42 USC 415(a)(2)(C), (g), 403(a)). What is whole but for the last binary digits stays. */
export const downToDime = (dollars: number): number => Math.floor(dollars * 10 + 1e-6) / 10

/** Down to the dollar, as benefits are paid (42 USC 415(g)). */
export const downToDollar = (dollars: number): number => Math.floor(dollars + 1e-6)
