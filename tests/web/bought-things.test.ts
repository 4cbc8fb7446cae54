// A hop yard: a harvester on the inventory, a compressor only in the books. What was bought and is not listed is an open point with its
// button; a sold thing has one piece of advice while depreciation is unbooked. Figures by hand: IRS Pub. 946, table A-1, 7-year property
// (used machinery), half-year convention: 14.29 percent, then 24.49, of which half in the year of a sale.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { yearBooks, yearParts } from '../outside/year-books.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const book = (on: string, memo: string, lines: Record<string, number>) =>
  postByName(app.books, 'farm', on, lines, { memo })
const gaps = () => yearPackFigures(app.books, 2025, 'cash', day('2026-02-10')).gaps
const bought = () => gaps().filter(({ says }) => says.includes('bought in 2025'))
const machine = () => ({ ...yearParts.by('machinery-used'), accountId: idOf('Machinery and equipment') })

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  book('2024-01-01', '', { 'Farm checking': 40_000, 'Opening balances': -40_000 })
  book('2025-03-04', 'Hop harvester', { 'Machinery and equipment': 16_000, 'Farm checking': -16_000 })
  book('2025-08-20', 'Air compressor', { 'Machinery and equipment': 3000, 'Farm checking': -3000 })
})

afterEach(() => app.close())

test('bought by the books and not on the inventory: both amounts, and a button that opens the form with what the books tell', async () => {
  yearBooks(app.books).hold('Hop harvester', 'equipment', '2025-03-04', '16,000', machine())
  expect(bought().map(({ says }) => says)).toEqual([
    'Wrenfold: bought in 2025, $19,000.00 on “Machinery and equipment” in the books, $16,000.00 on the inventory. Nothing is written off of the rest until it stands there.',
  ])
  const text = await (await app.get('/year-pack?year=2025')).text()
  expect(text).toContain('Add it to the inventory')
  const form = await (await app.get(bought()[0]!.href)).text()
  for (const value of ['Air compressor', '3000.00', '2025-08-20']) expect(form).toContain(`value="${value}"`)
  expect(form).toMatch(new RegExp(`value="${idOf('Machinery and equipment')}" selected`))
  const added = await app.post('/year-pack/holdings/new?year=2025', {
    formId: crypto.randomUUID(),
    side: 'farm',
    name: 'Air compressor',
    kind: 'equipment',
    quantity: '1',
    unit: '',
    cost: '3000.00',
    acquiredDay: '2025-08-20',
    inServiceDay: '',
    account: String(idOf('Machinery and equipment')),
    assetClass: 'machinery-used',
    section179: '',
    marketValue: '',
    valuedDay: '',
    disposedDay: '',
    disposedFor: '',
  })
  // What was opened from the pack of 2025 leads back to that year.
  expect(added.headers.get('location')).toMatch(/^\/year-pack\/inputs\?year=2025/)
  expect(bought()).toEqual([])
})

test('listed without an account, paid for in the year after, moved, undone or from an opening: nothing is missing', () => {
  const { hold } = yearBooks(app.books)
  hold('Hop harvester', 'equipment', '2025-03-04', '16,000', yearParts.by('machinery-used'))
  hold('Air compressor', 'equipment', '2024-12-28', '3,000', machine())
  expect(bought()).toEqual([])
  book('2025-09-01', 'Shed, moved', { 'Buildings and fences': 700, 'Machinery and equipment': -700 })
  expect(bought()).toEqual([])
})

test('sold while depreciation is unbooked: the point leads to booking the difference and tells no entry of its own', async () => {
  const { hold } = yearBooks(app.books)
  book('2024-04-01', 'Baler', { 'Machinery and equipment': 2000, 'Farm checking': -2000 })
  hold('Baler', 'equipment', '2024-04-01', '2,000', { ...machine(), ...yearParts.sold('2025-10-01', '900') })
  hold('Hop harvester', 'equipment', '2025-03-04', '16,000', machine())
  hold('Air compressor', 'equipment', '2025-08-20', '3,000', machine())
  book('2025-10-01', '', { 'Farm checking': 900, 'Breeding stock and equipment sold': -900 })
  const sold = () => gaps().filter(({ says }) => says.includes('Baler was sold'))
  expect(sold()).toEqual([
    {
      // 2024 lacks its own too: until that is booked, the page of 2025 could not take the baler out.
      says: 'Baler was sold on Oct 1, 2025, and its cost of $2,000.00 is still in the books. Book the difference of depreciation of 2024: then this point tells the entry that takes it out.',
      href: '/year-pack/depreciation?year=2024&side=farm',
    },
  ])
  // 2024: 2,000 × 14.29 % = 285.80. Booked alone, the year 2025 still lacks its own.
  book('2024-12-31', '', { Depreciation: 285.8, 'Depreciation taken': -285.8 })
  expect(sold()[0]!.says).not.toContain('debit')
  expect(sold()[0]!.says).toContain('2025: the same entry takes out what was sold')
  const page = await (await app.get(sold()[0]!.href)).text()
  // 2025: (16,000 + 3,000) × 14.29 % = 2,715.10; the baler half of 24.49 %: 244.90. Together 2,960.00; written off of the baler 530.70.
  expect(page).toContain('$2,960.00')
  expect(page).toMatch(/its cost of \$2,000\.00 and\s+\$530\.70\s+written off leave the books/)
  const hidden = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(page)![1]!
  const booked = await app.post('/year-pack/depreciation?year=2025&side=farm', {
    formId: hidden('formId'),
    difference: hidden('difference'),
    sold: hidden('sold'),
    takeOut: 'yes',
    cost: String(idOf('Depreciation')),
    asset: String(idOf('Depreciation taken')),
  })
  expect(booked.status).toBe(303)
  expect(sold()).toEqual([])
  // 900 − (2,000 − 530.70) = a loss of 569.30, as on Form 4797.
  const farm = yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))
  expect(farm.sides[0]!.income.capital.totalCents).toBe(-56_930)
  expect(farm.sales!.sales[0]!.gainCents).toBe(-56_930)
  expect(listHoldings(app.books, 'farm')).toHaveLength(3)
})
