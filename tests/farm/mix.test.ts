import fc from 'fast-check'
import { beforeAll, expect, test } from 'vitest'
import { type Farm, type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { farmYear } from '#farm/farm-year.ts'
import { type MixFound, type MixQuestion, mixPath, solveMix, withMix } from '#farm/mix/mix.ts'
import { fourSeasons } from '#farm/mix/mix-frame.ts'
import { loadSolver, type Solver } from '#farm/program.ts'

let solver: Solver
beforeAll(async () => {
  solver = await loadSolver()
})

const garden: FarmInput = {
  land: 3,
  crew: [{ who: 'a', weeklyHours: 30 }],
  enterprises: [
    {
      id: 'greens',
      name: 'Greens',
      scale: 12,
      salesPerUnit: 900,
      costsPerUnit: 110,
      hoursPerUnit: 40,
      landPerUnit: 0.1,
      markets: ['saturday', 'wednesday'],
      maximumScale: 40,
    },
    {
      id: 'roots',
      name: 'Roots',
      scale: 8,
      salesPerUnit: 700,
      costsPerUnit: 60,
      hoursPerUnit: 25,
      landPerUnit: 0.2,
      markets: ['saturday', 'stand'],
      maximumScale: 40,
    },
    {
      id: 'shares',
      name: 'Shares',
      scale: 20,
      salesPerUnit: 500,
      costsPerUnit: 80,
      hoursPerUnit: 15,
      landPerUnit: 0.02,
      maximumScale: 30,
      wholeUnits: true,
    },
  ],
  markets: [
    { id: 'saturday', name: 'Saturday', trips: 4, salesPerTrip: 320, feePerTrip: 20, hoursPerTrip: 8 },
    {
      id: 'wednesday',
      name: 'Wednesday',
      trips: 4,
      salesPerTrip: 150,
      feePerTrip: 15,
      hoursPerTrip: 8,
      followShare: 0.5,
    },
    { id: 'stand', name: 'Stand', trips: 1, salesPerTrip: 400, hoursPerTrip: 3 },
  ],
  overheads: [{ id: 'o', name: 'Overheads', costs: 3000, hours: 100 }],
}
const read = (input: FarmInput = garden): Farm => farmSchema.parse(input)
const ask = (farm: Farm, question: Partial<MixQuestion> = {}): MixFound => {
  const found = solveMix(solver, farm, { year: 2030, kind: 'most net', ...question })
  if (found.kind !== 'found') throw new Error(found.because)
  return found
}

test('a mix lived for a year gives the net the program promised, to the cent', () => {
  const farm = read()
  for (const hours of [12, 20, 30, 45]) {
    const mix = ask(farm, { weeklyHours: { a: hours } })
    const able = { ...farm, crew: [{ who: 'a', weeklyHours: hours }] }
    const lived = farmYear(withMix(able, mix, '2031-01'), 2031)
    expect(lived.net).toBeCloseTo(mix.net, 2)
    expect(lived.hours).toBeCloseTo(mix.hours, 4)
  }
})

test('help promised for the season is paid whatever the mix, and is free to work up to its hours', () => {
  const season = Array.from({ length: 12 }, (_, k) => (k >= 5 && k <= 8 ? 24 : 0))
  const withHelp = (paid: 'all hours' | 'only when needed', weeklyHours: number) =>
    read({
      ...garden,
      crew: [{ who: 'a', weeklyHours }],
      hired: { hourlyCost: 20, weeklyHours: season, paid },
    })
  // 24 hours a week of four mean months (365.25 / 12 / 7 weeks) at 20 an hour, by hand: 417.43 × 20 = 8,348.57.
  const promised = ((24 * 365.25) / 12 / 7) * 4 * 20
  expect(promised).toBeCloseTo(8348.57, 2)
  // A crew that has hours to spare needs none of it: the same mix, and the pay is lost.
  const [idle, none] = [ask(withHelp('all hours', 200)), ask(withHelp('only when needed', 200))]
  expect(idle.net).toBeCloseTo(none.net - promised, 2)
  expect(idle.periods.every(({ hired }) => hired < 1e-6)).toBe(true)
  // A short crew: lived for a year either mix gives what was said of it, and no hour of help is worth more than it is paid.
  for (const paid of ['all hours', 'only when needed'] as const) {
    const farm = withHelp(paid, 12)
    const mix = ask(farm)
    const lived = farmYear(withMix(farm, mix, '2031-01'), 2031)
    expect(lived.net, paid).toBeCloseTo(mix.net, 2)
  }
})

test('any garden’s mix lived for a year gives the promised net', { timeout: 180_000 }, () => {
  const line = fc.record({
    scale: fc.integer({ min: 0, max: 20 }),
    salesPerUnit: fc.array(fc.integer({ min: 0, max: 150 }), { minLength: 12, maxLength: 12 }),
    costsPerUnit: fc.integer({ min: 0, max: 300 }),
    hoursPerUnit: fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 12, maxLength: 12 }),
    markets: fc.subarray(['saturday', 'wednesday', 'stand']),
  })
  const market = fc.record({
    trips: fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 12, maxLength: 12 }),
    salesPerTrip: fc.integer({ min: 50, max: 500 }),
    feePerTrip: fc.integer({ min: 0, max: 40 }),
    hoursPerTrip: fc.integer({ min: 0, max: 10 }),
    followShare: fc.constantFrom(0, 0.3, 0.8),
  })
  fc.assert(
    fc.property(
      fc.array(line, { minLength: 1, maxLength: 4 }),
      fc.tuple(market, market, market),
      (lines, markets) => {
        const farm = read({
          ...garden,
          land: 0,
          enterprises: lines.map((one, i) => ({ ...one, id: `e${i}`, name: `Line ${i}`, maximumScale: 40 })),
          markets: markets.map((one, i) => ({
            ...one,
            id: ['saturday', 'wednesday', 'stand'][i]!,
            name: `Market ${i}`,
          })),
        })
        const mix = ask(farm)
        const lived = farmYear(withMix(farm, mix, '2031-01'), 2031)
        expect(Math.abs(lived.net - mix.net)).toBeLessThan(0.5)
      },
    ),
    { seed: 20261125, numRuns: 15 },
  )
})

test('the worth of an hour is what one more hour adds to the net, by solving again', () => {
  const farm = read()
  const hours = { a: 20 }
  const before = ask(farm, { weeklyHours: hours })
  // An hour more in every month at once: the sum of the months' worths. Scales that are whole stay as they were.
  const more = 0.25
  const weeks = 365.25 / 12 / 7
  const pinned = ['shares', 'saturday', 'wednesday', 'stand']
  const held = withMix(farm, before, '2030-01')
  const atRest = ask(held, { weeklyHours: hours, pinned })
  const after = ask(held, { weeklyHours: { a: 20 + more / weeks }, pinned })
  const worth = atRest.periods.reduce((sum, one) => sum + one.worthOfHour, 0)
  expect(worth).toBeGreaterThan(0)
  expect(after.net - atRest.net).toBeCloseTo(worth * more, 4)
})

test('the worth of an acre lies between what a little more land adds and a little less takes away', () => {
  const tight = read({ ...garden, land: 1.37, crew: [{ who: 'a', weeklyHours: 60 }] })
  const pinned = ['shares', 'saturday', 'wednesday', 'stand']
  const held = withMix(tight, ask(tight), '2030-01')
  const at = (land: number) => ask({ ...held, land }, { pinned })
  const [less, before, more] = [at(1.369), at(1.37), at(1.371)]
  const worth = before.worthOfAcre! * 0.001
  expect(worth).toBeGreaterThan(0)
  expect(more.net - before.net).toBeLessThanOrEqual(worth + 1e-6)
  expect(before.net - less.net).toBeGreaterThanOrEqual(worth - 1e-6)
  expect(more.net - before.net).toBeCloseTo(worth, 4)
})

test('a pinned line and a pinned market stay as they are', () => {
  const mix = ask(read(), { pinned: ['roots', 'wednesday'], weeklyHours: { a: 22 } })
  expect(mix.lines.find((line) => line.id === 'roots')!.scale).toBeCloseTo(8, 6)
  expect(mix.markets.find((market) => market.id === 'wednesday')!.trips).toBe(48)
})

test('a path changes nothing by more than its share in any year, and each year is at least as good', () => {
  const path = mixPath(
    solver,
    read({ ...garden, land: 4, crew: [{ who: 'a', weeklyHours: 45 }] }),
    { year: 2030, kind: 'most net', largestChange: 0.1, periods: fourSeasons },
    4,
  )
  for (const one of path) if (one.kind !== 'found') throw new Error(one.because)
  const found = path.filter((one) => one.kind === 'found')
  expect(found).toHaveLength(4)
  for (const [k, year] of found.entries()) {
    for (const line of year.lines.filter((one) => one.id !== 'shares'))
      expect(Math.abs(line.scale - line.today)).toBeLessThanOrEqual(0.1 * line.today + 1e-6)
    if (k > 0) expect(year.net).toBeGreaterThanOrEqual(found[k - 1]!.net - 0.5)
  }
})

test('when no mix keeps the net at so few hours, the answer says by how much it falls short', () => {
  const answer = solveMix(solver, read(), {
    year: 2030,
    kind: 'fewest hours',
    netAtLeast: 40_000,
    weeklyHours: { a: 5 },
  })
  expect(answer.kind).toBe('limits clash')
  if (answer.kind === 'limits clash') {
    expect(answer.clashes.length).toBeGreaterThan(0)
    expect(answer.because).toContain('short by')
  }
})

test('keeping more than the land holds is named as a clash of the pinned line with the land', () => {
  const farm = read({
    ...garden,
    land: 1,
    enterprises: garden.enterprises!.map((one) => ({
      ...one,
      scale: 12,
      pinned: one.id === 'greens',
      minimumScale: one.id === 'roots' ? 2 : 0,
    })),
  })
  const answer = solveMix(solver, farm, { year: 2030, kind: 'most net' })
  expect(answer.kind).toBe('limits clash')
  if (answer.kind === 'limits clash') expect(answer.clashes.map((one) => one.limit)).toContain('land')
})

test('the fewest hours for today’s net are no more than today’s hours', () => {
  const farm = read()
  const today = farmYear(farm, 2030)
  const mix = ask(farm, { kind: 'fewest hours', netAtLeast: today.net })
  expect(mix.net).toBeGreaterThanOrEqual(today.net - 0.5)
  expect(mix.hours).toBeLessThanOrEqual(today.hours + 1e-6)
})

test('a line that takes no hours and no land and has no largest scale is named, and no mix is made up', () => {
  // 41,000 in, 17,000 out a year and nothing else known: two such farms would bring twice as much, without end.
  const asItIs = {
    id: 'whole',
    name: 'The farm as it is',
    scale: 1,
    salesPerUnit: 41_000,
    costsPerUnit: 17_000,
  }
  const phase = { from: '2033-01', name: 'Slower', weeklyHours: [{ who: 'a', hours: 15 }] }
  const only = read({ crew: [{ who: 'a' }], enterprises: [asItIs], phases: [phase] })
  const named = { kind: 'nothing limits', lines: ['The farm as it is'] }
  expect(solveMix(solver, only, { year: 2033, kind: 'most net' })).toMatchObject(named)
  // Beside a garden whose lines the hours do limit, it alone is named.
  const beside = read({ ...garden, enterprises: [...garden.enterprises!, asItIs] })
  expect(solveMix(solver, beside, { year: 2033, kind: 'most net' })).toMatchObject(named)
  // Any one limit is enough: 15 hours a week (of 365.25 / 7 / 12 weeks a month) against 480 a unit and year, 40 a month.
  const limited = read({
    crew: [{ who: 'a' }],
    enterprises: [{ ...asItIs, hoursPerUnit: 480 }],
    phases: [phase],
  })
  expect(ask(limited, { year: 2033 }).lines[0]!.scale).toBeCloseTo((15 * 365.25) / 7 / 12 / 40, 4)
  const largest = read({
    crew: [{ who: 'a' }],
    enterprises: [{ ...asItIs, maximumScale: 1 }],
    phases: [phase],
  })
  expect(ask(largest, { year: 2033 }).lines).toMatchObject([{ scale: 1 }])
  expect(ask(largest, { year: 2033 }).net).toBeCloseTo(24_000, 6)
})
