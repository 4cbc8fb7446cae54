// Splits cents by weights so that the parts always add up to the whole (largest remainder, earlier part first on a tie).
import { type Cents, cents } from './cents.ts'

export const allocate = (total: Cents, weights: readonly number[]): Cents[] => {
  const sum = weights.reduce((a, b) => a + b, 0)
  if (!(sum > 0) || weights.some((weight) => weight < 0))
    throw new Error(`Weights must be ≥ 0 with a sum above 0: ${weights}`)
  const exact = weights.map((weight) => (Math.abs(total) * weight) / sum)
  const parts = exact.map(Math.floor)
  let left = Math.abs(total) - parts.reduce((a, b) => a + b, 0)
  const byRemainder = exact
    .map((share, index) => ({ index, rest: share - Math.floor(share) }))
    .sort((a, b) => b.rest - a.rest || a.index - b.index)
  for (const { index } of byRemainder) {
    if (left <= 0) break
    parts[index] = parts[index]! + 1
    left -= 1
  }
  return parts.map((part) => cents(total < 0 ? -part : part))
}
