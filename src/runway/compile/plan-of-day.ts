// A plan as it is run on a day: the document, and beside it what only that day knows.
import type { Month } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'

/** Told to the projection with the plan; never saved, no part of the document. */
interface SeenFrom {
  /** The month of today, which months left are counted from: the projection may begin before or after it. */
  leftFrom: Month
  /** The first month that has not yet begun: a bad year begins no earlier. */
  badYearsFrom: Month
}

/** Without `seenFrom` all is told from the projection's own first month. What is made of such a plan keeps it. */
export interface PlanOfDay extends Plan {
  seenFrom?: SeenFrom
}
