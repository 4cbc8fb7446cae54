// Bent plan documents: the sample's, drawn ones and one of the oldest shape, with whatever the schema knows put in the wrong places.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { planJsonSchema } from '#plan/json-schema.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { randomPlan } from '../runway/random-plan.ts'
import { bentJson } from './bent-json.ts'

const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)

/** The sample's plan with all its defaults written out, to change at will. */
export const startingPlan = (): Plan => structuredClone(shortSample)

/** The same farm and house for a dozen years: as many fields, a fifth of the months. */
const shortSample = {
  ...sample,
  household: {
    ...sample.household,
    people: sample.household.people.map((person) => ({ ...person, planToAge: 58 })),
  },
}

const oldest = {
  planVersion: 0,
  name: 'First try',
  startMonth: '2026-01',
  livingPerMonth: 4200,
  premiumPerMonth: 800,
  draws: [{ from: '2027-01', perMonth: 1500 }],
  savings: 90_000,
  floorMonths: 6,
}

/** Every key and every fixed word of the plan's schema. */
const wordsOf = (schema: unknown, keys = new Set<string>(), words = new Set<unknown>()) => {
  if (typeof schema !== 'object' || schema === null) return { keys, words }
  const { properties, enum: choices, const: only } = schema as Record<string, unknown>
  for (const key of Object.keys(properties ?? {})) keys.add(key)
  for (const word of [...((choices as unknown[]) ?? []), ...(only === undefined ? [] : [only])])
    words.add(word)
  for (const child of Object.values(schema)) wordsOf(child, keys, words)
  return { keys, words }
}
const { keys, words } = wordsOf(planJsonSchema())

/** Texts of plan documents; about one in three can still be read as a plan. */
export const bentPlans = bentJson({
  seeds: [
    sample,
    ...new Array(12).fill(shortSample),
    ...fc.sample(randomPlan(), { seed: 7, numRuns: 12 }),
    oldest,
    { startMonth: '2026-06' },
  ],
  keys: [...keys],
  values: [
    ...words,
    ...['2026-11', '2027-04', '2031-01', '2019-12', '1996-05', '2099-12', '0001-01', '9999-12'],
    ...['1981-06-14', '1946-02-28', '2024-02-29', '0001-01-01', '9999-12-31'],
    ...['mara', 'teo', 'junie', 'ash', 'savings', 'cash', 'hired', 'sheep', 'vegetables', 'no-one'],
    ...[{ from: '2028-01', perMonth: 900 }, { kind: 'dollars', dollars: 1 }, {}, [], new Array(12).fill(40)],
    ...[0, 1, 0.5, 12, 62, 119, 1951, 1_000_000_000],
  ],
})
