// What lies between savings as a plan begins and the month in which they end below the floor: each kind of money, summed.
import type { Plan } from '#plan/plan.ts'
import { lineKinds, openingOf, plannedMonths } from '#runway/against-books/variance-lines.ts'
import type { CourseToFloor } from '#runway/project.ts'

export interface FloorParts {
  /** The first month summed, like `2026-11`. */
  from: string
  /** Cash and taxable accounts as the first month begins. */
  begins: number
  /** Costs are below zero; begins and the parts come to what is held. */
  parts: readonly { name: string; dollars: number }[]
  /** What the accounts that count hold at the end of the month below the floor, less tax owed by then. */
  ends: number
  /** Of it, retirement accounts where they count, less tax owed. */
  besides: number
  floor: number
}

/** Null when savings stay above the floor. The lines are those that plan and books are held against each other by. */
export const floorParts = (plan: Plan, { milestones, months }: CourseToFloor): FloorParts | null => {
  const at = months.findIndex(({ month }) => month === milestones.floorMonth)
  if (at < 0) return null
  const until = months.slice(0, at + 1)
  const planned = plannedMonths(plan, until)
  const last = until[at]!
  const opening = openingOf(plan)
  const parts = lineKinds
    .map(({ name, isCost, ofPlan }) => {
      const sum = planned.reduce((all, month) => all + ofPlan(month), 0)
      return { name, dollars: isCost ? -sum : sum }
    })
    .filter(({ dollars }) => Math.abs(dollars) >= 0.5)
  return {
    from: until[0]!.month,
    begins: opening.cash + opening.taxable,
    parts,
    ends: last.spendable,
    besides: last.spendable - last.cash - last.taxable,
    floor: last.floor,
  }
}
