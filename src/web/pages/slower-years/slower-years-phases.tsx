// The forms of the slower years' phases, and taking a mix into a phase of the plan.
import { Hono } from 'hono'
import { monthOfDay } from '#calendar/day.ts'
import { addMonths, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import type { Farm, Phase } from '#farm/farm-document.ts'
import { phaseWithMix } from '#farm/mix/mix.ts'
import { parseMoney } from '#money/parse.ts'
import { currentPlan, type PlanInUse } from '#today/current-plan.ts'
import { FarmFormPage } from '#views/farm/farm-form.tsx'
import type { FieldSpec, KindWords } from '#views/farm/field-hints.ts'
import { type Answered, answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, openingForm, statusOf, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { openedIn, type PlanForm, type PlanIssue, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import { readThing, writeThing } from '#web/pages/farm/farm-fields.ts'
import type { PageEnv } from '#web/server/context.ts'
import { mixAsked } from './slower-years.tsx'
import { slowerAnswers } from './slower-years-answers.ts'

export const slowerPhasePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/slower-years/phases/:index', (c) => {
        const place = placeOf(c)
        if (!place) return notFound(c, 'The plan has no such phase.')
        const values = writeThing(
          phaseWords(place.current).fields,
          asThing(place.phase ?? newPhase(place.current)),
        )
        return showForm(
          c,
          place,
          openingForm({ ...values, ...salesText(place.phase), formId: newFormId() }),
          {},
        )
      })
      .post('/slower-years/phases/:index', (c) => postPhase(c, savePhase))
      .post('/slower-years/phases/:index/remove', (c) => postPhase(c, removePhase))
      .post('/slower-years/phases/:index/mix', (c) => postPhase(c, takeMix)),
}

/** A form of one phase; `place` is looked up once the form is known not to be a second copy. */
const postPhase = (c: PageContext, handle: (c: PageContext, place: Place, form: PlanForm) => Answered) =>
  postPlan(c, '/slower-years#phases', (form) => {
    const place = placeOf(c)
    return place ? handle(c, place, form) : notFound(c, 'The plan has no such phase.')
  })

interface Place {
  index: number
  phase: Phase | undefined
  current: PlanInUse
}

function placeOf(c: PageContext): Place | null {
  const current = currentPlan(c.var.web.books)
  if (current.status !== 'read') return null
  const text = (c.req.param('index') ?? '').replace(/\.(json|csv)$/, '')
  if (text === 'new') return { index: current.plan.farm.phases.length, phase: undefined, current }
  const index = /^\d{1,2}$/.test(text) ? Number.parseInt(text, 10) : -1
  const phase = current.plan.farm.phases[index]
  return phase ? { index, phase, current } : null
}

const phaseWords = ({ plan }: PlanInUse): KindWords => {
  const optional = { optional: true } as const
  const fields: FieldSpec[] = [
    { name: 'from', label: 'From', kind: 'month', group: 'The phase' },
    {
      name: 'name',
      label: 'Called',
      hint: 'One market day; fewer shares; without the flock',
      kind: 'text',
      group: 'The phase',
    },
    ...plan.household.people.map(
      (person): FieldSpec => ({
        name: `hours.${person.id}`,
        label: `Most farm hours a week, ${person.name}`,
        hint: 'Empty: as before',
        kind: 'quantity',
        ...optional,
        group: 'The phase',
      }),
    ),
    ...plan.farm.enterprises.map(
      (one): FieldSpec => ({
        name: `scales.${one.id}`,
        label: `${one.name}, ${one.unit}s`,
        hint: 'Empty: as before',
        kind: 'quantity',
        ...optional,
        group: 'What the farm then is',
      }),
    ),
    ...plan.farm.herds.map(
      (one): FieldSpec => ({
        name: `herds.${one.id}`,
        label: `${one.name}, breeding females at most`,
        hint: 'Empty: as before; 0 sells it up',
        kind: 'quantity',
        ...optional,
        group: 'What the farm then is',
      }),
    ),
    ...plan.farm.markets.map(
      (one): FieldSpec => ({
        name: `trips.${one.id}`,
        label: `${one.name}, trips a month`,
        hint: 'Empty: as before; 0 drops it; or twelve figures',
        kind: 'level',
        ...optional,
        group: 'What the farm then is',
      }),
    ),
    { name: 'landLeasedOut', label: 'Acres leased out', kind: 'quantity', group: 'Winding down' },
    { name: 'leasePerAcreAndYear', label: 'Lease an acre and year', kind: 'money', group: 'Winding down' },
  ]
  return {
    kind: 'overheads',
    one: 'phase',
    add: 'A slower phase',
    purpose:
      'From when on, how many hours each of you gives, and what the farm then is. The mix can fill in the rest.',
    fields: [
      ...fields,
      {
        name: 'sold',
        label: 'Stock and equipment sold as it begins',
        hint: 'One line each: price, what tax has still to write off, what it is; like 7500 0 Walking tractor',
        kind: 'lines',
        optional: true,
        group: 'Winding down',
      },
    ],
  }
}

const newPhase = ({ plan }: PlanInUse): Partial<Phase> => {
  const start = addMonths(parseMonth(plan.startMonth)!, 120)
  return { from: `${yearOf(start)}-01`, name: 'Slower', landLeasedOut: 0, leasePerAcreAndYear: 0 }
}

/** The phase with its lists turned into fields by id. */
const asThing = (phase: Partial<Phase>): Record<string, unknown> => ({
  from: phase.from,
  name: phase.name,
  hours: Object.fromEntries((phase.weeklyHours ?? []).map((one) => [one.who, one.hours])),
  scales: Object.fromEntries((phase.scales ?? []).map((one) => [one.enterprise, one.value])),
  herds: Object.fromEntries((phase.herdLimits ?? []).map((one) => [one.herd, one.value])),
  trips: Object.fromEntries((phase.trips ?? []).map((one) => [one.market, one.value])),
  landLeasedOut: phase.landLeasedOut,
  leasePerAcreAndYear: phase.leasePerAcreAndYear,
})

const salesText = (phase: Phase | undefined) => ({
  sold: (phase?.sales ?? []).map((sale) => `${sale.price} ${sale.basis} ${sale.name}`).join('\n'),
})

const readSales = (text: string): { ok: true; sales: Phase['sales'] } | { ok: false; message: string } => {
  const sales: Phase['sales'] = []
  for (const line of text.split('\n').map((one) => one.trim())) {
    if (line === '') continue
    const [price = '', basis = '', ...name] = line.split(/\s+/)
    const [paid, left] = [parseMoney(price), parseMoney(basis)]
    if (!paid.ok || !left.ok || name.length === 0)
      return {
        ok: false,
        message: `“${line}”: write the price, what tax has still to write off, and what it is, like 7500 0 Walking tractor`,
      }
    sales.push({ name: name.join(' '), price: paid.value / 100, basis: left.value / 100 })
  }
  return { ok: true, sales }
}

function showForm(c: PageContext, place: Place, typed: TypedForm, errors: FormErrors) {
  const title = place.phase ? place.phase.name : 'A slower phase'
  return answer(c, {
    title,
    status: statusOf(errors),
    figures: { phase: place.phase ?? null, errors },
    page: () => (
      <FarmFormPage
        words={phaseWords(place.current)}
        action={`/slower-years/phases/${place.phase ? place.index : 'new'}`}
        back="/slower-years"
        title={title}
        value={typed.value}
        values={typed.values}
        errors={errors}
        formId={typed.value('formId')}
        {...(place.phase ? { removeFormId: newFormId() } : {})}
        {...openedIn(typed, place.current)}
        markets={[]}
        lines={[]}
      />
    ),
  })
}

function savePhase(c: PageContext, place: Place, form: PlanForm) {
  const { typed } = form
  const { fields } = phaseWords(place.current)
  const read = readThing(fields, typed, asThing(place.phase ?? {}))
  const sales = readSales(typed.value('sold'))
  const errors = { ...(read.ok ? {} : read.errors), ...(sales.ok ? {} : { sold: sales.message }) }
  if (!read.ok || !sales.ok) return showForm(c, place, typed, errors)
  const thing = read.thing as ReturnType<typeof asThing> &
    Record<'hours' | 'scales' | 'herds' | 'trips', Record<string, never>>
  const phase = {
    from: thing.from,
    name: thing.name,
    weeklyHours: Object.entries(thing.hours ?? {}).map(([who, hours]) => ({ who, hours })),
    scales: Object.entries(thing.scales ?? {}).map(([enterprise, value]) => ({ enterprise, value })),
    herdLimits: Object.entries(thing.herds ?? {}).map(([herd, value]) => ({ herd, value })),
    trips: Object.entries(thing.trips ?? {}).map(([market, value]) => ({ market, value })),
    sales: sales.sales,
    landLeasedOut: thing.landLeasedOut,
    leasePerAcreAndYear: thing.leasePerAcreAndYear,
  } as Phase
  const { farm } = place.current.plan
  const phases = place.phase
    ? farm.phases.map((one, k) => (k === place.index ? phase : one))
    : [...farm.phases, phase]
  phases.sort((a, b) => (a.from < b.from ? -1 : 1))
  return save(c, place, form, { ...farm, phases }, `${phase.name} saved`)
}

function removePhase(c: PageContext, place: Place, form: PlanForm) {
  if (!place.phase) return notFound(c, 'It is no longer in the plan.')
  const { farm } = place.current.plan
  const phases = farm.phases.filter((_, k) => k !== place.index)
  return save(c, place, form, { ...farm, phases }, `${place.phase.name} taken out`)
}

async function takeMix(c: PageContext, place: Place, form: PlanForm): Promise<Response> {
  if (!place.phase) return notFound(c, 'It is no longer in the plan.')
  const { plan } = place.current
  const answers = await slowerAnswers(
    plan,
    { ...mixAsked(form.typed), largestChange: null },
    monthOfDay(c.var.web.today()),
  )
  const mix = answers.mixes.find((one) => one.index === place.index)
  if (mix?.answer.kind !== 'found')
    return moveOn(c, form.next, 'This phase has no mix that keeps to all limits; nothing was changed.')
  const { answer: found } = mix
  const phases = plan.farm.phases.map((one, k) => (k === place.index ? phaseWithMix(one, found) : one))
  const from = monthText(parseMonth(place.phase.from)!)
  return save(c, place, form, { ...plan.farm, phases }, `The mix is in the plan from ${from}`)
}

const save = (c: PageContext, place: Place, form: PlanForm, farm: Farm, note: string) =>
  savePlanForm(c, form, { changed: { ...place.current.plan, farm }, note }, (issues) =>
    showForm(c, place, form.typed, phaseErrors(issues)),
  )

/** Issues of the phase's first month at its field, others in the summary: the list is in another order than the form's index. */
const phaseErrors = (issues: readonly PlanIssue[]): FormErrors => {
  const errors: Record<string, string> = {}
  for (const { path, message } of issues) errors[path.at(-1) === 'from' ? 'from' : ''] ??= message
  return errors
}
