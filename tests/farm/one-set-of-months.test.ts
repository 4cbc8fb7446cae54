// Plan, mix, payback and the farm's pages tell one set of months: a farm worked by hand, and the same on random ones.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { month, parseMonth } from '#calendar/month.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { farmYear } from '#farm/farm-year.ts'
import { solveMix } from '#farm/mix/mix.ts'
import { mixFrame } from '#farm/mix/mix-frame.ts'
import { linePayback, purchasePayback } from '#farm/payback.ts'
import { loadSolver } from '#farm/program.ts'
import { purchaseSchema } from '#farm/purchase-document.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { type ProjectedMonth, project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { randomFarm } from '../fuzz/random-farm.ts'
import { testApp } from '../web/test-app.ts'

/**
 * Ten beds of greens bring 100 and take 20 and 2 hours each a month; Saturday takes 300 a trip, four trips a month, 20 and 5 hours a
 * trip. Four rows of flowers are worth 300 each in June, July and August, cost 50 each in April and 10 hours each in those three.
 * Ten ewes that were there have a lamb each in March, sold at six months for 150; a ewe eats 5 a month and takes an hour, a lamb eats 2.
 */
const alone = { crew: [{ who: 'ash', weeklyHours: 40 }] }
const inSummer = (each: number) => [0, 0, 0, 0, 0, each, each, each, 0, 0, 0, 0]
const farm = {
  ...alone,
  cash: 20_000,
  enterprises: [
    {
      id: 'greens',
      name: 'Greens',
      scale: 10,
      salesPerUnit: 1200,
      costsPerUnit: 240,
      hoursPerUnit: 24,
      markets: ['saturday'],
    },
    {
      id: 'flowers',
      name: 'Flowers',
      scale: 4,
      salesPerUnit: inSummer(300),
      costsPerUnit: [0, 0, 0, 50, 0, 0, 0, 0, 0, 0, 0, 0],
      hoursPerUnit: inSummer(10),
      markets: ['saturday', 'stand'],
    },
  ],
  markets: [
    { id: 'saturday', name: 'Saturday', trips: 4, salesPerTrip: 300, feePerTrip: 20, hoursPerTrip: 5 },
    { id: 'stand', name: 'Stand', trips: 1, salesPerTrip: 500, feePerMonth: 10 },
  ],
  herds: [
    {
      id: 'ewes',
      name: 'Ewes',
      kind: 'sheep' as const,
      start: '2027-01',
      breedingFemales: 10,
      carryingLimit: 10,
      ownedAlready: true,
      rates: {
        conception: 1,
        birthsPerFemale: 1,
        birthMonths: [3],
        adultLossPerYear: 0,
        youngLossToWeaning: 0,
        youngLossToSale: 0,
        saleAgeMonths: 6,
        cullPerYear: 0,
        keepOfFemaleYoung: 0,
        femalesPerMale: 0,
      },
      prices: { breedingFemale: 300, youngSold: 150 },
      costPerFemale: 5,
      costPerYoung: 2,
      hoursPerFemale: 1,
    },
  ],
  overheads: [{ id: 'rest', name: 'Insurance and repairs', costs: 1200, hours: 60 }],
}
const cooler = {
  id: 'cooler',
  name: 'Cooler',
  cost: 2400,
  month: '2027-03',
  addsCash: 1200,
  usefulYears: 4,
  valueAtEnd: 300,
}

const planOf = (more: Partial<PlanInput['farm']> = {}): Plan =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [{ id: 'ash', name: 'Ash', born: '1985-04-12', planToAge: 80 }],
      living: [{ id: 'l', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 400_000 }] },
    farm: { ...farm, ...more },
    draw: { policy: 'steps', steps: [] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })

const monthsOf = (plan: Plan): ProjectedMonth[] => project(plan, publishedRules(plan)).months
const netOf = (one: ProjectedMonth) => one.farmSales - one.farmCosts + one.farmStock
const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

// Greens sell 1,000 a month at Saturday’s 1,200. In the summer months flowers are worth 1,200: Saturday has room for 200 and the stand
// for 500, 500 are lost. Sales: 12 × 1,000 + 3 × 700 + 10 × 150 = 15,600. Direct costs: greens 10 × 240 = 2,400, flowers 4 × 50 = 200,
// ewes 10 × 12 × 5 = 600 and lambs from March to August 6 × 10 × 2 = 120: 3,320. Markets: 48 × 20 + 12 × 10 = 1,080.
// 15,600 − 3,320 − 1,080 − 1,200 = 10,000. Hours: 240 + 120 + 120 + 48 × 5 + 60 = 780.
test('plan, mix, budgets and page tell the year that was worked out by hand', async () => {
  const plan = planOf()
  const months = monthsOf(plan)
  expect(months.slice(0, 12).map(netOf)).toEqual([
    // 1,000 less 200 for greens, 50 for ewes, 90 for markets, 100 of overheads; from March 20 for lambs; April 200 for flowers; 700 of
    // flowers from June to August; the lambs in September.
    560,
    560, 540, 340, 540, 1240, 1240, 1240, 2060, 560, 560, 560,
  ])
  expect(sum(months.slice(0, 12).map(netOf))).toBeCloseTo(10_000, 9)
  expect(sum(months.slice(0, 12).map((one) => one.farmHours))).toBeCloseTo(780, 9)

  const year = farmYear(plan.farm, 2027)
  expect(year).toMatchObject({ sales: 15_600, directCosts: 3320, marketCosts: 1080, overheads: 1200 })
  const course = farmCourse(plan.farm, month(2027, 1), 12)
  const margins = enterpriseBudgets(plan.farm, course, 0, 0).map((one) => one.grossMargin)
  expect(margins).toEqual([9600, 1900, 780])

  const mix = solveMix(await loadSolver(), plan.farm, { kind: 'most net', year: 2027 })
  if (mix.kind !== 'found') throw new Error(mix.because)
  expect(mix.netToday).toBeCloseTo(10_000, 6)
  expect(mix.netAsItIs).toBeCloseTo(10_000, 6)
  expect(mix.hoursToday).toBeCloseTo(780, 6)

  const app = testApp({ today: '2027-01-10' })
  app.savePlan(plan)
  const page = (await (await app.get('/farm.json?year=2027')).json()) as {
    summary: { net: number; hours: number }
    lines: { grossMargin: number }[]
  }
  expect(page.summary).toMatchObject({ net: 10_000, hours: 780 })
  expect(page.lines.map((one) => one.grossMargin)).toEqual([9600, 1900, 780])
  app.close()
})

// Ten ewes at 300 are 3,000 in it. A year leaves 1,500 − 720 = 780; by September 1,500 − 9 × 50 − 6 × 20 = 930 of it. After four years
// 3,120 are back; September 2031 brings it to 4,050 − 3,000 = 1,050 and no later summer below zero. September 2030 had 270, but the
// August after it −400.
test('a herd’s money is back in the month that the plan’s months give', async () => {
  const plan = planOf()
  const back = linePayback(plan.farm, 'ewes', 20)!
  expect(back.paidBack).toBe(month(2031, 9))
  const without = monthsOf(planOf({ herds: [] })).map(netOf)
  const withEwes = monthsOf(plan).map(netOf)
  for (const [m, flow] of back.flows.entries()) expect(withEwes[m]! - without[m]!).toBeCloseTo(flow, 6)

  const app = testApp({ today: '2027-01-10' })
  app.savePlan(plan)
  const page = (await (await app.get('/farm/herds.json')).json()) as {
    herds: { payback: { paidBack: string } }[]
  }
  expect(page.herds[0]!.payback.paidBack).toBe('2031-09')
  app.close()
})

// Paid for in March 2027, it brings 100 a month from April on: 24 of them by March 2029. After 48, in April 2031, 300 come back.
test('a purchase’s money is back in the month that the plan’s cash gives', async () => {
  const purchase = purchaseSchema.parse(cooler)
  const back = purchasePayback(purchase, month(2027, 3), 0, 0.04)
  expect(back.monthsToPayBack).toBe(24)
  const cash = (plan: Plan) => monthsOf(plan).map((one) => one.farmCash)
  const more = cash(planOf({ purchases: [cooler] }))
  const less = cash(planOf())
  const march = 2
  for (const [m, dollars] of back.running.entries())
    expect(more[march + m]! - less[march + m]!).toBeCloseTo(dollars, 6)
  expect(back.running.at(-1)).toBeCloseTo(48 * 100 + 300 - 2400, 9)

  const app = testApp({ today: '2027-01-10' })
  app.savePlan(planOf({ purchases: [cooler] }))
  const page = (await (await app.get('/farm/buying.json')).json()) as {
    purchases: { queue: { payback: { months: number } }[] }
  }
  expect(page.purchases.queue[0]!.payback.months).toBe(24)
  app.close()
})

test('what the plan buys beyond the years looked at is neither paid for nor worth anything in them', () => {
  const shed = { ...cooler, timing: 'when cash allows' as const, for: 'ewes' }
  const without = linePayback(planOf().farm, 'ewes', 10)!
  const late = linePayback(planOf({ purchases: [shed] }).farm, 'ewes', 10, {
    bought: new Map([['cooler', month(2060, 3)]]),
  })!
  expect([late.presentWorth, late.worthAtEnd]).toEqual([without.presentWorth, without.worthAtEnd])
  // Bought in March 2027 it has been sold by then: 48 × 100 + 300 less 2,400, of which nothing is left at the end.
  const early = linePayback(
    planOf({ purchases: [cooler].map((one) => ({ ...one, for: 'ewes' })) }).farm,
    'ewes',
    10,
  )!
  expect(early.running.at(-1)! - without.running.at(-1)!).toBeCloseTo(2700, 6)
  expect(early.worthAtEnd).toBe(without.worthAtEnd)
})

// A crew of 7.5 hours a week has 391.34 of the 780 hours of a year. Half of the work is not done, nor are half of its costs.
test('work that nobody does costs nothing in any of them', () => {
  const plan = planOf({ crew: [{ who: 'ash', weeklyHours: 7.5 }] })
  const [row, course] = [0, farmCourse(plan.farm, month(2027, 1), 12)]
  const share = course.work.share[0]!
  expect(share).toBeLessThan(0.6)
  const lines = enterpriseBudgets(plan.farm, course, 0, 0)
  // 10 × 1,200 and 10 × 240 at that share: an hour leaves what it leaves with all hands.
  expect(lines[row]!.sales).toBeCloseTo(12_000 * share, 6)
  expect(lines[row]!.directCosts).toBeCloseTo(2400 * share, 6)
  expect(lines[row]!.hours).toBeCloseTo(240 * share, 6)
  expect(lines[row]!.marginPerHour).toBeCloseTo(40, 6)
  expect(sum(lines.map((one) => one.ownHours))).toBeCloseTo((7.5 * 365.25) / 7, 6)
  expect(sum(lines.map((one) => one.returnToLabor))).toBeCloseTo(farmYear(plan.farm, 2027).net, 6)
  expect(sum(monthsOf(plan).slice(0, 12).map(netOf))).toBeCloseTo(farmYear(plan.farm, 2027).net, 6)
  const back = linePayback(plan.farm, 'ewes', 2)!
  expect(sum([...back.flows.subarray(0, 12)])).toBeCloseTo(780 * share, 6)
})

/** Nothing but what a plan's months and the farm's own must have in common: no prices that rise, nobody who dies soon. */
const quiet = (drawn: Plan, farm: Farm): Plan => {
  const start = drawn.startMonth
  return planSchema.parse({ ...planOf(), startMonth: start, farm: { ...farm, cash: 1e9, reserve: 0 } })
}

test('of any farm the budgets add up to the plan’s year, and the mix reads the same months', () => {
  let [compared, short] = [0, 0]
  fc.assert(
    fc.property(randomFarm, (drawn) => {
      const crew = drawn.farm.crew.map((one) => ({ ...one, who: 'ash' })).slice(0, 1)
      const { purchases: _, loans: __, phases: ___, ...rest } = drawn.farm
      const plan = quiet(drawn, { ...rest, crew, purchases: [], loans: [], phases: [] })
      const year = Number(plan.startMonth.slice(0, 4)) + 1
      const course = farmCourse(plan.farm, month(year, 1), 12)
      const whole = farmYear(plan.farm, year)
      const first = month(year, 1) - parseMonth(plan.startMonth)!
      const lived = monthsOf(plan).slice(first, first + 12)
      expect(sum(lived.map(netOf))).toBeCloseTo(whole.net, 4)
      const lines = enterpriseBudgets(plan.farm, course, 0, 0)
      if (course.work.share[0]! < 1) short += 1
      // Markets at which nothing is sold are borne by no line, and overheads of a farm that sells nothing neither.
      const borne = sum(lines.map((one) => one.marketCosts + one.overheads))
      const left = sum(lines.map((one) => one.returnToLabor)) - (whole.marketCosts + whole.overheads - borne)
      if (lines.length > 0) expect(left).toBeCloseTo(whole.net, 4)
      const frame = mixFrame(plan.farm, year)
      plan.farm.enterprises.forEach((one, row) => {
        const line = frame.lines.find(({ id }) => id === one.id)
        if (!line || one.scaleSteps.length > 0) return
        compared += 1
        for (let k = 0; k < 12; k += 1) {
          expect(line.sales[k]! * line.today).toBeCloseTo(course.offered[row * 12 + k]!, 6)
          expect(line.costs[k]! * line.today).toBeCloseTo(course.directCosts[row * 12 + k]!, 6)
          expect(line.hours[k]! * line.today).toBeCloseTo(course.hours[row * 12 + k]!, 6)
        }
      })
    }),
    { numRuns: 60 },
  )
  expect(compared).toBeGreaterThan(20)
  expect(short).toBeGreaterThan(0)
})

test('of any herd with what is bought for it the payback’s months are the plan’s', () => {
  let herds = 0
  fc.assert(
    fc.property(randomFarm, (drawn) => {
      const [herd] = drawn.farm.herds
      if (!herd) return
      herds += 1
      const markets = drawn.farm.markets.map((one) => ({
        ...one,
        feePerTrip: 0,
        feePerMonth: 0,
        costPerMile: 0,
      }))
      const purchases = drawn.farm.purchases
        .filter(({ month }) => month >= drawn.startMonth)
        .map((one) => ({
          ...one,
          timing: 'dated' as const,
          for: herd.id,
          savesHours: 0,
          addsCapacity: undefined,
        }))
      const bare = { ...planOf().farm, crew: [], enterprises: [], overheads: [] }
      const plan = quiet(drawn, { ...bare, markets, purchases, herds: [herd] })
      const back = linePayback(plan.farm, herd.id, 12)!
      const lived = monthsOf(plan)
      expect(back.firstMonth).toBe(parseMonth(plan.startMonth))
      back.flows.forEach((flow, m) => {
        const one = lived[m]!
        const firstHeads = m === 0 && !herd.ownedAlready ? 9 * herd.prices.breedingFemale : 0
        expect(netOf(one) - one.farmPurchases + one.farmPurchaseGains + firstHeads).toBeCloseTo(flow, 4)
      })
    }),
    { numRuns: 40 },
  )
  expect(herds).toBeGreaterThan(10)
})
