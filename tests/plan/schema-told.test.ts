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
  additionalProperties?: Told | boolean
}

const everyField = (shape: Told, path: string, look: (shape: Told, path: string) => void): void => {
  if (path !== '') look(shape, path)
  for (const one of [...(shape.anyOf ?? []), ...(shape.oneOf ?? [])])
    everyField({ title: shape.title, ...one } as Told, path, look)
  for (const [key, child] of Object.entries(shape.properties ?? {}))
    everyField(child, path === '' ? key : `${path}.${key}`, look)
  if (typeof shape.additionalProperties === 'object')
    everyField(shape.additionalProperties, `${path}.*`, look)
  if (shape.items) everyField({ title: shape.title, ...shape.items } as Told, `${path}.*`, look)
}

/** Counted by itself; whatever else a number may be is per something, or of a time. */
const plain = new Set([
  ...[
    'share',
    'rate a year',
    'months',
    'years',
    'payments',
    'months of costs',
    'calendar year',
    'account number',
  ],
  ...['month of the year, 1 to 12', 'percent of the poverty level', 'correlation, −1 to 1'],
  ...['animals', 'units', 'acres', 'of its units', 'of the facility’s units', 'parts of the whole'],
])
const perWhat =
  /^(dollars|hours|trips|miles|acres|animals|pounds|of its measure,) (an? |per |for an? |once$|on that day$|held at all times$|in the year so far$|carried in$|of taxable income a year$)/

test('every field has a description and every number a unit that says per what or when', () => {
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
    const unit = shape.unit ?? 'none'
    if (!plain.has(unit) && !perWhat.test(unit)) wrong.push(`${path}: unit ${unit}`)
  })
  expect(wrong).toEqual([])
  expect(fields).toBeGreaterThan(400)
  expect(numbers).toBeGreaterThan(200)
})

test('an amount that can be one figure or twelve says of which span each is', () => {
  const wrong: string[] = []
  let seasonal = 0
  everyField(planSchemaTold() as Told, '', ({ months, unit = '', description = '', anyOf = [] }, path) => {
    if (months === undefined) return
    seasonal += 1
    const [one, twelve] = [
      anyOf.find(({ type }) => type === 'number')!,
      anyOf.find(({ type }) => type === 'array')!,
    ]
    if (one.unit !== unit) wrong.push(`${path}: one figure in ${one.unit}`)
    const isOfYear = months !== 'each month'
    if (isOfYear !== unit.endsWith('year')) wrong.push(`${path}: ${months}, in ${unit}`)
    if (twelve.items!.unit !== unit.replace(/year$/, 'month'))
      wrong.push(`${path}: twelve in ${twelve.items!.unit}`)
    if (!/January to December|Empty: /.test(description) && !description)
      wrong.push(`${path}: ${description}`)
  })
  expect(wrong).toEqual([])
  expect(seasonal).toBeGreaterThan(20)
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
    unit: 'dollars per unit and year',
    description:
      'One figure in dollars per unit and year, or twelve in dollars per unit and month, from January to December. Left out: 0.',
  })
  expect(said('farm.herds.*.costPerFemale').description).toBe(
    'One figure in dollars a grown head and month that holds in each month, or twelve, from January to December. Left out: 0.',
  )
  expect(said('household.oneOffs.*.cost')).toMatchObject({
    unit: 'dollars once',
    description: expect.stringMatching(/^In dollars once; below zero: money in\. Money in: a gift/),
  })
  expect(said('farm.crew.*.who').description).toContain('The short name (id) of')
  expect(said('household.farmShareAfterDeath').description).toMatch(/^A share, 0 to 1\. Left out: 0\.\d+\.$/)
})
