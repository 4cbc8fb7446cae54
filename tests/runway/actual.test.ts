// The plan against the books: variance by line, suggestions that are never applied by themselves, and courses that go on from real balances.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { linesPlannedIn, suggestionsFrom } from '#runway/against-books/suggestions.ts'
import { varianceOf } from '#runway/against-books/variance.ts'
import { type ActualMonth, plannedMonths } from '#runway/against-books/variance-lines.ts'
import { project } from '#runway/project.ts'
import { randomPlan } from './random-plan.ts'

const plan: Plan = planSchema.parse({
  startMonth: '2027-01',
  years: 5,
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    floor: { kind: 'dollars', dollars: 10_000 },
  },
  savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 40_000 }] },
  draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 1000 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0 },
})

const nothing = {
  living: 0,
  livingBy: {},
  care: 0,
  premiums: 0,
  taxes: 0,
  loanPayments: 0,
  loansDrawn: 0,
  cardsUnread: 0,
  owed: 0,
  things: 0,
  draws: 0,
  contributions: 0,
  reimbursements: 0,
  ventures: 0,
  lent: 0,
  pay: 0,
  benefits: 0,
  interest: 0,
  otherIncome: 0,
  setAside: 0,
  other: 0,
  spendable: 0,
  change: 0,
}

const month = (text: string, changes: Partial<ActualMonth> = {}): ActualMonth => ({
  month: text,
  ...nothing,
  living: 2200,
  draws: 900,
  spendable: 30_000,
  ...changes,
})

const against = (of: Plan, books: readonly ActualMonth[]) =>
  varianceOf(plannedMonths(of, project(of).months), books, of.assumptions.inflation)!
const pace = (of: Plan, books: readonly ActualMonth[]) => {
  const variance = against(of, books)
  return suggestionsFrom({
    plan: of,
    variance,
    books,
    linesPlanned: linesPlannedIn(of, project(of), variance),
  })
}

const half = ['2027-01', '2027-02', '2027-03', '2027-04', '2027-05', '2027-06'].map((text) => month(text))

test('months that plan and books share are compared line by line', () => {
  const variance = against(plan, half)
  expect(variance.sameMonths).toBe(true)
  expect(variance.lines.find((line) => line.name.startsWith('Living'))).toMatchObject({
    planned: 12_000,
    actual: 13_200,
    difference: 1200,
    isWorse: true,
  })
  expect(variance.lines.find((line) => line.name === 'Draws')).toMatchObject({
    planned: 6000,
    actual: 5400,
    isWorse: true,
  })
})

test('a plan that has care among its living costs has what was paid for care there; one that expects care has it apart', () => {
  const cared = half.map((one) => ({ ...one, care: 130 }))
  const told = (of: Plan) => {
    const { lines, careInLiving } = against(of, cared)
    const actual = (name: string) => lines.find((line) => line.name === name)?.actual
    return { careInLiving, living: actual('Living costs'), care: actual('Care') }
  }
  // Six months of 2,200 and 130.
  expect(told(plan)).toEqual({ careInLiving: 780, living: 13_980, care: undefined })
  const expecting = planSchema.parse({
    ...plan,
    health: { ...plan.health, careEachDependent: 0, careBefore65: 50 },
    household: {
      ...plan.household,
      people: [{ id: 'ida', name: 'Ida', born: '1980-05-01', planToAge: 90 }],
    },
  })
  expect(told(expecting)).toEqual({ careInLiving: 0, living: 13_200, care: 780 })
})

test('a plan that begins after the books end is compared by its first months', () => {
  const variance = against(plan, [month('2026-11'), month('2026-12')])
  expect(variance.sameMonths).toBe(false)
  expect(variance.planned).toEqual({ from: '2027-01', to: '2027-02' })
})

test('half a year of books suggests their pace, and leaves the plan as it is', () => {
  const before = structuredClone(plan)
  const suggestions = pace(plan, half)
  expect(plan).toEqual(before)
  expect(suggestions).toHaveLength(2)
  expect(suggestions[0]!.plan.household.living[0]!.perMonth).toBe(2200)
  expect(suggestions[1]!.plan.draw).toMatchObject({
    steps: [
      { from: '2027-01', perMonth: 1000 },
      { from: '2027-07', perMonth: 900 },
    ],
  })
  expect(pace(plan, half.slice(0, 3))).toEqual([])
})

test('whatever the plan, its lines add up to the change in cash and taxable accounts over the months compared', () => {
  fc.assert(
    fc.property(randomPlan(), fc.nat(40), (drawn, from) => {
      const { months } = project(drawn)
      const books = months.slice(from, from + 12).map((one) => month(one.month))
      const variance = varianceOf(plannedMonths(drawn, months), books, 0)
      if (variance === null) return
      const sum = variance.lines.reduce((all, line) => all + (line.isCost ? -line.planned : line.planned), 0)
      // A line of less than half a cent is left out.
      expect(Math.abs(sum - variance.change.planned)).toBeLessThan(0.05)
    }),
    { seed: 20261128, numRuns: 60 },
  )
})

/** A house of 980 a month in food and 2,000 in the rest, with a roof of 20,000 planned for March. */
const roof: Plan = planSchema.parse({
  ...plan,
  household: {
    ...plan.household,
    living: [
      { id: 'food', name: 'Food', perMonth: 980 },
      { id: 'rest', name: 'The rest', perMonth: 2000 },
    ],
    oneOffs: [{ id: 'roof', name: 'Roof', month: '2027-03', cost: 20_000 }],
  },
})
const spending = (living: number, more: Partial<ActualMonth> = {}) =>
  half.map((one) => ({ ...one, draws: 1000, living, ...more }))
const suggested = (books: readonly ActualMonth[], of = roof) => pace(of, books)

test('spending exactly as planned with the roof put off is no lower cost of living', () => {
  expect(suggested(spending(2980))).toEqual([])
})

test('the roof booked among living costs is no higher cost of living, and one bought as a lasting thing is none either', () => {
  expect(suggested(spending(2980).map((one, k) => (k === 2 ? { ...one, living: 22_980 } : one)))).toEqual([])
  expect(suggested(spending(2980).map((one, k) => (k === 2 ? { ...one, things: 20_000 } : one)))).toEqual([])
})

test('care spent beside living costs leaves the living lines alone; living a tenth dearer raises each by a tenth', () => {
  const house: Plan = { ...roof, household: { ...roof.household, oneOffs: [] } }
  expect(suggested(spending(2980, { care: 800 }), house)).toEqual([])
  const [dearer] = suggested(spending(3278, { care: 800 }), house)
  expect(dearer!.plan.household.living.map((line) => line.perMonth)).toEqual([1078, 2200])
})

test('books of the year before the plan are held against it in the plan’s prices', () => {
  const later: Plan = { ...roof, assumptions: { ...roof.assumptions, inflation: 0.1 } }
  const books = spending(2980 / 1.1).map((one, k) => ({ ...one, month: `2026-0${k + 1}` }))
  const variance = against(later, books)
  expect(variance.sameMonths).toBe(false)
  expect(pace(later, books)).toEqual([])
})

test('a line is suggested by the account of its name, the other lines by what is left, each alone', () => {
  const house: Plan = planSchema.parse({
    ...plan,
    household: {
      ...plan.household,
      living: [
        { id: 'groceries', name: 'Groceries', perMonth: 600 },
        { id: 'utilities', name: 'Utilities', perMonth: 200 },
        { id: 'clothes', name: 'Clothes', perMonth: 100 },
        { id: 'else', name: 'All else', perMonth: 900 },
      ],
    },
  })
  // Groceries 720 of 600, utilities as planned; of the 1,000 in lines that no account is called by, 900.
  const books = half.map((one) => ({
    ...one,
    draws: 1000,
    living: 1820,
    livingBy: { Groceries: 720, Utilities: 200, Clothing: 90, 'Free time': 810 },
  }))
  const found = pace(house, books)
  expect(found.map(({ id }) => id)).toEqual(['living-groceries', 'others'])
  const amounts = (place: number) => found[place]!.plan.household.living.map((line) => line.perMonth)
  expect(amounts(0)).toEqual([720, 200, 100, 900])
  expect(amounts(1)).toEqual([600, 200, 90, 810])
})
