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
