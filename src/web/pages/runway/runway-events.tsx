// Life events of the plan: a death, a separation, a birth, a child who leaves home. A form each, saved in the plan as a revision.
import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { monthText } from '#calendar/month.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { Caution } from '#views/parts/message.tsx'
import { type Answered, notFound, type PageContext } from '#web/forms/answer.tsx'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan } from '#web/forms/plan-saving.tsx'
import { openThing, removeThing, saveThing, type Thing, type ThingList } from '#web/forms/plan-thing.tsx'
import { withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const runwayEventPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/events/:place', (c) =>
        withPlan(c, (current) => {
          const thing = thingOf(c, current)
          return thing ? openThing(c, thing) : notFound(c, noSuch)
        }),
      )
      .post('/runway/events/:place', (c) => postEvent(c, (thing, form) => saveThing(c, thing, form)))
      .post('/runway/events/:place/remove', (c) =>
        postEvent(c, (thing, form) => removeThing(c, thing, form)),
      ),
}

const noSuch = 'The plan has no such life event.'

const postEvent = (c: PageContext, handle: (thing: Thing, form: PlanForm) => Answered) =>
  postPlan(c, '/runway/plan#events', (form) => {
    const thing = thingOf(c, form.current)
    return thing ? handle(thing, form) : notFound(c, noSuch)
  })

const eventsFrom = (thisMonth: string): ThingList => ({
  path: ['events'],
  one: 'life event',
  add: 'A life event',
  purpose:
    'Say what happens and when: filing status, living costs, coverage and benefits follow in every page, from that month on.',
  back: '/runway/plan#events',
  opening: () => ({ kind: 'death', month: thisMonth }),
  caution: (
    <Caution>
      What a death, a birth or a separation brings by law is only outlined here: survivors’ benefits, alimony,
      support of children and titles are for an attorney and the agency itself.
    </Caution>
  ),
})

function thingOf(c: PageContext, current: PlanInUse): Thing | null {
  const at = (c.req.param('place') ?? '').replace(/\.(json|csv)$/, '')
  const list = eventsFrom(monthText(monthOfDay(c.var.web.today())))
  const action = `/runway/events/${at}`
  if (at === 'new') return { list, place: null, action, current }
  const place = /^\d{1,2}$/.test(at) ? Number.parseInt(at, 10) : -1
  return current.plan.events[place] ? { list, place, action, current } : null
}
