// Hours of markets alone make no hour of the farm: where an enterprise has none, what an hour brings is not known yet. An invented farm.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-11-20' })
  app.openSides()
})
afterEach(() => app.close())

const textOf = async (path: string) =>
  (await (await app.get(path)).text()).replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ')

const planWith = (hours: { garlic: number; plums: number }) => ({
  name: 'Garlic and plums',
  startMonth: '2026-01',
  assumptions: { inflation: 0 },
  household: { people: [{ id: 'ivo', name: 'Ivo', born: '1984-03-02' }] },
  farm: {
    enterprises: [
      {
        id: 'garlic',
        name: 'Garlic',
        scale: 1,
        salesPerUnit: 8000,
        costsPerUnit: 2000,
        hoursPerUnit: hours.garlic,
      },
      {
        id: 'plums',
        name: 'Plums',
        scale: 1,
        salesPerUnit: 4000,
        costsPerUnit: 1000,
        hoursPerUnit: hours.plums,
      },
    ],
    markets: [{ id: 'pier', name: 'Pier', trips: 2, hoursPerTrip: 8, salesPerTrip: 500 }],
  },
})

test('no enterprise has hours: a market’s alone divide nothing', async () => {
  app.savePlan(planWith({ garlic: 0, plums: 0 }))
  expect(await textOf('/farm?year=2027')).toMatch(
    /For an hour of your work Not known yet No enterprise has hours yet/,
  )
})

test('one of them has none: it is named', async () => {
  app.savePlan(planWith({ garlic: 300, plums: 0 }))
  expect(await textOf('/farm?year=2027')).toMatch(
    /For an hour of your work Not known yet No hours are entered yet for Plums/,
  )
})

test('all have them: the farm’s net by all hours', async () => {
  app.savePlan(planWith({ garlic: 300, plums: 100 }))
  expect(await textOf('/farm?year=2027')).toMatch(/For an hour of your work \$\d/)
})
