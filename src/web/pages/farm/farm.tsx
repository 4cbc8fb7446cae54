// The Farm page, its JSON and CSV, the order of purchases, and the farm's cash, land and hands.
import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import type { Farm } from '#farm/farm-document.ts'
import { inOrder } from '#farm/purchases.ts'
import type { FormNode, FormPart } from '#plan/form/nodes.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { farmFigures } from '#today/farm/farm-figures.ts'
import { FarmPage } from '#views/farm/farm.tsx'
import { type FarmRoom, FarmRoomPage, farmRooms } from '#views/farm/rooms.tsx'
import { kindParts } from '#views/parts/plan-form/plan-fields.tsx'
import { PlanFormPage } from '#views/parts/plan-form/plan-form.tsx'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { noSuchYear, yearNamed } from '#web/forms/asked/year-asked.ts'
import { type FormErrors, newFormId, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { openPart, savePart } from '#web/forms/plan-part.tsx'
import { openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { farmTables } from './farm-tables.ts'

export const farmPages: PageRoom = {
  build: () => {
    const pages = new Hono<PageEnv>()
    for (const room of Object.keys(farmRooms) as FarmRoom[])
      pages.get(`/farm/${room}`, (c) => withPlan(c, (current) => showFarm(c, current, room)))
    return pages
      .get('/farm', (c) => withPlan(c, (current) => showFarm(c, current, null)))
      .post('/farm/purchases/order', (c) => postPlan(c, '/farm/buying', (form) => reorder(c, form)))
      .post('/farm/purchases/bought', (c) => postPlan(c, '/farm/buying', (form) => takeAsBought(c, form)))
      .get('/farm/basics', (c) =>
        withPlan(c, (current) =>
          showBasics(c, current, openPart(current.plan, basics), {}, current.revisionNo),
        ),
      )
      .post('/farm/basics', (c) => postPlan(c, '/farm/fit#basics', (form) => saveBasics(c, form)))
  },
}

/** The first page, or one of its rooms: all of them over the same figures. */
const showFarm = (c: PageContext, current: PlanInUse, room: FarmRoom | null) => {
  const year = yearNamed(c)
  const figures = farmFigures(c.var.web.books, current.plan, current, c.var.web.today(), year, dollarsOf(c))
  if (year !== null && figures.year !== year)
    return noSuchYear(c, 'The plan of the farm', year, { path: c.req.path, years: figures.years })
  return answer(c, {
    title: room === null ? 'Farm' : farmRooms[room].title,
    dollars: dollarsOf(c),
    figures,
    page: () =>
      room === null ? (
        <FarmPage figures={figures} />
      ) : (
        <FarmRoomPage room={room} figures={figures} formId={newFormId()} />
      ),
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

/** From today's month on it is bought, whatever it waited for: the months ahead buy it no more, and its depreciation runs. */
function takeAsBought(c: PageContext, form: PlanForm) {
  const { typed, current, next } = form
  const { farm } = current.plan
  const bought = farm.purchases.find(({ id }) => id === typed.value('purchase'))
  if (!bought) return moveOn(c, next, 'There is no such purchase in the plan any more.')
  const month = monthText(monthOfDay(c.var.web.today()))
  const purchases = farm.purchases.map((one) =>
    one === bought ? { ...one, timing: 'dated' as const, month } : one,
  )
  const changed = { ...current.plan, farm: { ...farm, purchases } }
  return savePlanForm(c, form, { changed, note: `${bought.name} bought` }, (issues) =>
    moveOn(c, next, `It was not saved. ${issues[0]!.message}`),
  )
}

const basics: FormPart = {
  path: ['farm'],
  name: '',
  only: ['cash', 'reserve', 'land', 'winterFeed', 'crew', 'hired'],
}

const showBasics = (
  c: PageContext,
  { plan, planId }: PlanInUse,
  nodes: readonly FormNode[],
  errors: FormErrors,
  basedOn: number,
) =>
  answer(c, {
    title: 'Cash, land, hands',
    status: statusOf(errors),
    asTyped: true,
    parts: kindParts(nodes, errors),
    figures: {
      ...Object.fromEntries(basics.only!.map((key) => [key, plan.farm[key as keyof Farm]])),
      errors,
    },
    page: () => (
      <PlanFormPage
        title="Cash, land, hands"
        purpose="What the farm starts with, and who works on it."
        action="/farm/basics"
        back="/farm/fit"
        nodes={nodes}
        errors={errors}
        ids={{ formId: newFormId(), planId, basedOn }}
      />
    ),
  })

const saveBasics = (c: PageContext, form: PlanForm) =>
  savePart(c, form, { part: basics, note: 'Cash, land, hands changed' }, (nodes, errors) =>
    showBasics(c, form.current, nodes, errors, openedIn(form.typed, form.current).basedOn),
  )
