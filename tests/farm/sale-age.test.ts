// The age at which young are sold where the months of sale are entered and the age is not: by hand, for flocks and herds of our own invention.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { type HerdKind, herdSchema } from '#farm/herd/herd-document.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { ratesOf } from '#farm/herd/herd-rates.ts'
import { firstSales } from '#farm/herd/sale-age.ts'
import { herdTold } from '#farm/told/thing-told.ts'
import { drawForm } from '#plan/form/draw.ts'
import type { FormNode } from '#plan/form/nodes.ts'
import { pointersOf } from '#plan/form/pointers.ts'
import { planSchema } from '#plan/plan.ts'
import { herdWords } from '#web/pages/farm/herd-words.ts'

type Rates = Partial<Record<'saleAgeMonths', number> & Record<'saleMonths' | 'birthMonths', number[]>>

const ageOf = (kind: HerdKind, rates: Rates) => ratesOf({ kind, rates }).saleAgeMonths

test('months of sale that come before the usual age decide it', () => {
  // Sheep are sold at 7 months where nothing is said. Lambs of May are 5 in October, 6 in November, and 7 when both are over.
  expect(ageOf('sheep', { birthMonths: [5], saleMonths: [10, 11] })).toBe(5)
  // Kids of March are 6 in September, not 8; the year after they would be 18.
  expect(ageOf('goats', { birthMonths: [3], saleMonths: [9] })).toBe(6)
  // Steers of April are 18 and 19 in October and November, nearer to 20 than 30 is.
  expect(ageOf('cattle', { saleMonths: [10, 11] })).toBe(18)
  // In March they are 11 and in September 5: the sooner is nearer to 7.
  expect(ageOf('sheep', { birthMonths: [4], saleMonths: [9, 3] })).toBe(5)
})

test('months of sale that the usual age falls into, or nearly, leave it as it is, and so does an age that is entered', () => {
  expect(ageOf('sheep', { birthMonths: [5] })).toBe(7)
  expect(ageOf('sheep', { birthMonths: [5], saleMonths: [] })).toBe(7)
  // 7 in December.
  expect(ageOf('sheep', { birthMonths: [5], saleMonths: [11, 12] })).toBe(7)
  // 20 in December, 25 in May: five months on. The May before they are 13, seven short.
  expect(ageOf('cattle', { saleMonths: [5] })).toBe(20)
  // Not weaned before August: there is no sooner month than June of the year after.
  expect(ageOf('sheep', { birthMonths: [5], saleMonths: [6] })).toBe(7)
  // Pigs of March are 7 in October; those of September wait from April.
  expect(ageOf('pigs', { saleMonths: [10] })).toBe(7)
  expect(ageOf('sheep', { birthMonths: [5], saleMonths: [10, 11], saleAgeMonths: 7 })).toBe(7)
})

const eightEwes = (rates: Rates) => ({
  id: 'ewes',
  kind: 'sheep' as const,
  name: 'Eight ewes',
  start: '2027-01',
  breedingFemales: 8,
  carryingLimit: 8,
  ownedAlready: true,
  rates: {
    conception: 1,
    birthsPerFemale: 1.5,
    birthMonths: [5],
    adultLossPerYear: 0,
    youngLossToWeaning: 0,
    youngLossToSale: 0,
    cullPerYear: 0,
    keepOfFemaleYoung: 0,
    femalesPerMale: 0,
    ...rates,
  },
  prices: { youngSold: 200 },
})

test('lambs are sold in the fall they are born in, half in each of its months', () => {
  const sold = (rates: Rates) => [
    ...herdMonths(herdSchema.parse(eightEwes(rates)), month(2027, 1), 24).soldYoungHeads,
  ]
  // 8 × 1.5 = 12 lambs of May.
  const halves = [0, 0, 0, 0, 0, 0, 0, 0, 0, 6, 6, 0]
  expect(sold({ saleMonths: [10, 11] })).toEqual([...halves, ...halves])
  // Held to 7 months they are none too old for the next October.
  expect(sold({ saleMonths: [10, 11], saleAgeMonths: 7 })).toEqual([...Array(12).fill(0), ...halves])
})

test('the form says when and at which age the first are sold', () => {
  const ages = (rates: Rates) => herdTold(eightEwes(rates))!.slice(5)
  expect(ages({ saleMonths: [10, 11] })).toEqual([
    { label: 'Lambs of May are first sold in October, at an age of', unit: 'months', value: 5 },
  ])
  expect(ages({ saleMonths: [10, 11], saleAgeMonths: 7 })[0]).toMatchObject({
    label: 'Lambs of May are first sold in October, at an age of',
    value: 17,
  })
  expect(ages({ birthMonths: [1, 12] }).map(({ label, value }) => [label, value])).toEqual([
    ['Lambs of January are first sold in August, at an age of', 7],
    ['Lambs of December are first sold in July, at an age of', 7],
  ])
  expect(firstSales(ratesOf({ kind: 'layers', rates: {} }))).toEqual([])
})

test('each rate that is left empty says what holds then', () => {
  const plan = planSchema.parse({ startMonth: '2027-01', household: { living: [] } })
  const hints = (kind: HerdKind | undefined) => {
    const drawn = drawForm({ path: ['farm', 'herds', 0], name: '' }, { kind }, pointersOf(plan))
    const rates = herdWords(drawn).find((node) => node.kind === 'group' && node.name === 'rates')
    const children = rates?.kind === 'group' ? rates.children : []
    return Object.fromEntries(
      children.map((node: FormNode) => [node.name, node.kind === 'hidden' ? '' : node.hint]),
    )
  }
  expect(hints('sheep')).toMatchObject({
    'rates.conception': 'Empty: 92%',
    'rates.birthMonths': 'Like 3, 4. Empty: 4',
    'rates.youngLossToWeaning': 'Of those born. Empty: 12%',
    'rates.saleAgeMonths': 'Empty: 7, or their age in months of sale that come before it',
    'rates.youngLossToSale': 'Of those weaned. Empty: as grown stock',
  })
  expect(hints('pigs')).toMatchObject({
    'rates.birthMonths': 'Like 3, 4. Empty: 3, 9',
    'rates.youngLossToSale': 'Of those weaned. Empty: 8%',
    'rates.breedingAgeMonths': 'Empty: 10',
  })
  expect(hints('layers')['rates.birthMonths']).toBe('Like 3, 4. Empty: none')
  expect(hints(undefined)['rates.saleAgeMonths']).toBe('')
})
