// The couple's own bad years: a form each, saved in the plan as a revision.
import { Hono } from 'hono'
import { type Answered, notFound, type PageContext } from '#web/forms/answer.tsx'
import { planOpen } from '#web/forms/open-plan.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan } from '#web/forms/plan-saving.tsx'
import {
  openThing,
  removeThing,
  saveThing,
  type Thing,
  type ThingList,
  toCome,
} from '#web/forms/plan-thing.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayStormPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/storms/:id', (c) =>
        withPlan(c, () => {
          const thing = thingOf(c)
          return thing ? openThing(c, thing) : notFound(c, noSuch)
        }),
      )
      .post('/runway/storms/:id', (c) =>
        postStorm(c, (thing, form) =>
          saveThing(c, thing, form, new Set(thing.current.plan.storms.map(({ id }) => id))),
        ),
      )
      .post('/runway/storms/:id/remove', (c) => postStorm(c, (thing, form) => removeThing(c, thing, form))),
}

const noSuch = 'The plan has no such bad year.'

const postStorm = (c: PageContext, handle: (thing: Thing, form: PlanForm) => Answered) =>
  postPlan(c, '/runway/storms', (form) => {
    const thing = thingOf(c)
    return thing ? handle(thing, form) : notFound(c, noSuch)
  })

const stormList: ThingList = {
  path: ['storms'],
  one: 'bad year',
  add: 'A bad year of your own',
  purpose:
    'Describe one that the plan must survive; it is run beside the built-in ones. Empty fields change nothing.',
  back: '/runway/storms',
  opening: (plan, thisMonth) => ({ from: toCome(plan, thisMonth) }),
}

function thingOf(c: PageContext): Thing | null {
  const current = planOpen(c)
  if (current.status !== 'read') return null
  const id = (c.req.param('id') ?? '').replace(/\.(json|csv)$/, '')
  const place = current.plan.storms.findIndex((one) => one.id === id)
  if (place < 0 && id !== 'new') return null
  return { list: stormList, place: place < 0 ? null : place, action: `/runway/storms/${id}`, current }
}
