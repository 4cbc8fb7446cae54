// Three households of our own invention, unlike the sample, each headline figure worked by hand: months left, tax, carry month, savings.
// Law of 2026: SE tax 26 USC 1401, 1402(a)(12); amounts of Rev. Proc. 2025-32, from memory: earned income credit at most 4,427 with one
// child and 664 with none, refundable child credit at most 1,700; section 199A(i) asks for 400, indexed.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const still = { inflation: 0, premiumGrowth: 0 }
const run = (plan: Omit<PlanInput, 'startMonth'>) => {
  const course = project(planSchema.parse({ startMonth: '2026-01', assumptions: still, ...plan }))
  const year = (of: number) => course.years.find((one) => one.year === of)!
  const month = (of: string) => course.months.find((one) => one.month === of)!
  return { ...course, year, month }
}
const cash = (balance: number): NonNullable<PlanInput['savings']> => ({
  accounts: [{ id: 'bank', name: 'Bank', kind: 'cash', balance }],
})

test('a widow with a child and goats in a state without income tax: refunds come in spring, spare farm cash holds the floor to its last month', () => {
  const { year, month, milestones } = run({
    household: {
      place: { state: 'TX', county: 'Travis County' },
      people: [{ id: 'mara', name: 'Mara', born: '1984-06-10', planToAge: 60 }],
      dependents: [{ id: 'kit', name: 'Kit', born: '2016-05-02' }],
      living: [{ id: 'home', name: 'Home', perMonth: 2200 }],
      floor: { kind: 'dollars', dollars: 10_000 },
    },
    health: { premiums: [{ id: 'plan', name: 'Plan', perMonth: 450 }] },
    savings: cash(60_000),
    farm: {
      cash: 8000,
      enterprises: [{ id: 'goats', name: 'Goats', salesPerUnit: 36_000, costsPerUnit: 16_000 }],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 1500 }] },
  })
  // 20,000 × 0.9235 × 0.153 = 2,825.91. 20,000 − 1,412.96 − 5,400 of premiums = 13,187.04: no income tax.
  expect(year(2026).selfEmploymentTax).toBeCloseTo(2825.91, 2)
  expect(year(2026).adjustedGrossIncome).toBeCloseTo(13_187.04, 1)
  // 15% of (18,587 − 2,500) is over 1,700; income is below where the 4,427 begin to fall.
  expect(year(2026).tax).toBeCloseTo(2825.91 - 1700 - 4427, 2)
  expect(year(2026).stateTax).toBe(0)
  // 60,000 + 12 × (1,500 − 2,650), and in 2027 the refund of 3,301.09 beside that.
  expect(month('2026-12').cash).toBeCloseTo(46_200, 2)
  expect(month('2027-12').cash).toBeCloseTo(46_200 - 13_800 + 3301.09, 2)
  // The child is 17 in 2033: its credit of 1,800 by then is gone.
  expect(year(2033).tax - year(2032).tax).toBeCloseTo(1800, 2)
  // Each dollar the farm ever has, 8,000 and 1,666.67 a month, is drawn by September 2032; a month later savings cannot hold.
  expect(milestones).toMatchObject({ monthsLeft: 80, floorMonth: '2032-09', carryMonth: null })
  expect(month('2031-12').spendable).toBeCloseTo(10_000, 2)
})

test('a couple of 61 and 63 with market flowers and a pension from the year he is 62', () => {
  const { year, month, milestones } = run({
    household: {
      place: { state: 'FL' },
      people: [
        { id: 'rolf', name: 'Rolf', born: '1965-03-15', planToAge: 75 },
        { id: 'dina', name: 'Dina', born: '1963-09-20', planToAge: 75 },
      ],
      living: [{ id: 'home', name: 'Home', perMonth: 3000 }],
      pay: [
        {
          id: 'pension',
          name: 'Pension',
          person: 'rolf',
          kind: 'fixedPension',
          perMonth: 2000,
          from: '2027-03',
        },
      ],
      floor: { kind: 'dollars', dollars: 20_000 },
    },
    health: {
      premiums: [{ id: 'plan', name: 'Plan', perMonth: 900, to: '2028-02' }],
      medicareFrom65: false,
    },
    savings: cash(120_000),
    farm: {
      cash: 5000,
      enterprises: [{ id: 'flowers', name: 'Flowers', salesPerUnit: 24_000, costsPerUnit: 9000 }],
    },
    draw: { policy: 'steps', steps: [{ from: '2026-01', perMonth: 1000 }] },
  })
  // Half of 15,000 each: 7,500 × 0.9235 × 0.153 = 1,059.72, twice. The plan of one of them is deducted up to what that one earned:
  // 7,500 − 529.86 = 6,970.14 of 10,800. 15,000 − 1,059.72 − 6,970.14; no tax but that, less 664 of credit.
  expect(year(2026).adjustedGrossIncome).toBeCloseTo(6970.14, 1)
  expect(year(2026).tax).toBeCloseTo(2119.44 - 664, 1)
  // 120,000 + 12 × (1,000 − 3,900), less the tax that is owed: spendable is without it.
  expect(month('2026-12').spendable).toBeCloseTo(85_200 - 1455.44, 1)
  // Ten months of pension: 20,000 more of income and of cash. The tax of 2026 is paid, that of 2027 owed: 2,119.44 for the
  // work, less the little that is left of the credit at that income.
  expect(year(2027).adjustedGrossIncome).toBeCloseTo(26_970.14, 1)
  expect(year(2027).tax).toBeGreaterThan(2000)
  expect(year(2027).tax).toBeLessThan(2119.44)
  expect(month('2027-12').spendable).toBeCloseTo(85_200 - 34_800 + 20_000 - 1455.44 - year(2027).tax, 1)
  // 24,000 + 15,000 − 1,059.72; premiums of two months are deducted whole in 2028, none after.
  expect(year(2028).adjustedGrossIncome).toBeCloseTo(37_940.28 - 1800, 1)
  expect(year(2029).adjustedGrossIncome).toBeCloseTo(37_940.28, 1)
  // At 65 both of them: 1,700 more off, and with less than 400 by rate the least deduction of a business, 415 by then.
  expect(year(2029).taxableIncome).toBeCloseTo(0.8 * (37_940.28 - 34_900), 0)
  expect(year(2030).taxableIncome).toBeCloseTo(37_940.28 - 36_600 - 415, 0)
  expect(milestones).toMatchObject({ monthsLeft: null, carryMonth: null, lowestMonth: '2038-09' })
})

test('a couple whose draws begin to pay all of it in the month their step says', () => {
  const { month, milestones } = run({
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1990-04-01', planToAge: 50 },
        { id: 'jon', name: 'Jon', born: '1991-04-01', planToAge: 50 },
      ],
      living: [{ id: 'home', name: 'Home', perMonth: 1800 }],
      loans: [{ id: 'car', name: 'Car', principal: 6030, yearlyRate: 0.12, months: 2, start: '2025-12' }],
      floor: { kind: 'months', months: 4 },
    },
    savings: cash(50_000),
    tax: { method: 'none' },
    farm: {
      cash: 3000,
      enterprises: [{ id: 'veg', name: 'Veg', salesPerUnit: 40_000, costsPerUnit: 16_000 }],
    },
    draw: {
      policy: 'steps',
      steps: [
        { from: '2026-01', perMonth: 800 },
        { from: '2028-07', perMonth: 1800 },
      ],
    },
  })
  // Two payments of 3,060.30, and 1,000 a month for 30 months: 50,000 − 6,120.60 − 30,000.
  expect(month('2028-06').spendable).toBeCloseTo(13_879.4, 2)
  expect(milestones).toMatchObject({ monthsLeft: null, carryMonth: '2028-07', lowestMonth: '2028-06' })
  expect(milestones.lowestSpendable - 4 * 1800).toBeCloseTo(6679.4, 2)
  // Of 1,800 and 3,060.30 in January and February, 800 were drawn.
  expect(month('2026-02').coverRatio).toBeCloseTo(800 / 4860.3, 6)
  // Alone from May 2040 on, three quarters of the costs and half of the farm are left.
  expect(month('2040-05').living).toBeCloseTo(1350, 6)
  expect(month('2040-05').farmSales).toBeCloseTo(40_000 / 24, 6)
})
