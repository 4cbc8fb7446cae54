// Saving plans: revisions with undo, going back, and what happens when two screens saved at once.
import { Hono } from 'hono'
import { z } from 'zod'
import type { Books } from '#db/open.ts'
import { latestRevision, type PlanRevision, planRevision, revisionsOf, savePlan } from '#db/plan-store.ts'
import { differences } from '#plan/difference.ts'
import { type Plan, planVersion } from '#plan/plan.ts'
import { readPlan, readPlanText } from '#plan/upgrade.ts'
import { ConflictPage, RevisionPage, RevisionsPage } from '#views/runway/revisions.tsx'
import { actOf } from './act.ts'
import { answer, moveOn, notFound, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import { currentPlan, type PlanInUse } from './current-plan.ts'
import { formIdField, requiredText, wholeNumber } from './fields.ts'
import { checkForm, newFormId, readForm } from './form.ts'
import type { PageRoom } from './page-room.ts'

export const runwayRevisionPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/revisions', showRevisions)
      .get('/runway/revisions/:no', showRevision)
      .post('/runway/revisions/undo', (c) => goBack(c, (sent) => sent.basedOn - 1))
      .post('/runway/revisions/mine', saveMine)
      .post('/runway/revisions/:no/back', (c) => goBack(c, () => numberOf(c.req.param('no')))),
}

/** Saves a document as the next revision; the answer for every way it can end. */
export const saveRevision = (
  c: PageContext,
  current: PlanInUse,
  save: { formId: string; basedOn: number; document: Plan; note: string; next: string; says: string },
): Response | Promise<Response> => {
  const { formId, basedOn, document, note, next, says } = save
  const saved = savePlan(c.var.web.books, actOf(c, formId), {
    planId: current.planId,
    basedOn,
    schemaVersion: planVersion,
    document,
    note,
  })
  if (saved.ok)
    return moveOn(c, next, {
      text: says,
      undo: { action: `/runway/revisions/undo?from=${saved.revisionNo}`, label: 'Undo', formId: newFormId() },
    })
  if (saved.kind === 'newer-revision') return showConflict(c, current, document, saved.theirs)
  return notFound(c, 'The plan could not be saved. Open the page again')
}

/** Both versions side by side; nothing is lost. */
export const showConflict = (
  c: PageContext,
  current: PlanInUse,
  mine: Plan,
  theirs: PlanRevision,
): Response | Promise<Response> => {
  const read = readPlan(theirs.document)
  const rows = differences(read.ok ? read.plan : theirs.document, mine)
  return answer(c, {
    title: 'Two versions of the plan',
    status: 409,
    figures: { theirs: theirs.revisionNo, differences: rows },
    page: () => (
      <ConflictPage
        rows={rows}
        theirs={theirs}
        planId={current.planId}
        document={JSON.stringify(mine)}
        formId={newFormId()}
      />
    ),
  })
}

const sentForm = z.object({
  formId: formIdField(),
  planId: requiredText('The plan is missing. Open the page again', 80),
  basedOn: wholeNumber(0, 1_000_000),
})

const showRevisions = (c: PageContext) => {
  const { books } = c.var.web
  const current = currentPlan(books)
  if (current.status === 'none') return notFound(c, 'There is no plan yet.')
  const revisions = revisionsOf(books, current.planId)
  return answer(c, {
    title: 'Revisions',
    figures: { plan: current.name, revisions },
    page: () => (
      <RevisionsPage
        planName={current.name}
        planId={current.planId}
        revisions={revisions}
        canUndo={revisions.length > 1}
        formId={newFormId()}
      />
    ),
  })
}

const showRevision = (c: PageContext) => {
  const { books } = c.var.web
  const current = currentPlan(books)
  const no = numberOf(c.req.param('no'))
  const revision = current.status === 'none' ? undefined : planRevision(books, current.planId, no)
  const newest = current.status === 'none' ? undefined : latestRevision(books, current.planId)
  if (current.status === 'none' || !revision || !newest) return notFound(c, 'There is no such revision.')
  const before = planRevision(books, current.planId, no - 1)
  const fromBefore = differences(upToDate(before?.document ?? {}), upToDate(revision.document))
  const toNewest = differences(upToDate(revision.document), upToDate(newest.document))
  return answer(c, {
    title: `Revision ${no}`,
    figures: { revision, fromBefore, toNewest },
    page: () => (
      <RevisionPage
        revision={revision}
        newestNo={newest.revisionNo}
        fromBefore={fromBefore}
        toNewest={toNewest}
        formId={newFormId()}
        planId={current.planId}
      />
    ),
  })
}

const upToDate = (document: unknown): unknown => {
  const read = readPlan(document)
  return read.ok ? read.plan : document
}

const numberOf = (text: string | undefined): number =>
  /^\d{1,7}$/.test(text ?? '') ? Number.parseInt(text!, 10) : 0

/** Saves an earlier revision's document as the next one. */
async function goBack(c: PageContext, choose: (sent: { basedOn: number }) => number): Promise<Response> {
  const { books } = c.var.web
  const current = currentPlan(books)
  if (current.status === 'none') return notFound(c, 'There is no plan yet.')
  const sent = await sentOrUndo(c, books, current.planId)
  if (sent === null) return notFound(c, 'This form has lost its plan. Open the revisions again.')
  const revision = planRevision(books, current.planId, choose(sent))
  if (!revision) return notFound(c, 'There is no revision to go back to.')
  const read = readPlan(revision.document)
  if (!read.ok) return notFound(c, 'That revision can no longer be read.')
  return saveRevision(
    c,
    { ...current, revisionNo: sent.basedOn, plan: read.plan, status: 'read' },
    {
      formId: sent.formId,
      basedOn: sent.basedOn,
      document: read.plan,
      note: `Back to revision ${revision.revisionNo}`,
      next: '/runway',
      says: `The plan is as in revision ${revision.revisionNo} again.`,
    },
  )
}

/** A notice's undo form knows only its id; the revision it undoes stands in its address. */
const sentOrUndo = async (c: PageContext, books: Books, planId: string) => {
  const typed = await readForm(c)
  const from = numberOf(c.req.query('from'))
  if (from > 0) {
    const formId = formIdField().safeParse(typed.value('formId'))
    return formId.success ? { formId: formId.data, planId, basedOn: from } : null
  }
  const checked = checkForm(sentForm, typed)
  return checked.ok && checked.value.planId === planId && latestRevision(books, planId) ? checked.value : null
}

async function saveMine(c: PageContext): Promise<Response> {
  const typed = await readForm(c)
  const sent = checkForm(sentForm, typed)
  const current = currentPlan(c.var.web.books)
  const read = readPlanText(typed.value('document'))
  if (!sent.ok || !read.ok || current.status !== 'read' || current.planId !== sent.value.planId)
    return notFound(c, 'Your version did not arrive whole. Open the plan again.')
  return saveRevision(c, current, {
    formId: sent.value.formId,
    basedOn: sent.value.basedOn,
    document: read.plan,
    note: 'Saved after another screen’s revision',
    next: '/runway',
    says: 'Your version is saved as the newest revision.',
  })
}
