// Plans in which every field of the schema is filled, with values that no form shows whole: found from the schema, so that a new
// field is in them by itself.
import { asRecord, planShape, type Shape, variantsOf } from '#plan/form/shape.ts'
import { type Plan, planSchema } from '#plan/plan.ts'

/** One plan for each variant that the schema has anywhere, so that all of them are met. */
export const fullPlans = (): Plan[] =>
  Array.from({ length: 4 }, (_, which) => planSchema.parse(fullPlan(which)))

/** What the checks across the plan ask for; everything else is filled by its shape. */
const chosen: Record<string, unknown> = {
  startMonth: '2027-01',
  'tax.stateTax.brackets': [
    { over: 0, rate: 0.0123456789 },
    { over: 20_000.5, rate: 0.0323456789 },
  ],
  continuesFrom: '2027-06',
  'draw.netBefore': Array.from({ length: 12 }, (_, k) => 100 * k + 0.5),
  'household.people.0.id': 'ash',
  'household.people.1.id': 'birch-2',
  'household.dependents.0.id': 'child',
  'savings.accounts.0.kind': 'cash',
  'farm.purchases.*.assetClass': 'machinery-new',
  'savings.spendOrder': ['taxable', 'accounts-0', 'cash'],
}

/** One of the two adults can leave once. */
const eventsOf = (which: number): unknown[] => [
  which % 2 === 0
    ? {
        kind: 'death',
        person: 'birch-2',
        month: '2048-05',
        cost: 4321.123456789,
        pensionShare: 0.4123456789,
        lessPremium: 87.0123456789,
      }
    : {
        kind: 'separation',
        person: 'ash',
        month: '2047-03',
        takes: 4321.123456789,
        lessPremium: 87.0123456789,
      },
  {
    kind: 'birth',
    name: 'Some name',
    born: '2030-02-03',
    perMonth: 311.123456789,
    mother: 'ash',
    covered: false,
    untilAge: 9,
  },
  { kind: 'leaving', child: 'child', month: '2031-04', lessPerMonth: 222.123456789 },
]

const named = {
  adult: 'birch-2',
  child: 'child',
  anyone: 'child',
  account: 'accounts-0',
  market: 'markets-1',
  enterprise: 'enterprises-1',
  herd: 'herds-0',
  'enterprise or herd': 'herds-1',
  facility: 'facilities-0',
  worker: 'hired',
} as const

const fullPlan = (which: number): unknown => ({
  ...(fill(planShape(), '', which) as object),
  events: eventsOf(which),
})

const fill = (shape: Shape, path: string, which: number): unknown => {
  const set = chosen[path] ?? chosen[path.replaceAll(/\.\d+\./g, '.*.')]
  if (set !== undefined) return set
  if (shape.const !== undefined) return shape.const
  const key = path.slice(path.lastIndexOf('.') + 1)
  const variants = variantsOf(shape)
  if (variants) {
    const shapes = [...variants.by.values()]
    return fill(shapes[which % shapes.length]!, path, which)
  }
  if (shape.months !== undefined)
    return which % 2 === 0
      ? 1234.5678901234
      : Array.from({ length: 12 }, (_, k) => (k % 3 === 0 ? 0 : k === 1 ? 1e-7 : k / 7))
  if (shape.properties)
    return Object.fromEntries(
      Object.entries(shape.properties).map(([name, below]) => [
        name,
        fill(below, path === '' ? name : `${path}.${name}`, which),
      ]),
    )
  if (shape.additionalProperties)
    return shape.names ? { [named[shape.names]]: 2.25, ash: 1 / 3 } : { '31': 1 / 3, '28': 2, other: 1.5 }
  if (shape.type === 'array') return fillList(shape, path, which)
  if (shape.names) return named[shape.names]
  if (shape.enum) return shape.enum[which % shape.enum.length]
  if (shape.type === 'boolean') return shape.default !== true
  if (shape.type === 'integer') return Math.max(shape.minimum ?? 0, Math.min(shape.maximum ?? 9, 9))
  if (shape.type === 'number') return numberWithin(shape)
  if (shape.format === 'month') return /^to|end|Until$/.test(key) ? '2041-09' : '2028-05'
  if (shape.format === 'date') return '1979-03-02'
  return key === 'id' ? path.split('.').slice(-3, -1).join('-').toLowerCase() : `Some ${key}`
}

/** Two rows, in an order that no form would give them by itself. */
const fillList = (shape: Shape, path: string, which: number): unknown[] => {
  const items = shape.items ?? {}
  if (items.names) return [named[items.names]]
  if (items.enum) return [...items.enum].reverse()
  const length = (shape as { minItems?: number }).minItems ?? 2
  const rows = Array.from({ length }, (_, place) => fill(items, `${path}.${place}`, which))
  const [first] = Object.entries(items.properties ?? {})
  const isEach = first?.[1].names !== undefined && Object.keys(items.properties!).length === 2
  return isEach ? rows.slice(0, 1) : items.properties ? withYears(rows) : rows.toReversed()
}

const withYears = (rows: unknown[]): unknown[] =>
  rows.map((row, place) => ('year' in asRecord(row) ? { ...asRecord(row), year: 2003 - place } : row))

/** Digits that no field shows, within the bounds. */
const numberWithin = ({ minimum = -10, maximum = 1e6 }: Shape): number => {
  const wish = maximum <= 1 ? 0.0123456789012 : 1.23456789012
  return Math.min(maximum, Math.max(minimum, wish))
}
