// A full joint return with marketplace cover: what a projection pays for each household and year, and what the trace adds.
import { steadyIndexing } from '#rules/dated.ts'
import { emptyHouseholdTax, emptyHouseholdYear, type HouseholdYear } from '#rules/household-year.ts'
import { type LawYear, lawFor } from '#rules/law.ts'
import { stateCodes } from '#rules/places/state-names.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { emptyReturnLines, workReturn } from '#rules/return/return-lines.ts'
import { fillStateReturn } from '#rules/states/fill-return.ts'
import { emptyReturnForm, firstFreePlace } from '#rules/states/return-form.ts'
import { stateLawFor, stateTaxOf } from '#rules/states/state-law.ts'
import { type Benches, type BenchRow, medianProcessorMilliseconds } from './bench.ts'

const returns = 100_000

export const benches: Benches = { law: run }

async function run(): Promise<BenchRow[]> {
  const law = lawFor(2026, steadyIndexing(0.025))
  const out = emptyHouseholdTax()
  const households = Array.from({ length: 64 }, (_, index) => jointHousehold(index))
  const bare = await medianProcessorMilliseconds(() => {
    for (let index = 0; index < returns; index += 1) assessHousehold(law, households[index % 64]!, out)
  })
  const traced = await medianProcessorMilliseconds(() => {
    for (let index = 0; index < returns / 100; index += 1) fileReturn(law, households[index % 64]!)
  })
  const loop = await medianProcessorMilliseconds(() => {
    for (let index = 0; index < returns; index += 1) out.totalTax = households[index % 64]!.farmProfit[0]!
  })
  const law40 = await medianProcessorMilliseconds(() => {
    for (let year = 2026; year < 2066; year += 1) lawFor(year, steadyIndexing(0.025))
  })
  return [
    {
      what: `full joint return with cover, ${returns.toLocaleString('en-US')} times`,
      milliseconds: bare,
      floor: { what: 'the same loop without a return', milliseconds: loop },
      limit: `5 µs each (${((bare * 1000) / returns).toFixed(2)} µs)`,
      held: (bare * 1000) / returns < 5,
    },
    {
      what: `the same with its trace, ${returns / 100} times`,
      milliseconds: traced,
      floor: { what: 'as many without trace', milliseconds: bare / 100 },
      limit: `100 µs each (${((traced * 100_000) / returns).toFixed(1)} µs)`,
      held: (traced * 100_000) / returns < 100,
    },
    { what: 'law of 40 years put together', milliseconds: law40 },
    ...(await stateRows(law, households)),
  ]
}

const stateReturns = 20_000

/** The state's return on a federal return that is worked already: the middle state and the slowest. */
const stateRows = async (law: LawYear, households: readonly HouseholdYear[]): Promise<BenchRow[]> => {
  const lines = emptyReturnLines()
  workReturn(law, households[20]!, lines, false)
  const floor = emptyReturnForm(firstFreePlace)
  const filling = await medianProcessorMilliseconds(() => {
    for (let n = 0; n < stateReturns; n += 1) fillStateReturn(law, households[20]!, lines, floor)
  })
  const times: { state: string; micro: number }[] = []
  for (const state of stateCodes) {
    const household = { ...households[20]!, state: stateLawFor(state, 2026, steadyIndexing(0.025)) }
    const milliseconds = await medianProcessorMilliseconds(() => {
      for (let n = 0; n < stateReturns; n += 1) stateTaxOf(law, household, lines)
    })
    times.push({ state, micro: (milliseconds * 1000) / stateReturns })
  }
  times.sort((a, b) => a.micro - b.micro)
  const middle = times[25]!.micro
  const slow = times.slice(-3).map(({ state, micro }) => `${state} ${micro.toFixed(2)}`)
  return [
    {
      what: `a state’s return, the middle one of 51, ${stateReturns.toLocaleString('en-US')} times`,
      milliseconds: (middle * stateReturns) / 1000,
      floor: { what: 'its figures filled in alone', milliseconds: filling },
      limit: `3 µs each (${middle.toFixed(2)} µs; ${times.filter(({ micro }) => micro <= 3).length} states within; slowest ${slow.join(', ')})`,
      held: middle <= 3,
    },
  ]
}

/** A farming couple with two children, savings and cover; profits differ so that no branch is always the same. */
const jointHousehold = (index: number): HouseholdYear => ({
  ...emptyHouseholdYear(),
  status: 1,
  people: 2,
  age: [45, 44],
  childrenUnder17: 2,
  earnedCreditChildren: 2,
  wages: [0, 9_000],
  farmProfit: [12_000 + index * 1_300.37, 4_000],
  otherSelfEmployment: [0, 2_500],
  interest: 600,
  ordinaryDividends: 1_800,
  qualifiedDividends: 1_500,
  longTermGains: 2_200,
  traditionalIra: 2_000,
  coverMonths: 12,
  deductibleMonths: 12,
  premiumMonthly: 2_000,
  benchmarkMonthly: 1_950,
  advanceMonthly: 700,
})
