// Plans and their revisions: each save is the next revision, and saving over a newer one is refused with both at hand.
import { and, desc, eq, isNull, sql } from 'drizzle-orm'
import { type Refusal, refuse } from '#ledger/problem.ts'
import { logChange } from './change-log.ts'
import { type Act, atomically, carriedOutBefore, once } from './once.ts'
import type { Books } from './open.ts'
import { prepared } from './prepared.ts'
import { planRevisions, plans } from './schema-records.ts'

export interface PlanHead {
  id: string
  name: string
  archivedAt: string | null
  revisionNo: number
  savedAt: string
}

export interface PlanRevision {
  planId: string
  revisionNo: number
  schemaVersion: number
  /** As stored; the plan room parses and upgrades it. */
  document: unknown
  note: string
  savedAt: string
  savedBy: string
}

export type SavePlanResult =
  | { ok: true; revisionNo: number }
  | { ok: false; kind: 'newer-revision'; theirs: PlanRevision }
  | Refusal

export interface PlanSave {
  planId: string
  /** Revision the form was opened with; 0 makes a new plan. */
  basedOn: number
  /** Needed for a new plan; renames an old one. */
  name?: string
  schemaVersion: number
  document: unknown
  note?: string
  /** What the form asked for, by which it is known when sent again; left out: the document. */
  asked?: unknown
}

/**
 * Saves the next revision, once per form: what was asked for again under the same form id is the same success, even when the
 * plan has moved on since; and so is the identical document over the newest revision.
 */
export const savePlan = (books: Books, act: Act, save: PlanSave): SavePlanResult =>
  atomically<SavePlanResult>(books, () => {
    const asked = save.asked ?? [save.planId, save.document]
    const before = savedBefore(books, act.formId, asked)
    if (before !== null) return { ok: true, revisionNo: before }
    const newest = latestRevision(books, save.planId)
    if (newest && newest.revisionNo !== save.basedOn) {
      const isRepeat =
        newest.revisionNo === save.basedOn + 1 &&
        JSON.stringify(newest.document) === JSON.stringify(save.document)
      return isRepeat
        ? { ok: true, revisionNo: newest.revisionNo }
        : { ok: false, kind: 'newer-revision', theirs: newest }
    }
    const saved = once(books, act, formKind, asked, () => addRevision(books, act, save, newest))
    return saved.ok ? { ok: true, revisionNo: saved.result } : saved
  })

/** The revision this form became when it was sent before with the same content; null when it was not. */
export const savedBefore = (books: Books, formId: string, asked: unknown): number | null =>
  carriedOutBefore<number>(books, formId, formKind, asked)?.result ?? null

const formKind = 'plan.saved'

function addRevision(books: Books, act: Act, save: PlanSave, newest: PlanRevision | undefined) {
  if (!newest && save.basedOn !== 0)
    return refuse({ path: '', message: 'There is no such plan. Open the list of plans again.' })
  const name = save.name?.trim() ?? ''
  if (!newest && name === '') return refuse({ path: 'name', message: 'Give the plan a name' })
  if (name !== '' && isTaken(books, save.planId, name))
    return refuse({ path: 'name', message: `A plan is called “${name}” already. Choose another name` })
  if (!newest) books.db.insert(plans).values({ id: save.planId, name, createdAt: act.at }).run()
  else if (name !== '') books.db.update(plans).set({ name }).where(eq(plans.id, save.planId)).run()
  const revisionNo = save.basedOn + 1
  books.db
    .insert(planRevisions)
    .values({
      planId: save.planId,
      revisionNo,
      schemaVersion: save.schemaVersion,
      document: save.document,
      note: save.note ?? '',
      savedAt: act.at,
      savedBy: act.actor,
    })
    .run()
  logChange(books, act, {
    kind: 'plan.saved',
    subject: save.planId,
    summary: 'A plan was saved',
    details: { revisionNo },
  })
  return { ok: true as const, result: revisionNo }
}

/** Plans are chosen by their names; one that is put away gives its name free. */
const isTaken = (books: Books, planId: string, name: string): boolean =>
  listPlans(books).some((one) => one.id !== planId && one.name.toLowerCase() === name.toLowerCase())

export const latestRevision = (books: Books, planId: string): PlanRevision | undefined =>
  books.db
    .select()
    .from(planRevisions)
    .where(eq(planRevisions.planId, planId))
    .orderBy(desc(planRevisions.revisionNo))
    .limit(1)
    .get()

export const planRevision = (books: Books, planId: string, revisionNo: number): PlanRevision | undefined =>
  books.db
    .select()
    .from(planRevisions)
    .where(and(eq(planRevisions.planId, planId), eq(planRevisions.revisionNo, revisionNo)))
    .get()

/** The number of the revision that stood at `instant`; of a plan made later, its first. Null for a plan without one. */
export const revisionStandingAt = (books: Books, planId: string, instant: string): number | null => {
  const newestFirst = revisionsOf(books, planId)
  return (newestFirst.find(({ savedAt }) => savedAt < instant) ?? newestFirst.at(-1))?.revisionNo ?? null
}

/** All revisions of a plan, newest first, without their documents. */
export const revisionsOf = (books: Books, planId: string): Omit<PlanRevision, 'document'>[] =>
  books.db
    .select({
      planId: planRevisions.planId,
      revisionNo: planRevisions.revisionNo,
      schemaVersion: planRevisions.schemaVersion,
      note: planRevisions.note,
      savedAt: planRevisions.savedAt,
      savedBy: planRevisions.savedBy,
    })
    .from(planRevisions)
    .where(eq(planRevisions.planId, planId))
    .orderBy(desc(planRevisions.revisionNo))
    .all()

/** Plans in the order they were made, each with its newest revision. */
export const listPlans = (books: Books, options: { withArchived?: boolean } = {}): PlanHead[] =>
  prepared(books, `plans ${options.withArchived === true}`, (db) =>
    db
      .select({
        id: plans.id,
        name: plans.name,
        archivedAt: plans.archivedAt,
        revisionNo: sql<number>`coalesce(${planRevisions.revisionNo}, 0)`,
        savedAt: sql<string>`coalesce(${planRevisions.savedAt}, ${plans.createdAt})`,
      })
      .from(plans)
      .leftJoin(planRevisions, and(eq(planRevisions.planId, plans.id), isNewest))
      .where(options.withArchived ? undefined : isNull(plans.archivedAt))
      .orderBy(plans.createdAt, plans.id)
      .prepare(),
  ).all()

const isNewest = sql`${planRevisions.revisionNo} = (SELECT max(revision_no) FROM plan_revisions WHERE plan_id = ${plans.id})`

/** Puts a plan away, or takes it up again, unless another is called as it is by now. Nothing is deleted. */
export const archivePlan = (
  books: Books,
  act: Pick<Act, 'at' | 'actor'>,
  planId: string,
  archived: boolean,
): { ok: true } | Refusal =>
  atomically<{ ok: true } | Refusal>(books, () => {
    const name = listPlans(books, { withArchived: true }).find((one) => one.id === planId)?.name ?? ''
    if (!archived && isTaken(books, planId, name))
      return refuse({
        path: 'planId',
        message: `Another plan is called “${name}” by now. Rename that one first`,
      })
    books.db
      .update(plans)
      .set({ archivedAt: archived ? act.at : null })
      .where(eq(plans.id, planId))
      .run()
    logChange(books, act, {
      kind: archived ? 'plan.archived' : 'plan.taken-up',
      subject: planId,
      summary: archived ? 'A plan was archived' : 'A plan was brought back',
    })
    return { ok: true }
  })
