import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { differences } from '#plan/difference.ts'
import { drawForm, redrawForm } from '#plan/form/draw.ts'
import { type FormNode, type FormPart, shownNames } from '#plan/form/nodes.ts'
import { valueAt, withValueAt } from '#plan/form/place.ts'
import { pointersOf } from '#plan/form/pointers.ts'
import { readPart } from '#plan/form/read.ts'
import { planShape, type Shape, variantsOf } from '#plan/form/shape.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { planSections } from '#plan/sections.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { fullPlans } from './full-plan.ts'

const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)
const small = planSchema.parse({
  startMonth: '2027-01',
  household: {
    people: [{ id: 'ida', name: 'Ida', born: '1980-04-02' }],
    living: [
      { id: 'food', name: 'Food', perMonth: 900 },
      { id: 'fuel', name: 'Fuel', perMonth: 120.5, extraGrowth: 0.0123456789 },
    ],
  },
  farm: {
    markets: [{ id: 'stand', name: 'Stand' }],
    enterprises: [{ id: 'eggs', name: 'Eggs', salesPerUnit: 1200, markets: ['stand'] }],
    crew: [{ who: 'ida', weeklyHours: 40 }],
  },
})

/** What a browser posts of a form left as it stands. */
const sent = (nodes: readonly FormNode[]): Map<string, string | string[]> => {
  const out = new Map<string, string | string[]>()
  const add = (node: FormNode): void => {
    if (node.kind === 'field' || node.kind === 'hidden' || node.kind === 'variants')
      out.set(node.name, node.value)
    if (node.kind === 'flag' && node.checked) out.set(node.name, 'yes')
    if (node.kind === 'ticks' && node.chosen.length > 0) out.set(node.name, [...node.chosen])
    if (node.kind === 'months') {
      out.set(`${node.name}.one`, node.one)
      node.months.forEach((text, k) => {
        out.set(`${node.name}.m${k + 1}`, text)
      })
    }
    if (node.kind === 'list') node.rows.flat().forEach(add)
    if (node.kind === 'group' || node.kind === 'variants') node.children.forEach(add)
  }
  nodes.forEach(add)
  return out
}

const nested = (fields: ReadonlyMap<string, string | string[]>): Record<string, unknown> => {
  const out: Record<string, unknown> = {}
  for (const [name, value] of fields) {
    const steps = name.split('.')
    let at = out
    steps.forEach((step, depth) => {
      if (depth === steps.length - 1) at[step] = value
      else {
        at[step] ??= /^\d+$/.test(steps[depth + 1]!) ? [] : {}
        at = at[step] as Record<string, unknown>
      }
    })
  }
  return out
}

/** Opens a part's form, changes some of its fields, and reads it back into the plan. */
const through = (plan: Plan, part: FormPart, change: Record<string, string | string[]> = {}) => {
  const nodes = drawForm(part, valueAt(plan, part.path), pointersOf(plan))
  const fields = sent(nodes)
  for (const [name, value] of Object.entries(change)) fields.set(name, value)
  const typed = nested(fields)
  const shown = new Set(shownNames(nodes))
  const below = part.name === '' ? typed : typed[part.name]
  const read = readPart(part, valueAt(plan, part.path), below, shown)
  return { ...read, nodes, typed: below, shown, plan: withValueAt(plan, part.path, read.value) }
}

/** Every part of the plan that has a form, with each thing of each list. */
const partsOf = (plan: Plan): FormPart[] => [
  { path: [], name: '', only: ['name', 'startMonth', 'years'] },
  { path: ['farm'], name: '', only: ['cash', 'reserve', 'land', 'winterFeed', 'crew', 'hired'] },
  ...planSections.map((section) => ({ path: [section], name: section })),
  ...Object.entries({ ...plan.farm, storms: plan.storms, events: plan.events }).flatMap(([key, list]) =>
    Array.isArray(list) && key !== 'crew'
      ? list.map((_, place) => ({
          path: [...(key === 'storms' || key === 'events' ? [] : ['farm']), key, place],
          name: '',
        }))
      : [],
  ),
]

const expectKept = (plan: Plan): void => {
  for (const part of partsOf(plan)) {
    const back = through(plan, part)
    expect([part.path, back.errors]).toEqual([part.path, {}])
    const kept = planSchema.parse(back.plan)
    if (JSON.stringify(kept) === JSON.stringify(plan)) continue
    throw new Error(`${part.path.join('.')}: ${JSON.stringify(differences(plan, kept))}`)
  }
}

test('a form sent back as it stands changes no byte of the sample', () => {
  expectKept(sample)
})

test('nor of plans in which every field is filled, with digits that no form shows', () => {
  for (const plan of fullPlans()) expectKept(plan)
})

test('nor of any plan', () => {
  fc.assert(fc.property(randomPlan(), expectKept), {
    seed: Number(process.env.FUZZ_SEED ?? '20261128'),
    numRuns: Number(process.env.PLAN_FORM_RUNS ?? '40'),
  })
})

test('a plan in which every field is filled has a value for every key of the schema', () => {
  const plans = fullPlans()
  const missing = schemaKeys(planShape(), '').filter(
    (key) => !plans.some((plan) => has(plan, key.split('.'))),
  )
  expect(missing).toEqual([])
})

const has = (value: unknown, [step, ...rest]: string[]): boolean => {
  if (step === undefined) return value !== undefined
  if (step === '*') return Array.isArray(value) && value.some((one) => has(one, rest))
  return typeof value === 'object' && value !== null && has((value as Record<string, unknown>)[step], rest)
}

const schemaKeys = (shape: Shape, path: string): string[] => {
  const below = (key: string) => (path === '' ? key : `${path}.${key}`)
  const variants = variantsOf(shape)
  if (variants) return [...variants.by.values()].flatMap((one) => schemaKeys(one, path))
  if (shape.properties)
    return Object.entries(shape.properties).flatMap(([key, child]) => schemaKeys(child, below(key)))
  if (shape.items?.properties || (shape.items && variantsOf(shape.items)))
    return schemaKeys(shape.items!, below('*'))
  return [path]
}

/** Keys that no form draws, each with its reason. */
const onNoForm: Record<string, string> = {
  planVersion: 'says how the document is written; the program sets it',
  continuesFrom: 'the month of the projection, which the pages set from the books and never save',
  'household.people.*.id': 'the short name is made from the name',
  ...Object.fromEntries(
    ['enterprises', 'markets', 'herds'].flatMap((list) =>
      ['figures', 'pricesOf'].map((key) => [
        `farm.${list}.*.usual.${key}`,
        'the published figures that a form began with, which it asks by its own `usual` fields',
      ]),
    ),
  ),
}

test('every key of the schema is on a form, or on the list of those that are not', () => {
  const drawn = new Set<string>()
  const note = (nodes: readonly FormNode[], under: string): void => {
    for (const node of nodes) {
      if (node.kind === 'hidden') continue
      const own = (under === '' ? node.name : `${under}.${node.name}`).replaceAll(/\.\d+(?=\.)/g, '.*')
      drawn.add(own)
      if (node.kind === 'list') note(node.rows.flat(), under)
      if (node.kind === 'group' || node.kind === 'variants') note(node.children, under)
    }
  }
  for (const plan of fullPlans())
    for (const part of partsOf(plan)) {
      const under =
        part.name === '' ? part.path.map((step) => (typeof step === 'number' ? '*' : step)).join('.') : ''
      note(drawForm(part, valueAt(plan, part.path), pointersOf(plan)), under)
    }
  const isDrawn = (key: string) =>
    [...drawn].some((one) => one === key || key.startsWith(`${one}.*.`) || key === `${one}.*`)
  const missing = schemaKeys(planShape(), '').filter(
    (key) => !isDrawn(key) && !key.endsWith('.id') && onNoForm[key] === undefined,
  )
  expect(missing).toEqual([])
  for (const key of Object.keys(onNoForm)) expect(schemaKeys(planShape(), '')).toContain(key)
})

test('every field has a title; money says per what, and so does one figure or twelve', () => {
  const wrong: string[] = []
  const look = (shape: Shape, path: string): void => {
    const title = shape.title ?? ''
    if (shape.months !== undefined && !/year|month|trip|week/.test(title)) wrong.push(path)
    const isNamed = title !== '' || shape.const !== undefined || /(^|\.)(id|\*|planVersion)$/.test(path)
    if (!isNamed) wrong.push(path)
    const below = (key: string) => (path === '' ? key : `${path}.${key}`)
    for (const one of variantsOf(shape)?.by.values() ?? []) look({ ...one, title: '-' }, path)
    for (const [key, child] of Object.entries(shape.properties ?? {})) look(child, below(key))
    if (shape.items) look(shape.items, below('*'))
  }
  look({ ...planShape(), title: '-' }, '')
  expect(wrong).toEqual([])
})

test('an empty field shows the default that holds while it is empty', () => {
  const drawn = drawForm({ path: ['assumptions'], name: 'assumptions' }, small.assumptions, pointersOf(small))
  const inflation = drawn.find((node) => node.name === 'assumptions.inflation')
  expect(inflation).toMatchObject({ whenEmpty: '2.5' })
  const crew = drawForm({ path: ['farm'], name: '', only: ['crew'] }, small.farm, pointersOf(small))
  const hours = crew.flatMap((node) => (node.kind === 'list' ? node.rows.flat() : []))
  expect(hours.find((node) => node.kind === 'months')).toMatchObject({ one: '40', whenEmpty: '' })
})

test('an amount a month or a year says so in its label', () => {
  const part = { path: ['health'], name: 'health' }
  const labels = (nodes: readonly FormNode[]): string[] =>
    nodes.flatMap((node) =>
      node.kind === 'field' ? [node.label] : 'children' in node ? labels(node.children) : [],
    )
  const drawn = labels(drawForm(part, small.health, pointersOf(small)))
  expect(drawn).toContain('Care you pay yourself, before 65, a month')
  expect(drawn).toContain('Part D plan, a month')
})

test('a changed field changes that field alone', () => {
  const part = { path: ['household'], name: 'household' }
  const { plan, errors } = through(small, part, { 'household.living.1.perMonth': '$130.25' })
  expect(errors).toEqual({})
  expect(plan.household.living).toEqual([
    small.household.living[0],
    { ...small.household.living[1], perMonth: 130.25 },
  ])
  expect(plan).toEqual({ ...small, household: { ...small.household, living: plan.household.living } })
})

test('a list that the form did not hold stays, and one whose rows were all taken out is empty', () => {
  const part = { path: ['household'], name: 'household' }
  const before = small.household
  expect(readPart(part, before, { survivorShare: '80' }, new Set()).value).toEqual({
    ...before,
    survivorShare: 0.8,
  })
  expect(readPart(part, before, {}, new Set(['household.living'])).value).toEqual({ ...before, living: [] })
})

test('a row moved, taken out or added carries what no form shows of it', () => {
  const part = { path: ['draw'], name: 'draw' }
  const steps = [
    { from: '2027-01', perMonth: 1000.123456789 },
    { from: '2028-01', perMonth: 2000.987654321 },
  ]
  const draw = { policy: 'steps' as const, steps, growth: 0, withPrices: false }
  const rows = [
    { _row: '1', from: '2028-01', perMonth: '2000.987654321' },
    { from: '2029-01', perMonth: '3000' },
    { _row: '0', from: '2027-01', perMonth: '1000.123456789' },
  ]
  const read = readPart(part, draw, { policy: 'steps', steps: rows }, new Set(['draw.steps']))
  expect(read.value).toMatchObject({ steps: [steps[1], { from: '2029-01', perMonth: 3000 }, steps[0]] })
})

test('months typed into a strip count, and the one figure that stood there goes', () => {
  const part = { path: ['farm', 'enterprises', 0], name: '' }
  const both = through(small, part, { 'salesPerUnit.m6': '300', 'salesPerUnit.m7': '500' })
  expect(both.plan.farm.enterprises[0]!.salesPerUnit).toEqual([0, 0, 0, 0, 0, 300, 500, 0, 0, 0, 0, 0])
  const back = through(both.plan, part, { 'salesPerUnit.one': '900' })
  expect(back.plan.farm.enterprises[0]!.salesPerUnit).toBe(900)
  const asked = through(small, part, { 'salesPerUnit.one': '900', 'salesPerUnit.m1': '5' })
  expect(asked.errors).toEqual({ 'salesPerUnit.one': 'Enter the one figure or the months, not both' })
  // A nought beside months is no second figure, whatever the field opened with: 4 at a market, 0 at an enterprise.
  const nought = through(small, part, { 'salesPerUnit.one': '0', 'salesPerUnit.m1': '5' })
  expect([nought.errors, nought.plan.farm.enterprises[0]!.salesPerUnit]).toEqual([
    {},
    [5, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  ])
  const market = readPart(
    { path: ['farm', 'markets', 0], name: '' },
    undefined,
    nested(new Map(Object.entries({ name: 'Depot', 'trips.one': '0', 'trips.m5': '4' }))),
    new Set(),
  )
  expect([market.errors, (market.value as { trips: unknown }).trips]).toEqual([
    {},
    [0, 0, 0, 0, 4, 0, 0, 0, 0, 0, 0, 0],
  ])
  const none = { ...small.farm.enterprises[0]!, salesPerUnit: Array.from({ length: 12 }, () => 0) }
  const still = through({ ...small, farm: { ...small.farm, enterprises: [none] } }, part)
  expect(still.plan.farm.enterprises).toEqual([none])
  // A new thing opens with the default in the one field.
  const opening = { name: 'Fuel', 'costs.one': '0', 'costs.m2': '80' }
  const fresh = readPart(
    { path: ['farm', 'overheads', 0], name: '' },
    undefined,
    nested(new Map(Object.entries(opening))),
    new Set(),
  )
  expect([fresh.errors, (fresh.value as { costs: unknown }).costs]).toEqual([
    {},
    [0, 80, ...Array.from({ length: 10 }, () => 0)],
  ])
  const wrong = through(small, part, { 'salesPerUnit.m2': 'lots' })
  expect(Object.keys(wrong.errors)).toEqual(['salesPerUnit.m2'])
})

test('losses are figures of a month where the schema takes them, and are refused where it does not', () => {
  const plan = planSchema.parse({ ...small, draw: { policy: 'share', from: '2027-01', share: 0.5 } })
  const part = { path: ['draw'], name: 'draw' }
  const months = { 'draw.netBefore.m1': '-$200', 'draw.netBefore.m6': '1,000' }
  const lost = through(plan, part, months).plan
  expect(planSchema.parse(lost).draw).toMatchObject({ netBefore: [-200, 0, 0, 0, 0, 1000, 0, 0, 0, 0, 0, 0] })
  const eggs = through(
    small,
    { path: ['farm', 'enterprises', 0], name: '' },
    { 'salesPerUnit.m1': '-5' },
  ).plan
  expect(planSchema.safeParse(eggs).error?.issues).toMatchObject([
    { path: ['farm', 'enterprises', 0, 'salesPerUnit'], message: 'Enter amounts of zero or more' },
  ])
})

test('a value for one person is emptied by emptying its field; others and their order stay', () => {
  const part = { path: ['farm'], name: '', only: ['crew'] }
  expect(through(small, part, { 'crew.0.weeklyHours.one': '' }).plan.farm.crew).toEqual([])
  const plan = { ...small, farm: { ...small.farm, crew: [] } }
  expect(through(plan, part, { 'crew.0.weeklyHours.one': '30' }).plan.farm.crew).toEqual([
    { who: 'ida', weeklyHours: 30 },
  ])
})

test('an error is named by its field, whatever rows were left empty before it', () => {
  const part = { path: ['household'], name: 'household' }
  const read = through(small, part, { 'household.living.1.perMonth': 'much' })
  expect(read.errors).toEqual({ 'household.living.1.perMonth': 'Enter an amount, like 1200 or 1200.50' })
  const shown = redrawForm(part, read.typed, pointersOf(small))
  expect(sent(shown).get('household.living.1.perMonth')).toBe('much')
  expect(read.nameOf('household.living.0.name')).toBe('household.living.0.name')
  expect(read.nameOf('savings.accounts')).toBeNull()
})
