// Money kept back, by a household counted by hand: no prices, no tax, and a farm with cash of its own.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { keptMoney } from '#today/slower-years/kept-money.ts'

const plan = (farm: object = {}) =>
  planSchema.parse({
    startMonth: '2027-01',
    years: 4,
    household: {
      people: [{ id: 'a', name: 'Ada', born: '1980-05-02', sex: 'female', planToAge: 50 }],
      living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
      floor: { kind: 'dollars', dollars: 9000 },
    },
    savings: {
      accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 62_000, mix: { bills: 1 } }],
      reserveMonths: 8,
    },
    farm,
    tax: { method: 'none' },
    assumptions: { inflation: 0, bills: 0, premiumGrowth: 0 },
  })

test('floor, emergency fund and reserve stand beside what is there as the first month ends', () => {
  const kept = keptMoney(plan({ cash: 7300, reserve: 4000 }), dollarsOfTheYear)
  // 62,000 less January's 2,500; eight months of 2,500.
  expect(kept).toMatchObject({
    month: '2027-01',
    savings: 59_500,
    floor: 9000,
    emergencyMonths: 8,
    emergency: 20_000,
  })
  expect(kept).toMatchObject({ reserve: 4000, cushion: null })
})

test('the cushion is the least that lasts from the first slower year to the plan’s end', () => {
  const crew = [{ who: 'a', weeklyHours: 40 }]
  const kept = keptMoney(
    plan({ crew, phases: [{ from: '2029-01', name: 'Less', weeklyHours: [{ who: 'a', hours: 20 }] }] }),
    dollarsOfTheYear,
  )
  // January 2029 to May 2030, the month of the age the plan runs to: 17 months of 2,500; the search goes to the next 250 dollars.
  expect(kept.cushion?.month).toBe('2029-01')
  expect(kept.cushion!.needed).toBeGreaterThanOrEqual(42_500)
  expect(kept.cushion!.needed).toBeLessThan(42_750)
  expect(kept.cushion!.savings).toBe(62_000 - 24 * 2500)
})
