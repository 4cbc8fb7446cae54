// A key that no plan has is found wherever it stands, and a plan that is one has none, whatever its age.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readPlan } from '#plan/upgrade.ts'
import { randomPlan } from '../runway/random-plan.ts'

const sample = JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
const oldest = {
  planVersion: 0,
  startMonth: '2026-01',
  livingPerMonth: 4200,
  premiumPerMonth: 800,
  draws: [{ from: '2027-01', perMonth: 1500 }],
  savings: 90_000,
  floorMonths: 6,
}
const strict = { refuseUnknown: true }

test('plans of every age, and any drawn one, have no unknown key', () => {
  for (const document of [sample, oldest, { startMonth: '2027-01' }])
    expect(readPlan(document, strict)).toMatchObject({ ok: true })
  fc.assert(
    fc.property(randomPlan(), (plan) => {
      expect(readPlan(JSON.parse(JSON.stringify(plan)), strict)).toMatchObject({ ok: true })
    }),
    { numRuns: 60 },
  )
})

/** Every object of a document that the schema lists the keys of. */
const objectsIn = (value: unknown, path = ''): { path: string; at: Record<string, unknown> }[] => {
  if (typeof value !== 'object' || value === null) return []
  const inside = Object.entries(value).flatMap(([key, child]) =>
    objectsIn(child, path === '' ? key : `${path}.${key}`),
  )
  return Array.isArray(value) ? inside : [{ path, at: value as Record<string, unknown> }, ...inside]
}

/** Their keys are names that people give. */
const isByName = (path: string): boolean => /(hoursBy|CostLines|weeklyHoursBy)$/.test(path)

test('a slip in any key of the sample’s plan is told by its path, and without asking for it nothing is refused', () => {
  const { length } = objectsIn(sample)
  expect(length).toBeGreaterThan(40)
  for (let k = 0; k < length; k += 1) {
    const document = structuredClone(sample)
    const { path, at } = objectsIn(document)[k]!
    if (isByName(path)) continue
    at.livingg = 1
    expect(readPlan(document)).toMatchObject({ ok: true })
    const where = path === '' ? 'livingg' : `${path}.livingg`
    expect(readPlan(document, strict)).toEqual({
      ok: false,
      faults: [{ path: where, message: 'there is no such key here' }],
    })
  }
})
