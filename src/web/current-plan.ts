// The plan the pages read: the one chosen in Settings, else the oldest that is not put away.

import type { Books } from '#db/open.ts'
import { latestRevision, listPlans } from '#db/plan-store.ts'
import { readSetting } from '#db/settings-store.ts'
import type { Plan } from '#plan/plan.ts'
import { type PlanFault, readPlan } from '#plan/upgrade.ts'

export const currentPlanSetting = 'plan.current'

export type CurrentPlan =
  | { status: 'none' }
  | { status: 'unreadable'; planId: string; name: string; faults: readonly PlanFault[] }
  | { status: 'read'; planId: string; name: string; revisionNo: number; plan: Plan }

export function currentPlan(books: Books): CurrentPlan {
  const heads = listPlans(books)
  const chosen = readSetting(books, currentPlanSetting).value
  const head = heads.find((one) => one.id === chosen) ?? heads[0]
  const revision = head && latestRevision(books, head.id)
  if (!head || !revision) return { status: 'none' }
  const read = parsedOnce(
    `${books.path} ${head.id} ${revision.revisionNo} ${revision.savedAt}`,
    revision.document,
  )
  if (!read.ok) return { status: 'unreadable', planId: head.id, name: head.name, faults: read.faults }
  return {
    status: 'read',
    planId: head.id,
    name: head.name,
    revisionNo: revision.revisionNo,
    plan: read.plan,
  }
}

/** Parsing a full plan costs milliseconds; a revision never changes, so the last few are kept. */
const kept = new Map<string, ReturnType<typeof readPlan>>()

function parsedOnce(key: string, document: unknown): ReturnType<typeof readPlan> {
  const known = kept.get(key)
  if (known) return known
  const read = readPlan(document)
  kept.set(key, read)
  const oldest = kept.keys().next().value
  if (kept.size > 8 && oldest !== undefined) kept.delete(oldest)
  return read
}
