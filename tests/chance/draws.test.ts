import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { drawMonthsOfLife, drawWorkSpells, monthsOfLifeAt } from '#chance/draws/life-draws.ts'
import { drawBlocks } from '#chance/draws/market-draws.ts'
import { openStream } from '#chance/draws/random-stream.ts'
import { drawCommonSeason, drawFactors, drawSeasons } from '#chance/draws/season-draws.ts'

const seed = 4_711

describe('drawn years of history', () => {
  test('go on to the next year of history within a block and wrap at its end', () => {
    const places = drawBlocks(openStream(seed, 0, 'market'), 10, 1e9, 25)
    for (let year = 1; year < 25; year += 1) expect(places[year]).toBe((places[year - 1]! + 1) % 10)
  })

  test('are the same for a longer plan as far as the shorter one goes', () => {
    const long = drawBlocks(openStream(seed, 5, 'market'), 152, 5, 60)
    expect(drawBlocks(openStream(seed, 5, 'market'), 152, 5, 20)).toEqual(long.slice(0, 20))
  })

  test('last five years together on average when so asked', () => {
    let blocks = 0
    for (let path = 0; path < 500; path += 1) {
      const places = drawBlocks(openStream(seed, path, 'market'), 1_000_000, 5, 100)
      for (let year = 1; year < 100; year += 1) if (places[year] !== places[year - 1]! + 1) blocks += 1
    }
    // 49,500 chances of one in five; sd 89.
    expect(Math.abs(blocks - 9_900)).toBeLessThan(5 * 89)
  })
})

describe('seasons', () => {
  test('have mean one, their own spread and the stated correlation', () => {
    const n = 40_000
    const common = new Float64Array(1)
    const [garlic, lamb] = [new Float64Array(1), new Float64Array(1)]
    const sums = { garlic: 0, garlicLog: 0, lamb: 0, product: 0 }
    for (let path = 0; path < n; path += 1) {
      common.set(drawCommonSeason(openStream(seed, path, 'season'), 1))
      drawSeasons(common, { logSd: 0.3, together: 0.5 }, openStream(seed, path, 'enterprise', 1), garlic)
      drawSeasons(common, { logSd: 0.1, together: 0.5 }, openStream(seed, path, 'enterprise', 2), lamb)
      const garlicZ = (Math.log(garlic[0]!) + 0.045) / 0.3
      sums.garlic += garlic[0]!
      sums.lamb += lamb[0]!
      sums.garlicLog += garlicZ ** 2
      sums.product += (garlicZ * (Math.log(lamb[0]!) + 0.005)) / 0.1
    }
    expect(Math.abs(sums.garlic / n - 1)).toBeLessThan((5 * 0.307) / Math.sqrt(n))
    expect(Math.abs(sums.lamb / n - 1)).toBeLessThan((5 * 0.1003) / Math.sqrt(n))
    expect(Math.abs(sums.garlicLog / n - 1)).toBeLessThan(5 * Math.sqrt(2 / n))
    expect(Math.abs(sums.product / n - 0.5)).toBeLessThan(5 * Math.sqrt(1.25 / n))
  })

  test('without spread are the expected course', () => {
    const factors = new Float64Array(5)
    drawSeasons(
      drawCommonSeason(openStream(seed, 1, 'season'), 5),
      { logSd: 0, together: 0.5 },
      openStream(seed, 1, 'enterprise'),
      factors,
    )
    expect([...factors]).toEqual([1, 1, 1, 1, 1])
    drawFactors(0, openStream(seed, 1, 'care'), factors)
    expect([...factors]).toEqual([1, 1, 1, 1, 1])
  })
})

describe('lengths of life', () => {
  // Remaining years printed in table 4c6 for 2023; the standard deviation of remaining life at 65 is below 9.5 years.
  test.for([
    { sex: 'male', age: 65, years: 18.12, sd: 9.5 },
    { sex: 'female', age: 65, years: 20.66, sd: 9.5 },
    { sex: 'male', age: 40, years: 38.59, sd: 15 },
  ] as const)('of a $sex aged $age are $years years on average, as published', ({ sex, age, years, sd }) => {
    const n = 20_000
    let months = 0
    for (let path = 0; path < n; path += 1)
      months += drawMonthsOfLife(age * 12, sex, openStream(seed, path, 'life'))
    // Whole months lived are half a month short of the time lived.
    expect(Math.abs(months / n / 12 + 0.5 / 12 - years)).toBeLessThan((5 * sd) / Math.sqrt(n) + 0.02)
  })

  test('never shrink as the draw rises, nor pass the end of the table', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.0001, max: 0.9999, noNaN: true }),
        fc.double({ min: 0.0001, max: 0.9999, noNaN: true }),
        fc.integer({ min: 0, max: 1430 }),
        fc.constantFrom('male' as const, 'female' as const, 'either' as const),
        (first, second, ageMonths, sex) => {
          const sooner = monthsOfLifeAt(Math.min(first, second), ageMonths, sex)
          const later = monthsOfLifeAt(Math.max(first, second), ageMonths, sex)
          return sooner >= 0 && sooner <= later && ageMonths + later < 120 * 12
        },
      ),
      { seed: 7, numRuns: 2_000 },
    )
  })
})

describe('a spell without work', () => {
  test('begins as often as stated, within the working years', () => {
    let never = 0
    for (let path = 0; path < 10_000; path += 1) {
      const begins = new Float64Array(30).fill(Number.POSITIVE_INFINITY)
      drawWorkSpells(0.03, openStream(seed, path, 'work'), 20, begins)
      const found = begins.filter(Number.isFinite)
      if (found.length === 0) never += 1
      for (const month of found) expect(month).toBeLessThan(240)
    }
    // 0.97^20 = 0.5438 never meet one; sd of the share 0.005.
    expect(Math.abs(never / 10_000 - 0.5438)).toBeLessThan(5 * 0.005)
  })
})
