// The couple's own storms: a form each, saved in the plan as a revision.
import { Hono } from 'hono'
import { z } from 'zod'
import type { Storm } from '#plan/assumption-plan.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { StormFormPage } from '#views/runway/storms.tsx'
import { answer, notFound, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import type { PlanInUse } from './current-plan.ts'
import { formIdField, moneyOrZero, percent, quantityOrNull, requiredText, wholeNumber } from './fields.ts'
import { checkForm, type FormErrors, newFormId, openingForm, readForm, type TypedForm } from './form.ts'
import type { PageRoom } from './page-room.ts'
import { saveRevision } from './runway-saving.tsx'
import { withPlan } from './with-plan.tsx'

export const runwayStormPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/storms/:id', (c) =>
        withStorm(c, (current, storm) => showForm(c, current, storm, openingStorm(current.plan, storm), {})),
      )
      .post('/runway/storms/:id', saveStorm),
}

const withStorm = (
  c: PageContext,
  show: (current: PlanInUse, storm: Storm | null) => Response | Promise<Response>,
) =>
  withPlan(c, (current) => {
    const id = c.req.param('id')
    const storm = current.plan.storms.find((one) => one.id === id) ?? null
    return storm === null && id !== 'new' ? notFound(c, 'The plan has no such storm.') : show(current, storm)
  })

const inPercent = (share: number) => String(Math.round(share * 1e6) / 1e4)

const openingStorm = (plan: Plan, storm: Storm | null): TypedForm =>
  openingForm({
    name: storm?.name ?? '',
    from: storm?.from ?? plan.startMonth,
    months: String(storm?.months ?? 12),
    salesShare: inPercent(storm?.salesShare ?? 1),
    lostMarket: storm?.lostMarket ?? '',
    hoursLostPerWeek: storm?.hoursLostPerWeek ? String(storm.hoursLostPerWeek) : '',
    person: storm?.person ?? '',
    drawsLateMonths: String(storm?.drawsLateMonths ?? 0),
    premiumJump: inPercent(storm?.premiumJump ?? 0),
    livingShare: inPercent(storm?.livingShare ?? 1),
    oneOffCost: storm?.oneOffCost ? storm.oneOffCost.toFixed(2) : '',
    stockFall: inPercent(storm?.stockFall ?? 0),
    bondFall: inPercent(storm?.bondFall ?? 0),
  })

const showForm = (
  c: PageContext,
  current: PlanInUse,
  storm: Storm | null,
  typed: TypedForm,
  errors: FormErrors,
) =>
  answer(c, {
    title: storm?.name ?? 'A storm of your own',
    figures: { storm },
    status: Object.keys(errors).length > 0 ? 422 : 200,
    page: () => (
      <StormFormPage
        id={storm?.id ?? null}
        value={(name) => typed.value(name)}
        errors={errors}
        formId={newFormId()}
        basedOn={current.revisionNo}
        planId={current.planId}
        markets={current.plan.farm.markets.map(({ id, name }) => ({ id, name }))}
        people={current.plan.household.people.map(({ id, name }) => ({ id, name }))}
      />
    ),
  })

const orNothing = z
  .string()
  .optional()
  .transform((text) => (text === undefined || text === '' ? undefined : text))

const stormForm = z.object({
  formId: formIdField(),
  basedOn: wholeNumber(0, 1_000_000),
  name: requiredText('Give the storm a name', 80),
  from: z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, { error: 'Enter a month, like 2028-05' }),
  months: wholeNumber(1, 720),
  salesShare: percent(),
  lostMarket: orNothing,
  hoursLostPerWeek: quantityOrNull(),
  person: orNothing,
  drawsLateMonths: wholeNumber(0, 240),
  premiumJump: percent(),
  livingShare: percent(),
  oneOffCost: moneyOrZero(),
  stockFall: percent(),
  bondFall: percent(),
})

async function saveStorm(c: PageContext): Promise<Response> {
  const typed = await readForm(c)
  return withStorm(c, (current, storm) => {
    if (storm !== null && typed.value('remove') === 'yes') return removeStorm(c, current, storm, typed)
    const checked = checkForm(stormForm, typed)
    if (!checked.ok) return showForm(c, current, storm, typed, checked.errors)
    const { formId, basedOn, lostMarket, person, hoursLostPerWeek, oneOffCost, ...rest } = checked.value
    const id = storm?.id ?? freeId(current.plan, rest.name)
    const changed = {
      ...rest,
      id,
      hoursLostPerWeek: hoursLostPerWeek ?? 0,
      oneOffCost: oneOffCost / 100,
      ...(lostMarket === undefined ? {} : { lostMarket }),
      ...(person === undefined ? {} : { person }),
    }
    const others = current.plan.storms.filter((one) => one.id !== id)
    const place = storm === null ? others.length : current.plan.storms.indexOf(storm)
    const read = planSchema.safeParse({
      ...current.plan,
      storms: others.toSpliced(place, 0, changed as Storm),
    })
    if (!read.success) {
      const errors: Record<string, string> = {}
      for (const issue of read.error.issues) errors[String(issue.path.at(-1) ?? '')] ??= issue.message
      return showForm(c, current, storm, typed, errors)
    }
    return saveRevision(c, current, {
      formId,
      basedOn,
      document: read.data,
      note: `Storm: ${rest.name}`,
      next: '/runway#storms',
      says: `The storm “${rest.name}” is in the plan.`,
    })
  })
}

const removeStorm = (c: PageContext, current: PlanInUse, storm: Storm, typed: TypedForm) => {
  const sent = checkForm(stormForm.pick({ formId: true, basedOn: true }), typed)
  if (!sent.ok) return showForm(c, current, storm, typed, sent.errors)
  return saveRevision(c, current, {
    ...sent.value,
    document: { ...current.plan, storms: current.plan.storms.filter((one) => one !== storm) },
    note: `Storm taken out: ${storm.name}`,
    next: '/runway#storms',
    says: `The storm “${storm.name}” is out of the plan.`,
  })
}

const freeId = (plan: Plan, name: string): string => {
  const stem =
    name
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')
      .slice(0, 30) || 'storm'
  const taken = new Set(['new', ...plan.storms.map((one) => one.id)])
  let id = stem
  for (let n = 2; taken.has(id); n += 1) id = `${stem}-${n}`
  return id
}
