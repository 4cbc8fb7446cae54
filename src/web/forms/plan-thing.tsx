// Pages of the things a plan has lists of (enterprises, storms and so on): one is changed, a new one is added, one is taken out.
import type { ThingTold } from '#farm/told/thing-told.ts'
import type { UsualList } from '#farm/usual/usual-figures.ts'
import type { FormNode, FormPart } from '#plan/form/nodes.ts'
import { valueAt, withValueAt } from '#plan/form/place.ts'
import type { Path } from '#plan/form/shape.ts'
import type { FormSum } from '#plan/form/sums.ts'
import {
  type BegunWith,
  begunWithAfter,
  holding,
  suggested,
  typedBy,
  type UsualChoice,
  usualChoice,
} from '#plan/form/usual.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import type { PlanInUse } from '#today/current-plan.ts'
import { kindParts } from '#views/parts/plan-form/plan-fields.tsx'
import { PlanFormPage, type PlanFormProps } from '#views/parts/plan-form/plan-form.tsx'
import { ThingSums, ToldSums, toldPart } from '#views/parts/plan-form/thing-sums.tsx'
import { type Answered, answer, notFound, type PageContext } from './answer.tsx'
import { type FormErrors, newFormId, statusOf } from './form.ts'
import { openPart, savePart } from './plan-part.tsx'
import { errorsAt, openedIn, type PlanForm, savePlanForm } from './plan-saving.tsx'

export interface ThingList {
  /** Where the list stands in the plan. */
  path: Path
  /** `enterprise`, `storm`: after "Remove this … from the plan". */
  one: string
  /** Title of the form of a new one. */
  add: string
  purpose: string
  help?: PlanFormProps['help']
  back: string
  /** What a new one opens with, over the schema's defaults. */
  opening: (plan: Plan, thisMonth: string) => Record<string, unknown>
  caution?: PlanFormProps['caution']
  /** Published figures that its form can show. */
  usual?: UsualList
  /** Its fields in other words, by what is chosen in them. */
  words?: (nodes: FormNode[]) => FormNode[]
  /** What its fields come to, shown beside them. */
  sums?: readonly FormSum[]
  /** What the whole thing comes to in a year, from its value as it stands; null while that cannot be said. */
  told?: (value: unknown) => ThingTold[] | null
}

export interface Thing {
  list: ThingList
  /** Null for a new one. */
  place: number | null
  action: string
  current: PlanInUse
}

type Entry = Record<string, unknown> & { id?: string; name?: string }

export const entriesAt = (plan: Plan, path: Path): readonly Entry[] => valueAt(plan, path) as Entry[]

/** By its short name where it has one: another revision may list it elsewhere. */
const entryOf = ({ list, place, current }: Thing, id?: string): Entry | null => {
  const entries = entriesAt(current.plan, list.path)
  if (place === null) return null
  return (id === undefined ? entries[place] : entries.find((one) => one.id === id)) ?? null
}

/** What a new thing begins in: this month, or the first of a plan that begins later. */
export const toCome = ({ startMonth }: Plan, thisMonth: string): string =>
  thisMonth > startMonth ? thisMonth : startMonth

const monthNow = (c: PageContext): string => c.var.web.today().slice(0, 7)

const partOf = ({ list, place, current }: Thing): FormPart => ({
  path: [...list.path, place ?? entriesAt(current.plan, list.path).length],
  name: '',
})

export const openThing = (c: PageContext, thing: Thing): Answered => {
  const { list, place, current } = thing
  const opening = place === null ? list.opening(current.plan, monthNow(c)) : undefined
  const nodes = openPart(current.plan, partOf(thing), opening)
  const usual = usualOf(thing, (name) => c.req.query(name) ?? '')
  const read = () => entryOf(thing) ?? opening ?? {}
  return showThing(c, thing, { nodes, errors: {}, basedOn: current.revisionNo, usual, read })
}

/** A new thing whose kind is chosen opens with the figures of that kind. */
const usualOf = (thing: Thing, said: (name: string) => string): UsualChoice | null =>
  thing.list.usual === undefined
    ? null
    : usualChoice(thing.list.usual, said, {
        isNew: thing.place === null,
        begun: entryOf(thing)?.usual as BegunWith | undefined,
      })

/** The value with what it began with, where its form can show published figures and says which. */
const withBegun = (thing: Thing, { typed }: PlanForm, plan: Plan, value: unknown): unknown => {
  const { usual: list } = thing.list
  if (list === undefined || typed.values('usual').length === 0) return value
  const { usual: _, ...rest } = value as Entry
  const nodes = openPart(plan, partOf(thing), rest)
  const begun = begunWithAfter(list, typed.value, entryOf(thing)?.usual as BegunWith | undefined, nodes)
  return begun === undefined ? rest : { ...rest, usual: begun }
}

interface ShownThing {
  nodes: FormNode[]
  errors: FormErrors
  basedOn: number
  usual: UsualChoice | null
  /** The thing's value as its fields stand. */
  read: () => unknown
}

const showThing = (c: PageContext, thing: Thing, { nodes, errors, basedOn, usual, read }: ShownThing) => {
  const { list, place, action, current } = thing
  const { words = (same) => same } = list
  const entry = entryOf(thing)
  const title = entry?.name ?? list.add
  const sums = { sentTo: action, told: list.told?.(read()) ?? null }
  const remove = { formId: newFormId(), label: `Remove this ${list.one} from the plan` }
  const drawn = words(place === null ? holding(suggested(nodes, usual)) : suggested(nodes, usual))
  return answer(c, {
    title,
    status: statusOf(errors),
    asTyped: true,
    parts: {
      ...kindParts(drawn, errors),
      ...(list.told ? { [toldPart]: () => <ToldSums told={sums.told} /> } : {}),
    },
    figures: { ...entry, errors },
    page: () => (
      <PlanFormPage
        {...list}
        title={title}
        action={action}
        nodes={drawn}
        usual={usual}
        errors={errors}
        below={list.told ? <ThingSums {...sums} /> : null}
        ids={{ formId: newFormId(), planId: current.planId, basedOn }}
        {...(place === null ? {} : { remove })}
      />
    ),
  })
}

type Arrange = (entries: readonly unknown[], thing: unknown, before: unknown) => readonly unknown[]

/** `taken`: the short names that a new thing may not have; null for a list whose things have none. `arrange` puts the list in order once the thing is in it, if it is new or another than before. */
export const saveThing = (
  c: PageContext,
  thing: Thing,
  form: PlanForm,
  taken: ReadonlySet<string> | null = null,
  arrange: Arrange = (entries) => entries,
): Answered => {
  const { list, place } = thing
  const entry = entryOf(thing)
  let saved: unknown = entry
  const put = (plan: Plan, read: unknown): Plan => {
    const entries = entriesAt(plan, list.path)
    const value = withBegun(thing, form, plan, read)
    saved = entry?.id === undefined && taken !== null ? named(value as Entry, taken) : value
    return withValueAt(
      plan,
      list.path,
      arrange(entries.toSpliced(place ?? entries.length, 1, saved as Entry), saved, entry),
    )
  }
  const usual = usualOf(thing, form.typed.value)
  const change = {
    part: partOf(thing),
    put,
    types: (nodes: FormNode[], taken: string) => typedBy(suggested(nodes, usual), taken),
    was: (opened: Plan) =>
      place === null
        ? list.opening(opened, monthNow(c))
        : entryOf({ ...thing, current: { ...thing.current, plan: opened } }, entry?.id),
    movedTo: (changed: Plan) => [...list.path, entriesAt(changed, list.path).indexOf(saved as Entry)],
    note: (value: unknown) => `${calledIn(list, value as Entry)} ${place === null ? 'added' : 'changed'}`,
  }
  return savePart(c, form, change, (nodes, errors, read) =>
    showThing(c, thing, { nodes, errors, basedOn: openedIn(form.typed, thing.current).basedOn, usual, read }),
  )
}

/** `new` is the address of a new thing. */
const named = (value: Entry, taken: ReadonlySet<string>): Entry => ({
  ...value,
  id: shortName(String(value.name ?? ''), new Set(['new', ...taken]), 'thing'),
})

/** `forget` takes out what names it; `refusal` says why it has to stay. */
export const removeThing = (
  c: PageContext,
  thing: Thing,
  form: PlanForm,
  forget: (plan: Plan, id: string) => Plan = (plan) => plan,
  refusal: string | null = null,
): Answered => {
  const { list, place, current } = thing
  const entry = entryOf(thing)
  if (entry === null || place === null) return notFound(c, 'It is no longer in the plan.')
  const again = (errors: FormErrors) =>
    showThing(c, thing, {
      nodes: openPart(current.plan, partOf(thing)),
      errors,
      basedOn: openedIn(form.typed, current).basedOn,
      usual: usualOf(thing, form.typed.value),
      read: () => entry,
    })
  if (refusal !== null) return again({ '': refusal })
  const entries = entriesAt(current.plan, list.path).toSpliced(place, 1)
  const changed = forget(withValueAt(current.plan, list.path, entries), entry.id ?? '')
  const note = `${calledIn(list, entry)} removed from the plan`
  return savePlanForm(c, form, { changed, note }, (issues) => again(errorsAt(issues)))
}

/** How a message begins: by its own name, or by what it is. */
const calledIn = ({ one }: ThingList, { name }: Entry): string =>
  name === undefined ? `${one.charAt(0).toUpperCase()}${one.slice(1)}` : String(name)
