// A plan document from a file or pasted, shown as what it would change, and saved as the next revision once that was seen.
import { Hono } from 'hono'
import { differences } from '#plan/difference.ts'
import { newDoubts } from '#plan/doubts.ts'
import { readPlanText } from '#plan/upgrade.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { keptTies, type Ties } from '#today/loan-ties.ts'
import { LoadPage, LoadPreview } from '#views/runway/load.tsx'
import { type Answered, answer, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayLoadPages: PageRoom = {
  uploads: ['/runway/load'],
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/load', (c) => withPlan(c, (current) => showForm(c, current, '', {}, current.revisionNo)))
      .post('/runway/load', (c) => postPlan(c, '/runway/revisions', (form) => load(c, form))),
}

const showForm = (
  c: PageContext,
  { planId }: PlanInUse,
  document: string,
  errors: FormErrors,
  basedOn: number,
) =>
  answer(c, {
    title: 'Load a plan',
    status: statusOf(errors),
    figures: { errors },
    page: () => (
      <LoadPage document={document} errors={errors} ids={{ formId: newFormId(), planId, basedOn }} />
    ),
  })

async function load(c: PageContext, form: PlanForm): Promise<Response> {
  const { typed, current } = form
  const { basedOn } = openedIn(typed, current)
  const text = (await typed.file('file')?.text()) ?? typed.value('document')
  const read = readPlanText(text, { refuseUnknown: true })
  if (!read.ok) {
    const faults = read.faults.map(({ path, message }) => (path === '' ? message : `${path}: ${message}`))
    return showForm(c, current, text, { document: sayFaults(faults) }, basedOn)
  }
  const ties = keptTies(c.var.web.books, current.plan, read.plan)
  if (typed.value('confirm') !== 'yes') return firstLook(c, form, ties, text)
  const change = { changed: ties.plan, note: 'Plan loaded' }
  return savePlanForm(c, form, change, (issues) => preview(c, form, ties, errorsAt(issues)))
}

/** What would be refused after the preview is refused before it; what is only asked about is asked there. */
const firstLook = (c: PageContext, form: PlanForm, ties: Ties, text: string): Answered => {
  const { typed, current, opened } = form
  const doubts = newDoubts(ties.plan, opened, c.var.web.today())
  const refused = doubts.filter(({ asks }) => !asks)
  if (refused.length > 0) {
    const says = sayFaults(refused.map(({ path, message }) => `${path.join('.')}: ${message}`))
    return showForm(c, current, text, { document: says }, openedIn(typed, current).basedOn)
  }
  return preview(c, form, ties, doubts.length > 0 ? errorsAt(doubts) : {})
}

const mostFaults = 5

const sayFaults = (faults: readonly string[]): string => {
  const more = faults.length > mostFaults ? ` … and ${faults.length - mostFaults} more` : ''
  return `${faults.slice(0, mostFaults).join('; ')}${more}`
}

const preview = (
  c: PageContext,
  { typed, current }: PlanForm,
  { plan, says }: Ties,
  errors: FormErrors,
): Answered => {
  const rows = differences(current.plan, plan)
  return answer(c, {
    title: 'What loading it changes',
    status: statusOf(errors),
    figures: { differences: rows, ties: says },
    page: () => (
      <LoadPreview
        rows={rows}
        ties={says}
        document={JSON.stringify(plan)}
        errors={errors}
        ids={{ formId: newFormId(), ...openedIn(typed, current) }}
      />
    ),
  })
}
