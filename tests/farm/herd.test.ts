import fc from 'fast-check'
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { type Herd, herdKinds, herdSchema } from '#farm/herd/herd-document.ts'
import { type HerdMonths, herdMonths } from '#farm/herd/herd-months.ts'

const readHerd = (input: object) =>
  herdSchema.parse({
    id: 'h',
    name: 'Herd',
    kind: 'sheep',
    start: '2027-05',
    breedingFemales: 8,
    carryingLimit: 20,
    ...input,
  })

const heads = (months: HerdMonths, m: number) =>
  m < 0 ? 0 : months.breedingFemales[m]! + months.replacements[m]! + months.young[m]! + months.males[m]!

const anyHerd: fc.Arbitrary<Herd> = fc
  .record({
    kind: fc.constantFrom(...herdKinds),
    breedingFemales: fc.double({ min: 0, max: 40, noNaN: true }),
    replacements: fc.integer({ min: 0, max: 10 }),
    males: fc.integer({ min: 0, max: 2 }),
    carryingLimit: fc.integer({ min: 0, max: 60 }),
    buysReplacements: fc.boolean(),
    end: fc.option(fc.constantFrom('2031-04', '2040-11'), { nil: undefined }),
    rates: fc.record(
      {
        conception: fc.double({ min: 0, max: 1, noNaN: true }),
        birthsPerFemale: fc.double({ min: 0, max: 10, noNaN: true }),
        birthMonths: fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 3 }),
        adultLossPerYear: fc.double({ min: 0, max: 0.9, noNaN: true }),
        youngLossToWeaning: fc.double({ min: 0, max: 0.9, noNaN: true }),
        weaningAgeMonths: fc.integer({ min: 1, max: 10 }),
        saleAgeMonths: fc.integer({ min: 1, max: 30 }),
        breedingAgeMonths: fc.integer({ min: 1, max: 36 }),
        saleMonths: fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 5 }),
        youngLossToSale: fc.double({ min: 0, max: 0.9, noNaN: true }),
        cullPerYear: fc.double({ min: 0, max: 1, noNaN: true }),
        keepOfFemaleYoung: fc.double({ min: 0, max: 1, noNaN: true }),
      },
      { requiredKeys: [] },
    ),
  })
  .map((input) => readHerd(JSON.parse(JSON.stringify(input))))

test('heads in less heads out is the change of the herd, month by month', () => {
  fc.assert(
    fc.property(anyHerd, (herd) => {
      const months = herdMonths(herd, month(2027, 5), 240)
      let worst = 0
      for (let m = 0; m < 240; m += 1) {
        const into = months.born[m]! + months.boughtHeads[m]!
        const out = months.lostHeads[m]! + months.soldYoungHeads[m]! + months.culledHeads[m]!
        worst = Math.max(worst, Math.abs(heads(months, m) - heads(months, m - 1) - into + out))
      }
      expect(worst).toBeLessThan(1e-6)
    }),
    { seed: 20261125, numRuns: 300 },
  )
})

test('no class of the herd is ever negative, and breeding females never pass what the land carries', () => {
  fc.assert(
    fc.property(anyHerd, (herd) => {
      const months = herdMonths(herd, month(2027, 5), 240)
      const classes = [months.breedingFemales, months.replacements, months.young, months.males]
      expect(Math.min(...classes.map((row) => Math.min(...row)))).toBeGreaterThanOrEqual(-1e-9)
      expect(Math.max(...months.breedingFemales)).toBeLessThanOrEqual(herd.carryingLimit + 1e-9)
    }),
    { seed: 20261125, numRuns: 300 },
  )
})

test('a lower carrying limit from a date is kept from that month on', () => {
  const herd = readHerd({ carryingLimit: 30 })
  const months = herdMonths(herd, month(2027, 5), 240, [{ from: '2035-03', value: 6 }])
  const at = month(2035, 3) - month(2027, 5)
  expect(months.breedingFemales[at - 1]!).toBeGreaterThan(6)
  expect(months.breedingFemales[at]!).toBeLessThanOrEqual(6 + 1e-9)
})

test('a herd seen from a later month is the same herd', () => {
  const herd = readHerd({})
  const whole = herdMonths(herd, month(2027, 5), 120)
  const later = herdMonths(herd, month(2030, 1), 60)
  const shift = month(2030, 1) - month(2027, 5)
  expect([...later.breedingFemales]).toEqual([...whole.breedingFemales.slice(shift, shift + 60)])
})

test('a male costs as much to keep as a female, and so do young ones kept to breed', () => {
  const still = {
    birthsPerFemale: 0,
    adultLossPerYear: 0,
    cullPerYear: 0,
    femalesPerMale: 0,
    breedingAgeMonths: 24,
  }
  const herd = readHerd({
    males: 2,
    replacements: 3,
    ownedAlready: true,
    costPerFemale: 5,
    rates: still,
  })
  // Five a month for eight females, two males and three young ones kept.
  expect(herdMonths(herd, month(2027, 5), 12).costs[0]).toBeCloseTo((8 + 2 + 3) * 5, 9)
})

// Does kid in March, are weaned at two months and join at 19. Kept doelings of a start in January were born the March before: they join in
// October. Bought in May, when this spring's are at the udder, they are yearlings: they join that October too.
test('young females kept to breed are of the latest birth that is weaned, and join the herd at their age', () => {
  const still = { conception: 0, adultLossPerYear: 0, cullPerYear: 0, femalesPerMale: 0 }
  const rates = { ...still, birthMonths: [3], weaningAgeMonths: 2, breedingAgeMonths: 19 }
  const joins = (more: object, from = month(2027, 1)) => {
    const herd = readHerd({ kind: 'goats', breedingFemales: 12, carryingLimit: 20, rates, ...more })
    const { joined } = herdMonths(herd, from, 24)
    return [...joined].flatMap((heads, m) => (heads > 0 ? [[m, heads]] : []))
  }
  expect(joins({ start: '2027-01', replacements: 3 })).toEqual([[9, 3]])
  expect(joins({ start: '2027-05', replacements: 3 })).toEqual([[9, 3]])
  // In August this spring's are weaned: seventeen months after their March they are not yet of the age, nineteen after it they are.
  expect(joins({ start: '2027-08', replacements: 3 })).toEqual([[21, 3]])
  // Counted where none was expected, and of those past the age at once.
  const counts = [{ month: '2027-06', breedingFemales: 12, replacements: 2 }]
  expect(joins({ start: '2027-01', counts })).toEqual([[21, 2]])
  const early = { ...rates, breedingAgeMonths: 8 }
  expect(joins({ start: '2027-01', replacements: 3, rates: early })).toEqual([[0, 3]])
  // Without months of birth they are just weaned: 17 months more.
  expect(joins({ start: '2027-01', replacements: 3, rates: { ...rates, birthMonths: [] } })).toEqual([
    [16, 3],
  ])
})

test('a herd that is sold up leaves nothing behind', () => {
  const herd = readHerd({ end: '2030-06', prices: { cullFemale: 100, youngSold: 200 } })
  const months = herdMonths(herd, month(2027, 5), 60)
  const last = month(2030, 7) - month(2027, 5)
  expect(heads(months, last)).toBe(0)
  expect(months.cullSales[last]!).toBeGreaterThan(0)
  expect(months.costs[last]).toBe(0)
})

test('layers are bought again each year and sell eggs every month', () => {
  const herd = readHerd({
    kind: 'layers',
    breedingFemales: 100,
    carryingLimit: 100,
    buysReplacements: true,
    productPerFemale: 48,
    prices: { breedingFemale: 18, cullFemale: 4 },
  })
  const months = herdMonths(herd, month(2027, 5), 36)
  expect(months.breedingFemales[17]!).toBeGreaterThan(99)
  expect(months.sales.every((dollars) => dollars > 0)).toBe(true)
  expect(months.stockBought[17]!).toBeGreaterThan(40 * 18)
})

test('heads as they were counted stand from their month on; what was not counted stays as expected', () => {
  const still = {
    conception: 0,
    adultLossPerYear: 0,
    youngLossToWeaning: 0,
    cullPerYear: 0,
    femalesPerMale: 0,
  }
  const flock = readHerd({
    start: '2027-01',
    breedingFemales: 20,
    males: 2,
    rates: still,
    counts: [
      { month: '2027-05', breedingFemales: 17, young: 6 },
      { month: '2027-08', breedingFemales: 18, males: 1 },
    ],
  })
  const months = herdMonths(flock, month(2027, 1), 12)
  const from = (values: Float64Array) => [3, 4, 7].map((m) => values[m])
  expect(from(months.breedingFemales)).toEqual([20, 17, 18])
  expect(from(months.males)).toEqual([2, 2, 1])
  // Three ewes fewer than expected, six young more.
  expect(months.lostHeads[4]).toBeCloseTo(3 - 6, 9)
  expect(months.young[4]).toBeCloseTo(6, 6)
})

test('young of several ages that are counted stand in the proportion in which they were expected', () => {
  const flock = readHerd({
    start: '2027-01',
    breedingFemales: 10,
    rates: {
      conception: 1,
      birthsPerFemale: 1,
      birthMonths: [3, 4],
      adultLossPerYear: 0,
      youngLossToWeaning: 0,
      youngLossToSale: 0,
      cullPerYear: 0,
      femalesPerMale: 0,
      keepOfFemaleYoung: 0,
      saleAgeMonths: 8,
      saleMonths: [],
    },
    counts: [{ month: '2027-06', breedingFemales: 10, young: 15 }],
  })
  const months = herdMonths(flock, month(2027, 1), 16)
  // Ten in March, ten in April; fifteen were counted in June, of each age as many, and go at eight months one after the other.
  expect([1, 2, 3, 4, 5].map((m) => months.young[m])).toEqual([0, 10, 20, 20, 15])
  expect(months.lostHeads[5]).toBeCloseTo(5, 9)
  const sold = [...months.soldYoungHeads].filter((one) => one > 0)
  expect(sold.slice(0, 2)).toEqual([7.5, 7.5])
})

test('a herd that is gone asks for no hours, neither of its females nor those it takes however many there are', () => {
  const rates = { conception: 0, cullPerYear: 0, adultLossPerYear: 0, femalesPerMale: 0 }
  const kept = { rates, males: 0, replacements: 0, hoursPerFemale: 2, hoursFixed: 30 }
  const ended = herdMonths(readHerd({ ...kept, end: '2027-07' }), month(2027, 5), 4)
  // Eight of 2 hours and 30 besides from May to July; in August they are sold.
  expect([...ended.culledHeads]).toEqual([0, 0, 0, 8])
  expect([...ended.hours]).toEqual([46, 46, 46, 0])
  const soldDown = herdMonths(readHerd(kept), month(2027, 5), 4, [{ from: '2027-07', value: 0 }])
  expect([...soldDown.hours]).toEqual([46, 46, 0, 0])
})
