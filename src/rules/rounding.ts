// Whole-cent arithmetic of the return: every line is rounded half up to the cent, exactly, without binary drift.

/** Dollars (a finite number) to whole cents. */
export const wholeCents = (dollars: number): number => Math.floor(dollars * 100 + 0.5 + 1e-6)

/** Whole cents to dollars. */
export const inDollars = (cents: number): number => cents / 100

/** Cents times a rate of at most six decimals, rounded half up. Exact up to thousands of millions of dollars. */
export const atRate = (cents: number, rate: number): number =>
  Math.floor((cents * Math.round(rate * 1_000_000)) / 1_000_000 + 0.5)

/** Cents times `part` over `whole` (both whole numbers), rounded half up. */
export const shareOf = (cents: number, part: number, whole: number): number =>
  Math.floor((cents * part) / whole + 0.5)
