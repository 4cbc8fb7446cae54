// The headline of the farm ranks what has hours; what has none is named with the money that stands in no hour. Worked by hand.
import { afterEach, expect, test } from 'vitest'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const farm = (enterprises: readonly object[]) => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
  app.savePlan({
    name: 'Ducks',
    startMonth: '2026-01',
    household: { people: [{ id: 'tove', name: 'Tove', born: '1985-03-02' }] },
    farm: { crew: [{ who: 'tove', weeklyHours: 40 }], enterprises },
  })
}
const page = async () => (await (await app.get('/farm?year=2026')).text()).replaceAll('\u00a0', ' ')

const ducks = { id: 'ducks', name: 'Ducks', salesPerUnit: 5000, costsPerUnit: 2000, hoursPerUnit: 150 }
const eggs = { id: 'eggs', name: 'Duck eggs', salesPerUnit: 2400, costsPerUnit: 900, hoursPerUnit: 100 }
const asItIs = { id: 'all', name: 'The farm as it is', salesPerUnit: 0, costsPerUnit: 1600 }

test('costs without hours are not ranked, and the headline says that no hour bears them', async () => {
  farm([ducks, eggs, asItIs])
  const html = await page()
  // (5,000 − 2,000) / 150 and (2,400 − 900) / 100: 20.00 and 15.00.
  expect(html).toContain('Most for an hour comes from Ducks ($20.00), least from Duck eggs ($15.00)')
  expect(html).toContain(
    'The farm as it is has no hours: the $1,600 it costs beyond its sales are in no hour here.',
  )
  expect(html).not.toContain('no hours)')
  expect(html).not.toContain('after all costs')
})

test('one line with hours is not compared with one that has none', async () => {
  farm([ducks, asItIs])
  const html = await page()
  expect(html).toContain('An hour of Ducks brings $20.00')
  expect(html).not.toContain('least from')
})
