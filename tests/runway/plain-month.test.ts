// The fast kernel against the plain one: to the cent, each month, on the sample plan and on random plans.
import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { readPlanText } from '#plan/upgrade.ts'
import { filingStatuses } from '#rules/filing-status.ts'
import { project } from '#runway/project.ts'
import { assertFuzz } from '../fuzz/batches.ts'
import { randomPlan } from './random-plan.ts'
import { firstDifference } from './what-holds.ts'

test('the sample plan comes out the same to the cent in every month', () => {
  const read = readPlanText(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect(firstDifference(read.plan)).toBe(null)
}, 240_000)

test('what the second of a couple is paid evenly counts as hers in the estimate of a state that asks by age', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      place: { state: 'PA' },
      people: [
        { id: 'a', name: 'A', born: '1956-06-15', planToAge: 74 },
        { id: 'b', name: 'B', born: '1976-06-15', planToAge: 54 },
      ],
    },
    savings: {
      accounts: [
        { id: 'c', name: 'C', kind: 'cash', balance: 90_000 },
        {
          id: 't',
          name: 'T',
          kind: 'traditional',
          owner: 'b',
          balance: 600_000,
          evenPaymentsFrom: '2026-01',
        },
      ],
    },
    tax: { method: 'law' },
  })
  expect(firstDifference(plan)).toBe(null)
})

test('who lives to the end of December died in that year: two years of joint rates follow, not three', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'a', name: 'A', born: '1960-12-05', planToAge: 68 },
        { id: 'b', name: 'B', born: '1986-06-15', planToAge: 50 },
      ],
      dependents: [{ id: 'c', name: 'C', born: '2020-03-01' }],
      pay: [{ id: 'job', name: 'Job', person: 'b', perMonth: 4000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    tax: { method: 'law' },
  })
  // A is 68 in December 2028. 26 USC 2(a): a spouse who died in one of the two years before.
  const status = new Map(project(plan).years.map((one) => [one.year, filingStatuses[one.filingStatus]]))
  expect([2028, 2029, 2030, 2031].map((year) => status.get(year))).toEqual([
    'married_joint',
    'surviving_spouse',
    'surviving_spouse',
    'head_of_household',
  ])
  expect(firstDifference(plan)).toBe(null)
})

/** Cash that earns nothing, at prices that stay. */
const still = { inflation: 0, wageGrowth: 0, premiumGrowth: 0, bills: 0 }
const cashOf = (balance: number) => ({ id: 'cash', name: 'Cash', kind: 'cash' as const, balance })

// The Pennsylvania Department of Revenue's answer on code 4 of Form 1099-R: paid upon the death of the owner, it is not taxed at any age.
test('what comes out of an inherited account is no income in Pennsylvania: in its year, and in what January expects of it', () => {
  const planIn = (state: 'PA' | 'TX') =>
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        place: { state },
        people: [{ id: 'ann', name: 'Ann', born: '1975-03-10', planToAge: 53 }],
        living: [{ id: 'living', name: 'Living', perMonth: 4000 }],
        pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 3000 }],
      },
      savings: {
        accounts: [
          cashOf(5000),
          {
            id: 'aunts',
            name: 'From her aunt',
            kind: 'traditional',
            owner: 'ann',
            balance: 90_000,
            inherited: 'tenYears',
            inheritedIn: '2024-05',
            inheritedTaken: 'evenly',
          },
        ],
        spendOrder: ['traditional', 'cash'],
      },
      tax: { method: 'law' },
      assumptions: still,
    })
  const plan = planIn('PA')
  const { months, years } = project(plan)
  // A ninth of 90,000 must come out in 2026, and she takes more of it to live on: 3,000 of pay a month do not pay 4,000 of costs.
  expect(years[0]!.retirementIncome).toBeGreaterThan(12_000)
  // 3.07% of 36,000 is 1,105.20.
  expect(years[0]!.stateTax).toBeCloseTo(1105.2, 2)
  // A twelfth of that is owed at the end of January, beyond what is where no state taxes.
  const elsewhere = project(planIn('TX'))
  expect((months[0]!.taxOwed - elsewhere.months[0]!.taxOwed) * 12).toBeCloseTo(1105.2, 2)
  expect(firstDifference(plan)).toBe(null)
})

test('a plan that ends in September takes each of its months whole credit in advance', () => {
  const plan = planSchema.parse({
    startMonth: '2025-10',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1975-09-15', planToAge: 51 }],
      pay: [{ id: 'pension', name: 'Pension', person: 'ann', kind: 'fixedPension', perMonth: 5300 }],
    },
    health: { marketplace: { members: [{ person: 'ann' }], benchmarkAt21: 500, planAt21: 500 } },
    savings: { accounts: [cashOf(50_000)] },
    tax: { method: 'none' },
    assumptions: still,
  })
  const ofYear = project(plan).months.filter(({ month }) => month.startsWith('2026'))
  expect(ofYear.map(({ month }) => month).at(-1)).toBe('2026-09')
  // Nine months of 5,300 are 47,700: 304% of 15,650, of which 9.96% are asked for (Rev. Proc. 2025-25): 4,750.92 a year, 395.91 a month.
  // At 50 the federal curve is 1.786: 893 a month, of which the credit pays 497.09.
  for (const { advanceCredit, premiums } of ofYear) {
    expect(advanceCredit).toBeCloseTo(497.09, 2)
    expect(premiums).toBeCloseTo(395.91, 2)
  }
  expect(firstDifference(plan)).toBe(null)
})

test('random plans come out the same to the cent in every month', async () => {
  const property = fc.property(randomPlan(), (plan) => {
    expect(firstDifference(plan)).toBe(null)
  })
  await assertFuzz(property, 0.04, 200)
}, 1_200_000)
