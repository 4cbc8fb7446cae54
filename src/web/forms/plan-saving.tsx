// The one door by which a page's form saves the plan: once per form, checked whole, refused over a newer revision with both shown.
import { type PlanRevision, planRevision, savedBefore, savePlan } from '#db/plan-store.ts'
import type { Refusal } from '#ledger/problem.ts'
import { countedTwice, type TwiceQuestion } from '#plan/counted-twice.ts'
import { differences } from '#plan/difference.ts'
import { inWords } from '#plan/difference-words.ts'
import { sayYes } from '#plan/doubt.ts'
import { newDoubts } from '#plan/doubts.ts'
import { type Plan, type PlanInput, planSchema, planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { LostPlanPage } from '#views/runway/lost-plan.tsx'
import { PlanOverClosedPage } from '#views/runway/plan-over-closed.tsx'
import { TwicePage } from '#views/runway/twice.tsx'
import { actOf } from './act.ts'
import { type Answered, answer, moveOn, type PageContext } from './answer.tsx'
import { formIdField, wholeNumber } from './fields.ts'
import { type FormErrors, formWords, newFormId, readForm, type TypedForm } from './form.ts'
import { isOfForm, leadsElsewhere, planOpen } from './open-plan.ts'
import { asksOverClosed, overClosedField, overClosedYears } from './pack/closed-years.ts'
import { showTwoVersions } from './two-versions.tsx'
import { typedPairs } from './typed-form.ts'
import { withPlan } from './with-plan.tsx'

/** A posted form on its way into the plan. */
export interface PlanForm {
  typed: TypedForm
  current: PlanInUse
  /** The plan as it was when the form was opened: what stands untouched in a field is what stood there then. */
  opened: Plan
  /** The page that a saved plan leads to, also when the same form comes again. */
  next: string
}

export interface PlanIssue {
  /** Empty for the plan as a whole. */
  path: readonly (string | number)[]
  message: string
  /** It may be so: a yes at `sure` saves it. */
  asks?: true
}

/** Reads a form that changes the plan it was made for, and answers one that was saved before. */
export const postPlan = async (
  c: PageContext,
  to: string | ((typed: TypedForm) => string),
  handle: (form: PlanForm) => Answered,
): Promise<Response> => {
  const typed = await readForm(c)
  const next = typeof to === 'string' ? to : to(typed)
  const before = answeredBefore(c, typed, next)
  if (before) return before
  isOfForm(c, planOfForm(c, typed))
  if (planOpen(c).status === 'none' && c.var.planOfForm !== undefined) return noSuchPlan(c, typed)
  return withPlan(c, (current) => handle({ typed, current, opened: planOpened(c, typed, current), next }))
}

/** What was typed is not lost with the plan that it was meant for. */
const noSuchPlan = (c: PageContext, { nested }: TypedForm): Answered => {
  const says = 'There is no such plan as this form was made for. Nothing was saved.'
  const typed = typedPairs(nested).filter(([name, text]) => text !== '' && !ofTheForm.has(name))
  return answer(c, {
    title: 'Not found',
    status: 404,
    figures: { error: says, typed: Object.fromEntries(typed) },
    page: () => <LostPlanPage says={says} typed={typed} />,
  })
}

/** What a form carries without anybody typing it. */
const ofTheForm = new Set(['formId', 'planId', 'basedOn', 'shown[]', 'next'])

/** The form of a notice's undo carries its plan in the address. */
export const planOfForm = (c: PageContext, typed: TypedForm): string =>
  typed.value('planId') || c.req.query('plan') || ''

const planOpened = (c: PageContext, typed: TypedForm, { planId, revisionNo, plan }: PlanInUse): Plan => {
  const opened = revisionOpened(typed)
  if (opened === null || opened === revisionNo) return plan
  const read = readPlan(planRevision(c.var.web.books, planId, opened)?.document)
  return read.ok ? read.plan : plan
}

/** A form that was saved before is the same success, whatever has become of the plan since; null for any other. */
export const answeredBefore = (c: PageContext, typed: TypedForm, next: string): Response | null => {
  const before = savedBefore(c.var.web.books, typed.value('formId'), askedFor(c, typed))
  return before === null ? null : moveOn(c, next, `This form was saved already, as revision ${before}.`)
}

/** Without `opened`, the plan is one that was saved or shown before: nothing in it is asked about. */
type SavedForm = Pick<PlanForm, 'typed' | 'next'> & {
  current: { planId: string; plan?: Plan }
  opened?: Plan
}

interface PlanChange {
  changed: Plan | PlanInput
  note: string
  basedOn?: number
  /** The person was told before that nothing of it would count twice. */
  countsOnce?: true
}

/**
 * Saves `changed` as the next revision and leads to the form's next page. `note` stays with the revision and is what the
 * person is told: "Honey changed". `refused` shows the form again with what is wrong. `basedOn` is the revision the form was
 * opened with, where the form itself does not carry it. What changes nothing makes no revision. A plan that would count a thing twice is not saved before a person has
 * said what is meant.
 */
export function savePlanForm(
  c: PageContext,
  { typed, current, opened, next }: SavedForm,
  { changed, note, basedOn, countsOnce }: PlanChange,
  refused: (issues: readonly PlanIssue[]) => Answered,
): Answered {
  const formId = formIdField().safeParse(typed.value('formId'))
  if (!formId.success) return refused([{ path: [], message: formId.error.issues[0]!.message }])
  const checked = planSchema.safeParse(changed, { error: formWords })
  if (!checked.success) return refused(checked.error.issues as readonly PlanIssue[])
  if (current.plan && JSON.stringify(checked.data) === JSON.stringify(current.plan))
    return moveOn(c, next, 'Nothing was changed: the plan stays as it is.')
  const doubts = opened ? newDoubts(checked.data, opened, c.var.web.today()) : []
  const open = doubts.filter(({ asks }) => !(asks && typed.value('sure') === 'yes'))
  if (open.length > 0) return refused(open)
  const { planId } = current
  const from = basedOn ?? revisionOpened(typed) ?? 0
  const question = opened && !countsOnce ? countedTwice(opened, checked.data, thisMonth(c)) : null
  if (question) return askWhatIsMeant(c, question, { planId, basedOn: from, note, next })
  const act = actOf(c, formId.data)
  const saved = overClosedYears(c, typed, act, () =>
    savePlan(c.var.web.books, act, {
      planId,
      basedOn: from,
      schemaVersion: planVersion,
      document: checked.data,
      ...(current.plan && current.plan.name !== checked.data.name ? { name: checked.data.name } : {}),
      note,
      asked: askedFor(c, typed),
    }),
  )
  if (saved.ok) {
    const undo = `/runway/revisions/undo?from=${saved.revisionNo}&plan=${encodeURIComponent(planId)}&next=${encodeURIComponent(next)}`
    const says = leadsElsewhere(c)
      ? `${note} in “${checked.data.name}”, which is not the plan open here. It`
      : `${note}. The plan`
    return moveOn(c, next, {
      text: `${says} is at revision ${saved.revisionNo}.`,
      undo: { action: undo, label: 'Undo', formId: newFormId() },
    })
  }
  const asking = asksOverClosed(saved) ? saved : null
  if (asking)
    return askOverClosed(c, asking, {
      action: '/runway/revisions/mine',
      fields: [
        ['planId', planId],
        ['basedOn', String(from)],
        ['document', JSON.stringify(checked.data)],
        ['next', next],
        ['note', note],
      ],
      button: 'Save the plan, and keep an amended copy of the pack',
      next,
    })
  if (saved.kind === 'newer-revision') return showBoth(c, checked.data, saved.theirs, next)
  return refused(
    saved.problems.map(({ path, message }) => ({ path: path === '' ? [] : path.split('.'), message })),
  )
}

const thisMonth = (c: PageContext): string => c.var.web.today().slice(0, 7)

/** What a form shown again carries on: the plan, and the revision it was first opened with. */
export const openedIn = (typed: TypedForm, current: PlanInUse): { planId: string; basedOn: number } => ({
  planId: current.planId,
  basedOn: revisionOpened(typed) ?? current.revisionNo,
})

const revisionOpened = (typed: TypedForm): number | null => {
  const read = wholeNumber(1, 1_000_000).safeParse(typed.value('basedOn'))
  return read.success ? read.data : null
}

/** Issues at the fields that show their places; others of the plan in the summary, with where they are. */
export function errorsAt(
  issues: readonly PlanIssue[],
  nameOf: (path: string) => string | null = () => null,
): FormErrors {
  const errors: Record<string, string> = {}
  for (const { path, message } of issues) {
    const name = nameOf(path.join('.'))
    if (name !== null) errors[name] ??= message
    else errors[''] ??= path.length === 0 ? message : `${path.join(' › ')}: ${message}`
  }
  // After what it is about: the box stands below all of it.
  return issues.some(({ asks }) => asks) ? { ...errors, sure: sayYes } : errors
}

/** A form is the same form when address and content are. */
const askedFor = (c: PageContext, typed: TypedForm) => ({
  address: new URL(c.req.url).pathname,
  from: c.req.query('from') ?? null,
  form: typed.nested,
})

/** Both versions side by side; nothing is lost. */
function showBoth(c: PageContext, mine: Plan, theirs: PlanRevision, next: string): Answered {
  const read = readPlan(theirs.document)
  const rows = differences(read.ok ? read.plan : theirs.document, mine)
  return showTwoVersions(c, {
    what: 'the plan',
    saved: { at: theirs.savedAt, by: theirs.savedBy },
    rows: rows.map(inWords),
    mine: {
      action: '/runway/revisions/mine',
      fields: [
        ['formId', newFormId()],
        ['planId', theirs.planId],
        ['basedOn', String(theirs.revisionNo)],
        ['document', JSON.stringify(mine)],
        ['next', next],
      ],
    },
    theirs: next,
  })
}

/** Nothing is saved yet: the form carries on all that was asked for, with the yes in it. */
export const askOverClosed = (
  c: PageContext,
  { problems }: Refusal,
  form: {
    action: string
    fields: readonly (readonly [name: string, value: string])[]
    button: string
    next: string
  },
): Answered => {
  const says = problems.map(({ message }) => message)
  return answer(c, {
    title: 'A closed year changes',
    status: 409,
    figures: { asks: says },
    page: () => (
      <PlanOverClosedPage
        says={says}
        {...form}
        fields={[['formId', newFormId()], ...form.fields, [overClosedField, 'yes']]}
      />
    ),
  })
}

/** Nothing is saved yet: each answer carries the whole plan that it makes. */
const askWhatIsMeant = (
  c: PageContext,
  question: TwiceQuestion,
  form: { planId: string; basedOn: number; note: string; next: string },
): Answered =>
  answer(c, {
    title: 'Counted once or twice?',
    status: 409,
    figures: { asks: question.asks, answers: question.answers.map(({ label, says }) => ({ label, says })) },
    page: () => <TwicePage question={question} form={form} formIdOf={newFormId} />,
  })
