// Which market to drop, from when on fewer hours that somebody types hold, and a mix beside what the plan has: worked by hand.
import { expect, test, vi } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { phaseWithMix } from '#farm/mix/mix.ts'
import { phaseSchema } from '#farm/phase-document.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { solveDropMarket } from '#solve/drop-market.ts'
import { solveSlowDown } from '#solve/slow-down.ts'
import { takesOf } from '#solve/take.ts'
import { marketFigures } from '#today/farm/market-figures.ts'
import { workOutMixes } from '#today/slower-years/slower-years-work.ts'
import { quiet } from '../chance/plans.ts'
import { asking } from './asking.ts'
import { saidOf } from './said-of.ts'

vi.setConfig({ testTimeout: 180_000 })

const still = { chance: quiet, tax: { method: 'none' }, assumptions: { inflation: 0 } } as const

/** 2,000 a month of cheese: 1,200 of it at the square in 20 hours, 800 at the ferry in 40 hours for fees of 200. A quarter would follow. */
const cheese = (savings: number) =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 10,
    household: {
      living: [{ id: 'all', name: 'Living', perMonth: 1_800 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: savings }] },
    farm: {
      enterprises: [
        {
          id: 'cheese',
          name: 'Cheese',
          salesPerUnit: Array(12).fill(2_000),
          seasonSpread: 0,
          markets: ['square', 'ferry'],
        },
      ],
      markets: [
        { id: 'square', name: 'The square', trips: 4, salesPerTrip: 300, hoursPerTrip: 5, followShare: 0.25 },
        {
          id: 'ferry',
          name: 'The ferry',
          trips: 4,
          salesPerTrip: 200,
          hoursPerTrip: 10,
          feePerTrip: 50,
          followShare: 0.25,
        },
      ],
    },
    draw: { policy: 'sweep', from: '2026-01' },
    ...still,
  } satisfies PlanInput)

test('the market whose hour brings least stands first, with what its customers who follow change', async () => {
  const found = await solveDropMarket(asking(cheese(60_000), 50))
  const [ferry, square] = found.markets
  // Without the ferry 480 hours and 2,400 of fees end; of 9,600 of sales a quarter, half or none is sold at the square.
  expect(ferry).toMatchObject({ id: 'ferry', follow: 0.25 })
  expect(ferry!.hours).toBeCloseTo(480, 6)
  expect(ferry!.lost).toBeCloseTo(9_600 - 2_400 - 2_400, 6)
  expect(ferry!.lostIfNone).toBeCloseTo(9_600 - 2_400, 6)
  expect(ferry!.lostIfHalf).toBeCloseTo(9_600 - 4_800 - 2_400, 6)
  // Without the square 240 hours; of 14,400 a quarter goes to the ferry: 10,800 ÷ 240 = 45 an hour against 10.
  expect(square!.hours).toBeCloseTo(240, 6)
  expect(square!.lost).toBeCloseTo(10_800, 6)
  expect(saidOf(found)).toContain('The ferry $10.00, The square $45.00')
  // What half of them would leave it better by, had they filled the day, is said as what it brings, and what none lose as what it costs.
  expect(saidOf(found)).toContain(
    'costs $4,800 a year with 25% of its customers following (it costs $7,200 a year if none do, and costs $2,400 a year if half do)',
  )
  // 60,000 carry 400 a month for nine years: the ferry can go.
  expect(found.answer).toMatchObject({ kind: 'reached', market: 'ferry' })
  expect(ferry!.held.share).toBe(1)
  const take = takesOf(found).find(({ id }) => id === 'ferry')!
  const taken = planSchema.parse(take.change(cheese(60_000)))
  expect(taken.farm.markets[1]!.tripsSteps).toEqual([{ from: '2027-01', value: 0 }])
})

test('a market that the household lives on is not named to be dropped', async () => {
  // 200 a month less than it needs without the ferry at once: 5,000 last 25 months of 108.
  const found = await solveDropMarket(asking(cheese(5_000), 50))
  expect(found.answer).toMatchObject({ kind: 'reached', market: null })
  expect(saidOf(found)).toMatch(/^No market can be dropped without leaving the plan worse/)
  expect(takesOf(found)).toEqual([])
})

test('a farm without markets says so', async () => {
  const plan = cheese(5_000)
  plan.farm.markets = []
  plan.farm.enterprises[0]!.markets = []
  expect((await solveDropMarket(asking(plan, 50))).answer.kind).toBe('cannot be reached')
})

/** Ada works 20 hours a week on 2,000 of sales a month and lives on that; no slower phase is planned. To January 2036. */
const ada = (savings: number) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ada', name: 'Ada', born: '1986-01-01', sex: 'female', planToAge: 50 }],
      living: [{ id: 'all', name: 'Living', perMonth: 2_000 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: savings }] },
    farm: {
      crew: [{ who: 'ada', weeklyHours: 20 }],
      enterprises: [
        {
          id: 'bees',
          name: 'Bees',
          salesPerUnit: Array(12).fill(2_000),
          hoursPerUnit: Array(12).fill((20 * 52) / 12),
          seasonSpread: 0,
        },
      ],
    },
    draw: { policy: 'sweep', from: '2026-01' },
    ...still,
  } satisfies PlanInput)

test('hours that are typed are tried from every January on, planned or not', async () => {
  // At half the hours half is sold: 1,000 a month are missing. 50,000 carry 50 of the 121 months: from the January of month 72 on.
  const found = await solveSlowDown(asking(ada(50_000), 50, { weeklyHours: 10 }))
  expect(found.answer).toMatchObject({ kind: 'reached', fromMonth: 72 })
  expect(saidOf(found)).toContain('10 hours a week each')
  expect(found.tried.find((one) => one.fromMonth === 60)!.held.share).toBe(0)
  const taken = planSchema.parse(takesOf(found)[0]!.change(ada(50_000)))
  expect(taken.farm.phases).toMatchObject([{ from: '2032-01', weeklyHours: [{ who: 'ada', hours: 10 }] }])
  // All the hours hold at once; without hours there is nothing to ask.
  const all = await solveSlowDown(asking(ada(50_000), 50, { weeklyHours: 20 }))
  expect(all.answer).toMatchObject({ kind: 'reached', fromMonth: 12 })
  expect((await solveSlowDown(asking(ada(50_000), 50))).answer.kind).toBe('cannot be reached')
})

test('a mix stands beside what the plan has in that year, and taken it is what the plan has', async () => {
  const plan = ada(50_000)
  const asked = { aim: 'most net', pinned: [], largestChange: null } as const
  const ask = async () => {
    const dollars = { of: 'today', month: '2026-01' } as const
    return (await workOutMixes(plan, { ...asked, pinned: [] }, dollars))[0]!
  }
  // 2,000 of sales a month in 52 weeks of 20 hours; the year has a seventh more than 52 weeks, which a mix of the most net uses.
  const mix = await ask()
  expect(mix.there.net).toBeCloseTo(24_000, 6)
  if (mix.answer.kind !== 'found') throw new Error(mix.answer.because)
  expect(mix.answer.net).toBeGreaterThan(24_000)
  expect(mix.answer.net).toBeLessThan(24_100)
  plan.farm.phases = [phaseWithMix(phaseSchema.parse({ from: '2027-01' }), mix.answer)]
  const again = await ask()
  if (again.answer.kind !== 'found') throw new Error(again.answer.because)
  expect(again.answer.net).toBeCloseTo(again.there.net, -1)
  expect(again.answer.hours).toBeCloseTo(again.there.hours, 0)
})

test('what a market costs to drop is net: sales no other makes up, less its fees, and the same on the farm’s page', async () => {
  const plan = cheese(60_000)
  // 1,600 of goods a month: the square sells 1,200 of them, the ferry 400. A quarter of 400 would follow, and 2,400 of fees end.
  plan.farm.enterprises[0]!.salesPerUnit = Array(12).fill(1_600)
  const found = await solveDropMarket(asking(plan, 50))
  const lost = (id: string) => found.markets.find((one) => one.id === id)!.lost
  expect(lost('ferry')).toBeCloseTo(12 * (400 - 100) - 2_400, 6)
  // Without the square the ferry sells its 800 and a quarter of 1,200.
  expect(lost('square')).toBeCloseTo(12 * (1_600 - 1_100), 6)
  const onPage = marketFigures(plan, farmCourse(plan.farm, month(2027, 1), 12), 0)
  expect(onPage.map(({ netLostIfDropped }) => Math.round(netLostIfDropped))).toEqual([6_000, 1_200])
  // What the other then sells more: the ferry 1,100 for 400, the square its 100 of followers.
  expect(onPage.map(({ thenSoldElsewhere }) => Math.round(thenSoldElsewhere))).toEqual([8_400, 1_200])
  // Paid hours end too: without a crew of its own all 40 hours a month at the ferry are hired at 20 an hour, beyond help for the season that
  // the square needs whether or not there is a ferry.
  const hired = planSchema.parse({
    ...plan,
    farm: {
      ...plan.farm,
      hired: { weeklyHours: 1, hourlyCost: 20 },
      crew: [],
      markets: plan.farm.markets.map((one) => ({ ...one, hoursBy: { hired: 1 } })),
    },
  })
  const ferry = marketFigures(hired, farmCourse(hired.farm, month(2027, 1), 12), 0)[1]!
  expect(ferry.netLostIfDropped).toBeCloseTo(1_200 - 480 * 20, 6)
})
