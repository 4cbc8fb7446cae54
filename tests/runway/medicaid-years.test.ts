// Medicaid is found from the whole of the expected income, withdrawals with it, and nobody stays on it for a second year above its line.
import { expect, test } from 'vitest'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { coverageKinds } from '#rules/coverage/coverage-kinds.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { makeBuffers } from '#runway/course-buffers.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { type CourseShocks, expectedShocks } from '#runway/shocks.ts'

/** Kinds of coverage by year, each once, of the named member; with the run's figures. */
const courseOf = (input: PlanInput, change: (shocks: CourseShocks) => void = () => {}) => {
  const plan: Plan = planSchema.parse(input)
  const compiled = compilePlan(plan, publishedRules(plan))
  const buffers = makeBuffers(compiled, ['premiums', 'withdrawnTraditional', 'advanceCredit'])
  const shocks = expectedShocks(compiled.shape)
  change(shocks)
  runCourse(compiled, shocks, buffers)
  const kindsOf = (id: string) => {
    const i = compiled.coverage.members.findIndex((one) => one.id === id)
    return Array.from({ length: Math.floor(buffers.endMonth / 12) }, (_, y) => [
      ...new Set(
        Array.from(
          { length: 12 },
          (__, k) => coverageKinds[buffers.coverage[i * compiled.months + y * 12 + k]!],
        ),
      ),
    ])
  }
  return { compiled, buffers, kindsOf }
}

const monthlyPaid = ({ months }: { months: { premiums: Float64Array } }) => months.premiums[0]!

/** Sixty years old, 5,000 a month to live on, 5,000 in cash and 800,000 in a traditional account. */
const fromTraditional = (change: Partial<PlanInput> = {}): PlanInput => ({
  startMonth: '2026-01',
  household: {
    people: [{ id: 'a', name: 'A', born: '1966-01-01', planToAge: 80 }],
    living: [{ id: 'l', name: 'L', perMonth: 5000 }],
  },
  health: {
    marketplace: { members: [{ person: 'a' }], benchmarkAt21: 400, planAt21: 400 },
    medicaidExpansion: true,
  },
  savings: {
    accounts: [
      { id: 's', name: 'S', kind: 'cash', balance: 5000 },
      { id: 't', name: 'T', kind: 'traditional', owner: 'a', balance: 800_000 },
    ],
    spendOrder: ['cash', 'traditional'],
  },
  ...change,
})

test('who lives from a traditional account is expected to: 55,000 of 60,000 is income, far above 22,025', () => {
  // Twelve months of 5,000 less 5,000 of cash; 138 percent of 15,960 is 22,024.80.
  const { kindsOf, buffers } = courseOf(fromTraditional())
  expect(kindsOf('a').slice(0, 4)).toEqual([
    ['marketplace'],
    ['marketplace'],
    ['marketplace'],
    ['marketplace'],
  ])
  // At 60 the federal curve is 2.714; 55,000 and more are under 400 percent of 15,650, so a credit pays a part.
  expect(buffers.months.premiums[0]! + buffers.months.advanceCredit[0]!).toBeCloseTo(400 * 2.714, 6)
})

test('cash lasts the first year on Medicaid; as it runs out the withdrawals are foreseen', () => {
  const { kindsOf } = courseOf(
    fromTraditional({
      savings: {
        accounts: [
          { id: 's', name: 'S', kind: 'cash', balance: 70_000 },
          { id: 't', name: 'T', kind: 'traditional', owner: 'a', balance: 800_000 },
        ],
        spendOrder: ['cash', 'traditional'],
      },
    }),
  )
  // 2026 needs 60,000 of 70,000 in cash; 2027 needs 61,500 and finds some 12,000.
  expect(kindsOf('a').slice(0, 3)).toEqual([['Medicaid'], ['marketplace'], ['marketplace']])
})

test('a one-off that comes in lowers what is taken out: 60,000 less 5,000 and 30,000 leaves 25,000 of income', () => {
  const { kindsOf, buffers } = courseOf({
    ...fromTraditional(),
    household: {
      ...fromTraditional().household,
      oneOffs: [{ id: 'o', name: 'Gift', month: '2026-01', cost: -30_000 }],
    },
  })
  expect(buffers.years.householdIncome[0]).toBeCloseTo(25_000 + 12 * monthlyPaid(buffers), 0)
  expect(kindsOf('a')[0]).toEqual(['marketplace'])
})

test('a year that ends beyond the line costs nothing after, and the next one begins with its income', () => {
  // 18,000 of farm sales are 104 percent of 17,250 or so less half the self-employment tax: Medicaid. Two seasons bring twice that.
  const plan: PlanInput = {
    startMonth: '2026-01',
    household: {
      people: [{ id: 'a', name: 'A', born: '1976-06-01', planToAge: 60 }],
      living: [{ id: 'l', name: 'L', perMonth: 1500 }],
    },
    health: {
      marketplace: { members: [{ person: 'a' }], benchmarkAt21: 400, planAt21: 400 },
      medicaidExpansion: true,
    },
    farm: {
      crew: [{ who: 'a', weeklyHours: 40 }],
      enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 18_000 }],
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 100_000 }] },
    assumptions: { inflation: 0, bills: 0 },
  }
  const { kindsOf, buffers } = courseOf(plan, (shocks) => shocks.season.set([2, 2, 1, 1]))
  expect(buffers.years.householdIncome[0]).toBeGreaterThan(22_024.8)
  expect(buffers.years.householdIncome[1]).toBeGreaterThan(22_024.8)
  // 2027 starts from 2026’s real income though 18,000 is expected; 2028 from what is expected, as 2027 was no program’s year.
  expect(kindsOf('a').slice(0, 4)).toEqual([['Medicaid'], ['marketplace'], ['Medicaid'], ['Medicaid']])
  expect(buffers.months.premiums.slice(0, 12).every((premium) => premium === 0)).toBe(true)
  expect(buffers.months.premiums[12]).toBeGreaterThan(0)
})

/** 18,000 of farm profit; what a truck still fetches in 2025 is expected by nobody, and takes that year beyond the line. */
const withTruckSold = (worth: number, change: Partial<PlanInput['savings']> = {}): PlanInput => ({
  startMonth: '2025-01',
  household: {
    people: [{ id: 'a', name: 'A', born: '1976-06-01', planToAge: 60 }],
    living: [{ id: 'l', name: 'L', perMonth: 1500 }],
  },
  health: {
    marketplace: { members: [{ person: 'a' }], benchmarkAt21: 400, planAt21: 400 },
    medicaidExpansion: true,
  },
  farm: {
    crew: [{ who: 'a', weeklyHours: 40 }],
    enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 18_000 }],
    purchases: [
      {
        id: 'truck',
        name: 'Truck',
        timing: 'dated',
        month: '2023-06',
        cost: 0,
        usefulYears: 2,
        worksAfterMonths: 1,
        valueAtEnd: worth,
      },
    ],
  },
  savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 100_000 }], ...change },
  tax: { method: 'law' },
  assumptions: { inflation: 0, wageGrowth: 0, premiumGrowth: 0, bills: 0 },
})

test('the year after is expected at just the income of the one beyond the line, though more income leaves more premiums to deduct', () => {
  // 18,000 × 0.9235 × 15.3% are 2,543.32, half of it 1,271.66: 16,728.34, which is Medicaid’s; with 30,000 for the truck 46,728.34.
  const { kindsOf, buffers } = courseOf(withTruckSold(30_000))
  expect(buffers.years.householdIncome[0]).toBeCloseTo(46_728.34, 2)
  expect(kindsOf('a').slice(0, 2)).toEqual([['Medicaid'], ['marketplace']])
  // 298% of 15,650 asks for 9.90% (Rev. Proc. 2025-25: 8.44 to 9.96 from 250 to 300): 4,626.11. At 49 the curve is 1.706: 682.40 a month.
  expect(buffers.months.advanceCredit[12]).toBeCloseTo(682.4 - 4626.11 / 12, 2)
})

test('a conversion of years that are over changes nothing of what is expected after a year beyond the line', () => {
  const accounts = [
    { id: 's', name: 'S', kind: 'cash' as const, balance: 100_000 },
    { id: 't', name: 'T', kind: 'traditional' as const, owner: 'a', balance: 1000 },
    { id: 'r', name: 'R', kind: 'roth' as const, owner: 'a', balance: 0 },
  ]
  const conversions = [{ id: 'c', from: 't', into: 'r', upTo: 'amount' as const, perYear: 500, toYear: 2024 }]
  const plain = courseOf(withTruckSold(30_000, { accounts })).buffers
  const after = courseOf(withTruckSold(30_000, { accounts, conversions })).buffers
  expect([...after.months.advanceCredit]).toEqual([...plain.months.advanceCredit])
})

test.for([
  ['none', 'none'],
  ['share', 'share'],
] as const)('tax as %s switches no cover and no credit off', ([method]) => {
  const byLaw = courseOf(fromTraditional())
  const other = courseOf(fromTraditional({ tax: { method } }))
  expect(other.kindsOf('a').slice(0, 2)).toEqual(byLaw.kindsOf('a').slice(0, 2))
  expect(other.buffers.months.advanceCredit[0]).toBeGreaterThan(0)
  expect(other.buffers.years.premiumTaxCredit[0]).toBeGreaterThan(0)
})
