// Forms that change the farm of the plan: enterprises, markets, herds, purchases, overheads, loans, facilities. Each save is a
// revision.
import { Hono } from 'hono'
import { onlySoldAt, withoutMentions } from '#farm/references.ts'
import { allOf } from '#money/lists.ts'
import { type Answered, notFound, type PageContext } from '#web/forms/answer.tsx'
import type { TypedForm } from '#web/forms/form.ts'
import { planOpen } from '#web/forms/open-plan.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan } from '#web/forms/plan-saving.tsx'
import { entriesAt, openThing, removeThing, saveThing, type Thing } from '#web/forms/plan-thing.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { farmList, namesOnFarm, roomOf } from './farm-kinds.tsx'

export const farmEditPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/farm/:kind/:id', (c) => {
        const thing = thingOf(c)
        return thing ? openThing(c, thing) : notFound(c, 'The plan has no such part of the farm.')
      })
      .post('/farm/:kind/:id', (c) =>
        postPart(c, (thing, form) => saveThing(c, thing, form, namesOnFarm(thing.current.plan.farm))),
      )
      .post('/farm/:kind/:id/remove', (c) => postPart(c, (thing, form) => remove(c, thing, form))),
}

/** A form of one part of the farm; the part is looked up once the form is known not to be a second copy. */
const postPart = (c: PageContext, handle: (thing: Thing, form: PlanForm) => Answered) =>
  postPlan(
    c,
    (typed) => leadsTo(c, typed),
    (form) => {
      const thing = thingOf(c)
      return thing ? handle(thing, form) : notFound(c, 'The plan has no such part of the farm.')
    },
  )

/** A market that was named from the phone's notebook leads back to it. */
const leadsTo = (c: PageContext, typed: TypedForm): string =>
  typed.value('from') === 'notebook' ? '/farm/notebook?open=market' : roomOf(c.req.param('kind') ?? '')

function thingOf(c: PageContext): Thing | null {
  const list = farmList(c.req.param('kind') ?? '')
  const current = planOpen(c)
  if (!list || current.status !== 'read') return null
  const id = (c.req.param('id') ?? '').replace(/\.(json|csv)$/, '')
  const place = entriesAt(current.plan, list.path).findIndex((one) => one.id === id)
  if (place < 0 && id !== 'new') return null
  const action = `/${list.path.join('/')}/${encodeURIComponent(id)}`
  return { list, place: place < 0 ? null : place, action, current }
}

function remove(c: PageContext, thing: Thing, form: PlanForm): Answered {
  const { list, place, current } = thing
  const id = place === null ? '' : String(entriesAt(current.plan, list.path)[place]?.id)
  const stranded = list.one === 'market' ? onlySoldAt(current.plan.farm, id) : []
  const refusal =
    stranded.length > 0
      ? `${allOf(stranded)} would be left without a market, and so would sell without limit. Choose another market there first.`
      : null
  return removeThing(
    c,
    thing,
    form,
    (plan, gone) => ({ ...plan, farm: withoutMentions(plan.farm, gone) }),
    refusal,
  )
}
