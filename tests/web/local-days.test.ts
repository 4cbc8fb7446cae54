// The day of an act is the couple's own: at 8:30 in the evening of March 15 in New York it is March 16 in universal time (15 U.S.C. 260a: four
// hours behind it since March 8, 2026).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { type TestApp, testApp } from './test-app.ts'

const evening = '2026-03-16T00:30:00.000Z'
const zone = process.env.TZ
let app: TestApp

beforeEach(() => {
  process.env.TZ = 'America/New_York'
  app = testApp()
  app.setToday('2026-03-15', '20:30')
  app.openSides()
})
afterEach(() => {
  app.close()
  if (zone === undefined) delete process.env.TZ
  else process.env.TZ = zone
})

test('an entry says the evening on which it was entered, not the day that it is in universal time', async () => {
  const account = (name: string) => listAccounts(app.books).find((one) => one.name === name)!.id
  const draft = moneyOut(
    { id: '', sideId: 'farm', day: day('2026-03-12'), payee: 'Country store', memo: '' },
    account('Farm checking'),
    [{ accountId: account('Supplies'), amountCents: cents(800) }],
  )
  const act = { formId: '00000000-0000-4000-8000-000000000001', at: evening, actor: 'test' }
  expect(postEntry(app.books, act, draft).ok).toBe(true)
  const page = await (await app.get('/books/entries/1')).text()
  expect(page).toContain('Entered by form, Mar 15, 2026.')
  expect(page).not.toContain('Mar 16, 2026')
})

test('a month that is closed says the evening on which it was', async () => {
  await app.post('/books/close', {
    formId: '00000000-0000-4000-8000-000000000002',
    side: 'farm',
    at: '1',
    month_1: '2026-02',
    note_1: '',
  })
  const { sides } = (await (await app.get('/books/close.json')).json()) as {
    sides: { side: { id: string }; closings: { closedAt: string; closedOn: string }[] }[]
  }
  const [closing] = sides.find(({ side }) => side.id === 'farm')!.closings
  expect(closing!.closedAt.slice(0, 10)).toBe('2026-03-16')
  expect(closing!.closedOn).toBe('2026-03-15')
  expect(await (await app.get('/books/close')).text()).toContain('Mar 15, 2026')
})
