// Random streams that can be opened anywhere: the same run seed, path, family and part always give the same numbers,
// whatever the number of workers and whatever else was drawn. A longer plan or one more enterprise therefore leaves
// every other draw as it was, and two plans are compared on common random numbers.
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus'
import type { RandomGenerator } from 'pure-rand/types/RandomGenerator'
import { normalQuantile } from './normal-quantile.ts'

/** What the numbers are for. Each family has streams of its own; a number, once given, is never used again. */
export const streamFamilies = {
  market: 1,
  inflation: 2,
  season: 3,
  enterprise: 4,
  premium: 5,
  care: 6,
  life: 7,
  work: 8,
  resample: 9,
  seat: 10,
} as const
export type StreamFamily = keyof typeof streamFamilies

export interface RandomStream {
  /** Uniform in the open interval (0, 1): a multiple of 2⁻⁵³ moved up by half a step. */
  uniform(): number
  /** Standard normal: exactly one uniform is spent, so that the draws of two plans stay in step. */
  normal(): number
}

/**
 * Opens the stream of one family for one path. `seed` is a whole number from 0 to 2⁵³ − 1, `path` counts from 0,
 * `part` tells apart the members of a family (the place of a person, `partOf` an enterprise's name).
 */
export function openStream(seed: number, path: number, family: StreamFamily, part = 0): RandomStream {
  if (!Number.isSafeInteger(seed) || seed < 0)
    throw new Error(`a seed is a whole number from 0 to 2^53 - 1, not ${seed}`)
  const words = [seed >>> 0, Math.floor(seed / 2 ** 32), path, (streamFamilies[family] << 16) ^ part, part]
  const state = starts.map((start) => mixWords(start, words))
  // This generator never leaves the state of four zeros, which one key in 2¹²⁸ would give.
  const isStuck = state.every((word) => word === 0)
  const generator = xoroshiro128plusFromState(isStuck ? starts : state)
  return new GeneratedStream(generator)
}

/** A class, not closures: a run opens a dozen streams for every path. */
class GeneratedStream implements RandomStream {
  readonly #generator: RandomGenerator

  constructor(generator: RandomGenerator) {
    this.#generator = generator
  }

  // The low bits of this generator are its weakest: both halves are taken from the top of their words.
  uniform(): number {
    const high = this.#generator.next() >>> 5
    const low = this.#generator.next() >>> 6
    return (high * 67_108_864 + low + 0.5) * 1.1102230246251565e-16
  }

  normal(): number {
    return normalQuantile(this.uniform())
  }
}

/** A whole number for a name, for `part`: the same name has the same draws wherever it stands in the plan. */
export function partOf(name: string): number {
  let hash = 0x811c9dc5
  for (let index = 0; index < name.length; index += 1)
    hash = Math.imul(hash ^ name.charCodeAt(index), 0x01000193)
  return hash >>> 0
}

// Four unrelated starts (the leading fractional bits of the square roots of 2, 3, 5 and 7) fill the generator's four words.
const starts = [0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a]

/** MurmurHash3 for 32-bit words (A. Appleby, public domain): every bit of the words moves every bit of the result. */
function mixWords(start: number, words: readonly number[]): number {
  let hash = start
  for (const word of words) {
    let block = Math.imul(word, 0xcc9e2d51)
    block = (block << 15) | (block >>> 17)
    hash ^= Math.imul(block, 0x1b873593)
    hash = (hash << 13) | (hash >>> 19)
    hash = (Math.imul(hash, 5) + 0xe6546b64) | 0
  }
  hash ^= words.length * 4
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b)
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35)
  return hash ^ (hash >>> 16)
}
