// State income tax in the form the user types it: none, flat, or brackets. No state's own figures are built in, because none were read.

/** What a state's tax is worked out on. */
export type StateTaxBase = 'federal-agi' | 'federal-taxable'

export type StateTax =
  | { kind: 'none' }
  | ({ kind: 'flat'; rate: number } & StateTaxBasis)
  | ({ kind: 'brackets'; brackets: readonly StateBracket[] } & StateTaxBasis)

interface StateTaxBasis {
  base: StateTaxBase
  /** Taken off the base before the rates, dollars. */
  deduction: number
}

/** `rate` (fraction) applies to income over `over` dollars, up to the next bracket's `over`. The first starts at 0. */
export interface StateBracket {
  over: number
  rate: number
}

export interface FederalBase {
  adjustedGrossIncome: number
  taxableIncome: number
}

/** The year's state income tax in dollars, without rounding. Never below zero. */
export const stateIncomeTax = (state: StateTax, federal: FederalBase): number => {
  if (state.kind === 'none') return 0
  const base = state.base === 'federal-agi' ? federal.adjustedGrossIncome : federal.taxableIncome
  const income = Math.max(0, base - state.deduction)
  if (state.kind === 'flat') return income * state.rate
  let tax = 0
  for (let i = 0; i < state.brackets.length; i++) {
    const bracket = state.brackets[i]!
    if (income <= bracket.over) break
    const upTo = state.brackets[i + 1]?.over ?? Number.POSITIVE_INFINITY
    tax += (Math.min(income, upTo) - bracket.over) * bracket.rate
  }
  return tax
}

/** Moves the dollar amounts of typed brackets with prices (`factor` 1.02 for two percent), for years past the one they were typed for. */
export const indexStateTax = (state: StateTax, factor: number): StateTax => {
  if (state.kind === 'none') return state
  const deduction = state.deduction * factor
  if (state.kind === 'flat') return { ...state, deduction }
  return {
    ...state,
    deduction,
    brackets: state.brackets.map(({ over, rate }) => ({ over: over * factor, rate })),
  }
}

/** What is wrong with typed brackets, as text a form can show, or null. */
export const stateTaxFault = (state: StateTax): string | null => {
  if (state.kind === 'none') return null
  if (state.deduction < 0) return 'Enter a deduction of 0 or more'
  const rates = state.kind === 'flat' ? [state.rate] : state.brackets.map((bracket) => bracket.rate)
  if (rates.some((rate) => rate < 0 || rate > 0.5)) return 'Enter each rate between 0 and 50 percent'
  if (state.kind === 'flat') return null
  if (state.brackets[0]?.over !== 0) return 'Start the first bracket at 0'
  const rising = state.brackets.every(({ over }, i) => i === 0 || over > state.brackets[i - 1]!.over)
  return rising ? null : 'Enter brackets in rising order'
}
