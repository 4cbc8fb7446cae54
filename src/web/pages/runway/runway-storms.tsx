// The couple's own storms: a form each, saved in the plan as a revision.
import { Hono } from 'hono'
import { z } from 'zod'
import type { Storm } from '#plan/assumption-plan.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { StormFormPage } from '#views/runway/storms.tsx'
import { answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { moneyOrZero, percent, quantityOrNull, requiredText, wholeNumber } from '#web/forms/fields.ts'
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

export const runwayStormPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/storms/:id', (c) =>
        withPlan(c, (current) => {
          const storm = stormOf(c, current)
          return storm === undefined
            ? notFound(c, 'The plan has no such storm.')
            : showForm(c, current, storm, openingStorm(current.plan, storm), {})
        }),
      )
      .post('/runway/storms/:id', (c) => postPlan(c, '/runway#storms', (form) => saveStorm(c, form))),
}

/** The storm of the address, null for a new one, undefined when the plan has none of that name. */
const stormOf = (c: PageContext, { plan }: PlanInUse): Storm | null | undefined => {
  const id = c.req.param('id')
  return id === 'new' ? null : plan.storms.find((one) => one.id === id)
}

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
    status: statusOf(errors),
    page: () => (
      <StormFormPage
        id={storm?.id ?? null}
        value={(name) => typed.value(name)}
        errors={errors}
        formId={newFormId()}
        {...openedIn(typed, current)}
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

function saveStorm(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const found = stormOf(c, current)
  if (found === undefined) return notFound(c, 'The plan has no such storm.')
  if (found !== null && typed.value('remove') === 'yes') return removeStorm(c, form, found)
  const checked = checkForm(stormForm, typed)
  if (!checked.ok) return showForm(c, current, found, typed, checked.errors)
  const { lostMarket, person, hoursLostPerWeek, oneOffCost, ...rest } = checked.value
  const id =
    found?.id ?? shortName(rest.name, new Set(['new', ...current.plan.storms.map((one) => one.id)]), 'storm')
  const storm = {
    ...rest,
    id,
    hoursLostPerWeek: hoursLostPerWeek ?? 0,
    oneOffCost: oneOffCost / 100,
    ...(lostMarket === undefined ? {} : { lostMarket }),
    ...(person === undefined ? {} : { person }),
  } as Storm
  const others = current.plan.storms.filter((one) => one.id !== id)
  const place = found === null ? others.length : current.plan.storms.indexOf(found)
  const change = {
    changed: { ...current.plan, storms: others.toSpliced(place, 0, storm) },
    note: `The storm “${rest.name}” is in the plan`,
  }
  return savePlanForm(c, form, change, (issues) => {
    const fields = Object.keys(stormForm.shape).map((name) => ({ name }))
    return showForm(c, current, found, typed, errorsAt(issues, ['storms', place], fields))
  })
}

const removeStorm = (c: PageContext, form: PlanForm, storm: Storm) => {
  const { typed, current } = form
  const change = {
    changed: { ...current.plan, storms: current.plan.storms.filter((one) => one !== storm) },
    note: `The storm “${storm.name}” is out of the plan`,
  }
  return savePlanForm(c, form, change, (issues) =>
    showForm(c, current, storm, typed, errorsAt(issues, [], [])),
  )
}
