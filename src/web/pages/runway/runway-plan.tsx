// The plan's forms: its name and first month, and each section, drawn and read by its schema and saved as a revision.
import { Hono } from 'hono'
import type { FormNode, FormPart } from '#plan/form/nodes.ts'
import { eventWords } from '#plan/life/event-words.ts'
import { premiumWords } from '#plan/place/premium-years.ts'
import { type PlanSection, planSections } from '#plan/sections.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { stateTaxFigures } from '#today/tax/state-tax-figures.ts'
import { Caution } from '#views/parts/message.tsx'
import { kindParts } from '#views/parts/plan-form/plan-fields.tsx'
import { PlanFormPage } from '#views/parts/plan-form/plan-form.tsx'
import { PlanSectionsPage, sectionNames } from '#views/runway/plan-sections.tsx'
import { PremiumYears } from '#views/runway/premium-years.tsx'
import { StateTax } from '#views/runway/state-tax.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { openPart, savePart } from '#web/forms/plan-part.tsx'
import { openedIn, type PlanForm, postPlan } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayPlanPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/plan', (c) =>
        withPlan(c, (current) => showSections(c, current, openPart(current.plan, names), {})),
      )
      .post('/runway/plan', (c) => postPlan(c, '/runway/plan', (form) => saveNames(c, form)))
      .get('/runway/plan/:section', (c) =>
        withSection(c, (current, section) =>
          showSection(c, current, section, openPart(current.plan, partOf(section)), {}, current.revisionNo),
        ),
      )
      .post('/runway/plan/:section', (c) => postPlan(c, '/runway/plan', (form) => saveSection(c, form))),
}

/** What is no section's. */
const names: FormPart = { path: [], name: '', only: ['name', 'startMonth', 'years'] }
const partOf = (section: PlanSection): FormPart => ({ path: [section], name: section })

const showSections = (
  c: PageContext,
  current: PlanInUse,
  nodes: readonly FormNode[],
  errors: FormErrors,
  basedOn = current.revisionNo,
) =>
  answer(c, {
    title: 'Edit the plan',
    asTyped: true,
    figures: current.plan,
    status: statusOf(errors),
    page: () => (
      <PlanSectionsPage
        nodes={nodes}
        errors={errors}
        events={current.plan.events.map((event) => eventWords(current.plan, event))}
        ids={{ formId: newFormId(), planId: current.planId, basedOn }}
      />
    ),
  })

const saveNames = (c: PageContext, form: PlanForm) =>
  savePart(c, form, { part: names, note: 'Name and first month saved' }, (nodes, errors) =>
    showSections(c, form.current, nodes, errors, openedIn(form.typed, form.current).basedOn),
  )

const sectionOf = (c: PageContext) => planSections.find((one) => one === c.req.param('section'))

const withSection = (c: PageContext, show: (current: PlanInUse, section: PlanSection) => Answered) => {
  const section = sectionOf(c)
  return section
    ? withPlan(c, (current) => show(current, section))
    : notFound(c, 'The plan has no such section.')
}

const canHurt: ReadonlySet<PlanSection> = new Set(['household', 'health', 'savings', 'tax'])

const showSection = (
  c: PageContext,
  current: PlanInUse,
  section: PlanSection,
  nodes: readonly FormNode[],
  errors: FormErrors,
  basedOn: number,
) => {
  const premiums = section === 'chance' ? premiumWords(current.plan) : null
  return answer(c, {
    title: sectionNames[section].title,
    asTyped: true,
    figures: { section, plan: current.plan[section], ...(premiums === null ? {} : { premiums }) },
    status: statusOf(errors),
    parts: kindParts(nodes, errors),
    page: () => (
      <PlanFormPage
        {...sectionNames[section]}
        above={
          <p>
            <a href="/runway/plan">All sections</a>
          </p>
        }
        action={`/runway/plan/${section}`}
        back="/runway/plan"
        save="Save this section"
        nodes={nodes}
        errors={errors}
        ids={{ formId: newFormId(), planId: current.planId, basedOn }}
        caution={
          <>
            {premiums === null ? null : <PremiumYears words={premiums} />}
            {section === 'tax' ? <StateTax figures={stateTaxFigures(current.plan)} /> : null}
            {canHurt.has(section) ? (
              <Caution>This decides tax, health coverage and retirement in every year of the plan.</Caution>
            ) : null}
          </>
        }
      />
    ),
  })
}

function saveSection(c: PageContext, form: PlanForm): Answered {
  const section = sectionOf(c)
  if (!section) return notFound(c, 'The plan has no such section.')
  const note = `${sectionNames[section].title} saved`
  return savePart(c, form, { part: partOf(section), note }, (nodes, errors) =>
    showSection(c, form.current, section, nodes, errors, openedIn(form.typed, form.current).basedOn),
  )
}
