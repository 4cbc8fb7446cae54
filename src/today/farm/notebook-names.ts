// The names behind what the notebook keeps: people, enterprises, herds and markets of the plan in use, and batches.
import { listBatches } from '#db/notebook/batch-store.ts'
import type { Batch } from '#db/notebook/schema-batches.ts'
import type { Books } from '#db/open.ts'
import type { Farm } from '#farm/farm-document.ts'
import type { HerdKind } from '#farm/herd/herd-document.ts'
import { parseSubject, type Subject, subjectText } from '#farm/notebook/subject.ts'
import { currentPlan } from '#today/current-plan.ts'

export interface Named {
  id: string
  name: string
}

export interface NotebookNames {
  people: readonly Named[]
  /** By their tag in the books. */
  enterprises: readonly (Named & { unit: string })[]
  herds: readonly (Named & { tag: string; kind: HerdKind })[]
  markets: readonly Named[]
  batches: readonly Batch[]
  /** The farm of the plan; null without one. */
  farm: Farm | null
  plan: { planId: string; revisionNo: number } | null
  /** What stays of a name that the plan no longer has is its id. */
  ofPerson(id: string): string
  ofEnterprise(tag: string): string
  ofHerd(id: string): string
  ofMarket(id: string): string
  ofSubject(subject: Subject): string
}

export const notebookNames = (books: Books): NotebookNames => {
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  const people = (plan?.household.people ?? []).map(({ id, name }) => ({ id, name }))
  const enterprises = (plan?.farm.enterprises ?? []).map(({ id, tag, name, unit }) => ({
    id: tag ?? id,
    name,
    unit,
  }))
  const herds = (plan?.farm.herds ?? []).map(({ id, tag, name, kind }) => ({
    id,
    name,
    kind,
    tag: tag ?? id,
  }))
  const markets = (plan?.farm.markets ?? []).map(({ id, name }) => ({ id, name }))
  const batches = listBatches(books)
  const nameIn =
    (some: readonly Named[]) =>
    (id: string): string =>
      some.find((one) => one.id === id)?.name ?? id
  const names = {
    people,
    enterprises,
    herds,
    markets,
    batches,
    farm: plan?.farm ?? null,
    plan: current.status === 'read' ? { planId: current.planId, revisionNo: current.revisionNo } : null,
    ofPerson: nameIn(people),
    ofEnterprise: nameIn([...enterprises, ...herds.map(({ tag, name }) => ({ id: tag, name }))]),
    ofHerd: nameIn(herds),
    ofMarket: nameIn(markets),
  }
  return {
    ...names,
    ofSubject: ({ kind, id }) => {
      switch (kind) {
        case 'enterprise':
          return names.ofEnterprise(id)
        case 'herd':
          return names.ofHerd(id)
        case 'batch':
          return nameIn(batches)(id)
        case 'market':
          return names.ofMarket(id)
        case 'overhead':
          return 'Overhead work'
      }
    },
  }
}

/** All that work can be for today: open batches, enterprises, herds, markets, and overhead work. */
export const subjectsOf = (names: NotebookNames): string[] => [
  ...names.batches.filter(({ endedDay }) => endedDay === null).map(({ id }) => `batch:${id}`),
  ...names.enterprises.map(({ id }) => `enterprise:${id}`),
  ...names.herds.map(({ id }) => `herd:${id}`),
  ...names.markets.map(({ id }) => `market:${id}`),
  'overhead',
]

/** Names of subjects as choices of a form, those used last first. */
export const subjectChoices = (
  names: NotebookNames,
  used: readonly Subject[],
): { value: string; label: string }[] => {
  const all = subjectsOf(names)
  const first = [...new Set(used.map(subjectText))].filter((one) => all.includes(one))
  return [...first, ...all.filter((one) => !first.includes(one))].map((value) => ({
    value,
    label: names.ofSubject(parseSubject(value)!),
  }))
}
