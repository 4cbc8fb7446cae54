// Addresses that take a year never answer with another one: they say that it is not there, and which years are.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { yearBooks } from '../outside/year-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  app.savePlan(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'ida', name: 'Ida', born: '1980-03-01' }],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
      health: { marketplace: { members: [{ person: 'ida' }], benchmarkAt21: 400, planAt21: 400 } },
    }),
  )
  yearBooks(app.books).book({ 'Vegetables and fruit sold': '12,000' }, { Feed: '4,200' })
})

afterEach(() => app.close())

const said = async (path: string) => {
  const response = await app.get(path)
  return { status: response.status, text: await response.text() }
}

test.each(['/year-pack', '/year-pack/print', '/year-pack/folder', '/year-pack/sheets/tax'])(
  '%s of a year without books, in every form',
  async (path) => {
    const none = 'The year pack does not reach 2015. It has 2025.'
    const page = await said(`${path}?year=2015`)
    expect([page.status, page.text.includes(none)]).toEqual([404, true])
    expect(page.text).toContain('href="/year-pack?year=2025"')
    for (const ending of ['.json', '.csv']) {
      const { status, text } = await said(`${path}${ending}?year=2015`)
      expect([ending, status, JSON.parse(text)]).toEqual([ending, 404, { error: none }])
    }
  },
)

test('without a year, the pack is that of the last year that is over', async () => {
  expect(JSON.parse((await said('/year-pack.json')).text)).toMatchObject({ year: 2025 })
  expect((await said('/year-pack.csv?year=2025&table=schedule-f')).status).toBe(200)
})

test.each([
  ['/farm', 'The plan of the farm does not reach 2015. It has 2026 to 2055.'],
  ['/farm/markets', 'The plan of the farm does not reach 2015. It has 2026 to 2055.'],
  ['/cover', 'The plan does not reach 2015. It has 2026 to '],
])('%s of a year outside the plan', async (path, none) => {
  const page = await said(`${path}?year=2015`)
  expect([page.status, page.text.includes(none)]).toEqual([404, true])
  expect(page.text).toContain(`href="${path}?year=2026"`)
  const { status, text } = await said(`${path}.csv?year=2015`)
  expect([status, JSON.parse(text).error.startsWith(none)]).toEqual([404, true])
  expect((await said(`${path}.json?year=2030`)).text).toContain('"year":2030')
})

test.each([
  '/year-pack',
  '/year-pack/people',
  '/year-pack/payments',
  '/year-pack/contributions',
  '/year-pack/cover-papers',
  '/year-pack/inputs',
  '/year-pack/schedule-f',
  '/year-pack/depreciation',
  '/farm/preparer',
  '/farm',
])('%s of a year that is none', async (path) => {
  for (const ending of ['', '.json', '.csv']) {
    const { status, text } = await said(`${path}${ending}?year=20x5`)
    expect([path + ending, status]).toEqual([path + ending, 404])
    expect(text).toContain('asks for the year “20x5”. A year has four digits, like 2026.')
  }
})
