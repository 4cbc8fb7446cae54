import { describe, expect, test } from 'vitest'
import { normalQuantile } from '#chance/draws/normal-quantile.ts'
import { openStream, partOf, type StreamFamily, streamFamilies } from '#chance/draws/random-stream.ts'

const seed = 20_261_125

describe('a random stream', () => {
  test('gives the same numbers whenever it is opened again', () => {
    const first = draw(openStream(seed, 7, 'market'), 5)
    draw(openStream(seed, 8, 'market'), 100)
    expect(draw(openStream(seed, 7, 'market'), 5)).toEqual(first)
  })

  test('keeps its first draws when the plan grows longer', () => {
    expect(draw(openStream(seed, 3, 'season'), 60).slice(0, 30)).toEqual(
      draw(openStream(seed, 3, 'season'), 30),
    )
  })

  test('starts elsewhere for each seed, path, family and part', () => {
    const firsts = new Set<number>()
    for (const family of Object.keys(streamFamilies) as StreamFamily[])
      for (let path = 0; path < 50; path += 1)
        for (const part of [0, 1, partOf('garlic'), partOf('ewes')])
          for (const someSeed of [0, 1, seed, 2 ** 32, 2 ** 53 - 1])
            firsts.add(openStream(someSeed, path, family, part).uniform())
    expect(firsts.size).toBe(10 * 50 * 4 * 5)
  })

  test('refuses a seed that is no whole number', () => {
    expect(() => openStream(1.5, 0, 'market')).toThrow('whole number')
    expect(() => openStream(-1, 0, 'market')).toThrow('whole number')
  })

  test('spreads the first draws of neighboring paths evenly (chi-square over 100 cells)', () => {
    // 100,000 draws over 100 cells: 99 degrees of freedom, mean 99, sd 14.07; five sds either side.
    const cells = new Float64Array(100)
    for (let path = 0; path < 100_000; path += 1)
      cells[Math.floor(openStream(seed, path, 'life').uniform() * 100)]! += 1
    const chiSquare = cells.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0)
    expect(Math.abs(chiSquare - 99)).toBeLessThan(5 * Math.sqrt(2 * 99))
  })

  test.for([
    ['neighboring paths', (path: number) => openStream(seed, path + 1, 'market').normal()],
    ['another family', (path: number) => openStream(seed, path, 'season').normal()],
    ['another part', (path: number) => openStream(seed, path, 'market', 1).normal()],
    ['the next seed', (path: number) => openStream(seed + 1, path, 'market').normal()],
  ] as const)('is unrelated to %s', ([, other]) => {
    // Under independence the mean of 40,000 products of two standard normals has sd 1/200: five of them.
    let sum = 0
    for (let path = 0; path < 40_000; path += 1)
      sum += openStream(seed, path, 'market').normal() * other(path)
    expect(Math.abs(sum / 40_000)).toBeLessThan(5 / 200)
  })

  test('draws normals with the moments of the standard normal', () => {
    // Standard errors for n = 200,000: mean 1/√n, variance √(2/n), third moment √(15/n), fourth √(96/n). Five of each.
    const n = 200_000
    const stream = openStream(seed, 0, 'inflation')
    const sums = [0, 0, 0, 0]
    for (let count = 0; count < n; count += 1) {
      const z = stream.normal()
      for (const power of [1, 2, 3, 4]) sums[power - 1]! += z ** power
    }
    expect(Math.abs(sums[0]! / n)).toBeLessThan(5 / Math.sqrt(n))
    expect(Math.abs(sums[1]! / n - 1)).toBeLessThan(5 * Math.sqrt(2 / n))
    expect(Math.abs(sums[2]! / n)).toBeLessThan(5 * Math.sqrt(15 / n))
    expect(Math.abs(sums[3]! / n - 3)).toBeLessThan(5 * Math.sqrt(96 / n))
  })
})

describe('the normal quantile', () => {
  // Percentage points of the normal distribution as printed in statistical tables (values from memory).
  test.for([
    [0.5, 0],
    [0.8, 0.8416212335729143],
    [0.9, 1.2815515655446004],
    [0.95, 1.6448536269514722],
    [0.975, 1.959963984540054],
    [0.995, 2.5758293035489004],
    [0.999, 3.090232306167813],
    [0.00001, -4.264890793922825],
  ] as const)('of %f is %f', ([share, value]) => {
    expect(Math.abs(normalQuantile(share) - value)).toBeLessThan(1e-14 * Math.max(1, Math.abs(value)) * 50)
  })

  test('is the mirror image about one half', () => {
    for (let share = 0.001; share < 0.5; share += 0.001)
      expect(normalQuantile(share)).toBeCloseTo(-normalQuantile(1 - share), 12)
  })
})

function draw(stream: { uniform(): number }, count: number): number[] {
  return Array.from({ length: count }, () => stream.uniform())
}
