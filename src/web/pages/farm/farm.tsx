// The Farm page, its JSON and CSV, the order of purchases, and the farm's cash, land and hands.
import { Hono } from 'hono'
import type { Farm } from '#farm/farm-document.ts'
import { inOrder } from '#farm/purchases.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { farmFigures } from '#today/farm/farm-figures.ts'
import { FarmPage } from '#views/farm/farm.tsx'
import { FarmFormPage } from '#views/farm/farm-form.tsx'
import type { KindWords } from '#views/farm/field-hints.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, openingForm, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { readThing, writeThing } from './farm-fields.ts'
import { farmTables } from './farm-tables.ts'

export const farmPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/farm', (c) => withPlan(c, (current) => showFarm(c, current)))
      .post('/farm/purchases/order', (c) => postPlan(c, '/farm#purchases', (form) => reorder(c, form)))
      .get('/farm/basics', (c) =>
        withPlan(c, (current) => {
          const values = writeThing(basicsWords(current).fields, basicsOf(current))
          return showBasics(c, current, openingForm({ ...values, formId: newFormId() }), {})
        }),
      )
      .post('/farm/basics', (c) => postPlan(c, '/farm#basics', (form) => saveBasics(c, form))),
}

const showFarm = (c: PageContext, current: PlanInUse) => {
  const year = /^\d{4}$/.exec(c.req.query('year') ?? '')?.[0]
  const figures = farmFigures(
    c.var.web.books,
    current.plan,
    current,
    c.var.web.today(),
    year === undefined ? null : Number.parseInt(year, 10),
  )
  return answer(c, {
    title: 'Farm',
    figures,
    page: () => <FarmPage figures={figures} formId={newFormId()} />,
    tables: farmTables(figures),
  })
}

/** The order as the list was dragged, or as a button moves one purchase by a place. */
function reorder(c: PageContext, form: PlanForm) {
  const { typed, current, next } = form
  const { farm } = current.plan
  const purchases = inOrder(farm.purchases, typed.value('order').split(' '))
  if (purchases === null) return moveOn(c, next, 'The order was not understood and stays as it was.')
  const changed = { ...current.plan, farm: { ...farm, purchases } }
  return savePlanForm(c, form, { changed, note: 'Purchases put in another order' }, (issues) =>
    moveOn(c, next, `The order was not saved. ${issues[0]!.message}`),
  )
}

const basicsWords = (current: PlanInUse): KindWords => ({
  kind: 'overheads',
  one: 'farm',
  add: 'Cash, land, hands',
  purpose: 'What the farm starts with, and who works on it.',
  fields: [
    { name: 'cash', label: 'Farm cash at the plan’s start', kind: 'money', group: 'Cash' },
    {
      name: 'reserve',
      label: 'Reserve',
      hint: 'Nothing is bought or drawn below it',
      kind: 'money',
      group: 'Cash',
    },
    { name: 'land', label: 'Acres', hint: '0: land is no limit', kind: 'quantity', group: 'Land and feed' },
    {
      name: 'winterFeed',
      label: 'Winter feed the farm stores or grows',
      hint: 'In the measure the herds use; empty: no limit',
      kind: 'quantity',
      optional: true,
      group: 'Land and feed',
    },
    ...current.plan.household.people.map((person) => ({
      name: `hours.${person.id}`,
      label: `Most hours a week, ${person.name}`,
      hint: 'One figure for every month, or twelve from January with spaces between; empty: not on the farm',
      kind: 'level' as const,
      optional: true,
      group: 'Hands',
    })),
    { name: 'hired.hourlyCost', label: 'Hired help costs an hour', kind: 'money', group: 'Hands' },
    {
      name: 'hired.weeklyHours',
      label: 'Hours of hired help a week the plan counts on',
      kind: 'level',
      group: 'Hands',
    },
  ],
})

const basicsOf = ({ plan }: PlanInUse): Record<string, unknown> => ({
  ...plan.farm,
  hours: Object.fromEntries(plan.farm.crew.map((one) => [one.who, one.weeklyHours])),
})

function showBasics(c: PageContext, current: PlanInUse, typed: TypedForm, errors: FormErrors) {
  const status = statusOf(errors)
  return answer(c, {
    title: 'Cash, land, hands',
    status,
    figures: { ...basicsOf(current), errors },
    page: () => (
      <FarmFormPage
        words={basicsWords(current)}
        action="/farm/basics"
        title="Cash, land, hands"
        value={typed.value}
        values={typed.values}
        errors={errors}
        formId={typed.value('formId')}
        {...openedIn(typed, current)}
        markets={[]}
        lines={[]}
      />
    ),
  })
}

function saveBasics(c: PageContext, form: PlanForm) {
  const { typed, current } = form
  const words = basicsWords(current)
  const read = readThing(words.fields, typed, basicsOf(current))
  if (!read.ok) return showBasics(c, current, typed, read.errors)
  const { hours, ...farm } = read.thing as { hours?: Record<string, number | number[]> } & Farm
  const people = current.plan.household.people.map((person) => person.id)
  const others = current.plan.farm.crew.filter((one) => !people.includes(one.who))
  const crew = people.flatMap((who) => {
    const weeklyHours = hours?.[who]
    return weeklyHours === undefined ? [] : [{ who, weeklyHours }]
  })
  const changed = { ...current.plan, farm: { ...farm, crew: [...crew, ...others] } }
  return savePlanForm(c, form, { changed, note: 'Cash, land, hands changed' }, (issues) =>
    showBasics(c, current, typed, errorsAt(issues, ['farm'], words.fields)),
  )
}
