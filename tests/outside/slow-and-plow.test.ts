// When to slow down, and what to leave in the farm, against published worked examples and rules: the source stands beside each.
import { expect, test, vi } from 'vitest'
import { type Month, month as monthOf, monthText } from '#calendar/month.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { solveFrontier, withPlowedBack } from '#solve/frontier.ts'
import { solveSlowDown } from '#solve/slow-down.ts'
import { quiet } from '../chance/plans.ts'
import { asking } from '../solve/asking.ts'

vi.setConfig({ testTimeout: 240_000 })

const still = { chance: { ...quiet, centre: 'plan' }, tax: { method: 'none' } } as const
const flat = (perMonth: number) => Array(12).fill(perMonth)

/**
 * The worked example of `nper` in the documentation of numpy-financial (read): at 7 % a year, compounded each month, 150 a month are paid
 * for 64.0733 months out of 8,000.
 */
const perMonth = 150
const monthly = 0.07 / 12

/** A farm brings 150 a month until it slows down and nothing after; savings are 8,000 by January 2029. Until `end`. */
const slowing = (end: string) =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      floor: { kind: 'dollars', dollars: 0 },
      people: [
        { id: 'una', name: 'Una', born: `${Number(end.slice(0, 4)) - 60}${end.slice(4)}-10`, planToAge: 60 },
      ],
      living: [{ id: 'living', name: 'Living', perMonth }],
    },
    savings: {
      accounts: [
        { id: 'jar', name: 'Savings', kind: 'cash', balance: 8_000 / (1 + monthly) ** 24, mix: { bills: 1 } },
      ],
    },
    farm: {
      cash: 0,
      reserve: 0,
      enterprises: [{ id: 'stall', name: 'Stall', salesPerUnit: flat(perMonth), seasonSpread: 0 }],
      phases: [{ from: '2030-01', name: 'Rest', scales: [{ enterprise: 'stall', value: 0 }] }],
    },
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth }], withPrices: true },
    assumptions: { inflation: 0, bills: (1 + monthly) ** 12 - 1, timing: 'end' },
    ...still,
  } satisfies PlanInput)

test('when to slow down: 64 months of 150 out of 8,000 hold, 65 do not', async () => {
  // From January 2029 to April 2034 are 64 months, to May 65.
  const hold = await solveSlowDown(asking(slowing('2034-04'), 20))
  if (hold.answer.kind !== 'reached') throw new Error(hold.sentence)
  expect([hold.answer.fromMonth, hold.answer.months]).toEqual([24, -12])
  const longer = await solveSlowDown(asking(slowing('2034-05'), 20))
  if (longer.answer.kind !== 'reached') throw new Error(longer.sentence)
  expect([longer.answer.fromMonth, longer.answer.months]).toEqual([36, 0])
})

/**
 * Simple payback: what a purchase costs over what a month leaves for it (a rule of every textbook of farm management; from memory). A farm
 * nets 1,000 a month; a cold room for 12,000 brings another 1,000 from the month after it on. Of net farm cash a share x stays in the farm:
 * with the 1,000 of its own month, before that is drawn, the room is bought after (12,000 − 1,000) ÷ 1,000 x months. The household
 * costs 1,300 a month: after it (1 − x) × 2,000 must reach that, so x ≤ 0.35. Draws go by the mean of twelve months: with k of them at
 * 2,000 they are (1 − x) × (1,000 + 1,000 k ÷ 12). The farm carries from the first of twelve months that pay 15,600 together.
 */
const boughtAfter = (share: number): number => Math.ceil(11_000 / (1_000 * share) - 1e-9)
const carriesFrom = (share: number): number => {
  const drawn = (k: number) => (1 - share) * (1_000 + (1_000 * Math.min(k, 12)) / 12)
  for (let first = 1; first < 13; first += 1) {
    const twelve = Array.from({ length: 12 }, (_, place) => drawn(first + place))
    if (twelve.reduce((sum, each) => sum + each, 0) >= 12 * 1_300) return boughtAfter(share) + first
  }
  return Number.POSITIVE_INFINITY
}

const growing = planSchema.parse({
  startMonth: '2027-01',
  years: 12,
  household: {
    floor: { kind: 'dollars', dollars: 0 },
    living: [{ id: 'living', name: 'Living', perMonth: 1_300 }],
  },
  savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 150_000 }] },
  farm: {
    cash: 0,
    reserve: 0,
    enterprises: [{ id: 'stall', name: 'Stall', salesPerUnit: flat(1_000), seasonSpread: 0 }],
    purchases: [
      {
        id: 'room',
        name: 'Cold room',
        cost: 12_000,
        timing: 'when cash allows',
        month: '2027-01',
        addsCash: flat(1_000),
        worksAfterMonths: 0,
        usefulYears: 40,
      },
    ],
  },
  draw: { policy: 'share', from: '2027-01', share: 1 },
  assumptions: { inflation: 0 },
  ...still,
} satisfies PlanInput)

test('plow back: each share buys as payback says and carries as its draws then do; the best leaves as much as it can', async () => {
  const found = await solveFrontier(asking(growing, 20))
  const before = monthOf(2027, 1)
  for (const share of [0.1, 0.15, 0.2, 0.25, 0.3]) {
    const { bought } = project(withPlowedBack(growing, share))
    expect(bought, String(share)).toEqual([monthText((before + boughtAfter(share)) as Month)])
    const point = found.points.find(({ plowedBack }) => plowedBack === share)!
    expect(point.carryMonth.value, String(share)).toBe(carriesFrom(share))
  }
  expect([0.1, 0.3].map(carriesFrom)).toEqual([111, 44])
  // Beyond 0.35 too little is left to draw; without anything left nothing is bought.
  for (const share of [0, 0.4, 0.5, 0.75])
    expect(found.points.find(({ plowedBack }) => plowedBack === share)!.carryMonth.value).toBe(
      Number.POSITIVE_INFINITY,
    )
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  expect(found.answer.best.plowedBack).toBe(0.3)
})
