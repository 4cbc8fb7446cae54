// How many random inputs a test takes, and from which seed; and of many cases of one kind which few the test command takes.
import fc from 'fast-check'

/** What one call of fast-check takes; it prints seed and path of what failed. */
export interface FuzzBatch {
  seed: number
  numRuns: number
}

const { FUZZ_RUNS, FUZZ_SEED } = process.env
/** The test command; what runs all of it sets one of these: `npm run fuzz`, `npm run pages`, `npm run kills`. */
const isShort = FUZZ_RUNS === undefined && FUZZ_SEED === undefined
const fixedSeed = 20261125
const seedOfTheDay = Number(new Date().toISOString().slice(0, 10).replaceAll('-', ''))

/**
 * The test command: 1,000 inputs that are always the same, and 500 from the day's own seed, so that it also searches.
 * `npm run fuzz`: 100,000 of one seed. `share` is the part of them that a test takes.
 */
export const fuzzBatches = (share = 1): FuzzBatch[] => {
  const batches = isShort
    ? [
        { seed: fixedSeed, numRuns: 1000 },
        { seed: seedOfTheDay, numRuns: 500 },
      ]
    : [{ seed: Number(FUZZ_SEED ?? fixedSeed), numRuns: Number(FUZZ_RUNS ?? '1500') }]
  return batches.map(({ seed, numRuns }) => ({ seed, numRuns: Math.ceil(numRuns * share) }))
}

/** In the test command a part of what a test takes in the long run: where two share what is asked of one, or an input is slow. */
export const partOf = (whole: number, part: number): number => (isShort ? whole * part : whole)

/** How many of a kind: `few` in the test command, `all` by the command of its own. */
export const fewOrAll = (few: number, all: number): number => (isShort ? few : all)

/** All of them, in the test command only `few`, spread over the list; each day others, so that in a while each has had its turn. */
export const drawnOf = <Item>(items: readonly Item[], few: number): Item[] =>
  spreadOver(items, fewOrAll(few, items.length), seedOfTheDay)

/** So many of the list, evenly spread from a place that the seed says, in the order of the list. */
export const spreadOver = <Item>(items: readonly Item[], most: number, seed: number): Item[] => {
  const count = Math.min(most, items.length)
  const places = Array.from(
    { length: count },
    (_, k) => (Math.floor((k * items.length) / count) + seed) % items.length,
  )
  return places.sort((a, b) => a - b).map((place) => items[place]!)
}

/** Stands where what was drawn has failed: how to find it again. */
export const drawnWords = (command: string): string =>
  isShort ? `drawn by the day’s seed ${seedOfTheDay}; ${command} takes all` : ''

export const fuzzRuns = (share = 1): number =>
  fuzzBatches(share).reduce((sum, { numRuns }) => sum + numRuns, 0)

/** Milliseconds for a test on random plans: as in the test command, and with the number of inputs in `npm run fuzz`. */
export const fuzzLimit = (usual = 30_000): number => Math.max(usual, fuzzRuns() * 18)

/** The property on every input of every batch; `most` bounds a batch of inputs that are slow. */
export const assertFuzz = async <Input>(
  property: fc.IRawProperty<Input>,
  share = 1,
  most = Number.POSITIVE_INFINITY,
): Promise<void> => {
  for (const { seed, numRuns } of fuzzBatches(share))
    await fc.assert(property, { seed, numRuns: Math.min(most, numRuns) })
}
