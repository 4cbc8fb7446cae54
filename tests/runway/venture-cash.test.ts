// The cash of side ventures, worked by hand: a venture keeps what it needs, hands over the rest, and pays a bad month itself.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { type Projection, project } from '#runway/project.ts'
import { traceMonth } from '#runway/trace.ts'

type Venture = NonNullable<NonNullable<PlanInput['household']>['sideVentures']>[number]

/** A bindery of our own invention: 1,000 a month to live on, no tax, no prices, so that each dollar can be followed. */
const bindery = (venture: Partial<Venture>, change: Partial<PlanInput> = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 2,
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
      sideVentures: [{ id: 'bindery', name: 'Bindery', perMonth: 0, ...venture }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
    ...change,
  })

const held = ({ months }: Projection) => months.map((one) => one.ventureCash)
const handedOver = ({ months }: Projection) => months.map((one) => one.side)

test('without cash of its own a venture hands over all that it earns, and its losses are the household’s', () => {
  const course = project(bindery({ perMonth: 500, costPerMonth: 700 }))
  expect(handedOver(course).slice(0, 3)).toEqual([-200, -200, -200])
  expect(held(course).every((dollars) => dollars === 0)).toBe(true)
})

test('it keeps what it holds, pays its bad months from that, and only then the household pays', () => {
  const course = project(bindery({ perMonth: 500, costPerMonth: 700, cash: 500 }))
  expect(held(course).slice(0, 4)).toEqual([300, 100, 0, 0])
  expect(handedOver(course).slice(0, 4)).toEqual([0, 0, -100, -200])
  // 50,000 less three months of 1,000 and the 100 of March.
  expect(course.months[2]!.spendable).toBe(46_900)
})

test('it fills up again to what it needs before it hands anything over', () => {
  const course = project(bindery({ perMonth: 400, cash: 100, keeps: 1000 }))
  expect(held(course).slice(0, 4)).toEqual([500, 900, 1000, 1000])
  expect(handedOver(course).slice(0, 4)).toEqual([0, 0, 300, 400])
})

test('what it holds beyond what it needs comes over at once, and counts once', () => {
  const course = project(bindery({ perMonth: 400, cash: 3400, keeps: 1000 }))
  expect(held(course).slice(0, 2)).toEqual([1000, 1000])
  expect(handedOver(course).slice(0, 2)).toEqual([2800, 400])
  const end = course.months.at(-1)!
  // 50,000 and the venture’s 3,400, 24 months of 400 in and 1,000 out.
  expect(end.spendable + end.ventureCash).toBe(50_000 + 3400 + 24 * (400 - 1000))
})

test('when it is over, all it holds is the household’s', () => {
  const course = project(bindery({ perMonth: 400, cash: 900, to: '2026-03' }))
  expect(handedOver(course).slice(0, 5)).toEqual([400, 400, 400, 900, 0])
  expect(held(course).slice(0, 5)).toEqual([900, 900, 900, 0, 0])
})

test('what is owed on its cards is paid from what it earns, and then by the household', () => {
  const course = project(bindery({ perMonth: 400, cash: -1000 }))
  expect(handedOver(course).slice(0, 2)).toEqual([-600, 400])
  expect(held(course).slice(0, 2)).toEqual([0, 0])
})

test('what it needs rises with prices', () => {
  const course = project(
    bindery({ perMonth: 400, cash: 1000 }, { assumptions: { inflation: 0.1, premiumGrowth: 0 } }),
  )
  expect(held(course)[11]).toBeCloseTo(1000, 9)
  expect(held(course)[12]).toBeCloseTo(1100, 9)
  expect(handedOver(course)[12]).toBeCloseTo(440 - 100, 9)
})

const couple: PlanInput['household'] = {
  people: [
    { id: 'ada', name: 'Ada', born: '1980-01-10' },
    { id: 'ben', name: 'Ben', born: '1980-01-10' },
  ],
  living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
  sideVentures: [{ id: 'bindery', name: 'Bindery', person: 'ben', perMonth: 400, cash: 900 }],
}

test('at a death it is the household’s; whoever leaves by a separation takes it along', () => {
  const after = (kind: 'death' | 'separation') => {
    const event =
      kind === 'death'
        ? ({ kind, person: 'ben', month: '2026-03' } as const)
        : ({ kind, person: 'ben', month: '2026-04' } as const)
    return project(bindery({}, { household: couple, events: [event], health: { careBefore65: 0 } }))
  }
  expect(handedOver(after('death')).slice(2, 5)).toEqual([400, 900, 0])
  expect(handedOver(after('separation')).slice(2, 5)).toEqual([400, 0, 0])
  for (const kind of ['death', 'separation'] as const)
    expect(held(after(kind)).slice(2, 5)).toEqual([900, 0, 0])
})

test('tax is on what it earns, whether it is handed over or kept', () => {
  const years = (venture: Partial<Venture>) => project(bindery(venture)).years.map((one) => one.sideProfit)
  expect(years({ perMonth: 400, keeps: 3000 })).toEqual([4800, 4800])
  expect(years({ perMonth: 400 })).toEqual([4800, 4800])
})

test('a month opened shows what was earned and what was kept', () => {
  const plan = bindery({ perMonth: 400, keeps: 1000 })
  const group = traceMonth(plan, project(plan), '2026-01')!.find(({ title }) => title === 'Other income')!
  expect(group.total).toBe(0)
  expect(group.lines.filter(({ dollars }) => dollars !== 0)).toMatchObject([
    { name: 'Side ventures after their costs', dollars: 400 },
    { name: 'Kept by side ventures for their work', dollars: -400 },
  ])
})
