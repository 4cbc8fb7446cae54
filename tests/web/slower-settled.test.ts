// What Slower years tells of a phase is a settled year, with the hours that somebody works, and the mix is held against the same figures.
// Two invented cousins with pears, and ewes of which half are sold as they slow down.
import { afterEach, expect, test } from 'vitest'
import { weeksPerMonth } from '#farm/work-months.ts'
import type { SlowerAnswers, SlowerFigures } from '#today/slower-years/figures.ts'
import { stillEwes } from '../farm/still-ewes.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** 100 hours of pears a month; each cousin gives half of what there is. */
const cousins = (phase: object) => ({
  startMonth: '2027-01',
  household: {
    people: [
      { id: 'tam', name: 'Tam', born: '1970-04-01' },
      { id: 'gil', name: 'Gil', born: '1972-02-11' },
    ],
    living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 400_000 }] },
  farm: {
    enterprises: [
      {
        id: 'pears',
        name: 'Pears',
        scale: 1,
        salesPerUnit: Array(12).fill(1000),
        hoursPerUnit: Array(12).fill(100),
        landPerUnit: 1,
      },
    ],
    herds: [stillEwes('2027-01', 120)],
    crew: [
      { who: 'tam', weeklyHours: 20 },
      { who: 'gil', weeklyHours: 20 },
    ],
    land: 3,
    phases: [
      {
        from: '2030-01',
        name: 'Half',
        weeklyHours: [
          { who: 'tam', hours: 25 / weeksPerMonth },
          { who: 'gil', hours: 25 / weeksPerMonth },
        ],
        ...phase,
      },
    ],
  },
  tax: { method: 'none' },
  assumptions: { inflation: 0, stocks: 0, bonds: 0, bills: 0 },
})

const shown = async (phase: object) => {
  app = testApp({ today: '2027-01-10' })
  app.openSides()
  app.savePlan(cousins(phase))
  const figures = (await (await app.get('/slower-years.json')).json()) as SlowerFigures & {
    answers: SlowerAnswers
  }
  const page = async (path: string) => (await (await app.get(path)).text()).replace(/\s+/g, ' ')
  return { ...figures, page: await page('/slower-years'), mix: await page('/slower-years/answers') }
}

test('a year after the phase’s own sale of stock is told, by the hours worked in it, and the sale apart', async () => {
  const { phases, years, page } = await shown({ herdLimits: [{ herd: 'ewes', value: 10 }] })
  const [half] = phases
  expect([half!.yearBefore, half!.year]).toEqual([2029, 2031])
  // 50 of 100 hours a month are there: half is done, and half is sold.
  expect(half!.net).toBeCloseTo(6000, 6)
  expect(half!.netBefore).toBeCloseTo(12_000, 6)
  expect(half!.hours).toBeCloseTo(600, 4)
  expect(half!.hoursBefore).toBeCloseTo(1200, 4)
  // Ten ewes at 120.
  expect(half!.wound).toMatchObject([
    { name: 'Ewes', heads: expect.closeTo(10, 6), brings: expect.closeTo(1200, 4) },
  ])
  expect(page).toContain('the farm brings <strong>$6,000 a year</strong>')
  expect(page).toContain('in 600 hours a year instead of 1,200')
  expect(page).toContain('That is 2031; the stock sold as the phase begins brings $1,200 once, before it.')
  expect(page).toContain('50% of the net for 50% of the hours')
  // The year of the sale has it, and the same hours.
  const sale = years.find((one) => one.year === 2030)!
  expect(sale.farmNet).toBeCloseTo(7200, 4)
  expect(sale.weeklyHours * 52.1775).toBeCloseTo(600, 1)
})

test('without a sale the first whole year is settled, and so it is where the next phase begins', async () => {
  const { phases, page } = await shown({})
  expect(phases[0]).toMatchObject({ year: 2030, wound: [] })
  expect(page).not.toContain('the stock sold')
  app.close()
  app = testApp({ today: '2027-01-10' })
  app.openSides()
  const plan = cousins({ herdLimits: [{ herd: 'ewes', value: 10 }] })
  plan.farm.phases.push({ ...plan.farm.phases[0]!, from: '2031-07', name: 'Less' })
  app.savePlan(plan)
  const figures = (await (await app.get('/slower-years.json')).json()) as SlowerFigures
  expect(figures.phases.map(({ year }) => year)).toEqual([2030, 2032])
})

test('the mix is held against the farm before and the phase as the page tells them', async () => {
  const { phases, answers, mix } = await shown({ herdLimits: [{ herd: 'ewes', value: 10 }] })
  const [half] = phases
  const [one] = answers.mixes
  if (one?.answer.kind !== 'found') throw new Error(JSON.stringify(one))
  expect(one.answer.netToday).toBeCloseTo(half!.netBefore, 6)
  expect(one.answer.hoursToday).toBeCloseTo(half!.hoursBefore!, 6)
  expect(one.there.net).toBeCloseTo(half!.net, 6)
  expect(one.there.hours).toBeCloseTo(half!.hours!, 6)
  expect(one.netKept).toBeCloseTo(one.answer.net / 12_000, 6)
  expect(mix).toContain('the farm before it makes $12,000 in 1,200 hours')
  expect(mix).toMatch(/The plan as saved makes \$6,000 in 600 hours,? [^.]*once it has settled/)
})
