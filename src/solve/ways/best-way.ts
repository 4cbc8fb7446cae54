// Which of the ways tried is the best: dollars decide where they differ, and how sure each is where they hardly do.
import type { WayTried } from './ways-answer.ts'

export interface Chosen {
  /** Leaves most; the plan where none leaves more by more than chance. */
  most: WayTried
  /** That one, or the one that keeps savings above the floor most often of those that leave nearly as much. */
  best: WayTried
  /** Keeps savings above the floor more often than the best, at a price; null for none. */
  steadiest: WayTried | null
}

/** As planned first. */
export function chosenOf(tried: readonly WayTried[]): Chosen {
  const most = mostOf(tried)
  const best = surestOf(tried.filter((way) => isAsGood(way, most, tried[0]!))) ?? most
  const steadiest = surestOf(tried.filter((way) => way.surer && !way.worse && way.id !== best.id))
  const isSteadier = steadiest !== null && steadiest.aboveFloor.share > best.aboveFloor.share
  return { most, best, steadiest: isSteadier ? steadiest : null }
}

/**
 * Of those no worse than the plan in either way of holding: the one that leaves most in the middle course, if it leaves more in more
 * courses than it leaves less. What only moves money to where the floor counts it is no gain.
 */
function mostOf(tried: readonly WayTried[]): WayTried {
  const better = tried.filter((way) => !way.worse && way.leftMore > 1 && way.endsWithMore.low > 0)
  return better.reduce((best, way) => (way.leftMore > best.leftMore ? way : best), tried[0]!)
}

/** Our own choice: what is less than a hundredth of all that is left, or than a thousand dollars, is no reason to be less sure. */
const nearly = (plan: WayTried): number => Math.max(1_000, 0.01 * plan.atEnd.median)

/** Leaves nearly as much and is above the floor more often by more than the margin of either share. */
const isAsGood = (way: WayTried, most: WayTried, plan: WayTried): boolean =>
  way.surer &&
  !way.worse &&
  way.leftMore >= most.leftMore - nearly(plan) &&
  way.aboveFloor.low > most.aboveFloor.high

const surestOf = (ways: readonly WayTried[]): WayTried | null =>
  ways.reduce<WayTried | null>(
    (first, way) => (first === null || way.aboveFloor.share > first.aboveFloor.share ? way : first),
    null,
  )
