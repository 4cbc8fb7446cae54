// Forms that change the farm of the plan: enterprises, markets, herds, purchases, overheads, loans. Each save is a revision.
import { Hono } from 'hono'
import { planRevision } from '#db/plan-store.ts'
import type { Farm } from '#farm/farm-document.ts'
import type { Plan } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { FarmFormPage, NewerRevisionPage } from '#views/farm/farm-form.tsx'
import type { FarmKind, KindWords } from '#views/farm/field-hints.ts'
import { farmKinds } from '#views/farm/field-specs.ts'
import type { Option } from '#views/parts/field.tsx'
import { actOf } from './act.ts'
import { answer, moveOn, notFound, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import { currentPlan, type PlanInUse } from './current-plan.ts'
import { readThing, writeThing } from './farm-fields.ts'
import { type FormErrors, newFormId, openingForm, readForm, type TypedForm } from './form.ts'
import type { PageRoom } from './page-room.ts'
import { type PlanIssue, saveChangedPlan } from './plan-saving.ts'

type Thing = Record<string, unknown> & { id: string }

export const farmEditPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/farm/:kind/:id', (c) => {
        const place = placeOf(c)
        if (!place) return notFound(c, 'The plan has no such part of the farm.')
        const { words, thing, current } = place
        const values = writeThing(words.fields, thing ?? newThing(words, current.plan))
        return showForm(c, place, openingForm({ ...values, formId: newFormId() }), marketsOf(thing), {})
      })
      .post('/farm/:kind/:id', async (c) => {
        const place = placeOf(c)
        if (!place) return notFound(c, 'The plan has no such part of the farm.')
        return saveThing(c, place, await readForm(c))
      })
      .post('/farm/:kind/:id/remove', async (c) => {
        const place = placeOf(c)
        const typed = await readForm(c)
        if (!place?.thing) return notFound(c, 'It is no longer in the plan.')
        const { words, thing, current } = place
        const list = listOf(current.plan.farm, words.kind).filter((one) => one.id !== thing.id)
        const farm = withoutMentions({ ...current.plan.farm, [words.kind]: list }, thing.id)
        return finish(c, place, typed, farm, `${String(thing.name)} taken out of the plan`)
      }),
}

interface Place {
  words: KindWords
  id: string
  thing: Thing | undefined
  current: PlanInUse
}

function placeOf(c: PageContext): Place | null {
  const kind = c.req.param('kind') ?? ''
  if (!Object.hasOwn(farmKinds, kind)) return null
  const current = currentPlan(c.var.web.books)
  if (current.status !== 'read') return null
  const words = farmKinds[kind as FarmKind]
  const id = (c.req.param('id') ?? '').replace(/\.(json|csv)$/, '')
  const thing = listOf(current.plan.farm, words.kind).find((one) => one.id === id)
  return thing || id === 'new' ? { words, id, thing, current } : null
}

const listOf = (farm: Farm, kind: FarmKind): Thing[] => farm[kind] as unknown as Thing[]
const marketsOf = (thing: Thing | undefined) => (thing?.markets as string[] | undefined) ?? []

/** What a new thing opens with: the plan's start where a month is needed, and the schema's defaults after saving. */
const newThing = (words: KindWords, plan: Plan): Record<string, unknown> => {
  const opening: Partial<Record<FarmKind, Record<string, unknown>>> = {
    enterprises: {
      unit: 'bed',
      scale: 1,
      startUpMonths: 0,
      scheduleFSalesLine: '2',
      seasonSpread: 0.15,
      landPerUnit: 0,
      minimumScale: 0,
    },
    markets: { trips: 4, salesPerTrip: 500 },
    herds: { kind: 'sheep', start: plan.startMonth, breedingFemales: 3, males: 1, carryingLimit: 12 },
    purchases: {
      timing: 'when cash allows',
      month: plan.startMonth,
      usefulYears: 10,
      assetClass: 'machinery-new',
    },
    overheads: { scheduleFLine: '32' },
    loans: { start: plan.startMonth, months: 60, yearlyRate: 0.07 },
  }
  return opening[words.kind] ?? {}
}

function showForm(
  c: PageContext,
  place: Place,
  typed: TypedForm,
  markets: readonly string[],
  errors: FormErrors,
  status: 200 | 422 = 200,
) {
  const { words, thing, id, current } = place
  const { farm } = current.plan
  const title = thing ? String(thing.name) : words.add
  const chosen = typed.values('markets[]').length > 0 || status === 422 ? typed.values('markets[]') : markets
  return answer(c, {
    title,
    status,
    figures: { id, ...(thing ?? {}), errors },
    page: () => (
      <FarmFormPage
        words={words}
        action={`/farm/${words.kind}/${id}`}
        title={title}
        value={typed.value}
        values={(name) => (name === 'markets[]' ? chosen : typed.values(name))}
        errors={errors}
        formId={typed.value('formId')}
        {...(thing ? { removeFormId: newFormId() } : {})}
        basedOn={Number.parseInt(typed.value('basedOn'), 10) || current.revisionNo}
        markets={asOptions(farm.markets)}
        lines={asOptions([...farm.enterprises, ...farm.herds])}
      />
    ),
  })
}

const asOptions = (things: readonly { id: string; name: string }[]): Option[] =>
  things.map(({ id, name }) => ({ value: id, label: name }))

function saveThing(c: PageContext, place: Place, typed: TypedForm) {
  const { words, thing, current } = place
  const read = readThing(words.fields, typed, thing ?? {})
  if (!read.ok) return showForm(c, place, typed, [], read.errors, 422)
  const list = listOf(current.plan.farm, words.kind)
  const id = thing?.id ?? shortName(String(read.thing.name ?? words.one), current.plan.farm)
  const made = { ...read.thing, id } as Thing
  const next = thing ? list.map((one) => (one.id === id ? made : one)) : [...list, made]
  const said = thing ? `${String(made.name)} changed` : `${String(made.name)} added`
  return finish(
    c,
    place,
    typed,
    { ...current.plan.farm, [words.kind]: next } as Farm,
    said,
    next.findIndex((one) => one.id === id),
  )
}

function finish(c: PageContext, place: Place, typed: TypedForm, farm: Farm, said: string, index = -1) {
  const { words, current } = place
  const basedOn = Number.parseInt(typed.value('basedOn'), 10) || 0
  const act = actOf(c, typed.value('formId') || newFormId())
  const saved = saveChangedPlan(c.var.web.books, act, current, basedOn, { ...current.plan, farm }, said)
  if (saved.ok)
    return moveOn(c, `/farm#${words.kind}`, `${said}. The plan is at revision ${saved.revisionNo}.`)
  if (saved.kind === 'newer-revision') return showBoth(c, place, typed, saved.theirs)
  const errors = saved.kind === 'refused' ? { '': saved.message } : errorsAt(saved.issues, words.kind, index)
  return showForm(c, place, typed, [], errors, 422)
}

/** Issues of the thing at its fields; others of the plan in the summary, with where they are. */
const errorsAt = (issues: readonly PlanIssue[], kind: FarmKind, index: number): FormErrors => {
  const errors: Record<string, string> = {}
  for (const { path, message } of issues) {
    const own = path[0] === 'farm' && path[1] === kind && path[2] === index
    const field = own
      ? path
          .slice(3)
          .filter((step) => typeof step === 'string')
          .join('.')
      : ''
    errors[field] ??= own ? message : `${path.join(' › ')}: ${message}`
  }
  return errors
}

function showBoth(
  c: PageContext,
  { words, id }: Place,
  typed: TypedForm,
  theirs: Parameters<typeof NewerRevisionPage>[0]['theirs'] & { planId: string },
) {
  const stored = planRevision(c.var.web.books, theirs.planId, theirs.revisionNo)
  const read = stored ? readPlan(stored.document) : null
  const now = read?.ok ? listOf(read.plan.farm, words.kind).find((one) => one.id === id) : undefined
  const nowValues = now ? writeThing(words.fields, now) : {}
  const rows = words.fields
    .filter((field) => field.kind !== 'markets')
    .map((field) => ({
      label: field.label,
      value: typed.value(field.name),
      now: nowValues[field.name] ?? '',
    }))
  return answer(c, {
    title: 'The plan was saved meanwhile',
    status: 409,
    figures: { theirs: { revisionNo: theirs.revisionNo, savedAt: theirs.savedAt }, rows },
    page: () => <NewerRevisionPage theirs={theirs} typed={rows} back={`/farm/${words.kind}/${id}`} />,
  })
}

/** A short name of its own within the farm. */
const shortName = (name: string, farm: Farm): string => {
  const taken = new Set(
    [farm.enterprises, farm.markets, farm.herds, farm.purchases, farm.overheads, farm.loans]
      .flat()
      .map((one) => one.id),
  )
  const base =
    name
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-|-$/g, '')
      .slice(0, 40) || 'thing'
  const reserved = base === 'new' ? 'new-one' : base
  let found = reserved
  for (let k = 2; taken.has(found); k += 1) found = `${reserved}-${k}`
  return found
}

/** Other parts of the farm that name what is taken out forget it. */
const withoutMentions = (farm: Farm, id: string): Farm => ({
  ...farm,
  enterprises: farm.enterprises.map((one) => ({
    ...one,
    markets: one.markets.filter((market) => market !== id),
  })),
  herds: farm.herds.map((one) => ({ ...one, markets: one.markets.filter((market) => market !== id) })),
  purchases: farm.purchases.map((one) => (one.for === id ? { ...one, for: undefined } : one)),
  phases: farm.phases.map((phase) => ({
    ...phase,
    scales: phase.scales.filter((one) => one.enterprise !== id),
    trips: phase.trips.filter((one) => one.market !== id),
    herdLimits: phase.herdLimits.filter((one) => one.herd !== id),
  })),
})
