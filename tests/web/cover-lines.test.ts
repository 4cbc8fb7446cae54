// Where the law compares an income to a line, the Health page counts to the cent: at exactly 200 or 300 percent of the poverty level a
// household is at it, not a percent below. An invented couple of 41 and 39 without children, with pay and a small farm of her own.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { CoverFigures } from '#today/cover/figures.ts'
import { type TestApp, testApp } from './test-app.ts'

const couple = {
  planVersion: 4,
  startMonth: '2026-01',
  years: 12,
  household: {
    people: [
      { id: 'rhea', name: 'Rhea', born: '1985-04-12', farmWorkShare: 1 },
      { id: 'tomas', name: 'Tomas', born: '1987-09-30', farmWorkShare: 0 },
    ],
    pay: [{ id: 'yard', name: 'Lumber yard', person: 'tomas', perMonth: 1933.33 }],
    living: [{ id: 'living', name: 'Living', perMonth: 2700 }],
  },
  farm: {
    cash: 9000,
    enterprises: [
      { id: 'greens', name: 'Salad greens', unit: 'bed', scale: 41, salesPerUnit: 1000, costsPerUnit: 610 },
    ],
  },
  health: {
    marketplace: {
      members: [{ person: 'rhea' }, { person: 'tomas' }],
      planAt21: 431.7,
      benchmarkAt21: 455.3,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 61_000 }] },
}

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-25' })
  app.openSides()
})
afterEach(() => app.close())

type Read = Extract<CoverFigures, { status: 'read' }>
const read = async (path: string): Promise<Read> => (await (await app.get(path)).json()) as Read

// 26 USC 36B(d)(3)(B): coverage of 2027 is measured by the guidelines of 2026, 15,960 and 5,680 for the second person.
const line = 15_960 + 5680

const standing = async (income: number) =>
  (await read(`/cover.json?year=2027&income=${income.toFixed(2)}`)).inSight!.room.now

describe('an income exactly at a line', () => {
  test.each([150, 200, 250, 300, 400])('%s percent is told as such', async (percent) => {
    app.savePlan(couple)
    const now = await standing((line * percent) / 100)
    expect(now.householdIncome).toBe((line * percent) / 100)
    expect(now.povertyPercent).toBe(percent)
  })

  test.each([200, 250, 300])(
    'the cent below %s is a percent less, and no other cost sharing',
    async (percent) => {
      app.savePlan(couple)
      const [now, below] = [
        await standing((line * percent) / 100),
        await standing((line * percent - 1) / 100),
      ]
      expect(below.povertyPercent).toBe(percent - 1)
      // 45 CFR 155.305(g): up to the line.
      expect(below.silverValue).toBe(now.silverValue)
    },
  )
})

// Pennsylvania covers children of 6 to 18 by its children's program to 319 percent (its own data here); nothing in the plan follows it.
// Premiums of 500 and 400 at 21, prices that stand still: at 11 the federal age curve has 0.765, so 382.50 a month for the child's
// plan. Its benchmark of 306 raises the credit by as much, which leaves 76.50; without a farm none of it is deducted.
const family = {
  ...couple,
  farm: {},
  household: {
    ...couple.household,
    place: { state: 'PA', county: 'Erie County' },
    dependents: [{ id: 'juno', name: 'Juno', born: '2015-06-02' }],
  },
  health: {
    marketplace: { ...couple.health.marketplace, planAt21: 500, benchmarkAt21: 400 },
  },
  assumptions: { inflation: 0, premiumGrowth: 0 },
}

test('where a children’s program ends and nothing in the plan follows, the child is without coverage, and a plan’s cost is told', async () => {
  app.savePlan(family)
  const { inSight } = await read('/cover.json?year=2027&income=60000')
  const place = inSight!.room.rooms.findIndex(({ line }) => line === 'children’s program line')
  expect(inSight!.room.rooms[place]!.moves).toEqual([
    { name: 'Juno', from: 'children’s program', to: 'none' },
  ])
  expect(inSight!.leftWithout[place]).toEqual([{ name: 'Juno', monthly: 382.5, afterCreditMonthly: 76.5 }])
  const page = (await (await app.get('/cover?year=2027&income=60000')).text()).replace(/\s+/g, ' ')
  expect(page).toContain(
    'Juno would be without coverage: a plan on the marketplace would cost about $383 a month, $77 after the credit and tax',
  )
  expect(page).not.toContain('next to nothing')
})

// 42 CFR 435.550 to 435.563 (91 FR 33348): from 2027 on 80 hours of work a month, on the family's farm too, or a household income of 580
// a month. 20 hours a week are 86.7 a month, 10 are 43.3. At 5,000 a year the income is 417 a month, at 7,000 it is 583.
describe('Medicaid’s work requirement', () => {
  const farmers = {
    ...couple,
    household: { ...couple.household, pay: [], place: { state: 'PA', county: 'Erie County' } },
    farm: {
      ...couple.farm,
      crew: [
        { who: 'rhea', weeklyHours: 20 },
        { who: 'tomas', weeklyHours: 10 },
      ],
    },
  }
  const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')

  test('is told with the hours that the plan gives each on the farm: met by one, not by the other', async () => {
    app.savePlan(farmers)
    const { inSight } = await read('/cover.json?year=2027&income=5000')
    expect(inSight!.work!.people).toMatchObject([
      { name: 'Rhea', stands: 'met by hours', hoursMonthly: 86.67 },
      { name: 'Tomas', stands: 'not met', hoursMonthly: 43.33 },
    ])
    const html = await page('/cover?year=2027&income=5000')
    expect(html).toContain('80 hours a month')
    expect(html).toContain('Rhea: met, by 87 hours a month')
    expect(html).toContain('Tomas: not met, by 43 hours a month and a household income of $417 a month')
    expect(await page('/cover?year=2027&income=7000')).toContain(
      'Tomas: met, by a household income of $583 a month',
    )
  })

  test('is not asked in 2026, in a state without Medicaid for adults, or of those of whose hours the plan says nothing without a word', async () => {
    app.savePlan(farmers)
    expect((await read('/cover.json?year=2026&income=5000')).inSight!.work).toBeNull()
    const texans = { ...farmers, household: { ...farmers.household, place: { state: 'TX' } } }
    app.savePlan(texans, { basedOn: 1 })
    expect((await read('/cover.json?year=2027&income=5000')).inSight!.work).toBeNull()
    app.savePlan({ ...farmers, farm: { ...couple.farm } }, { basedOn: 2 })
    const html = await page('/cover?year=2027&income=5000')
    expect(html).toContain('Rhea: not met, as the plan names no hours')
  })
})

test('the year under way and the projection’s return are one: months of coverage before a restart count once', async () => {
  app.savePlan({ ...couple, farm: {}, assumptions: { inflation: 0, premiumGrowth: 0 } })
  interface Years {
    yearReturns: { year: number; premiumTaxCredit: number; householdIncome: number; advanceCredit: number }[]
  }
  const runway = (await (await app.get('/runway.json')).json()) as Years
  const row = (await read('/cover.json')).rows.find(({ year }) => year === 2026)!
  const told = runway.yearReturns.find(({ year }) => year === 2026)!
  expect(row.marketplaceMonths).toBe(12)
  // Factors at 40 and 38 on January 1: 1.278 + 1.246, of which the plan's premiums are for twelve months, ten of them behind.
  expect(row.premiumMonthly).toBeCloseTo(431.7 * (1.278 + 1.246), 2)
  expect([row.credit, row.householdIncome]).toEqual([told.premiumTaxCredit, told.householdIncome])
  // 23,199.96 of pay is 109 percent of 21,150: 2.10 percent of it in 2026 (Rev. Proc. 2025-25), 487.20, so the plan's own premium is
  // below what the benchmark leaves.
  expect(row.credit).toBeCloseTo(Math.min(12 * 431.7 * 2.524, 12 * 455.3 * 2.524 - 487.2), 0)
  const { inSight } = await read('/cover.json?year=2026')
  expect(inSight!.room.now.credit).toBeCloseTo(row.credit, 0)
})
