// Of which plan and books long work was asked, and what of them has changed since, in sentences.

import { createHash } from 'node:crypto'
import { type Day, dayName, monthOfDay } from '#calendar/day.ts'
import { changesSince, latestChangeId } from '#db/change-log.ts'
import type { Books } from '#db/open.ts'
import { planRevision } from '#db/plan-store.ts'
import { keptWith } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { dayOfInstant } from '#web/server/clock.ts'
import type { WebContext } from '#web/server/context.ts'
import type { ProjectedPlan } from '../with-plan.tsx'

/** The plan as it was saved, as it went on from the books, and the last change that these had seen. */
export interface AskedState {
  saved: Plan
  ongoing: Plan
  changeId: number
}

export const askedState = (books: Books, { saved, plan }: ProjectedPlan): AskedState => ({
  saved,
  ongoing: plan,
  changeId: latestChangeId(books),
})

/** Short for all that a plan says: continued from other books, it is another one. */
export const stateOf = (plan: Plan): string =>
  keptWith(plan, 'state', () =>
    createHash('sha256').update(JSON.stringify(plan)).digest('base64url').slice(0, 16),
  )

interface AskedJob {
  askedOn: Day
  revisionNo: number
  asked: AskedState
}

/** Of what is shown as it is now: the day, and the revision, which another one may repeat. */
export const sayAsked = ({ askedOn, revisionNo }: AskedJob, now: ProjectedPlan): string =>
  revisionNo === now.revisionNo
    ? `Asked on ${dayName(askedOn)} of revision ${revisionNo}; plan and books have not changed since.`
    : `Asked on ${dayName(askedOn)} of revision ${revisionNo}, which says what revision ${now.revisionNo} does; the books have not changed since.`

/** What has changed since it was asked: the plan and when it was saved, the books and when last, or the month; then what else is given. */
export function saySince(
  { books, today }: Pick<WebContext, 'books' | 'today'>,
  { askedOn, asked }: AskedJob,
  now: ProjectedPlan,
  others: readonly string[] = [],
): string {
  const changed = [...planSince(books, asked, now), ...booksSince(books, today(), asked, askedOn), ...others]
  const [last, ...rest] = changed.reverse()
  return last === undefined
    ? ''
    : `Since then ${rest.length === 0 ? last : `${rest.reverse().join(', ')} and ${last}`}.`
}

function planSince(books: Books, { saved }: AskedState, now: ProjectedPlan): string[] {
  if (stateOf(saved) === stateOf(now.saved)) return []
  const revision = planRevision(books, now.planId, now.revisionNo)
  const when = revision === undefined ? '' : ` on ${dayName(dayOfInstant(revision.savedAt))}`
  return [`the plan was saved as revision ${now.revisionNo}${when}`]
}

/** Whether the plan of then would go on otherwise from the books of now. */
function booksSince(
  books: Books,
  today: Day,
  { saved, ongoing, changeId }: AskedState,
  askedOn: Day,
): string[] {
  if (stateOf(continuedPlan(books, saved, today).plan) === stateOf(ongoing)) return []
  const last = changesSince(books, changeId, '', mostChanges).findLast(
    ({ kind }) => !kind.startsWith('plan.'),
  )
  return [
    ...(monthOfDay(askedOn) === monthOfDay(today) ? [] : ['a new month has begun']),
    ...(last === undefined ? [] : [`the books were changed, last on ${dayName(dayOfInstant(last.at))}`]),
  ]
}

const mostChanges = 10_000
