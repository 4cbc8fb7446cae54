// State income tax as a plan says it: by the law of its state, or by rates that somebody typed, put into the same form of rules.
import type { Indexing } from '../dated.ts'
import type { StateCode } from '../places/state-names.ts'
import type { YearRules } from './rule-form.ts'
import { stateLawFor } from './state-law.ts'
import type { StateLaw } from './state-year.ts'

export type StateTax =
  /** By the law of the state that the plan names; none where it names none. `localRate` is a part of what local tax applies to. */
  { kind: 'law'; localRate: number } | { kind: 'none' } | TypedTax

type TypedTax =
  | ({ kind: 'flat'; rate: number } & TypedBasis)
  | ({ kind: 'brackets'; brackets: readonly TypedBracket[] } & TypedBasis)

interface TypedBasis {
  base: 'federal-agi' | 'federal-taxable'
  /** Taken off the base before the rates, dollars. */
  deduction: number
}

/** `rate` (fraction) applies to income over `over` dollars, up to the next bracket's `over`. The first starts at 0. */
interface TypedBracket {
  over: number
  rate: number
}

/**
 * The laws of the years from `first` on; null for those without state tax. Typed dollars move with prices from the plan's first:
 * `level` is what those are in the year.
 */
export const stateLaws = (
  tax: StateTax,
  state: StateCode | undefined,
  years: readonly { year: number; level: number }[],
  indexing: Indexing,
): (StateLaw | null)[] => {
  if (tax.kind === 'none' || (tax.kind === 'law' && state === undefined)) return years.map(() => null)
  if (tax.kind === 'law') return years.map(({ year }) => stateLawFor(state!, year, indexing, tax.localRate))
  const rules = typedRules(tax)
  return years.map(({ year, level }) => ({
    state: null,
    year,
    basis: 'projected',
    rules,
    index: [1, level, level],
    localRate: 0,
  }))
}

const typedRules = (tax: TypedTax): YearRules => ({
  start: { of: [tax.base === 'federal-agi' ? 'federalAgi' : 'federalTaxable'] },
  deduct: [{ what: 'deduction typed in the plan', amount: tax.deduction }],
  brackets:
    tax.kind === 'flat'
      ? [[0, tax.rate]]
      : tax.brackets.map(({ over, rate }): [number, number] => [over, rate]),
})

/** What is wrong with typed brackets, as text a form can show, or null. */
export const stateTaxFault = (state: StateTax): string | null => {
  if (state.kind === 'none') return null
  if (state.kind === 'law') return null
  if (state.deduction < 0) return 'Enter a deduction of 0 or more'
  const rates = state.kind === 'flat' ? [state.rate] : state.brackets.map((bracket) => bracket.rate)
  if (rates.some((rate) => rate < 0 || rate > 0.5)) return 'Enter each rate between 0 and 50 percent'
  if (state.kind === 'flat') return null
  if (state.brackets[0]?.over !== 0) return 'Start the first bracket at 0'
  const rising = state.brackets.every(({ over }, i) => i === 0 || over > state.brackets[i - 1]!.over)
  return rising ? null : 'Enter brackets in rising order'
}
