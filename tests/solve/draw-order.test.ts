// Which of two courses of action is the worse: first how often nothing goes unpaid, then the floor. The household is our own invention.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { solveDraw } from '#solve/draw.ts'
import { isSurer, isWorse, type Ran } from '#solve/standing.ts'
import { asking } from './asking.ts'

const ran = (held: number, above: number, left: number, short = 30): Ran => {
  const filled = (value: number) => new Float64Array(50).fill(value)
  return {
    heldBy: filled(held),
    aboveBy: filled(above),
    leftBy: filled(left),
    shortBy: filled(held ? Number.POSITIVE_INFINITY : short),
  } as Ran
}

test('bills all paid outweigh months above the floor', () => {
  expect(isWorse(ran(1, 0, 22), ran(0, 0, 24))).toBe(false)
  expect(isWorse(ran(0, 0, 24), ran(1, 0, 22))).toBe(true)
  expect(isWorse(ran(0, 1, Number.POSITIVE_INFINITY), ran(1, 0, 22))).toBe(true)
  expect(isSurer(ran(0, 1, Number.POSITIVE_INFINITY), ran(1, 0, 22))).toBe(false)
  expect(isSurer(ran(1, 0, 22), ran(0, 0, 24))).toBe(true)
})

test('where all run short, the one that runs short later is not worse for it, whatever the floor', () => {
  expect(isWorse(ran(0, 0, 24, 40), ran(0, 0, 24, 59))).toBe(true)
  expect(isWorse(ran(0, 0, 22, 59), ran(0, 0, 24, 40))).toBe(false)
  expect(isWorse(ran(0, 0, 22, 40), ran(0, 0, 24, 40))).toBe(true)
})

test('where as much is paid, the floor decides', () => {
  expect(isWorse(ran(1, 0, 22), ran(1, 0, 24))).toBe(true)
  expect(isWorse(ran(0, 0, 24), ran(0, 0, 24))).toBe(false)
  expect(isSurer(ran(1, 1, Number.POSITIVE_INFINITY), ran(1, 0, 24))).toBe(true)
})

/**
 * Nothing left to chance. 2,400 a month to live on and 30,000 saved, the floor six months of it: 14,400. As planned 1,800 of draws
 * are more than the farm can pay before its sales in August, and 1,200 from 2028 on too few to live from, so that savings are used up
 * long before the plan ends. What the farm can bear is less in the first year, and more than is lived from in all later ones.
 */
const orchard = planSchema.parse({
  startMonth: '2027-01',
  household: {
    people: [{ id: 'a', name: 'Asa', born: '1980-04-02', planToAge: 53, farmWorkShare: 1 }],
    living: [{ id: 'living', name: 'Living', perMonth: 2400 }],
    floor: { kind: 'months', months: 6 },
  },
  health: { medicareFrom65: false },
  savings: {
    accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 30_000, mix: { bills: 1 } }],
    drawsToHoldFloor: false,
  },
  farm: {
    cash: 20_000,
    reserve: 2000,
    enterprises: [
      {
        id: 'pears',
        name: 'Pears',
        unit: 'acre',
        scale: 1,
        salesPerUnit: [0, 0, 0, 0, 0, 0, 0, 15_000, 15_000, 15_000, 0, 0],
        costsPerUnit: [1500, 1500, 1500, 1500, 1500, 1500, 1500, 1500, 1500, 1500, 1500, 1500],
        hoursPerUnit: 900,
      },
    ],
  },
  draw: {
    policy: 'steps',
    steps: [
      { from: '2027-01', perMonth: 1800 },
      { from: '2028-01', perMonth: 1200 },
    ],
  },
  tax: { method: 'none' },
  assumptions: {
    inflation: 0,
    premiumGrowth: 0,
    careGrowth: 0,
    wageGrowth: 0,
    stocks: 0,
    bonds: 0,
    bills: 0,
    stockYield: 0,
  },
  chance: {
    markets: 'stated',
    stocksSpread: 0,
    bondsSpread: 0,
    billsSpread: 0,
    inflationSpread: 0,
    seasons: false,
    lives: false,
    premiumSpread: 0,
    careSpread: 0,
    stocksMean: 0,
    bondsMean: 0,
    billsMean: 0,
    inflationMean: 0,
  },
})

test('draws with which all is paid are not called worse for reaching the floor sooner', async () => {
  const found = await solveDraw(asking(orchard, 10), 2)
  const [plan, , steps] = found.compared
  expect([plan!.standing.held.share, steps!.standing.held.share]).toEqual([0, 1])
  expect(steps!.standing.monthsLeft.median).toBeLessThan(plan!.standing.monthsLeft.median)
  expect(steps!.worse).toBe(false)
  // The one level pays no more than the plan and is below the floor sooner, and says so alone.
  expect(found.more[0]).toMatch(
    /^Not so well as today’s plan: with one level money tends to run short sooner, savings fall below the floor in December 2027 in the middle simulation instead of in March 2028\./,
  )
  expect(found.more[0]).not.toContain('with the steps ')
})
