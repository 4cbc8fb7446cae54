// Worked by hand: an invented batch of broilers on a farm unlike the sample, then what odd notes make of it.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type BatchFacts, batchResult } from '#farm/notebook/batch-result.ts'
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import { cents } from '#money/cents.ts'

/** 100 chicks; 8 die, 92 are processed at 414 lb; 60 sold, 5 eaten at $20, 2 bartered at $20; 25 wait in the freezer. */
const broilers: BatchFacts = {
  startedDay: day('2026-04-01'),
  endedDay: null,
  size: 100,
  kept: 0,
  hopedPriceCents: cents(2000),
  lines: [
    { day: day('2026-04-01'), kind: 'expense', amountCents: cents(300_00) },
    { day: day('2026-04-20'), kind: 'expense', amountCents: cents(480_00) },
    { day: day('2026-06-01'), kind: 'expense', amountCents: cents(416_00) },
    { day: day('2026-06-06'), kind: 'income', amountCents: cents(-800_00) },
    { day: day('2026-06-20'), kind: 'income', amountCents: cents(-400_00) },
  ],
  marks: [
    { day: day('2026-04-03'), kind: 'lost', quantity: 6, pounds: null },
    { day: day('2026-05-10'), kind: 'lost', quantity: 2, pounds: null },
    { day: day('2026-05-20'), kind: 'weighed', quantity: 4, pounds: 15.2 },
    { day: day('2026-06-01'), kind: 'processed', quantity: 92, pounds: 414 },
    { day: day('2026-06-06'), kind: 'sold', quantity: 40, pounds: null },
    { day: day('2026-06-20'), kind: 'sold', quantity: 20, pounds: null },
  ],
  goods: [
    { day: day('2026-06-10'), kind: 'kitchen', state: 'booked', quantity: 5, unitPriceCents: cents(2000) },
    { day: day('2026-06-12'), kind: 'bartered', state: 'waiting', quantity: 2, unitPriceCents: cents(2000) },
  ],
  minutes: 40 * 60,
}

test('a batch under way: cost a bird and pound, margin, an hour, what the rest must bring', () => {
  const result = batchResult(broilers)
  expect(result).toMatchObject({ lost: 8, sold: 60, kitchen: 5, bartered: 2, left: 25, tooMany: 0 })
  // Costs 300 + 480 + 416 = 1,196; sales 1,200; goods 7 × 20 = 140; margin 144.
  expect([result.costsCents, result.salesCents, result.goodsCents, result.marginCents]).toEqual([
    119600, 120000, 14000, 14400,
  ])
  // 1,196 / 92 = 13.00; / 414 lb = 2.889; 144 / 40 h = 3.60; the rest at 20 brings 500: 644 / 40 = 16.10.
  expect([result.costPerUnitCents, result.costPerPoundCents, result.perHourCents]).toEqual([1300, 289, 360])
  expect([result.hopedRestCents, result.hopedPerHourCents, result.breakEvenCents]).toEqual([50000, 1610, 0])
  // 25 of 92 at 13.00.
  expect(result.carriedCents).toBe(32500)
  expect(result.poundsEach).toBe(3.8)
  // On June 12 sales and goods are 940 against 1,196; June 20 brings 1,340.
  expect(result.paidForItself).toBe('2026-06-20')
  expect(result.onHand.map(({ count }) => count)).toEqual([100, 94, 92, 52, 47, 45, 25])
})

test('before the first sale all of the cost is carried, and the break-even price is the cost of one that lives', () => {
  const result = batchResult(broilers, day('2026-06-01'))
  expect([result.left, result.carriedCents, result.breakEvenCents]).toEqual([92, 119600, 1300])
  expect(result.paidForItself).toBeNull()
})

test('an ended batch has nothing left and carries nothing, whatever was not told', () => {
  const result = batchResult({ ...broilers, endedDay: day('2026-07-01') })
  expect([result.left, result.carriedCents, result.breakEvenCents, result.hopedRestCents]).toEqual([
    0,
    0,
    null,
    null,
  ])
})

test('kept ones stand at what they cost, and what nobody told of an ended batch is said', () => {
  const result = batchResult({ ...broilers, endedDay: day('2026-07-01'), kept: 20 })
  // 20 of 92 at 13.00 are 260; 1,200 + 140 + 260 − 1,196 are 404; five of the 25 that were left are told nowhere.
  expect([result.kept, result.keptCents, result.marginCents, result.untold, result.left]).toEqual([
    20, 26000, 40400, 5, 0,
  ])
  expect(batchResult({ ...broilers, kept: 20 }).kept).toBe(0)
})

test('birds and beasts are counted whole, beds and pounds in parts', () => {
  for (const unit of ['birds', 'meat birds', 'Lambs', 'calves', 'head', 'hives', 'ewe lambs', 'geese'])
    expect([unit, isCountedByHead(unit)]).toEqual([unit, true])
  for (const unit of ['beds', 'acres', 'pounds', '100 ft rows', 'flats', 'cases of jam', ''])
    expect([unit, isCountedByHead(unit)]).toEqual([unit, false])
})

test('more gone than there were is said, and all dead makes no cost a bird', () => {
  const mark = { day: day('2026-05-01'), kind: 'lost' as const, pounds: null }
  expect(batchResult({ ...broilers, marks: [{ ...mark, quantity: 120 }], goods: [] }).tooMany).toBe(20)
  const dead = batchResult({ ...broilers, marks: [{ ...mark, quantity: 100 }], goods: [], minutes: 0 })
  expect([dead.left, dead.costPerUnitCents, dead.perHourCents, dead.carriedCents]).toEqual([0, null, null, 0])
})

test('pounds are summed without what binary numbers add, and goods set aside have gone but are worth nothing', () => {
  const weights = [0.1, 0.2, 0.7].map((pounds) => ({
    day: day('2026-06-06'),
    kind: 'sold' as const,
    quantity: 1,
    pounds,
  }))
  const goods = [{ ...broilers.goods[0]!, state: 'set_aside' as const }]
  const result = batchResult({ ...broilers, marks: weights, goods })
  expect([result.pounds?.pounds, result.kitchen, result.goodsCents]).toEqual([1, 5, 0])
})

test('pounds noted live tell the cost of a live pound, and pounds of a part that of the part’s costs', () => {
  // 12 feeder pigs: 600 + 1,440 = 2,040 of costs, 2 lost; 5 of the 10 weighed at 1,275 lb live: 255 each.
  const pigs: BatchFacts = {
    ...broilers,
    size: 12,
    lines: [
      { day: day('2026-04-01'), kind: 'expense', amountCents: cents(600_00) },
      { day: day('2026-07-01'), kind: 'expense', amountCents: cents(1440_00) },
    ],
    marks: [
      { day: day('2026-04-09'), kind: 'lost', quantity: 2, pounds: null },
      { day: day('2026-06-20'), kind: 'weighed', quantity: 4, pounds: 600 },
      { day: day('2026-08-20'), kind: 'weighed', quantity: 5, pounds: 1275 },
    ],
    goods: [],
  }
  const live = batchResult(pigs)
  // 2,040 / 10 = 204 a pig; 204 / 255 lb = 0.80.
  expect([live.costPerUnitCents, live.costPerPoundCents]).toEqual([20400, 80])
  expect(live.pounds).toEqual({ basis: 'live', pounds: 1275, of: 5 })
  // Four of the ten processed at 720 lb: 4 × 204 / 720 = 1.1333.
  const part = { day: day('2026-09-01'), kind: 'processed' as const, quantity: 4, pounds: 720 }
  const hung = batchResult({ ...pigs, marks: [...pigs.marks, part] })
  expect([hung.pounds?.basis, hung.costPerPoundCents]).toEqual(['processed', 113])
})

test('return to labor is untold before anything is sold or used, and told of a batch that ended without a sale', () => {
  const growing = { ...broilers, marks: [], goods: [], lines: broilers.lines.slice(0, 2) }
  expect(batchResult(growing).perHourCents).toBeNull()
  // −780 over 40 hours.
  expect(batchResult({ ...growing, endedDay: day('2026-06-01') }).perHourCents).toBe(-1950)
})

test('what is left of one after costs is of those that lived', () => {
  // 144 over 92 that lived, not over 100 chicks.
  expect(batchResult(broilers).marginPerUnitCents).toBe(157)
})

test('hired hours are no hours of one’s own: their pay is a cost, once, and return to labor is what is left by the own hour', () => {
  // 14 beds of flowers: plants 1,260, netting 210.50, sold for 5,283; 60 own hours, and Kim 20 hours in each of eight weeks at 320.
  const weeks = ['06-22', '06-29', '07-06', '07-13', '07-20', '07-27', '08-03', '08-10']
  const flowers: BatchFacts = {
    ...broilers,
    size: 14,
    hopedPriceCents: null,
    lines: [
      { day: day('2026-04-02'), kind: 'expense', amountCents: cents(1470_50) },
      { day: day('2026-08-15'), kind: 'income', amountCents: cents(-5283_00) },
    ],
    marks: [],
    goods: [],
    minutes: 60 * 60,
    hired: weeks.map((on) => ({ day: day(`2026-${on}`), minutes: 1200, payCents: cents(320_00) })),
  }
  const result = batchResult(flowers)
  // 1,470.50 + 2,560 = 4,030.50; 5,283 − 4,030.50 = 1,252.50 over 60 h = 20.875; over 14 beds 287.89 each.
  expect([result.costsCents, result.hiredPayCents, result.hiredMinutes]).toEqual([403050, 256000, 9600])
  expect([result.marginCents, result.perHourCents, result.costPerUnitCents]).toEqual([125250, 2088, 28789])
  // As July begins two weeks are paid: 1,470.50 + 640. The inventory rests on the books, which hold the plants and the netting alone.
  const july = batchResult(flowers, day('2026-07-01'))
  expect([july.costsCents, july.carriedCents]).toEqual([211050, 147050])
  // Pay that the books hold for the batch stands in place of what was noted with the hours.
  const wages = {
    day: day('2026-08-14'),
    kind: 'expense' as const,
    amountCents: cents(2755_84),
    isWages: true,
  }
  const booked = batchResult({ ...flowers, lines: [...flowers.lines, wages] })
  expect([booked.costsCents, booked.hiredPayCents, booked.perHourCents]).toEqual([422634, 0, 1761])
  // Hours without pay are told, and cost nothing.
  const unpaid = { day: day('2026-08-17'), minutes: 300, payCents: null }
  const told = batchResult({ ...flowers, hired: [...flowers.hired!, unpaid] })
  expect([told.unpaidMinutes, told.hiredMinutes, told.costsCents]).toEqual([300, 9900, 403050])
  expect(result.unpaidMinutes).toBe(0)
  // What a plan knows as direct costs: without the help, which it has apart.
  expect([result.helpCents, booked.helpCents]).toEqual([256000, 275584])
})
