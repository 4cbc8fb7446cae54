import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { preparerNotes } from '#farm/notebook/preparer.ts'
import { cents } from '#money/cents.ts'
import { headRows } from '#views/year-pack/notebook-part.tsx'

/** A farm with a truck and a borrowed wagon; a hand who was paid once and once not. */
test('a year of the notebook is told as the preparer asks for it', () => {
  const told = preparerNotes({
    trips: [
      {
        day: day('2026-01-02'),
        kind: 'reading',
        vehicle: 'Truck',
        miles: null,
        odometer: 50_100,
        purpose: '',
      },
      {
        day: day('2026-03-04'),
        kind: 'farm',
        vehicle: 'Truck',
        miles: 12.4,
        odometer: null,
        purpose: 'Seed',
      },
      {
        day: day('2026-12-30'),
        kind: 'reading',
        vehicle: 'Truck',
        miles: null,
        odometer: 58_600,
        purpose: '',
      },
      { day: day('2026-05-01'), kind: 'farm', vehicle: 'Wagon', miles: 3.3, odometer: null, purpose: 'Hay' },
    ],
    marketDays: [
      { day: day('2026-02-07'), market: 'Square', miles: 20 },
      { day: day('2026-02-14'), market: 'Square', miles: null },
    ],
    herds: [
      {
        herd: 'Flock',
        kind: 'sheep',
        began: { females: 9 },
        ended: { females: 8, kept: 3, young: 11, males: 1 },
        countedOn: null,
      },
      { herd: 'Hens', kind: 'layers', began: null, ended: null, countedOn: null },
    ],
    hired: [
      { person: 'Ada', minutes: 240, payCents: cents(68_00) },
      { person: 'Ada', minutes: 60, payCents: null },
    ],
    goods: [
      {
        day: day('2026-06-01'),
        kind: 'kitchen',
        what: 'eggs',
        quantity: 2.5,
        unit: 'dozen',
        unitPriceCents: cents(4_99),
        tradedFor: '',
        state: 'booked',
      },
      {
        day: day('2026-06-02'),
        kind: 'bartered',
        what: 'cheese',
        quantity: 4,
        unit: 'lb',
        unitPriceCents: null,
        tradedFor: 'a gate',
        state: 'waiting',
      },
      {
        day: day('2026-06-03'),
        kind: 'kitchen',
        what: 'milk',
        quantity: 1,
        unit: '',
        unitPriceCents: cents(9_00),
        tradedFor: '',
        state: 'set_aside',
      },
    ],
  })
  expect(told.trips.map(({ where, miles }) => [where, miles])).toEqual([
    ['Square', 20],
    ['Seed', 12.4],
    ['Hay', 3.3],
  ])
  expect(told.farmMiles).toBe(35.7)
  expect(told.odometers).toEqual([{ vehicle: 'Truck', first: 50_100, last: 58_600, driven: 8_500 }])
  expect(told.hired).toEqual([{ person: 'Ada', minutes: 300, payCents: 6800, hasUnpaid: true }])
  // 2.5 × 4.99 = 12.475, rounded to the even cent or up: 12.48.
  expect([told.kitchenCents, told.barteredCents, told.unpriced]).toEqual([1248, 0, 1])
  expect(told.goods.map(({ says }) => says)).toEqual(['2.5 dozen eggs', '4 lb cheese, for a gate'])
})

test('raised breeding stock stands apart from what is for sale, each in the words of its kind', () => {
  const none = { trips: [], marketDays: [], hired: [], goods: [] }
  const told = preparerNotes({
    ...none,
    herds: [
      {
        herd: 'Flock',
        kind: 'sheep',
        began: { females: 9 },
        ended: { females: 8, kept: 3, young: 1, males: 1 },
        countedOn: null,
      },
      { herd: 'Hens', kind: 'layers', began: null, ended: null, countedOn: null },
    ],
  })
  expect(headRows(told)).toEqual([
    {
      what: 'Flock, to breed: head at the end, 9 ewes a year before',
      quantity: '8 ewes, 3 ewe lambs, 1 ram',
      amount: null,
    },
    { what: 'Flock, for sale: head at the end', quantity: '1 lamb', amount: null },
  ])
})
