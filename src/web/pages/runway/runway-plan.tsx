// The plan's forms: each section read from its schema, saved as a revision, with rows added and taken out in between.
import { Hono } from 'hono'
import { z } from 'zod'
import { parseMonth } from '#calendar/month.ts'
import { sectionFromForm } from '#plan/form-document.ts'
import { formOf, type PlanSection, type Pointers, planSections } from '#plan/form-fields.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { PlanSectionPage } from '#views/runway/plan-form.tsx'
import { PlanSectionsPage, sectionNames } from '#views/runway/plan-sections.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { requiredText } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayPlanPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/plan', (c) =>
        withPlan(c, (current) => showSections(c, current, openingNames(current.plan), {})),
      )
      .post('/runway/plan', (c) => postPlan(c, '/runway/plan', (form) => saveNames(c, form)))
      .get('/runway/plan/:section', (c) =>
        withSection(c, (current, section) => showSaved(c, current, section)),
      )
      .post('/runway/plan/:section', (c) => postPlan(c, '/runway/plan', (form) => saveSection(c, form))),
}

const openingNames = (plan: Plan) => openingForm({ name: plan.name, startMonth: plan.startMonth })

const showSections = (c: PageContext, current: PlanInUse, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'Edit the plan',
    figures: current.plan,
    status: statusOf(errors),
    page: () => (
      <PlanSectionsPage
        planName={current.name}
        planId={current.planId}
        revisionNo={current.revisionNo}
        startMonth={current.plan.startMonth}
        formId={newFormId()}
        errors={errors}
        typed={{ name: typed.value('name'), startMonth: typed.value('startMonth') }}
      />
    ),
  })

const namesForm = z.object({
  name: requiredText('Give the plan a name', 80),
  startMonth: z
    .string()
    .refine((text) => parseMonth(text) !== null, { error: 'Enter a month, like 2027-04' }),
})

function saveNames(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const checked = checkForm(namesForm, typed)
  if (!checked.ok) return showSections(c, current, typed, checked.errors)
  const changed = { ...current.plan, ...checked.value }
  return savePlanForm(c, form, { changed, note: 'Name and first month saved' }, (issues) =>
    showSections(c, current, typed, errorsAt(issues, [], [{ name: 'name' }, { name: 'startMonth' }])),
  )
}

const sectionOf = (c: PageContext) => planSections.find((one) => one === c.req.param('section'))

const withSection = (c: PageContext, show: (current: PlanInUse, section: PlanSection) => Answered) => {
  const section = sectionOf(c)
  return section
    ? withPlan(c, (current) => show(current, section))
    : notFound(c, 'The plan has no such section.')
}

const pointersOf = (plan: Plan, section: PlanSection): Pointers => {
  const people = plan.household.people.map(({ id, name }) => ({ id, name }))
  const all = [...people, ...plan.household.dependants.map(({ id, name }) => ({ id, name }))]
  return {
    person: section === 'health' ? all : people,
    owner: people,
    account: plan.savings.accounts.map(({ id, name }) => ({ id, name })),
  }
}

const showSaved = (c: PageContext, current: PlanInUse, section: PlanSection) => {
  const form = formOf(section, current.plan[section], pointersOf(current.plan, section))
  return showForm(c, current, section, form, {}, current.revisionNo)
}

const showForm = (
  c: PageContext,
  current: PlanInUse,
  section: PlanSection,
  form: ReturnType<typeof formOf>,
  errors: FormErrors,
  basedOn: number,
) =>
  answer(c, {
    title: sectionNames[section].title,
    figures: { section, plan: current.plan[section] },
    status: statusOf(errors),
    page: () => (
      <PlanSectionPage
        section={section}
        form={form}
        errors={errors}
        formId={newFormId()}
        planId={current.planId}
        basedOn={basedOn}
      />
    ),
  })

function saveSection(c: PageContext, form: PlanForm): Answered {
  const { typed, current } = form
  const section = sectionOf(c)
  if (!section) return notFound(c, 'The plan has no such section.')
  const again = (errors: FormErrors) => {
    const shown = formOf(section, typed.nested[section], pointersOf(current.plan, section), true)
    return showForm(c, current, section, shown, errors, openedIn(typed, current).basedOn)
  }
  if (changeRows(typed, section) || typed.value('show') !== '') return again({})
  const read = sectionFromForm(section, typed.nested[section])
  const checked = readPlan({ ...current.plan, [section]: read.document })
  const errors: Record<string, string> = { ...read.errors }
  if (!checked.ok) for (const fault of checked.faults) errors[fault.path] ??= fault.message
  if (!checked.ok || Object.keys(errors).length > 0) return again(errors)
  const note = `${sectionNames[section].title} saved`
  return savePlanForm(c, form, { changed: checked.plan, note }, (issues) => again(errorsAt(issues, [], [])))
}

/** Adds an empty row to a list, or takes one out, in what was typed. True when a row button was pressed. */
const changeRows = (typed: TypedForm, section: string): boolean => {
  const add = typed.value('add')
  const remove = typed.value('remove')
  const path = (add || remove).split('.')
  if (add === '' && remove === '') return false
  if (path[0] !== section) return true
  const place = remove === '' ? null : Number.parseInt(path.pop() ?? '', 10)
  let at: unknown = typed.nested
  for (const [depth, step] of path.entries()) {
    const holder = at as Record<string, unknown>
    if (!Object.hasOwn(holder, step) || typeof holder[step] !== 'object')
      holder[step] = depth === path.length - 1 ? [] : {}
    at = holder[step]
  }
  if (!Array.isArray(at)) return true
  if (place === null) at.push({})
  else at.splice(place, 1)
  return true
}
