// Income room: how much more a household can earn before a line of marketplace cover is crossed, and what crossing it costs.

import type { CoverageKind } from '../coverage/coverage-kinds.ts'
import {
  type CoverageStep,
  knowsPremiums,
  movesBetween,
  stepLineCents,
  stepsOf,
} from '../coverage/coverage-steps.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { noLimit } from '../law-year.ts'
import { creditEndsAt } from './credit-curve.ts'
import { costOf, type ExtraIncome, standing, toCent, type YearStanding } from './year-standing.ts'

export type RoomLine =
  | 'federal poverty level'
  | 'Medicaid line'
  | 'children’s program line'
  | 'basic program line'
  | 'next percent'
  | 'cost sharing'
  | 'credit line'
  | 'credit gone'

export interface Room {
  line: RoomLine
  /**
   * Household income at the line in dollars, and in percent of the poverty line: at the line of a program that program's own limit, of its
   * own level, else of the credit's.
   */
  incomeAt: number
  percentAt: number
  /** That percent is of the guidelines of the year before, as all of the credit's are; else of those of the year itself. */
  ofYearBefore: boolean
  /** The program looks at the months ahead: `percentAt` is theirs. */
  ofMonths: boolean
  /** Dollars of household income left until it. */
  incomeLeft: number
  /** Dollars of the extra kind of income that cross it: the first whole dollar beyond. */
  extraLeft: number
  /** What the year costs more, in dollars of tax and premiums, for the dollar that crosses; below 0 crossing pays. */
  costOfCrossing: number
  /** Share of costs a silver plan covers before and after. */
  silverBefore: number
  silverAfter: number
  /** At the line of a program: who passes to what; empty at other lines. */
  moves: { name: string; from: CoverageKind; to: CoverageKind }[]
}

export interface IncomeRoom {
  now: YearStanding
  rooms: Room[]
  /** What the next 100 dollars of the extra income leave in hand. */
  keptOfNextHundred: number
}

/** The farthest income looked at: a line beyond it is not reported. */
const farthest = 600_000

/** The lines above the household's income, nearest first. Needs cover in the year (`coverMonths` above 0) to be of use. */
export const incomeRoom = (
  law: LawYear,
  household: HouseholdYear,
  kind: ExtraIncome,
  steps: readonly CoverageStep[] = stepsOf(law, household),
): IncomeRoom => {
  const asked: Asked = { law, household, steps, at: standing(law, household, kind, steps) }
  const now = asked.at(0)
  const rooms = linesAbove(asked, now)
    .map((line) => roomTo(asked, now, line))
    .filter((room) => room !== null)
    // Under a program of the state nothing is shared on either side of the line.
    .filter((room) => room.line !== 'cost sharing' || room.silverAfter !== room.silverBefore)
  const hundred = asked.at(100)
  return {
    now,
    rooms: rooms.sort((a, b) => a.extraLeft - b.extraLeft || a.incomeAt - b.incomeAt),
    keptOfNextHundred: toCent(100 - (costOf(hundred) - costOf(now))),
  }
}

/** The most whole dollars of the extra kind of income that do not cross: what room is said to be, wherever it is said. */
export const roomBefore = ({ extraLeft }: Room): number => Math.max(0, extraLeft - 1)

/** What a person asks about: farm profit where there is any, else other income. */
export const extraOf = ({ farmProfit }: HouseholdYear): ExtraIncome =>
  farmProfit.some((profit) => profit !== 0) ? 'farmProfit' : 'otherIncome'

export const extraNames = { farmProfit: 'farm profit', otherIncome: 'other income' } as const
export type ExtraName = (typeof extraNames)[keyof typeof extraNames]

/** A crossing costs more than the hundred dollars that would earn it: steps of a percent of the poverty level are below that, and told apart. */
const costlyFrom = 100

/**
 * The nearest line whose crossing is costly, or leaves somebody without coverage or to premiums that are not known: up to it room is
 * counted, wherever it is said. From one program to the next nothing that is known costs more.
 */
export const costlyLine = ({ rooms }: IncomeRoom, steps: readonly CoverageStep[]): Room | null => {
  const isKnown = knowsPremiums(steps)
  return (
    rooms.find(
      ({ costOfCrossing, moves }) =>
        costOfCrossing > costlyFrom ||
        moves.some(({ to }) => to === 'none' || (to === 'marketplace' && !isKnown)),
    ) ?? null
  )
}

interface Asked {
  law: LawYear
  household: HouseholdYear
  steps: readonly CoverageStep[]
  /** The year with so many dollars more. */
  at(extra: number): YearStanding
}

interface Line {
  line: RoomLine
  incomeAt: number
  percentAt: number
  ofYearBefore: boolean
  /** The program looks at the months ahead: `percentAt` is theirs. */
  ofMonths: boolean
  moves: Room['moves']
}

/** Lines of the law above today's income. */
const linesAbove = (asked: Asked, now: YearStanding): Line[] => {
  const { law } = asked
  const at = (line: RoomLine, percent: number): Line => ({
    line,
    incomeAt: (now.povertyLine * percent) / 100,
    percentAt: percent,
    ofYearBefore: true,
    ofMonths: false,
    moves: [],
  })
  const ends = creditEnd(asked, now)
  const lines = [...programLines(asked, now), ...ends]
  // Where nobody would buy on the marketplace, its lines are nobody's.
  if (asked.steps.at(-1)!.monthsAhead === 0)
    return lines.filter(({ incomeAt }) => incomeAt >= now.householdIncome)
  if (
    asked.household.advanceMonthly === 0 &&
    asked.steps[now.step]!.monthsAhead > 0 &&
    now.householdIncome < now.povertyLine * (law.creditFromPercent / 100)
  )
    lines.push(at('federal poverty level', law.creditFromPercent))
  const next = at('next percent', now.povertyPercent + 1)
  if (now.credit > 0 && ends.every(({ incomeAt }) => next.incomeAt <= incomeAt)) lines.push(next)
  for (const percent of law.costSharingTo) lines.push(at('cost sharing', percent))
  return lines.filter(({ line, incomeAt }) =>
    line === 'federal poverty level' || line === 'next percent'
      ? incomeAt > now.householdIncome
      : incomeAt >= now.householdIncome,
  )
}

/** Where a program ends for someone. */
const programLines = ({ law, household, steps }: Asked, now: YearStanding): Line[] =>
  steps.slice(0, -1).map((step, k) => {
    const incomeAt = stepLineCents(law, household, step) / 100
    const moves = movesBetween(step, steps[k + 1]!)
    const ends = moves[0]?.from ?? 'Medicaid'
    return {
      line:
        ends === 'children’s program'
          ? 'children’s program line'
          : ends === 'basic health program'
            ? 'basic program line'
            : 'Medicaid line',
      incomeAt,
      percentAt: step.limit?.percent ?? (incomeAt / now.povertyLine) * 100,
      ofYearBefore: step.limit?.byCreditLine ?? true,
      ofMonths: step.limit?.ofMonths ?? false,
      moves,
    }
  })

const roomTo = (asked: Asked, now: YearStanding, line: Line): Room | null => {
  const reached = line.line === 'federal poverty level' || line.line === 'next percent'
  const isBeyond = (year: YearStanding): boolean =>
    reached ? year.householdIncome >= line.incomeAt - 0.004 : year.householdIncome > line.incomeAt + 0.004
  return crossing(asked, now, line, isBeyond)
}

/** Where there is no credit any more: at the line of the law, or where the household's own share reaches the benchmark premium before it. */
const creditEnd = ({ law, household, steps }: Asked, { povertyLine }: YearStanding): Line[] => {
  const incomeAt = creditEndsAt(law, { household, steps })
  if (incomeAt === null) return []
  const isByLaw =
    law.creditToPercent < noLimit && incomeAt >= (povertyLine * law.creditToPercent) / 100 - 0.005
  return [
    {
      line: isByLaw ? 'credit line' : 'credit gone',
      incomeAt,
      percentAt: isByLaw ? law.creditToPercent : Math.floor((incomeAt * 100) / povertyLine),
      ofYearBefore: true,
      ofMonths: false,
      moves: [],
    },
  ]
}

/** Halves the span down to the whole dollar of extra income that crosses; null when nothing in reach does. */
const crossing = (
  asked: Asked,
  now: YearStanding,
  line: Line,
  isBeyond: (year: YearStanding) => boolean,
): Room | null => {
  let low = 0
  let high = farthest
  if (isBeyond(now) || !isBeyond(asked.at(high))) return null
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isBeyond(asked.at(middle))) high = middle
    else low = middle
  }
  const [before, after] = [asked.at(low), asked.at(high)]
  return {
    line: line.line,
    incomeAt: line.incomeAt,
    percentAt: line.percentAt,
    ofYearBefore: line.ofYearBefore,
    ofMonths: line.ofMonths,
    incomeLeft: toCent(Math.max(0, line.incomeAt - now.householdIncome)),
    extraLeft: high,
    costOfCrossing: toCent(costOf(after) - costOf(before)),
    silverBefore: before.silverValue,
    silverAfter: after.silverValue,
    moves: line.moves,
  }
}
