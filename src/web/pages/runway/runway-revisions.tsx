// The revisions of the plan: what each changed, going back to one, and saving one's own after another screen's.
import { Hono } from 'hono'
import { whoDid } from '#db/acts/names.ts'
import type { Books } from '#db/open.ts'
import { latestRevision, planRevision, revisionsOf } from '#db/plan-store.ts'
import { differences } from '#plan/difference.ts'
import { readPlan, readPlanText } from '#plan/upgrade.ts'
import { RevisionPage, RevisionsPage } from '#views/runway/revisions.tsx'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { newFormId, readForm, type TypedForm } from '#web/forms/form.ts'
import { isOfForm, planOpen } from '#web/forms/open-plan.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { answeredBefore, type PlanForm, planOfForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { answerNoPlan } from '#web/forms/with-plan.tsx'
import { browserOf } from '#web/server/browser.ts'
import type { PageEnv } from '#web/server/context.ts'

export const runwayRevisionPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/revisions', showRevisions)
      .get('/runway/revisions/:no', showRevision)
      .post('/runway/revisions/undo', (c) => goBack(c, undone))
      .post('/runway/revisions/mine', (c) => postPlan(c, cameFrom, (form) => saveMine(c, form)))
      .post('/runway/revisions/:no/back', (c) => goBack(c, chosen)),
}

const showRevisions = (c: PageContext) => {
  const { books, timeName } = c.var.web
  const current = planOpen(c)
  if (current.status === 'none') return answerNoPlan(c)
  const who = whoDid(books, browserOf(c))
  const revisions = revisionsOf(books, current.planId).map((one) => ({
    ...one,
    saved: timeName(one.savedAt),
    savedBy: who(one.savedBy),
  }))
  return answer(c, {
    title: 'Revisions',
    figures: { plan: current.name, revisions },
    page: () => (
      <RevisionsPage
        planName={current.name}
        planId={current.planId}
        revisions={revisions}
        canUndo={standsFor(books, current.planId, latestRevision(books, current.planId)?.revisionNo ?? 0) > 1}
        formId={newFormId()}
      />
    ),
  })
}

const showRevision = (c: PageContext) => {
  const { books } = c.var.web
  const current = planOpen(c)
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

interface Back {
  revisionNo: number
  note: string
}

const chosen = (c: PageContext): Back => {
  const revisionNo = numberOf(c.req.param('no'))
  return { revisionNo, note: `Back to revision ${revisionNo}` }
}

const undoneNote = (revisionNo: number): string => `Undone: back to revision ${revisionNo}`

/** One save further back with each undo: what was undone is not done again by the next, but chosen from the list. */
const undone = (c: PageContext, planId: string, basedOn: number): Back => {
  const revisionNo = standsFor(c.var.web.books, planId, basedOn) - 1
  return { revisionNo, note: undoneNote(revisionNo) }
}

/** The revision that an undo went back to, for the one it made; any other stands for itself. */
function standsFor(books: Books, planId: string, revisionNo: number): number {
  const revision = planRevision(books, planId, revisionNo)
  const wentTo = Number(/\d+$/.exec(revision?.note ?? '')?.[0])
  if (!revision || !(wentTo < revisionNo) || revision.note !== undoneNote(wentTo)) return revisionNo
  // A note can be typed too: only the same plan is one gone back to.
  const earlier = planRevision(books, planId, wentTo)
  const same = differences(upToDate(earlier?.document ?? {}), upToDate(revision.document)).length === 0
  return same ? standsFor(books, planId, wentTo) : revisionNo
}

/**
 * Saves an earlier revision's document as the next one, also where the newest cannot be read. A notice's undo form carries
 * plan and revision in its address, and the page to lead back to: that of the change.
 */
async function goBack(
  c: PageContext,
  choose: (c: PageContext, planId: string, basedOn: number) => Back,
): Promise<Response> {
  const { books } = c.var.web
  const typed = await readForm(c)
  const next = pageOfPlan(c.req.query('next') ?? '')
  const before = answeredBefore(c, typed, next)
  if (before) return before
  const planId = planOfForm(c, typed)
  isOfForm(c, planId)
  const current = planOpen(c)
  if (current.status === 'none' || planId !== current.planId)
    return notFound(c, 'This form has lost its plan. Open the revisions again.')
  const basedOn = numberOf(typed.value('basedOn') || c.req.query('from'))
  const { revisionNo, note } = choose(c, planId, basedOn)
  const revision = planRevision(books, planId, revisionNo)
  if (!revision) return notFound(c, 'There is no revision to go back to.')
  const read = readPlan(revision.document)
  if (!read.ok) return notFound(c, 'That revision can no longer be read.')
  const change = { changed: read.plan, note, basedOn }
  return savePlanForm(c, { typed, current, next }, change, (issues) =>
    notFound(c, issues[0]?.message ?? 'That revision cannot be saved again.'),
  )
}

function saveMine(c: PageContext, { typed, current, next }: PlanForm) {
  const lost = 'Your version did not arrive whole. Open the plan again.'
  const read = readPlanText(typed.value('document'))
  if (!read.ok) return notFound(c, lost)
  const note = typed.value('note').trim().slice(0, 200) || 'Saved after another device’s revision'
  return savePlanForm(c, { typed, current, next }, { changed: read.plan, note }, (issues) =>
    notFound(c, issues[0]?.message ?? lost),
  )
}

/** The page the first save would have led to; only pages that change the plan. */
const cameFrom = (typed: TypedForm): string => pageOfPlan(typed.value('next'))

const pageOfPlan = (address: string): string =>
  /^\/(runway|farm|slower-years|cover|books\/accounts)[\w/#-]*(\?[\w=&-]*)?$/.test(address)
    ? address
    : '/runway'
