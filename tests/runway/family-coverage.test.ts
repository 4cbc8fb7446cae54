// A family in the run: children in their own program, parents on the marketplace with a premium for themselves alone; a basic health
// program; family tiers; and what Health tells of a year with a death, and of premiums outside the marketplace.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { coverYears } from '#today/cover/cover-years.ts'

/** A couple of 45 and a child of 8 on pay of so much a month; nothing else comes in. Prices stand still. */
const family = (perMonth: number, change: { household?: object; health?: object } = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      place: { state: 'PA', county: 'Erie County' },
      people: [
        { id: 'a', name: 'A', born: '1980-06-10', planToAge: 60 },
        { id: 'b', name: 'B', born: '1980-06-10', planToAge: 60 },
      ],
      dependents: [{ id: 'c', name: 'C', born: '2017-06-10' }],
      living: [{ id: 'l', name: 'Living', perMonth: 1000 }],
      pay: [{ id: 'p', name: 'Pay', person: 'a', perMonth }],
      ...change.household,
    },
    health: {
      marketplace: { members: [{ person: 'a' }, { person: 'b' }, { person: 'c' }] },
      ...change.health,
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 500_000 }] },
    assumptions: { inflation: 0, bills: 0, premiumGrowth: 0 },
  } satisfies PlanInput)

const kindsIn = (plan: ReturnType<typeof family>, month = 5) =>
  Object.fromEntries(project(plan).coverage.map(({ id, months }) => [id, months[month]]))

test('at 176 percent the child is in the children’s program and the parents pay for two: 1.444 each on 381.70', () => {
  // 4,000 a month are 48,000; the guideline of 2026 for three is 27,320: 175.7 percent, above 138 and within 319.
  const plan = family(4000)
  expect(kindsIn(plan)).toEqual({ a: 'marketplace', b: 'marketplace', c: 'children’s program' })
  const [month] = project(plan).months
  expect(month!.premiums + month!.advanceCredit).toBeCloseTo((292 / 0.765) * 1.444 * 2, 6)
  expect(month!.advanceCredit).toBeGreaterThan(0)
})

test('at 105 percent all three are on Medicaid, at 340 percent all on the marketplace', () => {
  expect(kindsIn(family(2400))).toEqual({ a: 'Medicaid', b: 'Medicaid', c: 'Medicaid' })
  expect(kindsIn(family(7750))).toEqual({ a: 'marketplace', b: 'marketplace', c: 'marketplace' })
})

test('in Minnesota adults between 138 and 200 percent are in the basic health program', () => {
  const plan = family(4000, { household: { place: { state: 'MN', county: 'Clay County' } } })
  expect(kindsIn(plan)).toEqual({ a: 'basic health program', b: 'basic health program', c: 'Medicaid' })
})

test('where the family is rated, two adults alone pay twice one adult: Vermont, 1,299 each in 2026', () => {
  const plan = family(6000, { household: { place: { state: 'VT', county: 'Orange County' } } })
  // 72,000 are 263.5 percent: the child is on Medicaid to 317.
  expect(kindsIn(plan)).toEqual({ a: 'marketplace', b: 'marketplace', c: 'Medicaid' })
  const [month] = project(plan).months
  expect(month!.premiums + month!.advanceCredit).toBeCloseTo(2598, 6)
})

test('a limit that was typed goes before the state’s', () => {
  expect(
    kindsIn(
      family(4000, {
        health: {
          limits: { childrensProgram: 150 },
          marketplace: { members: [{ person: 'a' }, { person: 'b' }, { person: 'c' }] },
        },
      }),
    ).c,
  ).toBe('marketplace')
})

test('Health tells a surviving spouse’s status, and premiums beside the marketplace and among living costs', () => {
  const plan = family(4000, {
    household: {
      people: [
        { id: 'a', name: 'A', born: '1980-06-10', planToAge: 60 },
        { id: 'b', name: 'B', born: '1976-06-10', planToAge: 50 },
      ],
      living: [
        { id: 'l', name: 'Living', perMonth: 1000 },
        { id: 'h', name: 'Health insurance', perMonth: 300 },
      ],
    },
    health: { marketplace: { members: [] }, premiums: [{ id: 'd', name: 'Dental', perMonth: 60 }] },
  })
  const rows = coverYears(plan, publishedRules(plan), project(plan))
  // B dies in 2026, so that 2027 and 2028 have a surviving spouse's rates and 2029 a head of household's (26 USC 2(a)).
  expect(rows.slice(0, 4).map(({ projected }) => projected.filingStatus)).toEqual([1, 4, 4, 2])
  expect(rows[0]!.premiumsPaid).toBeCloseTo(12 * 60, 6)
  expect(rows[0]!.amongLivingCosts).toBeCloseTo(12 * 300, 6)
  expect(rows[0]!.people.find(({ id }) => id === 'b')!.cover).toMatchObject([{ kind: 'other plan', from: 1 }])
})

test('a premium that covers one person by name leaves the others to their own coverage; without a name it covers all who have none', () => {
  // B alone is on the marketplace; A pays 96 for a plan at work. 48,000 are 175.7 percent: the child is in its program.
  const paying = (person?: string) =>
    family(4000, {
      health: {
        marketplace: { members: [{ person: 'b' }] },
        premiums: [
          { id: 'w', name: 'Plan at work', perMonth: 96, deductible: false, ...(person && { person }) },
        ],
      },
    })
  expect(kindsIn(paying('a'))).toEqual({ a: 'other plan', b: 'marketplace', c: 'children’s program' })
  expect(kindsIn(paying())).toEqual({ a: 'other plan', b: 'marketplace', c: 'other plan' })
  expect(() => paying('nobody')).toThrow()
})

test('a year under way counts the months of the plan, not twelve', () => {
  const begun = planSchema.parse({
    ...family(4000),
    startMonth: '2026-09',
    tax: { ...family(4000).tax, soFar: { wages: 32_000 } },
  })
  const [row] = coverYears(begun, publishedRules(begun), project(begun))
  expect(row!.marketplaceMonths).toBe(4)
  expect(row!.steps.at(-1)!.coverMonths).toBe(4)
})

test('in pregnancy and the year after it Medicaid covers the mother further: Pennsylvania, 220 percent', () => {
  // A second child in September 2026: four people, a guideline of 33,000, and 48,000 of pay are 145 percent, above the adults' 138.
  const dependents = [
    { id: 'c', name: 'C', born: '2017-06-10' },
    { id: 'd', name: 'D', born: '2026-09-10', mother: 'a' },
  ]
  const plan = family(4000, { household: { dependents } })
  expect(kindsIn(plan)).toMatchObject({ a: 'Medicaid', b: 'marketplace' })
  // Through the month in which the twelve end, September 2027 (42 USC 1396a(e)(16), from memory).
  expect(kindsIn(plan, 20)).toMatchObject({ a: 'Medicaid', b: 'marketplace' })
  expect(kindsIn(plan, 21)).toMatchObject({ a: 'marketplace', b: 'marketplace' })
})
