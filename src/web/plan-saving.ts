// Saves a changed plan as its next revision: checked whole, refused over a newer one, with what to do about either.
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type PlanRevision, savePlan } from '#db/plan-store.ts'
import { type Plan, type PlanInput, planSchema, planVersion } from '#plan/plan.ts'
import type { PlanInUse } from './current-plan.ts'

export interface PlanIssue {
  path: (string | number)[]
  message: string
}

export type SavedPlan =
  | { ok: true; revisionNo: number }
  | { ok: false; kind: 'not right'; issues: PlanIssue[] }
  /** Someone saved meanwhile: nothing was written. */
  | { ok: false; kind: 'newer-revision'; theirs: PlanRevision }
  | { ok: false; kind: 'refused'; message: string }

/** `basedOn` is the revision the form was opened with. */
export const saveChangedPlan = (
  books: Books,
  act: Act,
  current: PlanInUse,
  basedOn: number,
  changed: Plan | PlanInput,
  note: string,
): SavedPlan => {
  const checked = planSchema.safeParse(changed)
  if (!checked.success)
    return {
      ok: false,
      kind: 'not right',
      issues: checked.error.issues.map((issue) => ({
        path: issue.path as (string | number)[],
        message: issue.message,
      })),
    }
  const saved = savePlan(books, act, {
    planId: current.planId,
    basedOn,
    schemaVersion: planVersion,
    document: checked.data,
    note,
  })
  if (saved.ok) return { ok: true, revisionNo: saved.revisionNo }
  if ('kind' in saved && saved.kind === 'newer-revision')
    return { ok: false, kind: 'newer-revision', theirs: saved.theirs }
  const message =
    'problems' in saved ? saved.problems.map((one) => one.message).join(' ') : 'The plan was not saved'
  return { ok: false, kind: 'refused', message }
}
