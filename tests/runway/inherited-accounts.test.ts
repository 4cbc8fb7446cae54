// A retirement account inherited from somebody, in the plan: what comes out, when, its tax, and what it must not be.
import { expect, test } from 'vitest'
import { doubtsOf } from '#plan/doubts.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

type AccountInput = NonNullable<NonNullable<PlanInput['savings']>['accounts']>[number]

/** Ann, 51 in 2026, with 400,000 in cash, 3,000 of costs a month, and what her father left her in May 2024. */
const planWith = (account: Partial<AccountInput>, more: Partial<PlanInput> = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1975-03-10', planToAge: 75 }],
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 400_000 },
        {
          id: 'fathers',
          name: 'From father',
          kind: 'traditional',
          owner: 'ann',
          balance: 100_000,
          inherited: 'tenYears',
          inheritedIn: '2024-05',
          inheritedFromBorn: 1944,
          ...account,
        },
      ],
      spendOrder: ['cash', 'fathers'],
    },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
    ...more,
  })
const yearsOf = (account: Partial<AccountInput>, more: Partial<PlanInput> = {}) =>
  project(planWith(account, more)).years.map(({ year, retirementIncome }) => [
    year,
    Math.round(retirementIncome),
  ])

// Divisor 36.2 at 50 in 2025; 35.2 in 2026, 34.2 in 2027 … The tenth year, 2034, takes what is left.
test('ten years: the yearly minimum of one who had begun, and the rest in the tenth year, as income without the early addition', () => {
  const years = yearsOf({})
  expect(years[0]).toEqual([2026, Math.round(100_000 / 35.2)])
  expect(years[1]).toEqual([2027, Math.round((100_000 - 100_000 / 35.2) / 34.2)])
  const taken = years.reduce((sum, [, amount]) => sum + amount!, 0)
  expect(taken).toBeGreaterThan(99_995)
  expect(taken).toBeLessThan(100_005)
  expect(years[8]![1]).toBeGreaterThan(70_000)
  expect(years[9]![1]).toBe(0)
  const filed = project(planWith({}))
  // 2034: 73,000 less the deduction of one, no tenth for taking it early at 59.
  expect(filed.years[8]!.tax).toBeLessThan(0.16 * filed.years[8]!.retirementIncome)
})

test('evenly: the same part of what is left over the years left, for less tax in all', () => {
  const evenly = yearsOf({ inheritedTaken: 'evenly' })
  for (const [, amount] of evenly.slice(0, 9)) expect(Math.abs(amount! - 100_000 / 9)).toBeLessThan(1)
  const taxOf = (account: Partial<AccountInput>) =>
    project(planWith(account)).years.reduce((sum, { tax }) => sum + tax, 0)
  expect(taxOf({ inheritedTaken: 'evenly' })).toBeLessThan(taxOf({}) - 1000)
})

test('a Roth account: out by the tenth year, none of it income', () => {
  const plan = planWith({ kind: 'roth', basis: 0 })
  const { years, months } = project(plan)
  expect(years.every(({ retirementIncome }) => retirementIncome === 0)).toBe(true)
  expect(months.find(({ month }) => month === '2033-12')!.roth).toBe(100_000)
  expect(months.find(({ month }) => month === '2034-01')!.roth).toBe(0)
})

test('taken early to live on it bears no addition, where her own account would', () => {
  const only = (account: Partial<AccountInput>) => {
    const plan = planWith(account)
    plan.savings.accounts[0]!.balance = 5000
    return project(plan).years[0]!
  }
  const [inherited, own] = [
    only({}),
    only({ inherited: undefined, inheritedIn: undefined, inheritedFromBorn: undefined }),
  ]
  expect(inherited.retirementIncome).toBeGreaterThan(25_000)
  expect(own.tax - inherited.tax).toBeGreaterThan(0.1 * 25_000)
})

test('her own required distributions and contributions are another matter', () => {
  // 76 in 2051: nothing of hers must come out of the inherited one beside its own rule.
  const old = { household: { people: [{ id: 'ann', name: 'Ann', born: '1950-03-10', planToAge: 80 }] } }
  const [first] = yearsOf({ inherited: 'lifetime', inheritedIn: '2025-05', inheritedFromBorn: 1952 }, old)
  // 76 in the year after the death: 14.1 years; no distribution by the Uniform Lifetime Table (23.7) comes on top.
  expect(first).toEqual([2026, Math.round(100_000 / 14.1)])
  const saving = planWith(
    {},
    {
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1975-03-10', planToAge: 60 }],
        pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 9000 }],
      },
    },
  )
  saving.savings.reserveMonths = 0
  saving.savings.surplusToRetirement = 1
  expect(project(saving).months[11]!.traditional).toBeLessThan(100_000)
})

test('after the heir’s death a life’s payments end within ten years', () => {
  const couple = {
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1975-03-10', planToAge: 55 },
        { id: 'bo', name: 'Bo', born: '1990-03-10', planToAge: 80 },
      ],
    },
  }
  const { months } = project(
    planWith({ inherited: 'lifetime', inheritedIn: '2025-05', inheritedFromBorn: 1974 }, couple),
  )
  // Ann reaches 55 in March 2030: all of it is out in 2040.
  expect(months.find(({ month }) => month === '2039-12')!.traditional).toBeGreaterThan(40_000)
  expect(months.find(({ month }) => month === '2040-01')!.traditional).toBe(0)
})

test('what an inherited account cannot be is refused at its field', () => {
  const at = (account: Partial<AccountInput>, contributes = false) => {
    const plan = planWith(account)
    if (contributes) plan.savings.contributions = [{ id: 'c', account: 'fathers', perMonth: 100 }]
    return doubtsOf(plan, '2026-11-25').map(({ path, asks }) => `${path[3]}${asks ? '?' : ''}`)
  }
  expect(at({})).toEqual([])
  expect(at({ kind: 'cash' })).toEqual(['inherited'])
  expect(at({ inheritedIn: undefined })).toEqual(['inheritedIn'])
  expect(at({ inheritedIn: '2027-05' })).toEqual(['inheritedIn'])
  expect(at({ inheritedFromBorn: 2025 })).toEqual(['inheritedFromBorn'])
  expect(at({ inheritedIn: '2018-05' })).toEqual(['inherited?'])
  expect(at({ evenPaymentsFrom: '2027-01' })).toEqual(['evenPaymentsFrom'])
  expect(at({}, true)).toEqual(['inherited'])
  expect(at({ inherited: 'lifetime', inheritedIn: '2012-05' })).toEqual([])
})

test('in the year of the death nothing must come out, evenly or not', () => {
  const first = (inheritedTaken: 'least' | 'evenly') =>
    yearsOf({ inheritedIn: '2026-01', inheritedFromBorn: undefined, inheritedTaken }).slice(0, 2)
  expect(first('evenly')).toEqual([
    [2026, 0],
    [2027, 10_000],
  ])
  expect(first('least')[0]).toEqual([2026, 0])
})
