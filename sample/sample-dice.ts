// Seeded dice for the sample farm: the same seed throws the same numbers on every machine.
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

export interface Dice {
  /** A whole number from low to high, both included. */
  whole(low: number, high: number): number
  /** An amount in cents around `dollars`, up to `spread` (0.2 is ±20 %) off. */
  around(dollars: number, spread: number): number
  pick<Item>(items: readonly Item[]): Item
}

export const throwDice = (seed: number): Dice => {
  const generator = xoroshiro128plus(seed)
  const whole = (low: number, high: number) => uniformInt(generator, low, high)
  return {
    whole,
    around: (dollars, spread) =>
      Math.round((dollars * 100 * whole(10_000 * (1 - spread), 10_000 * (1 + spread))) / 10_000),
    pick: (items) => items[whole(0, items.length - 1)]!,
  }
}
