// The schema as it is printed for those who write a plan: nothing in it has to be guessed.
import { expect, test } from 'vitest'
import { planSchemaTold } from '#plan/form/schema-told.ts'

interface Told {
  type?: string
  title?: string
  unit?: string
  description?: string
  const?: unknown
  months?: string
  anyOf?: Told[]
  oneOf?: Told[]
  items?: Told
  properties?: Record<string, Told>
}

const everyField = (shape: Told, path: string, look: (shape: Told, path: string) => void): void => {
  if (path !== '') look(shape, path)
  for (const one of [...(shape.anyOf ?? []), ...(shape.oneOf ?? [])])
    everyField({ title: shape.title, ...one } as Told, path, look)
  for (const [key, child] of Object.entries(shape.properties ?? {}))
    everyField(child, path === '' ? key : `${path}.${key}`, look)
  if (shape.items) everyField({ title: shape.title, ...shape.items } as Told, `${path}.*`, look)
}

test('every field has a description, every number a unit, and an amount over time says per what', () => {
  const wrong: string[] = []
  let fields = 0
  let numbers = 0
  everyField(planSchemaTold() as Told, '', (shape, path) => {
    fields += 1
    if (!shape.description) wrong.push(`${path}: no description`)
    const isNamed = shape.const !== undefined || /(^|\.)(id|\*|planVersion)$/.test(path) || shape.title
    if (!isNamed) wrong.push(`${path}: no title`)
    if (shape.type !== 'number' && shape.type !== 'integer') return
    if (shape.const !== undefined) return
    numbers += 1
    if (!shape.unit) wrong.push(`${path}: no unit`)
  })
  expect(wrong).toEqual([])
  expect(fields).toBeGreaterThan(400)
  expect(numbers).toBeGreaterThan(200)
})

test('a field says what it is by its kind, and what leaving it out means', () => {
  const said = (path: string) =>
    path
      .split('.')
      .reduce<Told>(
        (shape, step) => (step === '*' ? shape.items! : shape.properties![step]!),
        planSchemaTold() as Told,
      )
  expect(said('household.living.*.from').description).toBe('A month, like 2027-04. May be left out.')
  expect(said('household.loans.*.yearlyRate')).toMatchObject({
    unit: 'rate a year',
    description: 'In rate a year.',
  })
  expect(said('farm.enterprises.*.salesPerUnit')).toMatchObject({
    unit: 'dollars',
    description: 'In dollars: one figure, the year’s total, or twelve from January to December. Left out: 0.',
  })
  expect(said('farm.crew.*.who').description).toContain('The short name (id) of')
  expect(said('household.farmShareAfterDeath').description).toMatch(/^A share, 0 to 1\. Left out: 0\.\d+\.$/)
})
