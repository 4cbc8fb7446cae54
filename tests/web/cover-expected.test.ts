// Who is covered by what is found once each January from the income expected then (renewed once in twelve months: 42 CFR 435.916, 600.340,
// from memory), and every page tells that cover. Two invented weavers in Oregon whose ewes are sold in a January that did not count on it.
import { afterEach, expect, test } from 'vitest'
import type { CoverFigures } from '#today/cover/figures.ts'
import type { IncomeRooms } from '#today/cover/income-room.ts'
import { stillEwes } from '../farm/still-ewes.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const weavers = (limit: number | null) => ({
  startMonth: '2026-01',
  years: 5,
  household: {
    place: { state: 'OR' },
    people: [
      { id: 'bea', name: 'Bea', born: '1975-05-02' },
      { id: 'lot', name: 'Lot', born: '1976-08-20' },
    ],
    pay: [{ id: 'mill', name: 'Mill', person: 'bea', perMonth: 3400 }],
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
  },
  health: {
    marketplace: { members: [{ person: 'bea' }, { person: 'lot' }], planAt21: 300, benchmarkAt21: 300 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
  farm: {
    herds: [stillEwes('2026-01', 900)],
    phases:
      limit === null
        ? []
        : [{ from: '2027-01', name: 'Fewer ewes', herdLimits: [{ herd: 'ewes', value: limit }] }],
  },
  tax: { method: 'law' },
  assumptions: {
    inflation: 0,
    stocks: 0,
    bonds: 0,
    bills: 0,
    premiumGrowth: 0,
    medicareGrowth: 0,
    careGrowth: 0,
    wageGrowth: 0,
  },
})

type Read = Extract<CoverFigures, { status: 'read' }>
const sight = async (year: number) => {
  const figures = (await (await app.get(`/cover.json?year=${year}`)).json()) as Read
  const row = figures.rows.find((one) => one.year === year)!
  const page = (await (await app.get(`/cover?year=${year}`)).text()).replace(/\s+/g, ' ')
  const at = figures.inSight!
  return { row, at, page, kinds: at.bands[at.standsOn]!.people.map(({ kind }) => kind) }
}

test('a sale that January did not count on leaves the year its cover on every page, and room is counted from what January expected', async () => {
  app = testApp({ today: '2026-01-05' })
  app.savePlan(weavers(10))
  // 12 × 3,400 of pay is expected, under 200 % of the guidelines of 2026 for two: 2 × 21,640 = 43,280. Ten raised ewes at 900 come on top.
  const { row, at, page, kinds } = await sight(2027)
  expect(row.householdIncome).toBeCloseTo(49_800, 0)
  expect(row.people.map(({ cover }) => cover)).toEqual(
    ['bea', 'lot'].map(() => [{ kind: 'basic health program', from: 1, months: 12 }]),
  )
  expect(kinds).toEqual(['basic health program', 'basic health program'])
  expect([at.room.now.credit, at.room.now.netPremium, row.credit]).toEqual([0, 0, 0])
  expect(at.expectedIncome).toBeCloseTo(40_800, 0)
  const line = at.room.rooms.find((room) => room.line === 'basic program line')!
  expect(line.incomeLeft).toBeCloseTo(43_280 - 40_800, 0)
  expect(page).toContain('in 2027 Bea and Lot have the basic health program.')
  expect(page).toContain(
    'January 2027 expected $40,800, and that decides: the programs’ limits stand $9,000 higher here.',
  )
  const { years } = (await (await app.get('/runway/questions/income-room.json')).json()) as IncomeRooms
  const asked = years.find((one) => one.year === 2027)!
  expect([asked.now.credit, asked.cliff!.line]).toEqual([0, 'basic program line'])
  expect(asked.cliff!.incomeLeft).toBeCloseTo(line.incomeLeft, 0)
  // The January after begins with the income of the year that went beyond the line, though it expects less.
  const after = await sight(2028)
  expect(after.row.householdIncome).toBeLessThan(43_280)
  expect(after.row.people.map(({ cover }) => cover[0]!.kind)).toEqual(['marketplace', 'marketplace'])
  expect(after.kinds).toEqual(['marketplace', 'marketplace'])
  expect(after.at.room.now.credit).toBeCloseTo(after.row.credit, 0)
  expect(after.page).toContain('lower here.')
})

test('where the year’s income finds the same cover, lines stand as the law draws them', async () => {
  app = testApp({ today: '2026-01-05' })
  app.savePlan(weavers(null))
  const { at, page } = await sight(2027)
  expect(at.expectedIncome).toBeNull()
  expect(at.bands.map(({ toIncome }) => toIncome)).toEqual([29_863.2, 43_280, null])
  expect(page).not.toContain('and that decides')
})
