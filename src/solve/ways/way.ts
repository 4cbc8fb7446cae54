// One way of doing something, as a change of the plan.
import type { Plan } from '#plan/plan.ts'

export interface Way {
  /** Names it in a form; never `plan`. */
  id: string
  name: string
  /** What it means, in a sentence. */
  says: string
  change(plan: Plan): Plan
}
