// Purchases of a farm that trades evenly, by hand: when the plan's course buys them, and what the Farm page says of it.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { queuePurchases } from '#farm/purchases.ts'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { cashAhead } from '#today/projection/purchases-ahead.ts'

interface Trade {
  netPerMonth: number
  drawPerMonth?: number
  /** Paid in July 2027. */
  badJuly?: number
}

const wait = (id: string, cost: number, more: object = {}) => ({
  id,
  name: id,
  cost,
  timing: 'when cash allows',
  month: '2027-01',
  ...more,
})

/** Three thousand at first, two of it kept back. */
const queueOf = (purchases: object[], { netPerMonth, drawPerMonth = 0, badJuly = 0 }: Trade) => {
  const flood = { id: 'flood', name: 'Flood', cost: badJuly, timing: 'dated', month: '2027-07' }
  const plan = planSchema.parse({
    startMonth: '2027-01',
    years: 5,
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: drawPerMonth }] },
    farm: {
      cash: 3000,
      reserve: 2000,
      hired: { hourlyCost: 20 },
      enterprises: [{ id: 'stand', name: 'Stand', salesPerUnit: 12 * netPerMonth }],
      purchases: badJuly > 0 ? [...purchases, flood] : purchases,
    },
  })
  return queuePurchases(plan.farm.purchases, cashAhead(plan, project(plan, publishedRules(plan))))
}

test('a purchase waits until cash covers it with the reserve intact', () => {
  const { queue, affordableNow } = queueOf([wait('tiller', 4000)], { netPerMonth: 500 })
  expect(affordableNow).toBeCloseTo(1500, 9)
  // 3,000 + 500 a month reaches 6,000 at the end of the sixth month's trade.
  expect(queue[0]!.bought).toBe(month(2027, 6))
  expect(queue[0]!.waitMonths).toBe(5)
})

test('of two that cash allows at once, the one higher in the list is bought first', () => {
  const both = (...order: string[]) =>
    queueOf(
      order.map((id) => wait(id, 1500)),
      { netPerMonth: 300 },
    ).queue.sort((a, b) => (a.bought ?? 0) - (b.bought ?? 0))
  expect(both('a', 'b')[0]!.id).toBe('a')
  expect(both('b', 'a')[0]!.id).toBe('b')
  expect(both('a', 'b')[1]!.bought!).toBeGreaterThan(both('a', 'b')[0]!.bought!)
})

test('a bad month within the year ahead holds a purchase back', () => {
  const shed = wait('shed', 1200)
  expect(queueOf([shed], { netPerMonth: 200 }).queue[0]!.bought).toBe(month(2027, 1))
  expect(queueOf([shed], { netPerMonth: 200, badJuly: 1700 }).queue[0]!.bought!).toBeGreaterThan(
    month(2027, 2),
  )
})

test('waiting costs what it would have added, and hours it would have saved', () => {
  const cooler = wait('cooler', 4000, { addsCash: 1200, savesHours: 60 })
  const { queue } = queueOf([cooler], { netPerMonth: 500 })
  expect(queue[0]!.waitMonths).toBe(5)
  expect(queue[0]!.waitingCosts).toBeCloseTo(5 * (100 + 5 * 20), 6)
})

test('a purchase takes the place of draws the farm could have borne', () => {
  const { queue } = queueOf([wait('van', 2400)], { netPerMonth: 400, drawPerMonth: 200 })
  expect(queue[0]!.drawDisplaced!).toBeGreaterThan(100)
})

test('one that cash never allows says so', () => {
  const { queue } = queueOf([wait('barn', 90_000)], { netPerMonth: 10 })
  expect(queue[0]).toMatchObject({ bought: null, waitMonths: null })
  expect(queue[0]!.because).toContain('never')
})
