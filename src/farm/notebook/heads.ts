// How many heads stand there, from counts and from what came and went since; and the rates that a year's tallies show.
import { addDays, type Day } from '#calendar/day.ts'
import { type HeadClass, type HeadKind, headClasses } from './kinds.ts'

export interface HeadMove {
  day: Day
  herdId: string
  kind: HeadKind | 'kitchen' | 'bartered'
  headClass: HeadClass
  count: number
}

const signs: Record<HeadMove['kind'], 1 | -1 | 0> = {
  counted: 0,
  born: 1,
  bought: 1,
  sold: -1,
  died: -1,
  kitchen: -1,
  bartered: -1,
}

/**
 * Heads of one herd at the end of a day, by class. A count holds for its class as the day ends that it was made on, with what came and
 * went on that day already in it. Classes of which nothing was ever noted, or only that they went, are left out; null when nothing was noted at all.
 */
export const headsOn = (
  moves: readonly HeadMove[],
  herdId: string,
  on: Day,
): Partial<Record<HeadClass, number>> | null => {
  const heads: Partial<Record<HeadClass, number>> = {}
  const mine = moves.filter((move) => move.herdId === herdId && move.day <= on)
  for (const headClass of new Set(mine.map((move) => move.headClass))) {
    const ofClass = mine.filter((move) => move.headClass === headClass)
    const counted = ofClass
      .filter(({ kind }) => kind === 'counted')
      .reduce<HeadMove | null>((last, one) => (last === null || one.day >= last.day ? one : last), null)
    const since = ofClass.filter(({ day }) => counted === null || day > counted.day)
    const left = (counted?.count ?? 0) + headsMoved(since)
    if (counted !== null || left >= 0) heads[headClass] = left
  }
  return mine.length > 0 ? heads : null
}

/** Heads that came less those that went. */
export const headsMoved = (moves: readonly HeadMove[]): number =>
  moves.reduce((sum, { kind, count }) => sum + signs[kind] * count, 0)

/** The day on which heads of a herd were counted last; null where they only came and went. */
export const countedLast = (moves: readonly HeadMove[], herdId: string): Day | null =>
  moves.reduce<Day | null>(
    (last, one) =>
      one.herdId === herdId && one.kind === 'counted' && (last === null || one.day > last) ? one.day : last,
    null,
  )

export interface HerdSeen {
  /** Females counted as the year began: what rates are of. */
  females: number
  /** Young born by the females that stood there. */
  bornPerFemale: number | null
  /** Of those born in the span, died young. */
  youngLost: number | null
  adultsLost: number | null
}

/** Rates of twelve months before a day; null where no females were counted by their beginning. */
export const herdSeen = (moves: readonly HeadMove[], herdId: string, to: Day): HerdSeen | null => {
  const from = addDays(to, -364)
  const females = headsOn(moves, herdId, from)?.females ?? 0
  if (females <= 0) return null
  const of = (kind: HeadMove['kind'], classes: readonly HeadClass[]) =>
    moves
      .filter(
        (one) =>
          one.herdId === herdId &&
          one.kind === kind &&
          classes.includes(one.headClass) &&
          one.day > from &&
          one.day <= to,
      )
      .reduce((sum, { count }) => sum + count, 0)
  const born = of('born', headClasses)
  return {
    females,
    bornPerFemale: born > 0 ? born / females : null,
    youngLost: born > 0 ? Math.min(1, of('died', ['young']) / born) : null,
    adultsLost: Math.min(1, of('died', ['females']) / females),
  }
}
