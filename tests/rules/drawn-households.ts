// How many random households a test takes, and from which seeds.
import { seeded } from './random-household.ts'

const { HOUSEHOLDS, HOUSEHOLD_SEED } = process.env
const seedOfTheDay = Number(new Date().toISOString().slice(0, 10).replaceAll('-', ''))
const isLong = HOUSEHOLDS !== undefined

/** Of a test: `usual` from its own seed, and half as many from the day's, so that it also searches; `npm run households` so many of one seed. */
const batches = (seed: number, usual: number): { seed: number; count: number }[] =>
  isLong
    ? [{ seed: Number(HOUSEHOLD_SEED ?? seed), count: Number(HOUSEHOLDS) }]
    : [
        { seed, count: usual },
        { seed: seedOfTheDay, count: Math.ceil(usual / 2) },
      ]

/** Calls `look` once a household, with the numbers that are drawn for it. Says the seed of what fails. */
export const eachDrawn = (
  seed: number,
  usual: number,
  look: (random: () => number, index: number) => void,
): void => {
  for (const batch of batches(seed, usual)) {
    const random = seeded(batch.seed)
    for (let index = 0; index < batch.count; index += 1) {
      try {
        look(random, index)
      } catch (error) {
        const at = `Household ${index} of seed ${batch.seed}: `
        throw error instanceof Error ? Object.assign(error, { message: at + error.message }) : error
      }
    }
  }
}

/** How many a test takes in all; milliseconds where one takes so many of them. */
export const drawnCount = (usual: number): number =>
  batches(0, usual).reduce((sum, { count }) => sum + count, 0)
export const drawnLimit = (usual: number, millisecondsEach: number): number =>
  30_000 + drawnCount(usual) * millisecondsEach
