// The shape of one chance run: what is asked, where the paths write, and how many numbers each path leaves behind.
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { ChanceModel } from './chance-model.ts'
import type { DrawnFrom } from './draw-course.ts'
import { factorNames } from './separating.ts'

/** Plain data that can be posted to a worker. */
export interface CourseRun {
  plan: CompiledPlan
  model: ChanceModel
  /** Whole number from 0 to 2⁵³ − 1. */
  seed: number
  /** Number of paths; with `from` history, of starting years. */
  paths: number
  from: DrawnFrom
  /** Whether spendable savings of every month are kept, for bands. */
  keepsMonths: boolean
}

/** Figures each path leaves behind. Months count from the plan's first; `Infinity` says that it never happened. */
const pathFigures = [
  /** 1 when no month went short of what the household needed, else 0. */
  'held',
  /** Month in which spendable savings first fall below the floor. */
  'monthsLeft',
  /** First month with unmet need. */
  'firstShortMonth',
  'unmetNeed',
  'lowestSavings',
  /** The lowest at the plan's first prices, and what nothing could meet at them. */
  'lowestAtFirstPrices',
  'unmetAtFirstPrices',
  'lowestMonth',
  'firstDraw',
  'carryMonth',
  /** Months the course ran: to the death of the last person or the end of the plan. */
  'months',
  /** Savings, retirement accounts included, as the first slower year begins, and the price level then (first prices = 1); NaN when nobody lives to see it. */
  'atSlowerYear',
  'pricesAtSlowerYear',
  /** All savings at the end of the course, at the plan's first prices, and the price level then. */
  'atEnd',
  'pricesAtEnd',
  /** What the farm holds then, at the plan's first prices. */
  'farmAtEnd',
  /** Of all savings then, what lies in traditional accounts and has not been taxed. */
  'untaxedAtEnd',
  /** What was drawn for the path, for the question what the bad tenth have in common: see `factorNames`. */
  ...factorNames,
] as const
export type PathFigure = (typeof pathFigures)[number]
export const figureCount = pathFigures.length
export const placeOf = Object.fromEntries(pathFigures.map((figure, place) => [figure, place])) as Record<
  PathFigure,
  number
>

/** Where the workers write. All of it is shared memory: nothing is copied on its way back. */
export interface CourseMemory {
  /** `figureCount` numbers per path. */
  figures: Float64Array<SharedArrayBuffer>
  /** Spendable savings, `plan.months` per path, NaN past the end of a course; empty when months are not kept. */
  months: Float32Array<SharedArrayBuffer>
  /** The same at the plan's first prices. */
  atFirstPrices: Float32Array<SharedArrayBuffer>
  /** Places: 0 the next path to take, 1 paths done, 2 set to 1 to stop. */
  counters: Int32Array<SharedArrayBuffer>
}

export const counter = { next: 0, done: 1, stop: 2 } as const

export function courseMemory(run: CourseRun, space: SharedSpace = newSpace): CourseMemory {
  const figures = run.paths * figureCount
  const months = run.keepsMonths ? run.paths * run.plan.months : 0
  return {
    figures: new Float64Array(space('figures', figures * 8), 0, figures),
    months: new Float32Array(space('months', months * 4), 0, months),
    atFirstPrices: new Float32Array(space('atFirstPrices', months * 4), 0, months),
    counters: new Int32Array(space('counters', 3 * 4), 0, 3).fill(0),
  }
}

/** Gives shared memory of at least so many bytes for a part of a run. */
export type SharedSpace = (part: keyof CourseMemory | 'plan', bytes: number) => SharedArrayBuffer

const newSpace: SharedSpace = (_part, bytes) => new SharedArrayBuffer(bytes)

/**
 * Gives the same memory again, for runs that come one after another. V8 does not count shared memory, so it would look for what
 * is given up only when something else makes it: a run a second would hold hundreds of megabytes.
 */
export function usedAgain(): SharedSpace {
  const parts = new Map<string, SharedArrayBuffer>()
  return (part, bytes) => {
    const known = parts.get(part)
    if (known && known.byteLength >= bytes) return known
    const made = newSpace(part, bytes)
    parts.set(part, made)
    return made
  }
}

/** One figure of every path, in the order of the paths. */
export function figureOf(figures: Float64Array, figure: PathFigure): Float64Array {
  const place = placeOf[figure]
  const column = new Float64Array(figures.length / figureCount)
  for (let path = 0; path < column.length; path += 1) column[path] = figures[path * figureCount + place]!
  return column
}
