// The fast form that projections call must give what the cent-rounded return gives.
import { expect, test } from 'vitest'
import { steadyIndexing } from '#rules/dated.ts'
import { assessHousehold } from '#rules/fast/assess-household.ts'
import { emptyHouseholdTax, type HouseholdTax, type HouseholdYear } from '#rules/fast/household-year.ts'
import { lawFor } from '#rules/law.ts'
import { fileReturn } from '#rules/return/household-return.ts'
import { randomHousehold, seeded } from './random-household.ts'

const indexing = steadyIndexing(0.025)
const laws = [2024, 2025, 2026, 2027, 2031, 2045].map((year) => lawFor(year, indexing))

/** Largest distance between two sets of figures, and where; methods must be the same word. */
const apart = (exact: HouseholdTax, fast: HouseholdTax): { by: number; at: string } => {
  let worst = { by: 0, at: '' }
  for (const [name, value] of Object.entries(exact)) {
    const other = fast[name as keyof HouseholdTax]
    const by = Array.isArray(value)
      ? Math.max(...value.map((part: number, place) => Math.abs(part - (other as number[])[place]!)))
      : Math.abs(value - (other as number))
    if (!(by <= worst.by)) worst = { by, at: name }
  }
  return worst
}

test('the fast form and the cent-rounded form agree to half a dollar on 100,000 random households', {
  timeout: 180_000,
}, () => {
  const random = seeded(20_261_125)
  const fast = emptyHouseholdTax()
  const off: { household: HouseholdYear; by: number; at: string }[] = []
  for (let index = 0; index < 100_000; index += 1) {
    const household = randomHousehold(random)
    const law = laws[index % laws.length]!
    assessHousehold(law, household, fast)
    const { by, at } = apart(fileReturn(law, household).figures, fast)
    if (!(by <= 0.5)) off.push({ household, by, at })
  }
  expect(off.slice(0, 3)).toEqual([])
})

test('a second household is not touched by what the one before left behind', () => {
  const random = seeded(7)
  const used = emptyHouseholdTax()
  for (let index = 0; index < 500; index += 1) {
    const household = randomHousehold(random)
    assessHousehold(laws[2]!, randomHousehold(random), used)
    assessHousehold(laws[2]!, household, used)
    const fresh = emptyHouseholdTax()
    assessHousehold(laws[2]!, household, fresh)
    expect(used).toEqual(fresh)
  }
})

test('law posted to a worker gives the same figures', () => {
  const random = seeded(11)
  const posted = structuredClone(laws[2]!)
  const [here, there] = [emptyHouseholdTax(), emptyHouseholdTax()]
  for (let index = 0; index < 200; index += 1) {
    const household = randomHousehold(random)
    assessHousehold(laws[2]!, household, here)
    assessHousehold(posted, household, there)
    expect(there).toEqual(here)
  }
})
