// Forms that change the farm of the plan: enterprises, markets, herds, purchases, overheads, loans. Each save is a revision.
import { Hono } from 'hono'
import type { Farm } from '#farm/farm-document.ts'
import { onlySoldAt, withoutMentions } from '#farm/references.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import { currentPlan, type PlanInUse } from '#today/current-plan.ts'
import { FarmFormPage } from '#views/farm/farm-form.tsx'
import type { FarmKind, KindWords } from '#views/farm/field-hints.ts'
import { farmKinds } from '#views/farm/field-specs.ts'
import type { Option } from '#views/parts/field.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { type FormErrors, newFormId, openingForm, type TypedForm } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { errorsAt, openedIn, type PlanForm, postPlan, savePlanForm } from '#web/forms/plan-saving.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { readThing, writeThing } from './farm-fields.ts'

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
      .post('/farm/:kind/:id', (c) => postPart(c, saveThing))
      .post('/farm/:kind/:id/remove', (c) => postPart(c, removeThing)),
}

/** A form of one part of the farm; `place` is looked up once the form is known not to be a second copy. */
const postPart = (c: PageContext, handle: (c: PageContext, place: Place, form: PlanForm) => Answered) =>
  postPlan(c, `/farm#${c.req.param('kind') ?? ''}`, (form) => {
    const place = placeOf(c)
    return place ? handle(c, place, form) : notFound(c, 'The plan has no such part of the farm.')
  })

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
        {...openedIn(typed, current)}
        markets={asOptions(farm.markets)}
        lines={asOptions([...farm.enterprises, ...farm.herds])}
      />
    ),
  })
}

const asOptions = (things: readonly { id: string; name: string }[]): Option[] =>
  things.map(({ id, name }) => ({ value: id, label: name }))

function saveThing(c: PageContext, place: Place, form: PlanForm) {
  const { words, thing, current } = place
  const read = readThing(words.fields, form.typed, thing ?? {})
  if (!read.ok) return showForm(c, place, form.typed, [], read.errors, 422)
  const list = listOf(current.plan.farm, words.kind)
  const id = thing?.id ?? shortName(String(read.thing.name ?? ''), takenNames(current.plan.farm), 'thing')
  const made = { ...read.thing, id } as Thing
  const next = thing ? list.map((one) => (one.id === id ? made : one)) : [...list, made]
  const index = next.findIndex((one) => one.id === id)
  const changed = { ...current.plan, farm: { ...current.plan.farm, [words.kind]: next } as Farm }
  const note = thing ? `${String(made.name)} changed` : `${String(made.name)} added`
  return savePlanForm(c, form, { changed, note }, (issues) =>
    showForm(c, place, form.typed, [], errorsAt(issues, ['farm', words.kind, index], words.fields), 422),
  )
}

function removeThing(c: PageContext, place: Place, form: PlanForm) {
  const { words, thing, current } = place
  if (!thing) return notFound(c, 'It is no longer in the plan.')
  const again = (errors: FormErrors) => {
    const opened = openingForm({ ...writeThing(words.fields, thing), formId: newFormId() })
    return showForm(c, place, opened, marketsOf(thing), errors, 422)
  }
  const { farm } = current.plan
  const stranded = words.kind === 'markets' ? onlySoldAt(farm, thing.id) : []
  if (stranded.length > 0)
    return again({
      '': `${stranded.join(' and ')} would be left without a market, and so would sell without limit. Choose another market there first.`,
    })
  const list = listOf(farm, words.kind).filter((one) => one.id !== thing.id)
  const changed = { ...current.plan, farm: withoutMentions({ ...farm, [words.kind]: list }, thing.id) }
  const note = `${String(thing.name)} taken out of the plan`
  return savePlanForm(c, form, { changed, note }, (issues) => again(errorsAt(issues, [], [])))
}

/** Short names of everything on the farm, and `new`, which the address of a new thing has. */
const takenNames = ({ enterprises, markets, herds, purchases, overheads, loans, facilities }: Farm) => {
  const parts = [enterprises, markets, herds, purchases, overheads, loans, facilities].flat()
  return new Set(['new', ...parts.map((one) => one.id)])
}
