// A pension of a former employer in the plan: taxed without Social Security tax, for as long as its owner lives.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const course = (pay: object, more: object = {}) =>
  project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1964-03-10', planToAge: 80, claimAge: { years: 70 } }],
        pay: [{ id: 'pay', name: 'From the county', person: 'ann', perMonth: 2000, ...pay }],
        ...more,
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 }] },
      assumptions: { inflation: 0.03, wageGrowth: 0, bills: 0 },
    }),
  )

test('pays no Social Security tax, is income of the return and no earnings', () => {
  const [wages, pension] = [course({}), course({ kind: 'pension' })]
  // 7.65 percent of wages is withheld (26 USC 3101); nothing of a pension (26 USC 3121(a)(5)).
  expect(wages.months[0]!.pay).toBeCloseTo(2000 * (1 - 0.0765), 6)
  expect(pension.months[0]!.pay).toBeCloseTo(2000, 6)
  expect(pension.years[0]!.adjustedGrossIncome).toBeCloseTo(24_000, 6)
  expect(pension.years[0]!.wages).toBe(0)
  expect(pension.years[0]!.pensions).toBeCloseTo(24_000, 6)
  // Only wages earn the federal earned income credit and Social Security.
  expect(pension.years[0]!.incomeTax).toBe(wages.years[0]!.incomeTax)
})

test('rises with prices or stays the same, as told', () => {
  expect(course({ kind: 'pension' }).months[24]!.pay).toBeCloseTo(2000 * 1.03 ** 2, 6)
  expect(course({ kind: 'fixedPension' }).months[24]!.pay).toBeCloseTo(2000, 6)
})

test('counts for a state that taxes wages and leaves pensions alone: Illinois', () => {
  const place = { place: { state: 'IL' } }
  expect(course({}, place).years[0]!.stateTax).toBeGreaterThan(500)
  expect(course({ kind: 'pension' }, place).years[0]!.stateTax).toBe(0)
})

test('property tax and rent of the home reach the state’s return: Michigan’s homestead credit', () => {
  const at = (place: object) => course({}, { place: { state: 'MI', ...place } }).years[0]!.stateTax
  expect(at({}) - at({ propertyTax: 3000 })).toBeCloseTo((3000 - 0.032 * 24_000) * 0.6, 2)
  expect(at({ rent: 6000 })).toBeLessThan(at({}))
})

/** Bo, with a pension of 2,000, reaches 64 in March 2028; Ann, two years younger, lives on. */
const couple = (pay: object, more: object = {}) =>
  project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [
          { id: 'bo', name: 'Bo', born: '1964-03-10', planToAge: 64, claimAge: { years: 70 } },
          { id: 'ann', name: 'Ann', born: '1966-03-10', planToAge: 80, claimAge: { years: 70 } },
        ],
        pay: [
          { id: 'pay', name: 'From the county', person: 'bo', perMonth: 2000, kind: 'fixedPension', ...pay },
        ],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 90_000 }] },
      assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
      ...more,
    }),
  )
const payIn = ({ months }: ReturnType<typeof couple>, month: string) =>
  months.find((one) => one.month === month)!.pay

test('after its owner’s death the share goes on that the pension pays to the other, and is that one’s income', () => {
  const half = couple({ survivorShare: 0.5 })
  expect(payIn(half, '2028-03')).toBeCloseTo(2000, 6)
  expect(payIn(half, '2028-05')).toBeCloseTo(1000, 6)
  expect(payIn(couple({}), '2028-05')).toBe(0)
  expect(half.years.find(({ year }) => year === 2029)!.pensions).toBeCloseTo(12_000, 6)
  // Withheld of it as of the whole; one that rises goes on rising.
  expect(payIn(couple({ survivorShare: 0.5, withheldShare: 0.1 }), '2028-05')).toBeCloseTo(900, 6)
  const rising = couple(
    { survivorShare: 0.5, kind: 'pension' },
    { assumptions: { inflation: 0.03, wageGrowth: 0, bills: 0 } },
  )
  expect(payIn(rising, '2029-01')).toBeCloseTo(1000 * 1.03 ** 3, 6)
})

test('who parted from its owner gets nothing of it', () => {
  const parted = couple(
    { survivorShare: 0.5 },
    { events: [{ kind: 'separation', person: 'bo', month: '2027-01' }] },
  )
  expect(payIn(parted, '2028-05')).toBe(0)
})
