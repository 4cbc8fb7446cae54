// What a dozen, a lamb and a pound cost, by hand, for flocks of our own invention that stand the same every year.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'
import type { BreakEven } from '#farm/told/break-even.ts'

const breakEvens = (herd: object, more: Partial<FarmInput> = {}): BreakEven[] => {
  const farm = farmSchema.parse({
    crew: [{ who: 'a', weeklyHours: 60 }],
    herds: [herd] as FarmInput['herds'],
    ...more,
  })
  return enterpriseBudgets(farm, farmCourse(farm, month(2030, 1), 12), 0, 20)[0]!.breakEvens
}
const each = (list: readonly BreakEven[]) =>
  list.map(({ measure, ...figures }) => [
    measure,
    ...Object.values(figures).map((value) => (value === null ? null : Math.round(value * 1e4) / 1e4)),
  ])

const hens = {
  id: 'hens',
  name: 'Hens',
  kind: 'layers',
  start: '2025-01',
  breedingFemales: 40,
  carryingLimit: 40,
  buysReplacements: true,
  rates: { cullPerYear: 0.5, adultLossPerYear: 0 },
  prices: { breedingFemale: 22, cullFemale: 4 },
  productPerFemale: 96,
  yieldPerFemale: 16,
  costPerFemale: 3.5,
  hoursPerFemale: 0.25,
}

test('a dozen of eggs: feed and new pullets less culls, over the dozens that a hen lays', () => {
  // 12 × 3.50 = 42, half a pullet 11, half a cull 2: 51 over 16 dozen. With 3 hours at 20: 111. With overheads of 800 over 40 hens: 131.
  // At 6 a dozen 8.5 dozen pay for it.
  const overheads = [{ id: 'rent', name: 'Rent', costs: 800 }]
  expect(each(breakEvens(hens, { overheads }))).toEqual([['dozen', 16, 6, 3.1875, 6.9375, 8.1875, 8.5]])
  // Without a yield nothing is made up.
  expect(breakEvens({ ...hens, yieldPerFemale: undefined })).toEqual([])
})

const ewes = {
  id: 'ewes',
  name: 'Ewes',
  kind: 'sheep',
  start: '2020-01',
  breedingFemales: 20,
  carryingLimit: 20,
  ownedAlready: true,
  rates: {
    conception: 1,
    birthsPerFemale: 1.5,
    birthMonths: [4],
    adultLossPerYear: 0,
    youngLossToWeaning: 0,
    youngLossToSale: 0,
    saleAgeMonths: 7,
    cullPerYear: 0,
    keepOfFemaleYoung: 0,
    femalesPerMale: 0,
  },
  prices: { youngSold: 190 },
  productPerFemale: 12,
  yieldPerFemale: 6,
  yieldMeasure: 'pound of wool',
  costPerFemale: 6,
  costPerYoung: 4,
}

test('a lamb costs its feed and its share of the ewe’s, less her wool; and the wool what the lambs leave of it', () => {
  // 12 × 6 and 1.5 × 7 × 4 are 114 a ewe; less 12 of wool 102 over 1.5 lambs. Lambs bring 285: wool could be given away.
  expect(each(breakEvens(ewes))).toEqual([
    ['pound of wool', 6, 2, 0, 0, 0, 0],
    ['lamb', 1.5, 190, 68, 68, 68, Math.round((102 / 190) * 1e4) / 1e4],
  ])
})

test('meat by the pound: kill and cutting come on top, and all its prices move alike', () => {
  const meat = {
    hangingWeight: 45,
    packagedShare: 0.7,
    processingPerHead: 40,
    processingPerPound: 1,
    halfShare: 0.5,
    halfPrice: 9,
    cutPrice: 16,
  }
  // 45 × 9 for half of them, 31.5 × 16 for the others: 454.50 a lamb, 369.50 less 40 and 45. 68 and 85 are needed: 153 of 454.50.
  const [, head, hanging, packaged] = breakEvens({ ...ewes, meat })
  expect(head).toMatchObject({ measure: 'lamb, less kill and cutting' })
  expect(head!.priceNow).toBeCloseTo(369.5, 6)
  expect(head!.price).toBeCloseTo(68, 6)
  expect(hanging).toMatchObject({ measure: 'pound of hanging weight', priceNow: 9 })
  expect(hanging!.price).toBeCloseTo((9 * 153) / 454.5, 6)
  expect(packaged).toMatchObject({ measure: 'packaged pound', priceNow: 16 })
  expect(packaged!.price).toBeCloseTo((16 * 153) / 454.5, 6)
  // 1.5 × half of 31.5 pounds.
  expect(packaged!.yieldPerUnit).toBeCloseTo(23.625, 6)
})
