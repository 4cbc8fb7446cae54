// The level of draws that is told has been drawn: what is borne at one level says nothing sure of another, where things are bought sooner
// or later for it. Farms of our own invention, each by what it bears at the level drawn.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { greatestBorne } from '#solve/greatest-borne.ts'

const found = async (first: number, bearsAt: (level: number) => number) => {
  const tried: number[] = []
  const borne = await greatestBorne(
    first,
    async (level) => {
      tried.push(level)
      return bearsAt(level)
    },
    (bears) => bears,
  )
  return { ...borne, tried }
}

test('what hangs on no level is found at once', async () => {
  expect(await found(612, () => 612.7)).toEqual({ level: 612, run: 612.7, tried: [612] })
})

test('a tractor bought at less than 62 a month leaves 47 to draw; at more it comes later and 61.6 is borne, which is none of both', async () => {
  const { level } = await found(62, (drawn) => (drawn < 62 ? 47 : 61.6))
  expect(level).toBeGreaterThan(37)
  expect(level).toBeLessThanOrEqual(47)
})

test('where more drawn lets more be borne the level is closed in on from below, to ten dollars of what it bears', async () => {
  // Bears 1,000 and three tenths of what is drawn: 1,428.57 bears itself, and 1,414.29 ten dollars more than itself.
  const bearsAt = (drawn: number) => 1_000 + 0.3 * drawn
  for (const first of [1_000, 1_420, 1_430, 2_000]) {
    const { level } = await found(first, bearsAt)
    expect(level).toBeLessThanOrEqual(1_428)
    expect(level).toBeGreaterThanOrEqual(1_414)
  }
})

test('where all that is tried is too much nothing is drawn', async () => {
  expect((await found(900, (drawn) => drawn - 1)).level).toBe(0)
  expect((await found(900, () => Number.NEGATIVE_INFINITY)).level).toBe(0)
})

test('whatever a farm bears at which level, what is told is borne at that very level, and was run', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.double({ min: -50, max: 4_000, noNaN: true }), { minLength: 1, maxLength: 12 }),
      fc.double({ min: 0, max: 5_000, noNaN: true }),
      fc.integer({ min: 1, max: 600 }),
      async (bears, first, width) => {
        const bearsAt = (drawn: number) => bears[Math.floor(drawn / width) % bears.length]!
        const { level, run, tried } = await found(first, bearsAt)
        expect(Math.max(0, bearsAt(level))).toBeGreaterThanOrEqual(level)
        expect(tried).toContain(level)
        expect(run).toBe(bearsAt(level))
        expect(tried.length).toBeLessThanOrEqual(13)
      },
    ),
    { numRuns: 300 },
  )
})
