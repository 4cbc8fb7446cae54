// A part of a thing sold by its form, and a thing given in trade: sent twice, in a closed year, taken back. By hand from IRS Pub. 946,
// table A-1 (7-year property: 14.29, 24.49, 17.49, 12.49 percent; half of a year's in the year of a sale); a trade is a sale at what
// is allowed, and the new thing costs all of it (26 USC 1031(a)(1), 1012(a)).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { storedHoldings } from '#db/year/holding-list.ts'
import { keptPacksOf } from '#db/year/kept-packs.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { yearBooks, yearParts } from '../outside/year-books.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const book = (on: string, lines: Record<string, number>) => postByName(app.books, 'farm', on, lines)
const balance = (name: string) => balancesOn(app.books).get(idOf(name)) ?? 0
const figures = (year = 2026) => yearPackFigures(app.books, year, 'cash', day('2027-02-10'))
const page = async (path: string) => (await app.get(path)).text()

beforeEach(() => {
  app = testApp({ today: '2027-02-10' })
  app.openSides()
  book('2022-12-31', { 'Farm checking': 60_000, 'Opening balances': -60_000 })
})
afterEach(() => app.close())

const cows = () => {
  book('2023-04-10', { 'Breeding stock': 14_000, 'Farm checking': -14_000 })
  return yearBooks(app.books).hold('Dexter cows', 'breeding_stock', '2023-04-10', '14,000', {
    ...yearParts.by('cattle'),
    quantity: 8,
    unit: 'head',
    accountId: idOf('Breeding stock'),
  }).holdingId
}
const gone = (more: Record<string, string> = {}) => ({
  formId: crypto.randomUUID(),
  quantity: '3',
  disposedDay: '2026-06-15',
  disposedFor: '6300',
  newName: '',
  newKind: 'equipment',
  newClass: '',
  newAccount: '',
  paid: '',
  paidFrom: '',
  ...more,
})

test('three of eight cows by form, sent twice: one part, one line of Form 4797, and the rest goes on', async () => {
  const id = cows()
  book('2026-06-10', { 'Farm checking': 100, 'Vegetables and fruit sold': -100 })
  expect(await page(`/year-pack/holdings/${id}?year=2026`)).toContain(
    `/year-pack/holdings/${id}/gone?year=2026`,
  )
  expect(await page(`/year-pack/holdings/${id}/gone?year=2026`)).toContain('8 left')
  const form = gone()
  for (const _ of [1, 2])
    expect((await app.post(`/year-pack/holdings/${id}/gone?year=2026`, form)).status).toBe(303)
  const [kept, ...others] = storedHoldings(app.books, 'farm')
  expect(others).toEqual([])
  expect(kept!.parts).toMatchObject([{ quantity: 3, disposedForCents: 630_000 }])
  // 2023 to 2026: 20, 32, 19.2 percent and half of 11.52 of 5,250: 4,040.40 in all; 6,300 − 1,209.60.
  expect(figures().sales!.sales).toMatchObject([
    { name: 'Dexter cows (3 of 8 head)', costCents: 525_000, deductedCents: 404_040, gainCents: 509_040 },
  ])
  // 302.40 of the three and 1,008.00 of the five.
  expect(figures().depreciation!.totalCents).toBe(131_040)
  const inventory = await page('/year-pack.csv?year=2026&table=inventory')
  for (const row of ['Dexter cows (3 of 8 head),Breeding stock,3,', 'Dexter cows,Breeding stock,5,'])
    expect(inventory).toContain(row)
  const text = await page(`/year-pack/holdings/${id}?year=2026`)
  expect(text).toContain('3 of 8 head gone on Jun 15, 2026, for $6,300.00')
  // The address of the part, as open points name it, leads to the thing.
  expect((await app.get(`/year-pack/holdings/${kept!.parts![0]!.id}?year=2026`)).status).toBe(200)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
  const back = await app.post(`/year-pack/holdings/${id}/parts/${kept!.parts![0]!.id}/back?year=2026`, {
    formId: crypto.randomUUID(),
  })
  expect(back.status).toBe(303)
  expect(storedHoldings(app.books, 'farm')[0]!.parts).toBeUndefined()
  expect(figures().sales?.sales ?? []).toEqual([])
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('a closed year says the same after a part is sold later, and asks when a part is sold in it', async () => {
  const id = cows()
  book('2025-06-10', { 'Farm checking': 100, 'Vegetables and fruit sold': -100 })
  done(closeMonth(app.books, act(), { sideId: 'farm', month: month(2025, 12), note: '' }, day('2027-02-10')))
  expect(
    (await app.post('/year-pack/close?year=2025', { formId: crypto.randomUUID(), over: '0', note: '' }))
      .status,
  ).toBe(303)
  expect((await app.post(`/year-pack/holdings/${id}/gone?year=2026`, gone())).status).toBe(303)
  expect(keptPacksOf(app.books, 2025)).toHaveLength(1)
  expect(await page('/year-pack?year=2025')).toContain('The books say the same today, line by line')
  const before = { ...gone({ disposedDay: '2025-03-01', quantity: '1' }) }
  const asked = await app.post(`/year-pack/holdings/${id}/gone?year=2026`, before)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('2025 is closed with its pack, and this changes it')
  expect(storedHoldings(app.books, 'farm')[0]!.parts).toHaveLength(1)
  expect(
    (await app.post(`/year-pack/holdings/${id}/gone?year=2026`, { ...before, overClosed: 'yes' })).status,
  ).toBe(303)
  expect(keptPacksOf(app.books, 2025)).toHaveLength(2)
  expect(storedHoldings(app.books, 'farm')[0]!.parts).toHaveLength(2)
})

test('a thing in trade: sold at what is allowed, the new one at its full cost, booked once however often it is sent', async () => {
  book('2023-05-02', { 'Machinery and equipment': 4000, 'Farm checking': -4000 })
  const { holdingId } = yearBooks(app.books).hold('Old tractor', 'equipment', '2023-05-02', '4,000', {
    ...yearParts.by('machinery-used'),
    accountId: idOf('Machinery and equipment'),
  })
  const form = gone({
    quantity: '1',
    disposedDay: '2026-09-10',
    disposedFor: '2500',
    newName: 'Walking tractor',
    newClass: 'machinery-new',
    newAccount: String(idOf('Machinery and equipment')),
    paid: '6500',
    paidFrom: String(idOf('Farm checking')),
  })
  const address = `/year-pack/holdings/${holdingId}/gone?year=2026`
  // What lacks is said at its field, and nothing is kept of it.
  for (const [field, value] of [
    ['disposedFor', ''],
    ['newAccount', ''],
    ['paid', ''],
  ] as const) {
    const refused = await app.post(address, { ...form, formId: crypto.randomUUID(), [field]: value })
    expect(refused.status).toBe(422)
    const text = await refused.text()
    expect(text).toContain(`href="#f-${field}"`)
    expect(text).toContain('value="Walking tractor"')
  }
  expect(storedHoldings(app.books, 'farm')).toHaveLength(1)
  for (const _ of [1, 2]) expect((await app.post(address, form)).status).toBe(303)
  expect(
    storedHoldings(app.books, 'farm').map(({ name, costCents, disposedForCents }) => ({
      name,
      costCents,
      disposedForCents,
    })),
  ).toEqual([
    { name: 'Old tractor', costCents: 400_000, disposedForCents: 250_000 },
    { name: 'Walking tractor', costCents: 900_000, disposedForCents: null },
  ])
  // 4,000 and 9,000 on the account until the old one's cost is taken out, which an open point tells.
  expect(balance('Machinery and equipment')).toBe(1_300_000)
  expect(balance('Farm checking')).toBe(6_000_000 - 400_000 - 650_000)
  expect(balance('Breeding stock and equipment sold')).toBe(-250_000)
  const { sales, depreciation, gaps } = figures()
  // 571.60 + 979.60 + 699.60 and half of 499.60: 2,500.60; 2,500 − 1,499.40.
  expect(sales).toMatchObject({ bookedCents: 250_000, recordedCents: 250_000, ordinaryCents: 100_060 })
  expect(sales!.sales).toMatchObject([
    { name: 'Old tractor', deductedCents: 250_060, gainCents: 100_060, part: 'III' },
  ])
  // 249.80 of the old one, 20 % of 9,000 of the new one.
  expect(depreciation!.totalCents).toBe(204_980)
  expect(gaps.some(({ says }) => says.includes('bought in 2026'))).toBe(false)
  expect(gaps.some(({ says }) => says.includes('Old tractor was sold'))).toBe(true)
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('given in trade for a cheaper one with cash back: all of the allowance is the sale, the new one costs what is left of it', async () => {
  book('2023-05-02', { 'Machinery and equipment': 4000, 'Farm checking': -4000 })
  const { holdingId } = yearBooks(app.books).hold('Old tractor', 'equipment', '2023-05-02', '4,000', {
    ...yearParts.by('machinery-used'),
    accountId: idOf('Machinery and equipment'),
  })
  const form = gone({
    quantity: '1',
    disposedDay: '2026-09-10',
    disposedFor: '2500',
    newName: 'Trailer',
    newClass: 'heavy-truck-or-trailer',
    newAccount: String(idOf('Machinery and equipment')),
    received: '700',
    paidFrom: String(idOf('Farm checking')),
  })
  const address = `/year-pack/holdings/${holdingId}/gone?year=2026`
  for (const wrong of [{ paid: '100' }, { received: '2500' }]) {
    const refused = await app.post(address, { ...form, formId: crypto.randomUUID(), ...wrong })
    expect(refused.status).toBe(422)
    expect(await refused.text()).toContain('href="#f-received"')
  }
  for (const _ of [1, 2]) expect((await app.post(address, form)).status).toBe(303)
  expect(storedHoldings(app.books, 'farm').map(({ name, costCents }) => [name, costCents])).toEqual([
    ['Old tractor', 400_000],
    ['Trailer', 180_000],
  ])
  // 4,000 and 1,800; 60,000 less 4,000 and 700 back; 2,500 sold, 1,800 of it in kind.
  expect(balance('Machinery and equipment')).toBe(580_000)
  expect(balance('Farm checking')).toBe(6_000_000 - 400_000 + 70_000)
  expect(balance('Breeding stock and equipment sold')).toBe(-250_000)
  expect(figures().sales).toMatchObject({
    bookedCents: 250_000,
    recordedCents: 250_000,
    ordinaryCents: 100_060,
  })
})
