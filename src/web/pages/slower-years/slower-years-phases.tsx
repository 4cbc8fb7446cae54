// The forms of the slower years' phases, and taking a mix into a phase of the plan.
import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { addMonths, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import type { Phase } from '#farm/farm-document.ts'
import { phaseWithMix } from '#farm/mix/mix.ts'
import { type Answered, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { planOpen } from '#web/forms/open-plan.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { openThing, removeThing, saveThing, type Thing, type ThingList } from '#web/forms/plan-thing.tsx'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { continuedToday } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { mixAsked } from './slower-years.tsx'
import { slowerAnswers } from './slower-years-answers.ts'

export const slowerPhasePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/slower-years/phases/:index', (c) => {
        const thing = thingOf(c)
        return thing ? openThing(c, thing) : notFound(c, 'The plan has no such phase.')
      })
      .post('/slower-years/phases/:index', (c) =>
        postPhase(c, (thing, form) => saveThing(c, thing, form, undefined, inOrder)),
      )
      .post('/slower-years/phases/:index/remove', (c) =>
        postPhase(c, (thing, form) => removeThing(c, thing, form)),
      )
      .post('/slower-years/phases/:index/mix', (c) => postPhase(c, (thing, form) => takeMix(c, thing, form))),
}

/** A form of one phase; the phase is looked up once the form is known not to be a second copy. */
const postPhase = (c: PageContext, handle: (thing: Thing, form: PlanForm) => Answered) =>
  postPlan(c, '/slower-years#phases', (form) => {
    const thing = thingOf(c)
    return thing ? handle(thing, form) : notFound(c, 'The plan has no such phase.')
  })

const phaseList: ThingList = {
  path: ['farm', 'phases'],
  one: 'phase',
  add: 'A slower phase',
  help: 'phaseForm',
  purpose:
    'From when on, how many hours each of you gives, and what the farm then is. The mix can fill in the rest.',
  back: '/slower-years',
  opening: ({ startMonth }) => ({ from: `${yearOf(addMonths(parseMonth(startMonth)!, 120))}-01` }),
}

function thingOf(c: PageContext): Thing | null {
  const current = planOpen(c)
  if (current.status !== 'read') return null
  const index = (c.req.param('index') ?? '').replace(/\.(json|csv)$/, '')
  const action = `/slower-years/phases/${index}`
  if (index === 'new') return { list: phaseList, place: null, action, current }
  const place = /^\d{1,2}$/.test(index) ? Number.parseInt(index, 10) : -1
  return current.plan.farm.phases[place] ? { list: phaseList, place, action, current } : null
}

/** By their first months, when a phase is new or moved to another month; those of one month stay as they were. */
const inOrder = (phases: readonly unknown[], phase: unknown, before: unknown): readonly unknown[] =>
  monthsLater(before as Phase | null) === monthsLater(phase as Phase)
    ? phases
    : phases.toSorted((a, b) => monthsLater(a as Phase) - monthsLater(b as Phase))

/** A month that is none yet stands last, and is refused there. */
const monthsLater = (phase: Partial<Phase> | null): number =>
  parseMonth(phase?.from ?? '') ?? Number.MAX_SAFE_INTEGER

async function takeMix(c: PageContext, { place, current }: Thing, form: PlanForm): Promise<Response> {
  const { plan } = current
  const phase = place === null ? undefined : plan.farm.phases[place]
  if (!phase) return notFound(c, 'It is no longer in the plan.')
  const answers = await slowerAnswers({
    plan: continuedToday(c, current).ongoing,
    asked: { ...mixAsked(form.typed), largestChange: null },
    today: monthOfDay(c.var.web.today()),
    dollars: dollarsOf(c),
  })
  const mix = answers.mixes.find((one) => one.index === place)
  if (mix?.answer.kind !== 'found')
    return moveOn(c, form.next, 'This phase has no mix that keeps to all limits; nothing was changed.')
  const { answer: found } = mix
  const phases = plan.farm.phases.map((one, k) => (k === place ? phaseWithMix(one, found) : one))
  const changed = { ...plan, farm: { ...plan.farm, phases } }
  const note = `The mix is in the plan from ${monthText(parseMonth(phase.from)!)}`
  return savePlanForm(c, form, { changed, note }, (issues) =>
    notFound(c, issues[0]?.message ?? 'The mix could not be put into the plan.'),
  )
}
