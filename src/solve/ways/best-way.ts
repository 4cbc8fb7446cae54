// Which of the ways tried is the best: first what is paid, then dollars where they differ, and how sure each is where they hardly do.
import type { WayTried } from './ways-answer.ts'

export interface Chosen {
  /** Leaves most of those that pay most; the plan where none leaves more by more than chance. */
  most: WayTried
  /** That one, or the one that keeps savings above the floor most often of those that leave nearly as much. */
  best: WayTried
  /** Keeps savings above the floor more often than the best, at a price; null for none. */
  steadiest: WayTried | null
}

/** As planned first. */
export function chosenOf(tried: readonly WayTried[]): Chosen {
  const paying = payingMost(tried)
  const most = paying.length > 0 ? leavingMost(paying) : mostOf(tried)
  const pool = paying.length > 0 ? paying : tried
  const best = surestOf(pool.filter((way) => isAsGood(way, most, tried[0]!))) ?? most
  const steadiest = surestOf(tried.filter((way) => way.surer && !way.worse && way.id !== best.id))
  const isSteadier = steadiest !== null && steadiest.aboveFloor.share > best.aboveFloor.share
  return { most, best, steadiest: isSteadier ? steadiest : null }
}

/**
 * Those with which more is paid than as planned, by more than chance: bills that are paid outweigh what is left at the end. First those
 * that go short in fewer courses; where none does and most courses go short whatever is done, those with which money lasts longest, and
 * of ways with which it lasts as long those with which least goes unpaid.
 */
function payingMost(tried: readonly WayTried[]): WayTried[] {
  const [plan, ...others] = tried.filter((way) => !way.worse)
  const holding = others.filter((way) => way.holdsMore.low > 0)
  if (holding.length > 0) {
    const top = holding.reduce((most, way) => (way.held.share > most.held.share ? way : most))
    return holding.filter((way) => way.held.share >= top.held.low)
  }
  if (plan === undefined || plan.held.share >= 0.5) return []
  const lasting = lastingLongest(others.filter((way) => way.paysLonger.low > 0))
  const paying = lasting.length > 0 ? lasting : others.filter((way) => way.paysMore.low > 0)
  const least = Math.min(...paying.map((way) => way.unpaid))
  return paying.filter((way) => way.unpaid <= least + Math.max(1_000, 0.01 * plan.unpaid))
}

/** In the middle course, and of those on the expected one. */
function lastingLongest(ways: readonly WayTried[]): WayTried[] {
  const last = Math.max(...ways.map(({ runsShort }) => runsShort.median))
  const latest = ways.filter(({ runsShort }) => runsShort.median === last)
  const expected = Math.max(...latest.map(({ runsShort }) => runsShort.expected))
  return latest.filter(({ runsShort }) => runsShort.expected === expected)
}

const leavingMost = (ways: readonly WayTried[]): WayTried =>
  ways.reduce((most, way) => (way.leftMore > most.leftMore ? way : most))

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
