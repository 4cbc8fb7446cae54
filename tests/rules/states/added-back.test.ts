// What a state adds to the income it starts from and what it takes off stand as such in the trace: a line of parts adds up to its amount.
import { expect, test } from 'vitest'
import { emptyHouseholdYear } from '#rules/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { stateLawFor } from '#rules/states/state-law.ts'
import { still } from './given-figures.ts'

// Michigan adds back half of self-employment tax (MCL 206.30; MI-1040 Schedule 1). An invented grower alone.
test('Michigan’s income is the federal one and the half of self-employment tax added to it', () => {
  const household = {
    ...emptyHouseholdYear(),
    farmProfit: [30_000, 0],
    farmGross: [60_000, 0],
    state: stateLawFor('MI', 2025, still, 0),
  }
  const { figures, state } = fileReturn(lawFor(2025, still), household)
  const line = state!.trace.find(({ figure }) => figure === 'stateAdjustedGrossIncome')!
  const half = 30_000 * 0.9235 * 0.153 * 0.5
  expect(line.inputs['income the state starts from']).toBeCloseTo(figures.adjustedGrossIncome, 2)
  expect(line.inputs['added to it: deducted half of self-employment tax']).toBeCloseTo(half, 1)
  expect(line.amount).toBeCloseTo(figures.adjustedGrossIncome + half, 1)
})

// An invented couple with pay of 40,000 and 50,000.
const twoPaid = (state: 'KY' | 'VA') => {
  const household = {
    ...emptyHouseholdYear(),
    status: 1,
    people: 2,
    wages: [40_000, 50_000],
    state: stateLawFor(state, 2025, still, 0),
  }
  const { trace } = fileReturn(lawFor(2025, still), household).state!
  return (figure: string) => trace.find((line) => line.figure === figure)!
}

// Kentucky 2025: 4 % (KRS 141.020), a standard deduction of 3,270 on each column of the combined return (Form 740). On one
// column (90,000 - 3,270) x 4 % = 3,469.20, on two 36,730 x 4 % + 46,730 x 4 % = 3,338.40.
test('where spouses file apart on one form, the line says what that takes off', () => {
  const line = twoPaid('KY')('stateTaxBeforeCredits')
  expect(line.inputs).toEqual({
    bySchedule: 3469.2,
    'each spouse’s income on a column of its own': -130.8,
  })
  expect(line.amount).toBe(3338.4)
})

// Virginia 2025 (Form 760, Spouse Tax Adjustment): 17,000 of the lesser income goes through the low rows a second time: 720 of
// tax on it instead of 17,000 x 5.75 % = 977.50, so 257.50 less. Taxable 90,000 - 17,500 - 2 x 930 = 70,640: 720 + 53,640 x 5.75 % = 3,804.30.
test('what two incomes give as a credit stands among the credits', () => {
  const line = twoPaid('VA')
  expect(line('stateTaxBeforeCredits').inputs).toEqual({ bySchedule: 3804.3 })
  expect(line('stateIncomeTax').inputs).toMatchObject({ 'two incomes in parts on the schedule': 257.5 })
  expect(line('stateIncomeTax').amount).toBe(3546.8)
})
