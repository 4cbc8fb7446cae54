// What a farm's markets, hands, purchases and stock do, worked out by hand: the plan lives it, and the farm's pages say the same.
import { afterEach, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import { whereSold } from '#farm/selling/where-sold.ts'
import { stormSchema } from '#plan/assumption-plan.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { type ProjectedMonth, project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { projectStorm } from '#runway/storms/storm.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { type TestApp, testApp } from './test-app.ts'

const planOf = (farm: NonNullable<PlanInput['farm']>): Plan =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1985-04-12', planToAge: 70 },
        { id: 'rolf', name: 'Rolf', born: '1986-09-30', planToAge: 70 },
      ],
      living: [{ id: 'l', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 900_000 }] },
    farm,
    draw: { policy: 'steps', steps: [] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })

const at = (months: readonly ProjectedMonth[], name: string): ProjectedMonth =>
  months.find((one) => one.month === name)!
const lived = (plan: Plan) => project(plan, publishedRules(plan)).months
const cents = (dollars: number) => Math.round(dollars * 100) / 100

let app: TestApp
afterEach(() => app?.close())
const figuresOf = async (plan: Plan, path: string): Promise<FarmFigures> => {
  app = testApp({ today: '2027-01-10' })
  app.savePlan(plan)
  return (await (await app.get(path)).json()) as FarmFigures
}
const textOf = async (path: string) =>
  (await (await app.get(path)).text()).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

/**
 * Bread for 2,000 a month. The ferry takes 4 × 300 = 1,200 at a fee of 40, a quarter of its customers would follow; the square 2 × 200
 * = 400 at 10, half would. From 2028 on a day on the square sells 44 percent more a year, for one year. A seat on the hill may come in
 * March 2028, as likely as not: 300 a day, one a month, at 40.
 */
const bakery = {
  cash: 5000,
  enterprises: [
    { id: 'bread', name: 'Bread', salesPerUnit: Array(12).fill(2000), markets: ['ferry', 'square', 'hill'] },
  ],
  markets: [
    { id: 'ferry', name: 'Ferry', trips: 4, salesPerTrip: 300, feePerTrip: 10, followShare: 0.25 },
    {
      id: 'square',
      name: 'Square',
      trips: 2,
      salesPerTrip: 200,
      feePerTrip: 5,
      followShare: 0.5,
      growth: { perYear: 0.44, from: '2028-01', years: 1 },
    },
    {
      id: 'hill',
      name: 'Hill',
      trips: 1,
      salesPerTrip: 300,
      feePerTrip: 40,
      seat: { from: '2028-03', chance: 0.5 },
    },
  ],
}

// 2027: 1,200 + 400. July 2028 is half a year on: 400 × 1.2 = 480 (the root of 1.44), and half of the hill's 300. From January 2029 on
// 400 × 1.44 = 576, and it stays so. Fees 40 + 10, with the seat half of 40 more.
test('regular customers grow month by month, and a seat counts by its chance from its month on', async () => {
  const plan = planOf(bakery)
  const months = lived(plan)
  const told = ['2027-06', '2028-02', '2028-03', '2028-07', '2029-01', '2031-01'].map((name) => {
    const { farmSales, farmMarketCosts } = at(months, name)
    return [name, cents(farmSales), cents(farmMarketCosts)]
  })
  expect(told).toEqual([
    ['2027-06', 1600, 50],
    ['2028-02', cents(1200 + 400 * 1.44 ** (1 / 12)), 50],
    ['2028-03', cents(1200 + 400 * 1.44 ** (2 / 12) + 150), 70],
    ['2028-07', 1830, 70],
    ['2029-01', 1926, 70],
    ['2031-01', 1926, 70],
  ])
  const { markets } = await figuresOf(plan, '/farm/markets.json?year=2029')
  // A year on the hill: half of 12 × 300 and of 12 × 40.
  expect(markets.map((one) => [one.id, one.sold, one.costs])).toEqual([
    ['ferry', 14_400, 480],
    ['square', 6912, 120],
    ['hill', 1800, 240],
  ])
  const page = await textOf('/farm/markets?year=2029')
  expect(page).toContain(
    'Square: from January 2028 a trip sells 44% more each year for 1 year, on top of prices.',
  )
  expect(page).toMatch(/Hill: .*March 2028.*50%/)
})

// Without the ferry a quarter of its 1,200 comes to the square: 400 + 300 = 700. Without the square half of its 400 comes to the ferry:
// 1,200 + 200 = 1,400. Lost in the year 2027: 12 × (900 − 40) = 10,320, and 12 × (200 − 10) = 2,280.
test('customers follow both ways, in a bad year and on the page', async () => {
  const plan = planOf(bakery)
  const without = (lostMarket: string) =>
    projectStorm(
      plan,
      publishedRules(plan),
      stormSchema.parse({ id: 'x', name: 'X', from: '2027-04', months: 6, lostMarket }),
    ).months
  const [ferry, square] = [without('ferry'), without('square')]
  const sales = (months: readonly ProjectedMonth[], name: string) => cents(at(months, name).farmSales)
  expect(['2027-03', '2027-04', '2027-09', '2027-10'].map((name) => sales(ferry, name))).toEqual([
    1600, 700, 700, 1600,
  ])
  expect(['2027-03', '2027-04', '2027-09', '2027-10'].map((name) => sales(square, name))).toEqual([
    1600, 1400, 1400, 1600,
  ])
  const { markets } = await figuresOf(plan, '/farm/markets.json?year=2027')
  expect(markets.slice(0, 2).map((one) => [one.netLostIfDropped, one.thenSoldElsewhere])).toEqual([
    [10_320, 3600],
    [2280, 2400],
  ])
  // The page says what it assumes of those who follow.
  const page = await textOf('/farm/markets?year=2027')
  expect(page).toContain(
    'Ferry: if it is dropped, customers of 25% of what it sold buy at the markets that stay',
  )
  expect(page).toContain('The markets that stay then sell $3,600 more')
  expect(page).toContain('Square: if it is dropped, customers of 50% of what it sold')
})

// 300 hours a month; Ada has 30 and Rolf 20 hours a week, 50 × 365.25 ÷ 84 = 217.41 a month: 82.59 are missing in each.
test('hours beyond the crew are hired, or the farm does so much less: plan and page say which', async () => {
  const farm = {
    enterprises: [
      { id: 'beds', name: 'Beds', salesPerUnit: 48_000, costsPerUnit: 12_000, hoursPerUnit: 3600 },
    ],
    crew: [
      { who: 'ada', weeklyHours: 30 },
      { who: 'rolf', weeklyHours: 20 },
    ],
  }
  const missing = 300 - (50 * 365.25) / 84
  const hires = planOf({ ...farm, hired: { hourlyCost: 18, weeklyHours: 5 } })
  const hired = await figuresOf(hires, '/farm/enterprises.json?year=2027')
  expect(cents(at(lived(hires), '2027-05').farmHired)).toBe(cents(18 * missing))
  expect(cents(hired.summary.hiredCosts)).toBe(cents(12 * 18 * missing))
  expect(cents(hired.lines[0]!.returnToLabor)).toBe(cents(36_000 - 12 * 18 * missing))
  app.close()

  const share = 1 - missing / 300
  const alone = planOf(farm)
  const less = await figuresOf(alone, '/farm/enterprises.json?year=2027')
  expect(cents(at(lived(alone), '2027-05').farmSales)).toBe(cents(4000 * share))
  expect(cents(less.lines[0]!.grossMargin)).toBe(cents(36_000 * share))
  expect(cents(less.summary.net)).toBe(cents(36_000 * share))
  // 12 × 82.59 = 991 hours of 3,600, and 48,000 × 0.2753 = 13,214 that are not grown: no market is to blame.
  expect(less.soldWhere[0]!.lost).toBe(0)
  expect(cents(less.soldWhere[0]!.undone)).toBe(cents(48_000 * (1 - share)))
  const says =
    'In 2027 the farm has 991 hours more than its crew can work, and the plan hires nobody: 72% of its work is done'
  expect(await textOf('/farm/enterprises?year=2027')).toContain(says)
  const first = await textOf('/farm?year=2027')
  expect(first).toContain(says)
  expect(first).toContain('2,609 hours in the year')
})

// The farm earns 500 a month, begins with 5,000 and keeps 2,000. A tiller for 3,000 would go at once: 5,500 − 3,000 = 2,500. But a well
// for 5,500 is dated October: 5,000 + 10 × 500 − 5,500 = 4,500, less the tiller 1,500. In November 5,000 − 3,000 are just the 2,000.
test('what waits for cash leaves what a dated purchase ahead needs', async () => {
  const tiller = {
    id: 'tiller',
    name: 'Tiller',
    cost: 3000,
    timing: 'when cash allows' as const,
    month: '2027-01',
  }
  const well = {
    id: 'well',
    name: 'Well',
    cost: 5500,
    month: '2027-10',
    assetClass: 'land-improvement' as const,
  }
  const farm = (purchases: object[]) =>
    planOf({
      cash: 5000,
      reserve: 2000,
      enterprises: [{ id: 'stand', name: 'Stand', salesPerUnit: 6000 }],
      purchases: purchases as never,
    })
  expect(at(lived(farm([tiller])), '2027-01').farmPurchases).toBe(3000)
  const both = farm([tiller, well])
  const bought = lived(both)
    .filter((one) => one.farmPurchases > 0)
    .map((one) => [one.month, one.farmPurchases, one.farmCash])
  expect(bought).toEqual([
    ['2027-10', 5500, 4500],
    ['2027-11', 3000, 2000],
  ])
  const { purchases } = await figuresOf(both, '/farm/buying.json')
  expect(purchases.queue.map((one) => [one.id, one.bought, one.waitMonths])).toEqual([
    ['tiller', '2027-11', 10],
    ['well', '2027-10', 0],
  ])
  expect(await textOf('/farm/buying')).toContain('November 2027')
})

/** Ten ewes that were there, at 5 a month, each with a lamb in March that is ready in September; a lamb eats 2 a month. */
const flock = (more: object) => ({
  markets: [{ id: 'gate', name: 'Gate', trips: 1, salesPerTrip: 300 }],
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
      costPerFemale: 5,
      costPerYoung: 2,
      markets: ['gate'],
      ...more,
    },
  ],
})

const salesAndCosts = (plan: Plan, names: readonly string[]) => {
  const months = lived(plan)
  return names.map((name) => [name, cents(at(months, name).farmSales), cents(at(months, name).farmCosts)])
}

// At 150 the gate takes two a month. September: two of ten, eight wait at 2. October: two, six wait. In November two more are sold, and
// the four that have waited two months go to auction at 60: 300 + 240.
test('young that no market takes wait at their cost, and go to auction at its price', async () => {
  const plan = planOf(flock({ prices: { youngSold: 150, atAuction: 60 }, waitMonths: 2 }))
  expect(salesAndCosts(plan, ['2027-08', '2027-09', '2027-10', '2027-11', '2027-12'])).toEqual([
    ['2027-08', 0, 70],
    ['2027-09', 300, 66],
    ['2027-10', 300, 62],
    ['2027-11', 540, 50],
    ['2027-12', 0, 50],
  ])
  const figures = await figuresOf(plan, '/farm/herds.json?year=2027')
  // 12 × 50 of ewes, 6 × 20 of lambs, 16 + 12 of those that wait.
  expect(figures.herds[0]!.years[0]).toMatchObject({
    sold: 10,
    sales: 1140,
    costs: 748,
    atAuction: 4,
    waiting: 8,
  })
  expect(figures.soldWhere[0]).toMatchObject({ atMarkets: [900], atAuction: 240, lost: 0 })
  // Without a price of its own an auction brings half.
  const half = planOf(flock({ prices: { youngSold: 150 }, waitMonths: 2 }))
  expect(salesAndCosts(half, ['2027-11'])).toEqual([['2027-11', 600, 50]])
  const course = farmCourse(half.farm, month(2027, 1), 12)
  expect(whereSold(half.farm, course, 0)[0]).toMatchObject({ atAuction: 300 })
  expect(await textOf('/farm/herds?year=2027')).toMatch(/4 go to auction at \$60 each\s?\./)
})

// Ten lambs of 40 pounds hanging give 20 packaged each: 200 pounds at 10, cut in September for 30 each, sold over five months. A fifth
// is offered, 400; the gate takes 300, and 170 pounds lie there at 0.10. Each month 30 pounds more go: 140, 110, 80, 50, 20, none.
test('cuts that the market does not take lie in the freezer at its cost until it does', async () => {
  const meat = {
    hangingWeight: 40,
    packagedShare: 0.5,
    cutPrice: 10,
    processingPerHead: 30,
    cutsMonths: 5,
    freezerPerPound: 0.1,
  }
  const plan = planOf(flock({ meat }))
  expect(
    salesAndCosts(plan, ['2027-09', '2027-10', '2027-11', '2027-12', '2028-01', '2028-02', '2028-03']),
  ).toEqual([
    ['2027-09', 300, 50 + 300 + 17],
    ['2027-10', 300, 50 + 14],
    ['2027-11', 300, 50 + 11],
    ['2027-12', 300, 50 + 8],
    ['2028-01', 300, 50 + 5],
    ['2028-02', 300, 50 + 2],
    // The next lambs are born.
    ['2028-03', 200, 50 + 20],
  ])
  const { herds } = await figuresOf(plan, '/farm/herds.json?year=2027')
  expect(herds[0]!.years[0]).toMatchObject({ sales: 1200, freezer: 80, atAuction: 0 })
  expect(herds[0]!.years[1]).toMatchObject({ sales: 2000, freezer: 80 })
})
