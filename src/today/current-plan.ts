// The plan the pages read: the one chosen in Settings, else the oldest that is not put away.
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { listPlans, type PlanHead, planRevision } from '#db/plan-store.ts'
import { readSettingAs } from '#db/settings-store.ts'
import { keeper } from '#kept/keeper.ts'
import type { Plan } from '#plan/plan.ts'
import { type PlanFault, type ReadPlan, readPlan } from '#plan/upgrade.ts'

export const currentPlanSetting = 'plan.current'

/** Each page asks for it, some twice: a shape is slow to make. */
const planId = z.string()

export type CurrentPlan =
  | { status: 'none' }
  | { status: 'unreadable'; planId: string; name: string; faults: readonly PlanFault[] }
  | PlanInUse

export interface PlanInUse {
  status: 'read'
  planId: string
  name: string
  revisionNo: number
  plan: Plan
}

export function currentPlan(books: Books): CurrentPlan {
  const heads = listPlans(books)
  const chosen = readSettingAs(books, currentPlanSetting, planId).value
  return planOf(books, heads.find((one) => one.id === chosen) ?? heads[0])
}

/** Another plan than the one in use; none where there is no such plan, or it is put away and that is not asked for. */
export const planNamed = (
  books: Books,
  planId: string,
  { withPutAway = false }: { withPutAway?: boolean } = {},
): CurrentPlan =>
  planOf(
    books,
    listPlans(books, { withArchived: withPutAway }).find((one) => one.id === planId),
  )

function planOf(books: Books, head: PlanHead | undefined): CurrentPlan {
  if (!head || head.revisionNo === 0) return { status: 'none' }
  const read = readOnce(books, head)
  if (!read.ok) return { status: 'unreadable', planId: head.id, name: head.name, faults: read.faults }
  return {
    status: 'read',
    planId: head.id,
    name: head.name,
    revisionNo: head.revisionNo,
    plan: read.plan,
  }
}

/** Reading a plan costs milliseconds, and what is worked out from it hangs on it in megabytes: the last few of a file are kept. */
const keptOfFile = keeper(3)

const readOnce = (books: Books, { id, revisionNo }: PlanHead): ReadPlan =>
  keptOfFile(books, `${revisionNo} ${id}`, () => readPlan(planRevision(books, id, revisionNo)?.document))
