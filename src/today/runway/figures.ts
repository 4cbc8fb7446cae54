// What the Runway pages show, as their JSON says it too, in the dollars that were asked for.

import type { Milestones, ProjectedMonth, ProjectedYear } from '#runway/project.ts'
import type { StormChange } from '#runway/storms/storm-parts.ts'

export interface YearLine {
  year: number
  /** How many of its months the plan has: fewer than twelve in its first and last year. */
  months: number
  farmSales: number
  draws: number
  unmetDraws: number
  /** What the household puts into the farm. */
  contributions: number
  /** Pay, what ventures hand over, and benefits. */
  otherIncome: number
  /** Of it, Social Security: own, of spouses, survivors and children. */
  benefits: number
  householdCosts: number
  /** Tax of the year, whenever it is paid; null for a year that the plan does not close. */
  tax: number | null
  spendable: number
  retirement: number
  floor: number
  coverRatio: number | null
}

export interface StormLine {
  id: string
  name: string
  /** The month it begins in: of the usual ones the worst of the next two years. */
  from: string
  own: boolean
  monthsLeft: number | null
  carryMonth: string | null
  lowestSpendable: number
  lowestMonth: string
  runsShort: string | null
  /** What nothing can pay, in all. */
  unmetNeed: number
  /** What it is made of: by how much each flow differs from the plan's own over the ten years after it begins. */
  changes: readonly StormChange[]
  /** Why it changes nothing, or looks better than as planned. */
  says: string | null
  /** What the plan must be told before it can count what this takes, and where; null when nothing is lacking. */
  lacks: { says: string; asks: string; href: string } | null
}

export interface RunwayFigures {
  planId: string
  planName: string
  revisionNo: number
  /** All savings when the plan ends. */
  savingsAtEnd: number
  /** True when the levers stand as the plan says. */
  asPlanned: boolean
  /** Without living costs the course would say that savings last for ever. */
  knowsCosts: boolean
  /** The month on whose first day months left are counted from, as text. */
  countedFrom: string
  milestones: Milestones
  /** The first month with a draw, where one lies before the months projected: by the books, or by the plan that no books have met; as text. */
  drawnSince: string | null
  why: readonly string[]
  years: readonly YearLine[]
  months: readonly ProjectedMonth[]
  yearReturns: readonly ProjectedYear[]
  /** Without the levers, drawn beside their course. */
  saved: readonly { month: string; spendable: number }[] | null
  /** The plan as it was saved, before the books told otherwise. */
  baseline: readonly { month: string; spendable: number }[] | null
}

export interface TraceLine {
  name: string
  dollars: number
  /** How the amount comes about. */
  says?: string
}

export interface MonthTrace {
  month: string
  groups: readonly { title: string; total: number; lines: readonly TraceLine[] }[]
}
