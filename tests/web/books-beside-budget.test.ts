// What the books say beside a year's budget: of how many months that is, and yields below one unit.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { act, done, on, type TestBooks, withAccounts } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

// A grove of 310 taps; the farm's books begin in July.
let app: TestApp
let books: TestBooks
beforeEach(() => {
  app = testApp({ today: '2026-12-01' })
  app.openSides()
  books = withAccounts(app.books)
  app.savePlan({
    name: 'Grove',
    startMonth: '2027-01',
    household: { people: [{ id: 'jo', name: 'Jo', born: '1990-05-05' }] },
    farm: {
      enterprises: [
        {
          id: 'taps',
          name: 'Syrup',
          unit: 'tap',
          scale: 310,
          salesPerUnit: 22,
          costsPerUnit: 7.7,
          yieldPerUnit: 0.31,
          yieldMeasure: 'gallon',
        },
      ],
    },
  })
})
afterEach(() => app.close())

const sale = (day: string) => {
  const [bank, sales] = [
    books.account('farm', 'Farm checking').id,
    books.account('farm', 'Other farm income').id,
  ]
  const lines = [
    { accountId: bank, amountCents: cents(5_000) },
    { accountId: sales, amountCents: cents(-5_000), enterpriseId: 'taps' },
  ]
  done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: on(day),
      payee: 'Buyer',
      memo: '',
      source: 'form',
      lines,
    }),
  )
}
const page = async () => (await app.get('/farm/enterprises?year=2027')).text()

test('books of five months beside a budget of twelve say so, and books of a whole year need not', async () => {
  sale('2026-07-14')
  expect(await page()).toContain(
    'The books hold 5 months, Jul 1, 2026 to Nov 30, 2026: the budget beside them is of all 12 months of 2027',
  )
  sale('2025-10-02')
  expect(await page()).toContain('In the books, Dec 1, 2025 to Nov 30, 2026, beside the budget of 2027')
})

// $7.70 a tap over $22 for 0.31 gallon is 0.1085 gallon.
test('yields below one are shown in three figures', async () => {
  const html = await page()
  expect(html).toContain('>0.31 per tap<')
  expect(html).toMatch(/>0\.10[89]</)
})
