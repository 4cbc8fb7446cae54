// What only the books or only the plan know.
import type { PlanInput } from '#plan/plan.ts'

export interface OneSided {
  id: string
  says: string
  /** Said on Now as well; money that a venture keeps to work with is not. */
  waits: boolean
  /** The plan that knows it too, or knows it no more, with what its button says; null where more must be asked first. */
  change: OneSidedChange | null
  /** The other answer, where both are asked for, with the question as Now asks it. */
  other?: OneSidedChange & { asks: string }
  /** Where it is entered or looked up. */
  more: { text: string; href: string } | null
}

export interface OneSidedChange {
  button: string
  note: string
  plan: PlanInput
  /** What it says has answered already whether anything would count twice. */
  countsOnce?: true
}
