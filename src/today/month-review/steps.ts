// The month put in place of what was expected of it, one thing after the other: each step is a start of the next month.
import type { VarianceLine } from '#runway/against-books/variance.ts'
import type { LineAbout } from '#runway/against-books/variance-lines.ts'
import type { StartOfMonth } from '#today/projection/start-of-month.ts'

export interface Step {
  kind: LineAbout
  /** What it did to spendable savings, dollars. */
  savings: number
  start: StartOfMonth
}

export const spendableIn = ({ savings }: StartOfMonth): number => (savings.cash ?? 0) + (savings.taxable ?? 0)

/**
 * From what was expected to what the books hold. `retirement` names the retirement kinds whose balances the books know: what is
 * not put aside there or taken out is what markets did.
 */
export function stepsTo(
  expected: StartOfMonth,
  held: StartOfMonth,
  lines: readonly VarianceLine[],
  retirement: readonly ('traditional' | 'roth')[],
): Step[] {
  const effect = (about: LineAbout) =>
    lines
      .filter((line) => line.about === about)
      .reduce((sum, line) => sum + (line.isCost ? -line.difference : line.difference), 0)
  const steps: Step[] = []
  let start = expected
  const step = (kind: LineAbout, change: (from: StartOfMonth) => Partial<StartOfMonth>) => {
    const savings = effect(kind)
    start = { ...start, savings: withCash(start.savings, savings), ...change(start) }
    steps.push({ kind, savings, start })
  }
  step('market', (from) => ({
    savings: fallen(from.savings, held.savings, effect('market'), retirement),
    apart: held.apart,
  }))
  step('spending', ({ loans }) => ({ loans: { ...loans, household: held.loans.household } }))
  step('premiums', () => ({}))
  step('tax', () => ({ tax: held.tax }))
  step('income', () => ({ ventureCash: held.ventureCash }))
  step('farm', ({ loans }) => ({
    farmCash: held.farmCash,
    farmNetBefore: held.farmNetBefore,
    loans: { ...loans, farm: held.loans.farm },
  }))
  steps.push({ kind: 'moved', savings: spendableIn(held) - spendableIn(start), start: held })
  return steps
}

type Savings = StartOfMonth['savings']

/** Cash first, as bills are paid; what it does not hold comes out of what is invested. */
const withCash = (savings: Savings, dollars: number): Savings => {
  const cash = (savings.cash ?? 0) + dollars
  const taxable = savings.taxable ?? 0
  const fromInvested = Math.min(taxable, Math.max(0, -cash))
  return { ...savings, cash: cash + fromInvested, taxable: taxable - fromInvested }
}

/** Gains and losses lie in what is invested, where anything is. */
const fallen = (
  savings: Savings,
  held: Savings,
  dollars: number,
  retirement: readonly ('traditional' | 'roth')[],
): Savings => {
  const taxable = savings.taxable ?? 0
  const invested =
    taxable > 0 && taxable + dollars >= 0
      ? { ...savings, taxable: taxable + dollars }
      : withCash(savings, dollars)
  return { ...invested, ...Object.fromEntries(retirement.map((kind) => [kind, held[kind]])) }
}
