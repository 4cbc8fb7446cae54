// A goose farm's land and goslings with a class of depreciation: refused at its field, and where a book has one already, an open point
// and no deduction. Land is not written off, nor what is held for sale (26 CFR 1.167(a)-2).
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { listHoldings } from '#db/year/holding-list.ts'
import { saveHolding } from '#db/year-store.ts'
import { closingOf } from '#ledger/reports/book-year.ts'
import { cents } from '#money/cents.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { act, done, writeRows } from '../db/fresh-books.ts'
import { yearBooks, yearParts } from '../outside/year-books.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  yearBooks(app.books).book({}, { Supplies: '6,000' })
})
afterEach(() => app.close())

const sent = (more: Record<string, string>) =>
  app.post('/year-pack/holdings/new?year=2025', {
    formId: crypto.randomUUID(),
    side: 'farm',
    name: 'Lower meadow',
    quantity: '1',
    unit: '',
    cost: '31,000',
    acquiredDay: '2025-06-01',
    inServiceDay: '',
    account: '',
    section179: '',
    marketValue: '',
    valuedDay: '',
    disposedDay: '',
    disposedFor: '',
    ...more,
  })

test.each([
  ['land', 'Land is not written off'],
  ['market_stock', 'Stock for sale is not written off'],
  ['produce', 'Produce is not written off'],
  ['supplies', 'Supplies are not written off'],
])('a class for %s is refused at its field, and what was typed stays', async (kind, says) => {
  const refused = await sent({ kind, assetClass: 'fence-or-grain-bin' })
  expect(refused.status).toBe(422)
  const text = await refused.text()
  expect(text).toContain(says)
  expect(text).toContain('href="#f-assetClass"')
  expect(text).toContain('value="31,000"')
  expect((await sent({ kind, assetClass: '' })).status).toBe(303)
})

test('what a book has already with such a class takes no deduction and is an open point', () => {
  const { holdingId } = yearBooks(app.books).hold('Lower meadow', 'fence', '2025-06-01', '31,000', {
    ...yearParts.by('fence-or-grain-bin'),
  })
  // Written by hand as earlier programs took it: as 7-year property it would lose 14.29 percent, 4,429.90 (IRS Pub. 946, table A-1).
  writeRows(app.books, "UPDATE holdings SET kind = 'land'")
  const { inventory, form } = booksYear(app.books, 2025).farm!
  expect(inventory.depreciationCents).toBe(0)
  expect(form.netProfitCents).toBe(-600_000)
  expect(inventory.rows[0]!.bookCents).toBe(3_100_000)
  const gaps = yearPackFigures(app.books, 2025, 'cash', day('2026-02-10')).gaps
  expect(gaps.filter(({ says }) => says.includes('1.167(a)-2'))).toEqual([
    {
      says: 'Lower meadow has a class of depreciation, and its kind is “Land”: nothing of it is written off (26 CFR 1.167(a)-2). Take the class off, or choose the kind that it is.',
      href: `/year-pack/holdings/${holdingId}?year=2025`,
    },
  ])
})

// The tractor of a ranch: 42,000 on April 10, 2021; table A-1 has 82.72 percent, 34,742.40, through 2024; returns deducted 30,000.
test('what returns wrote off is typed at the first steps, kept with the thing, and an open point where no method fits', async () => {
  const account = listAccounts(app.books).find((one) => one.name === 'Machinery and equipment')!
  const thing = {
    'things.0.name': 'Feed mixer',
    'things.0.account': String(account.id),
    'things.0.cost': '42,000',
    'things.0.bought': '',
    'things.0.deducted': '30,000',
    'things.0.worth': '',
    'things.0.kind': 'equipment',
    'things.0.loan': '',
  }
  const typed = { formId: crypto.randomUUID(), ...thing }
  const asked = await app.post('/start/owned', typed)
  expect(asked.status).toBe(422)
  expect(await asked.text()).toContain('href="#f-things.0.bought"')
  expect((await app.post('/start/owned', { ...typed, 'things.0.bought': '2021-04-10' })).status).toBe(303)
  const mixer = listHoldings(app.books, 'farm').find(({ name }) => name === 'Feed mixer')!
  expect(mixer.writtenOffBefore).toEqual({ amountCents: 3_000_000, through: 2024 })
  const { depreciation: _, ...kept } = mixer
  done(saveHolding(app.books, act(), 'farm', { ...kept, ...yearParts.by('machinery-new') }, mixer.id))
  // 11.52 percent of 42,000 goes on: 4,838.40.
  expect(booksYear(app.books, 2025).farm!.inventory.rows[0]).toMatchObject({
    deductedBeforeCents: 3_000_000,
    deductedThisYearCents: 483_840,
  })
  const says = yearPackFigures(app.books, 2025, 'cash', day('2026-02-10')).gaps.map((gap) => gap.says)
  expect(says.find((one) => one.includes('1016(a)(2)'))).toMatch(
    /^Feed mixer: returns up to 2024 wrote off \$30,000\.00, the table of its class has \$34,742\.40 by then/,
  )
  const page = await (await app.get(`/year-pack/holdings/${mixer.id}?year=2025`)).text()
  expect(page).toContain('name="returned" type="text" value="30000.00"')
  expect(page).toContain('name="returnedThrough" type="text" value="2024"')
})

const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const book = (on: string, source: 'opening' | 'form', lines: Record<string, number>) =>
  postByName(app.books, 'farm', on, lines, { source })
const returned = (dollars: number) => ({
  writtenOffBefore: { amountCents: cents(dollars * 100), through: 2024 },
})

// Through 2024 returns deducted 30,000 of the mixer and, by the table (20 + 32 + 19.2 percent of 6,000), 4,272 of the bull; both stand
// in one account. Of 2025 each has half a year: 2,419.20 and 345.60. Sold for 19,000 and 2,600: gains of 9,419.20 and 1,217.60.
test('what is sold takes its own write-offs out of the books, and Form 4797 and books have one gain of each', async () => {
  book('2025-01-01', 'opening', {
    'Machinery and equipment': 42_000,
    'Breeding stock': 6000,
    'Depreciation taken': -34_272,
    'Opening balances': -13_728,
  })
  const { hold } = yearBooks(app.books)
  hold('Feed mixer', 'equipment', '2021-04-10', '42,000', {
    ...yearParts.by('machinery-new'),
    ...yearParts.sold('2025-06-10', '19,000'),
    ...returned(30_000),
    accountId: idOf('Machinery and equipment'),
  })
  hold('Bull', 'breeding_stock', '2022-04-01', '6,000', {
    ...yearParts.by('cattle'),
    ...yearParts.sold('2025-09-01', '2,600'),
    ...returned(4272),
    accountId: idOf('Breeding stock'),
  })
  book('2025-09-02', 'form', { 'Farm checking': 21_600, 'Breeding stock and equipment sold': -21_600 })
  const pack = () => yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))
  const ofSold = () => pack().gaps.filter(({ says }) => says.includes('was sold on'))
  expect(ofSold().map(({ says }) => says)).toEqual([
    expect.stringMatching(/^Feed mixer.*\$42,000\.00 is still.*the same entry takes out what was sold/),
    expect.stringMatching(/^Bull.*\$6,000\.00 is still.*the same entry takes out what was sold/),
  ])
  const where = '/year-pack/depreciation?year=2025&side=farm'
  const page = await (await app.get(where)).text()
  const value = (name: string) => new RegExp(`name="${name}"[^>]*value="([^"]*)"`).exec(page)?.[1] ?? ''
  expect(value('difference')).toBe('276480')
  expect(value('sold')).toContain(`${idOf('Depreciation taken')} 3241920`)
  expect(value('sold')).toContain(`${idOf('Depreciation taken')} 461760`)
  const form = {
    formId: value('formId'),
    difference: value('difference'),
    sold: value('sold'),
    cost: String(idOf('Depreciation')),
    asset: String(idOf('Depreciation taken')),
  }
  expect((await app.post(where, { ...form, takeOut: 'yes' })).status).toBe(303)
  expect(ofSold()).toEqual([])
  expect(pack().sales!.sales.map(({ name, gainCents }) => [name, gainCents])).toEqual([
    ['Bull', 121_760],
    ['Feed mixer', 941_920],
  ])
  // In the books: 21,600 less what was left of both costs, 9,580.80 and 1,382.40.
  const farm = booksYear(app.books, 2025).farm!.books
  const closing = (name: string) => closingOf(farm.accounts.find(({ account }) => account.name === name)!)
  expect(closing('Breeding stock and equipment sold')).toBe(-1_063_680)
  expect(closing('Depreciation taken')).toBe(0)
})

// Books from January 1, 2025: a meadow that cost 50,000, worth 80,000 on that day. Nothing happened to it in the year, which
// sold shares of 3,000 and spent 6,000.
test('a value of the first day of the books is the beginning’s, and no gain of the year', () => {
  book('2025-01-01', 'opening', { Land: 50_000, 'Opening balances': -50_000 })
  const { book: sell, hold } = yearBooks(app.books)
  sell({ 'CSA shares': '3,000' }, {})
  hold('Meadow', 'land', '2015-05-01', '50,000', {
    accountId: idOf('Land'),
    marketValueCents: cents(8_000_000),
    valuedDay: day('2025-01-01'),
  })
  const { sides, measures } = yearPackFigures(app.books, 2025, 'cash', day('2026-02-10'))
  const { equity, begin } = sides.find(({ kind }) => kind === 'farm')!
  expect(equity.valuation).toEqual({ beginCents: 3_000_000, endCents: 3_000_000 })
  expect(begin.totalAssets).toEqual({ costCents: 5_000_000, marketCents: 8_000_000 })
  // 3,000 of revenue over the mean of 80,000 and 77,000; at cost over that of 50,000 and 47,000.
  const turnover = measures.find(({ id }) => id === 'assetTurnover')!
  expect(turnover.value).toBeCloseTo(3000 / 48_500, 6)
  expect(turnover.marketValue).toBeCloseTo(3000 / 78_500, 6)
})
