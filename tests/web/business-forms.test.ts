// The pages that ask what Schedule F and Schedule C need beside the books: kept once, refused at the field, shown in the pack.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { closeMonth } from '#db/reconcile/closing-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { farmSaid, saveSaidOf } from '#today/tax/said-of-year.ts'
import { act, done } from '../db/fresh-books.ts'
import { yearBooks, yearParts } from '../outside/year-books.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
let bench: string

const text = async (path: string) => (await app.get(path)).text()

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  bench = done(addSide(app.books, act(), { kind: 'venture', name: 'Repair bench' })).sideId
  yearBooks(app.books).book(
    { 'Vegetables and fruit sold': '20,000', 'Crop insurance received': '4,000' },
    { 'Seeds and plants': '1,500', 'Car and truck': '800' },
  )
  yearBooks(app.books, bench, 'Venture checking').book(
    { 'Sales and fees earned': '3,000' },
    { Supplies: '400' },
  )
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [
          { id: 'ida', name: 'Ida', born: '1982-04-01' },
          { id: 'leo', name: 'Leo', born: '1984-09-01' },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
    }),
  )
})

afterEach(() => app.close())

const farmPage = '/year-pack/schedule-f?year=2025'
const farmAnswers = {
  basedOn: '0',
  product: 'Vegetables',
  code: '111210',
  ownership: 'joint',
  firstShare: '60',
  takesPart: 'yes',
  vehicleBy: 'miles',
  businessMiles: '1000',
  cropPutOff: '1,500',
  'weather.0.what': '',
}

test('what was said stands in the form, two columns wide, and the questions are no open points any more', async () => {
  expect(await text('/year-pack/print?year=2025')).toContain('enter whose farm it is')
  // Nobody was paid by name, so that the books do not tell F; G is asked only after it.
  expect(await text('/year-pack/print?year=2025')).toContain(
    'Schedule F asks more than the books know: lines A, B, D, E, F.',
  )
  const papers = { hasEmployerId: 'no', owes1099: 'no' }
  expect((await app.post(farmPage, { ...farmAnswers, ...papers })).status).toBe(303)
  const pack = await text('/year-pack/print?year=2025')
  expect(pack).not.toContain('enter whose farm it is')
  expect(pack).not.toContain('Schedule F asks more')
  expect(pack).toContain('Ida, and a second form for Leo, as a qualified joint venture')
  // The plan splits it in halves, the forms 60 to 40.
  expect(pack).toContain('counts 50 percent of the farm as Ida’s, its forms 60 percent')
  const csv = await text('/year-pack.csv?year=2025&table=schedule-f')
  // 20,000 + 2,500; costs 1,500 + 700.
  expect(csv).toContain('34,Net farm profit or loss,20300.00,Wrenfold,12180.00,8120.00')
  expect(csv).toContain('6b,Taxed of it,2500.00')
  expect(csv).toContain('beside,"Car and truck costs, for which miles are deducted",800.00')
  expect(await text(farmPage)).toContain('value="111210"')
})

test('lines D, F and G of Schedule F and I and J of Schedule C are asked with the others, and G waits for F', async () => {
  const gapsOf = async () => {
    const pack = (await (await app.get('/year-pack.json?year=2025')).json()) as { gaps: { says: string }[] }
    return pack.gaps.map(({ says }) => says)
  }
  const asks = 'asks more than the books know: lines'
  expect(await gapsOf()).toContain(`Schedule C of Repair bench ${asks} A, B, D, G, I.`)
  // Said to be called for, it is asked whether they were filed.
  const say = async (basedOn: string, more: Record<string, string>) =>
    expect((await app.post(farmPage, { ...farmAnswers, basedOn, ...more })).status).toBe(303)
  await say('0', { takesPart: '', owes1099: 'yes' })
  expect(await gapsOf()).toContain(`Schedule F ${asks} D, E, G.`)
  await say('1', { hasEmployerId: 'no', owes1099: 'yes', files1099: 'yes' })
  expect((await gapsOf()).join(' ')).not.toContain(`Schedule F ${asks}`)
  // A payee of 2,400 for repairs, and nobody said whether a company or a person: F is not known, and G is not answered before it.
  const repairs = listAccounts(app.books).find(
    ({ sideId, name }) => sideId === 'farm' && name === 'Repairs and upkeep',
  )!
  const bank = listAccounts(app.books).find(
    ({ sideId, name }) => sideId === 'farm' && name === 'Farm checking',
  )!
  const lines = [
    { accountId: repairs.id, amountCents: cents(240_000) },
    { accountId: bank.id, amountCents: cents(-240_000) },
  ]
  const paid = {
    sideId: 'farm',
    day: day('2025-07-01'),
    payee: 'Nils Bramfeld',
    memo: '',
    source: 'form' as const,
    lines,
  }
  done(postEntry(app.books, act(), paid))
  await say('2', { hasEmployerId: 'no', files1099: 'yes' })
  expect(await gapsOf()).toContain(`Schedule F ${asks} F.`)
})

test('the year after is asked for its amounts only', async () => {
  await app.post(farmPage, farmAnswers)
  const next = await text('/year-pack/schedule-f?year=2026')
  expect(next).toContain('What goes on from an earlier year is filled in.')
  expect(next).toContain('value="111210"')
  expect(next).not.toContain('value="1500.00"')
  expect(booksYear(app.books, 2026).farm!.form.income).toMatchObject([{ line: '6d', amountCents: 150_000 }])
})

test.for([
  [{ cropPutOff: '5,000' }, 'The books hold $4,000.00 on that line'],
  [{ 'prepaid.line26': '2,000' }, 'The books hold $1,500.00 on that line'],
  [{ code: '11' }, 'Enter the six digits'],
  [{ businessMiles: '' }, 'Enter the miles for the farm'],
  [{ firstShare: '100' }, 'Enter a share between 0 and 100'],
  [
    { 'weather.0.what': 'sheep', 'weather.0.sold': '10', 'weather.0.usual': '20', 'weather.0.income': '900' },
    'No more than usual were sold',
  ],
  [
    // No stock bought for resale was sold.
    {
      'weather.0.what': 'steers',
      'weather.0.origin': 'bought',
      'weather.0.sold': '30',
      'weather.0.usual': '20',
      'weather.0.income': '5,000',
    },
    'The books hold $0.00 on that line',
  ],
  [
    // 20,000 on line 2, of which the first row took 15,000.
    {
      'weather.0.what': 'sheep',
      'weather.0.sold': '30',
      'weather.0.usual': '20',
      'weather.0.income': '15,000',
      'weather.1.what': 'goats',
      'weather.1.sold': '30',
      'weather.1.usual': '20',
      'weather.1.income': '5,000.01',
    },
    'The books hold $5,000.00 on that line',
  ],
])('%j is refused at its field, and what was typed stays', async ([more, says]) => {
  const refused = await app.post(farmPage, { ...farmAnswers, ...(more as Record<string, string>) })
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain(says)
  expect(page).toContain('value="Vegetables"')
  expect(booksYear(app.books, 2025).farm!.said.product).toBe('')
})

test('the same form twice is one answer; over another one both are shown', async () => {
  const twice = [await app.post(farmPage, farmAnswers), await app.post(farmPage, farmAnswers)]
  expect(twice.map(({ status }) => status)).toEqual([303, 303])
  const over = await app.post(farmPage, { ...farmAnswers, product: 'Flowers' })
  expect(over.status).toBe(409)
  expect(await over.text()).toContain('Two versions of the entries for Schedule F of 2025')
})

test('another kind of animal is a row more, and nothing is kept', async () => {
  const more = await app.post(farmPage, { ...farmAnswers, more: 'weather' })
  expect(await more.text()).toContain('name="weather.1.sold"')
  expect(booksYear(app.books, 2025).farm!.said.product).toBe('')
})

test('a venture: its profit goes to who runs it', async () => {
  expect(await text('/year-pack/print?year=2025')).toContain('Repair bench: who runs it is not entered')
  const page = `/year-pack/schedule-c/${bench}?year=2025`
  const saved = await app.post(page, {
    basedOn: '0',
    person: 'leo',
    product: 'Tool repair',
    code: '811000',
    homeSquareFeet: '100',
  })
  expect(saved.status).toBe(303)
  const pack = await text('/year-pack/print?year=2025')
  expect(pack).not.toContain('who runs it is not entered')
  expect(pack).toContain('Schedule C summary, Repair bench')
  const csv = await text(`/year-pack.csv?year=2025&table=${bench}-schedule-c`)
  // 3,000 less 400, less 100 × 5.
  expect(csv).toContain('31,Net profit or loss,2100.00')
  expect((await app.get('/year-pack/schedule-c/nothing?year=2025')).status).toBe(404)
})

// Simplified Method Worksheet of Schedule C and Rev. Proc. 2013-13 sec. 4.08 (from memory): 120 square feet from Nov 10 on are
// 120 × 2 / 12 = 20 on average, 100.00; the farm's 90 until Apr 20 are 90 × 4 / 12 = 30, 150.00.
test('the part of the home counts by the months it is used, and since when is asked', async () => {
  const page = `/year-pack/schedule-c/${bench}?year=2025`
  const venture = { basedOn: '0', person: 'leo', began: 'yes', homeSquareFeet: '120' }
  await app.post(page, venture)
  const asks = 'Repair bench: 120 square feet of the home count for all of the year'
  expect(await text('/year-pack/print?year=2025')).toContain(asks)
  const early = await app.post(page, { ...venture, homeFrom: '2025-11-10', homeUntil: '2025-11-01' })
  expect(early.status).toBe(422)
  const refused = await early.text()
  expect(refused).toContain('Enter a day on or after the first one')
  expect(refused).toContain('value="2025-11-01"')
  expect((await app.post(page, { ...venture, homeSquareFeet: '', homeFrom: '2025-11-10' })).status).toBe(422)
  expect((await app.post(page, await filledForm(app, page, { homeFrom: '2025-11-10' }))).status).toBe(303)
  const farm = { ...farmAnswers, homeSquareFeet: '90', homeFrom: '2024-02-01', homeUntil: '2025-04-20' }
  expect((await app.post(farmPage, { ...farm, homeUntil: '2023-01-01' })).status).toBe(422)
  expect((await app.post(farmPage, farm)).status).toBe(303)
  const pack = await text('/year-pack/print?year=2025')
  expect(pack).not.toContain('of the home count for all of the year')
  expect(pack).toContain('120 square feet, 2 of 12 months, by the year’s rate')
  expect(pack).toContain('90 square feet, 4 of 12 months, by the year’s rate')
  const csv = (table: string) => text(`/year-pack.csv?year=2025&table=${table}`)
  expect(await csv(`${bench}-schedule-c`)).toContain('30,"Business use of the home, by area",100.00')
  expect(await csv('schedule-f')).toContain('32,Business use of the home,150.00')
  // The day goes on: the year after has all twelve months of the bench, and none of the farm's.
  expect(booksYear(app.books, 2026).farm!.said.homeUntil).toBe('2025-04-20')
  expect(await text(`/year-pack/schedule-c/${bench}?year=2026`)).toContain('value="2025-11-10"')
})

test('income of stock sold because of weather is put off only where the area was declared, and the question stands with it', async () => {
  const weather = {
    ...farmAnswers,
    cropPutOff: '',
    'weather.0.what': 'sheep',
    'weather.0.origin': 'raised',
    'weather.0.sold': '40',
    'weather.0.usual': '30',
    'weather.0.income': '4,000',
  }
  const refused = await app.post(farmPage, { ...weather, weatherArea: 'no' })
  expect(refused.status).toBe(422)
  const page = await refused.text()
  expect(page).toContain('With “No” nothing of these sales can be put off')
  expect(page.indexOf('name="weatherArea"')).toBeLessThan(page.indexOf('name="weather.0.what"'))
  expect((await app.post(farmPage, weather)).status).toBe(303)
  // A quarter of 4,000.
  const lineTwo = () =>
    booksYear(app.books, 2025).farm!.form.income.find(({ line }) => line === '2')!.amountCents
  expect(lineTwo()).toBe(1_900_000)
  expect(await text('/year-pack/print?year=2025')).toContain(
    'allowed only where the area was declared eligible',
  )
  // As books of before may hold it.
  const { said, revision } = farmSaid(app.books, 2025)
  saveSaidOf(app.books, act(), 'farm', 2025, { ...said, weatherArea: 'no' }, revision)
  expect(lineTwo()).toBe(2_000_000)
  expect(await text('/year-pack/print?year=2025')).toContain('no income from them is put off')
})

test('the difference of depreciation is booked by one press, once', async () => {
  yearBooks(app.books).hold('Tractor', 'equipment', '2025-04-02', '6,000', yearParts.by('machinery-new'))
  const path = '/year-pack/depreciation?year=2025&side=farm'
  const page = await text(path)
  expect(page).toContain('$1,200.00')
  const idOf = (name: string) =>
    String(listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id)
  const body = {
    formId: crypto.randomUUID(),
    difference: '120000',
    cost: idOf('Depreciation'),
    asset: idOf('Depreciation taken'),
  }
  expect([(await app.post(path, body)).status, (await app.post(path, body)).status]).toEqual([303, 303])
  expect(booksYear(app.books, 2025).farm!.form.depreciation.bookedCents).toBe(120_000)
  expect((await app.get(path)).status).toBe(404)
})

test('what was sold leaves the books by the same entry, and what is income again is named; every sheet says what is not booked', async () => {
  const year = yearBooks(app.books)
  const account = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
  year.book({ 'Breeding stock and equipment sold': '900' }, {})
  const machines = account('Machinery and equipment')
  done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: day('2024-05-01'),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: machines, amountCents: cents(200_000 + 1_000_000) },
        { accountId: account('Farm checking'), amountCents: cents(-1_200_000) },
      ],
    }),
  )
  year.hold('Trailer', 'equipment', '2024-05-01', '2,000', {
    accountId: machines,
    ...yearParts.by('heavy-truck-or-trailer'),
    ...yearParts.sold('2025-10-10', '900'),
  })
  // Driven for the farm alone in 2024, 40 percent in 2025: 20 percent was taken, the straight line has 10.
  year.hold('Pickup', 'equipment', '2024-06-01', '10,000', {
    accountId: machines,
    depreciation: {
      assetClass: 'pickup',
      section179Cents: cents(0),
      bonus: false,
      useShares: { 2024: 1, 2025: 0.4 },
    },
  })
  const balance = await text('/year-pack/sheets/farm-balance?year=2025')
  // 2024: 400 of the trailer, 2,000 of the pickup. 2025: half of 640, and 40 percent of 2,000, less 1,000 income again.
  expect(balance).toContain(
    '$2,400.00 more is written off for 2024, and $120.00 more is written off for 2025',
  )
  // Of the trailer, gone, 2,000 less 400 and 320 stands beside it: 12,000 is 8,200 once all is booked.
  expect(balance).toContain('$1,280.00 of cost that is not written off: Trailer')
  expect(balance).toMatch(/would be \$3,800\.00\s+lower/)
  const open = await text('/year-pack/print?year=2025')
  expect(open).toContain('$1,000.00 of Pickup is income again on the form')
  expect(open).toContain('$2,400.00 of depreciation of 2024 is not booked')
  const book = async (of: number) => {
    const path = `/year-pack/depreciation?year=${of}&side=farm`
    const form = await filledForm(app, path)
    return [(await app.post(path, form)).status, (await app.post(path, form)).status]
  }
  // The trailer's depreciation is not all booked before 2024's is: then its cost stays.
  expect(await text('/year-pack/depreciation?year=2025&side=farm')).not.toContain('name="takeOut"')
  expect(await book(2024)).toEqual([303, 303])
  const page = await text('/year-pack/depreciation?year=2025&side=farm')
  expect(page).toContain('Pickup: income again')
  expect(page).toContain('Trailer, gone on Oct 10, 2025: its cost of $2,000.00 and')
  expect(await book(2025)).toEqual([303, 303])
  const csv = await text('/year-pack.csv?year=2025&table=farm-balance')
  expect(csv).toContain('Machinery and equipment,12000.00,10000.00')
  // Of the pickup: 2,000 less 1,000, and 800.
  expect(csv).toContain('Depreciation taken,-2400.00,-1800.00')
  // 900 less what was left of the trailer, 1,280.
  expect(await text('/year-pack.csv?year=2025&table=farm-income')).toContain('-380.00')
  expect((await app.get('/year-pack/depreciation?year=2025&side=farm')).status).toBe(404)
  expect(await text('/year-pack/sheets/farm-balance?year=2025')).not.toContain('is shown here as booked')
})

test('into a closed month it is not booked, and the page says so', async () => {
  yearBooks(app.books).hold('Tractor', 'equipment', '2025-04-02', '6,000', yearParts.by('machinery-new'))
  done(closeMonth(app.books, act(), { sideId: 'farm', month: month(2025, 12), note: '' }, day('2026-02-10')))
  const [cost, asset] = ['Depreciation', 'Depreciation taken'].map((name) =>
    String(listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id),
  )
  const path = '/year-pack/depreciation?year=2025&side=farm'
  const refused = await app.post(path, {
    formId: crypto.randomUUID(),
    difference: '120000',
    cost: cost!,
    asset: asset!,
  })
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('closed')
})

const thing = (more: Record<string, string> = {}) => ({
  formId: crypto.randomUUID(),
  name: 'Lathe',
  kind: 'equipment',
  quantity: '1',
  cost: '2,000',
  acquiredDay: '2025-03-01',
  account: '',
  assetClass: 'machinery-used',
  ...more,
})

test('what a venture owns is written off on its own form', async () => {
  const saved = await app.post('/year-pack/holdings/new', { ...thing(), side: bench })
  expect(saved.status).toBe(303)
  const [venture] = booksYear(app.books, 2025).ventures
  // Used machinery: 7-year property, 14.29 percent.
  expect(venture!.form.depreciation.scheduleCents).toBe(28_580)
  expect(booksYear(app.books, 2025).farm!.form.depreciation.scheduleCents).toBeNull()
  const { id } = venture!.inventory.rows[0]!.holding
  expect(await text(`/year-pack/holdings/${id}`)).toContain('value="Lathe"')
  expect((await app.post(`/year-pack/holdings/${id}`, thing({ name: 'Old lathe' }))).status).toBe(303)
  expect(booksYear(app.books, 2025).ventures[0]!.inventory.rows[0]!.holding.name).toBe('Old lathe')
  expect((await app.post('/year-pack/holdings/new', thing({ side: 'household' }))).status).toBe(422)
})

test('a pickup driven privately too: its shares are kept with it, and a tractor has none', async () => {
  const pickup = thing({
    name: 'Pickup',
    assetClass: 'pickup',
    cost: '18,000',
    'use.y2025': '80',
    'use.y2026': '60',
  })
  expect((await app.post('/year-pack/holdings/new', pickup)).status).toBe(303)
  // 14,400 at 20 percent.
  expect(booksYear(app.books, 2025).farm!.form.depreciation.scheduleCents).toBe(288_000)
  // 10,800 at 32 percent.
  expect(booksYear(app.books, 2026).farm!.form.depreciation.scheduleCents).toBe(345_600)
  expect(await text('/year-pack/print?year=2025')).toContain('80% business use')
  const refused = await app.post('/year-pack/holdings/new', thing({ 'use.y2025': '80' }))
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Only what carries people is entered by its use')
})

test('a mistake of this year is taken off though a month of it is closed; what a closed year has stays', async () => {
  yearBooks(app.books).hold('Typed twice', 'equipment', '2026-01-05', '900', yearParts.by('machinery-new'))
  yearBooks(app.books).hold('Tractor', 'equipment', '2025-04-02', '6,000', yearParts.by('machinery-new'))
  done(closeMonth(app.books, act(), { sideId: 'farm', month: month(2026, 1), note: '' }, day('2026-02-10')))
  const idOf = (name: string) =>
    booksYear(app.books, 2026).farm!.inventory.rows.find(({ holding }) => holding.name === name)!.holding.id
  const remove = (name: string) =>
    app.post(`/year-pack/holdings/${idOf(name)}/remove`, { formId: crypto.randomUUID() })
  expect((await remove('Tractor')).status).toBe(422)
  expect((await remove('Typed twice')).status).toBe(303)
})

// Rev. Proc. 2013-13, sec. 4.08 (from memory): one limit of 300 square feet for all businesses of a person in a home. The farm's 200
// leave 100 of the bench's 200: 500.00; of two persons each has a limit of its own. From July on: (6 × 200 + 6 × 100) / 12 = 150.
test.each([
  ['leo', '', 'Business use of the home, by area",500.00'],
  ['leo', '2025-07-01', 'Business use of the home, by area",750.00'],
  ['ida', '', 'Business use of the home, by area",1000.00'],
])(
  'the farm of %s has 200 square feet of the home since %s, the bench of leo another 200',
  async (owner, homeFrom, line) => {
    const page = `/year-pack/schedule-c/${bench}?year=2025`
    await app.post(page, { basedOn: '0', person: 'leo', began: 'yes', homeSquareFeet: '200' })
    const farm = { ...farmAnswers, ownership: 'one', owner, firstShare: '', homeSquareFeet: '200', homeFrom }
    expect((await app.post(farmPage, farm)).status).toBe(303)
    expect(await text(`/year-pack.csv?year=2025&table=${bench}-schedule-c`)).toContain(line)
    const print = await text('/year-pack/print?year=2025')
    expect(print.includes('beside your other businesses in the home: one limit of 300')).toBe(owner === 'leo')
  },
)

test('an area of the home that brings nothing is told beside the form: without a profit nothing is deducted or carried', async () => {
  const page = `/year-pack/schedule-c/${bench}?year=2025`
  yearBooks(app.books, bench, 'Venture checking').book({}, { Supplies: '9,000' })
  await app.post(page, { basedOn: '0', person: 'leo', began: 'yes', homeSquareFeet: '120' })
  expect(await text('/year-pack/print?year=2025')).toContain(
    'Business use of the home, 120 square feet, is not deducted: no profit is left that it could lower',
  )
})

// Form 4136, lines 1b and 3b (from memory): 400 gallons of gasoline by 0.183 are 73.20, 100 of undyed diesel by 0.243 are 24.30.
test('tax on fuel burned on the farm comes back with the return, and is income of the next year’s line 8', async () => {
  yearBooks(app.books, 'farm', 'Farm checking', 2026).book({ 'Other farm income': '10' }, {})
  const worksheet = async () =>
    (
      (await (await app.get('/year-pack.json?year=2025')).json()) as {
        tax: {
          worksheet: {
            figures: { balanceDue: number; totalTax: number }
            inputs: { label: string; dollars: number }[]
          }
        }
      }
    ).tax.worksheet
  await app.post(farmPage, farmAnswers)
  const before = await worksheet()
  expect(before.inputs.some(({ label }) => label.includes('4136'))).toBe(false)
  const fuel = { ...farmAnswers, basedOn: '1', gasolineGallons: '400', dieselGallons: '100' }
  const wrong = await app.post(farmPage, { ...fuel, dieselGallons: 'a can' })
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toMatch(/href="#f-dieselGallons"[\s\S]*value="400"/)
  expect((await app.post(farmPage, fuel)).status).toBe(303)
  const after = await worksheet()
  expect(after.inputs.find(({ label }) => label.includes('4136'))).toMatchObject({ dollars: 97.5 })
  expect(after.figures.totalTax).toBe(before.figures.totalTax)
  expect(after.figures.balanceDue - before.figures.balanceDue).toBeCloseTo(-97.5, 6)
  expect(await text(farmPage)).toMatch(/name="gasolineGallons"[^>]*value="400"/)
  const next = booksYear(app.books, 2026).farm!.form
  expect(next.income.find(({ line }) => line === '8')).toMatchObject({
    amountCents: 10_750,
    note: expect.stringContaining('with $97.50 of credit for tax on fuel, claimed for 2025'),
  })
  // Gallons are of one year.
  expect(farmSaid(app.books, 2026).said.fuel).toEqual({ gasolineGallons: null, dieselGallons: null })
})
