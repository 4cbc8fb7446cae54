// A plan that begins within a year counts what that year's law asks out of own retirement accounts as taken before: it says so, and by when.
import { afterEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** A beekeeper of 75 in 2026, and her sister-in-law's helper of 60: required from 73 for her (born 1951 to 1959), not yet for him. */
const bees = (startMonth: string) => {
  app = testApp({ today: `${startMonth}-05` })
  app.savePlan(
    planSchema.parse({
      startMonth,
      household: {
        people: [
          { id: 'orla', name: 'Orla', born: '1951-03-09' },
          { id: 'finn', name: 'Finn', born: '1966-03-09' },
        ],
        living: [{ id: 'home', name: 'Home', perMonth: 1500 }],
      },
      savings: {
        accounts: [
          { id: 'bank', name: 'Bank', kind: 'cash', balance: 60_000 },
          { id: 'ira', name: 'IRA', kind: 'traditional', balance: 90_000, owner: 'orla' },
          { id: 'his', name: 'His IRA', kind: 'traditional', balance: 90_000, owner: 'finn' },
        ],
      },
      tax: { method: 'none' },
    }),
  )
}
const people = async () =>
  (
    (await (await app.get('/slower-years.json')).json()) as { people: { distributionsFrom: string }[] }
  ).people.map((one) => one.distributionsFrom)

test('begun in July, the distribution of the year is told as counted before; in January it is taken by the plan', async () => {
  bees('2026-07')
  expect(await people()).toEqual([
    '2024, at 73. What 2026 requires counts as taken before July 2026: take it by the end of the year if it was not',
    '2041, at 75',
  ])
  const page = await (await app.get('/slower-years')).text()
  expect(page).toContain('counts as taken before July 2026')
  app.close()
  bees('2026-01')
  expect(await people()).toEqual(['2024, at 73', '2041, at 75'])
})
