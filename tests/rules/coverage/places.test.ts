// Places: counties and their rating areas, what the marketplace charges there, and up to which income a state covers whom.
import { expect, test } from 'vitest'
import { coverageLimits, limitNames } from '#rules/coverage/coverage-limits.ts'
import { countiesOf, countyNamed, ratingAreaOf, regionOf } from '#rules/places/counties.ts'
import { countyPremiums } from '#rules/places/county-premiums.ts'
import { stateCodes } from '#rules/places/state-names.ts'

test('every state has counties, and every county a rating area; capitals and the word County are not needed', () => {
  for (const state of stateCodes) {
    const counties = countiesOf(state)
    expect(counties.length, state).toBeGreaterThan(0)
    expect(new Set(counties).size, state).toBe(counties.length)
    for (const county of counties) expect(ratingAreaOf({ state, county }), county).toBeGreaterThan(0)
  }
  // CMS, Pennsylvania geographic rating areas (from memory): area 8 is Philadelphia and the four counties around it.
  for (const county of ['Philadelphia', 'bucks county', 'Chester', 'Delaware', 'Montgomery'])
    expect(ratingAreaOf({ state: 'PA', county })).toBe(8)
  expect(countyNamed('PA', 'mckean')).toBe('McKean County')
  expect(countyNamed('NM', 'Doña Ana')).toBe('Dona Ana County')
  expect(countyNamed('PA', 'Kings')).toBeNull()
  expect(ratingAreaOf({ state: 'PA' })).toBeNull()
})

test('Alaska and Hawaii have poverty guidelines of their own (HHS, each January)', () => {
  expect([regionOf('AK'), regionOf('HI'), regionOf('DC')]).toEqual(['alaska', 'hawaii', 'contiguous'])
})

test('published premiums of a child become those of an adult of 21 by the state’s own curve', () => {
  const erie = countyPremiums('benchmark', { state: 'PA', county: 'Erie County' })
  expect(erie.map(({ year }) => year)).toEqual([2018, 2019, 2020, 2021, 2022, 2023, 2024, 2025, 2026])
  // 292 for a child at 0.765 of an adult of 21 (45 CFR 147.102(e)).
  expect(erie.at(-1)!.at21).toBeCloseTo(292 / 0.765, 9)
  // Alabama counts a child as 0.635, the District as 0.654 over 0.727; New York and Vermont print one adult.
  expect(countyPremiums('benchmark', { state: 'AL', county: 'Mobile' }).at(-1)!.at21).toBeCloseTo(
    315 / 0.635,
    9,
  )
  expect(
    countyPremiums('benchmark', { state: 'DC', county: 'District of Columbia' }).at(-1)!.at21,
  ).toBeCloseTo((409 * 0.727) / 0.654, 9)
  expect(countyPremiums('benchmark', { state: 'VT', county: 'Orange' }).at(-1)!.at21).toBe(1299)
  const [bronze, ...none] = countyPremiums('bronze', { state: 'AK', county: 'Juneau City and Borough' })
  expect([bronze?.year, none]).toEqual([2026, []])
  expect(bronze?.at21).toBeCloseTo(519 / 0.765, 9)
})

test('a county whose area has no published premium says none, and never another area’s', () => {
  // Florida’s area 22 is missing in the published table.
  const missing = countiesOf('FL').filter((county) => ratingAreaOf({ state: 'FL', county }) === 22)
  expect(missing).toHaveLength(1)
  expect(countyPremiums('benchmark', { state: 'FL', county: missing[0]! })).toEqual([])
})

test('limits are those in force in a month, with the five points of income that are disregarded', () => {
  // CMS, Medicaid, CHIP and BHP eligibility levels, December 2023 (from memory): Pennsylvania 215, 157, 133, children’s program 314, each + 5.
  expect(coverageLimits('PA', '2026-01')).toEqual({
    infant: 220,
    youngChild: 162,
    olderChild: 138,
    adult: 138,
    parent: 38,
    pregnant: 220,
    childrensProgram: 319,
    basic: 0,
  })
  expect(coverageLimits('TX', '2026-01')).toMatchObject({ adult: 0, parent: 19, childrensProgram: 206 })
  // The District lowered its adults’ line and began a basic health program in January 2026.
  expect([coverageLimits('DC', '2025-12').adult, coverageLimits('DC', '2026-01').adult]).toEqual([215, 138])
  expect([coverageLimits('DC', '2025-12').basic, coverageLimits('DC', '2026-01').basic]).toEqual([0, 200])
  expect(coverageLimits('NY', '2027-01').basic).toBe(200)
  for (const state of stateCodes)
    for (const name of limitNames) expect(coverageLimits(state, '2026-01')[name]).toBeLessThan(500)
})
