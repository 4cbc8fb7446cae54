// Goods given for a repair: booked from the notebook or by hand, one reading on Schedule F, and no cash flow. A plum orchard in Georgia.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { cents } from '#money/cents.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
const formId = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`
const idOf = (name: string, sideId = 'farm') =>
  listAccounts(app.books).find((one) => one.sideId === sideId && one.name === name)!.id

beforeAll(() => {
  app = testApp({ today: '2026-09-30' })
  app.openSides()
  app.savePlan({
    startMonth: '2026-01',
    household: { people: [{ id: 'ife', name: 'Ife', born: '1988-03-09' }] },
    farm: { enterprises: [{ id: 'plums', name: 'Plums' }], markets: [{ id: 'gate', name: 'Gate' }] },
  })
  book('2026-07-02', [
    ['Farm checking', 2400],
    ['Tree fruit and nuts sold', -2400],
  ])
  book('2026-07-10', [
    ['Supplies', 130],
    ['Farm checking', -130],
  ])
})
afterAll(() => app.close())

const book = (on: string, lines: readonly (readonly [string, number])[]) =>
  done(
    postEntry(app.books, act(), {
      sideId: 'farm',
      day: day(on),
      payee: 'Somebody',
      memo: '',
      source: 'form',
      lines: lines.map(([name, dollars]) => ({
        accountId: idOf(name),
        amountCents: cents(dollars * 100),
        ...(name === 'Tree fruit and nuts sold' ? { enterpriseId: 'plums' } : {}),
      })),
    }),
  )

const csv = async (table: string) => (await app.get(`/year-pack.csv?year=2026&table=${table}`)).text()
const page = async (path: string) => (await app.get(path)).text()
const chosen = (text: string, name: string) =>
  new RegExp(`name="${name}"[\\s\\S]*?<option value="(\\d+)" selected`).exec(text)?.[1]

test('plums for a repair: other income and a cost on Schedule F, nothing in the cash flow, named below it', async () => {
  await app.post('/farm/notebook/goods', {
    formId: formId(1),
    'goods.day': '2026-08-14',
    'goods.kind': 'bartered',
    'goods.of': 'enterprise:plums',
    'goods.what': 'plums',
    'goods.quantity': '60',
    'goods.unit': 'lb',
    'goods.tradedFor': 'the welder, a gate hinge',
  })
  // Line 8 of the form's instructions, from memory: not where plums were sold last.
  expect(chosen(await page('/farm/notebook/table'), 'fromAccount')).toBe(String(idOf('Other farm income')))
  const { goods } = (await (await app.get('/farm/notebook/table.json')).json()) as { goods: { id: string }[] }
  const settled = await app.post(`/farm/notebook/table/goods/${goods[0]!.id}`, {
    formId: formId(2),
    price: '3',
    fromAccount: String(idOf('Other farm income')),
    toAccount: String(idOf('Repairs and upkeep')),
  })
  expect(settled.status).toBe(303)
  // 60 × $3.
  const form = await csv('schedule-f')
  expect(form).toMatch(/^8,.*180\.00/m)
  expect(form).toMatch(/^25,.*180\.00/m)
  const cash = await csv('farm-cash')
  expect(cash).toContain('without money,Other farm income,180.00')
  expect(cash).toContain('without money,Repairs and upkeep,-180.00')
  expect(cash).not.toMatch(/Operating activities,(Repairs|Other farm income)/)
  expect(cash).toContain('Cash from operating activities,2270.00')
  const sheet = await page('/year-pack/sheets/farm-cash?year=2026')
  expect(sheet).toMatch(/goods bartered move no money/)
  expect(sheet).toMatch(/Income and costs without money[\s\S]*Repairs and upkeep[\s\S]*−180\.00/)
  expect(await csv('farm-income')).toMatch(/Repairs and upkeep,180\.00/)
})

test('by debits and credits it is the same, and a cost put elsewhere was paid all the same', async () => {
  book('2026-08-20', [
    ['Freight and trucking', 75],
    ['Other farm income', -75],
  ])
  book('2026-08-21', [
    ['Packaging', 50],
    ['Supplies', -50],
  ])
  const cash = await csv('farm-cash')
  expect(cash).toContain('without money,Other farm income,255.00')
  expect(cash).toContain('without money,Freight and trucking,-75.00')
  expect(cash).toMatch(/Operating activities,Packaging,-50\.00/)
  expect(cash).toMatch(/Operating activities,Supplies,-80\.00/)
  expect(cash).toContain('Cash from operating activities,2270.00')
  expect(verifyBooks(app.books.sqlite).findings).toEqual([])
})

test('bartered for a cost of the house it moves no money of either side', async () => {
  await app.post('/farm/notebook/goods', {
    formId: formId(3),
    'goods.day': '2026-09-02',
    'goods.kind': 'bartered',
    'goods.of': 'enterprise:plums',
    'goods.what': 'plums',
    'goods.quantity': '20',
    'goods.unit': 'lb',
    'goods.tradedFor': 'the tailor, two coats',
  })
  const { goods } = (await (await app.get('/farm/notebook/table.json')).json()) as { goods: { id: string }[] }
  await app.post(`/farm/notebook/table/goods/${goods[0]!.id}`, {
    formId: formId(4),
    price: '3',
    fromAccount: String(idOf('Other farm income')),
    toAccount: String(idOf('Clothing', 'household')),
  })
  const farm = await csv('farm-cash')
  expect(farm).toContain('without money,Other farm income,315.00')
  expect(farm).toContain('Cash from operating activities,2270.00')
  expect(farm).not.toContain('Financing activities')
  const house = await csv('household-cash')
  expect(house).toContain('without money,Clothing,-60.00')
  expect(house).not.toMatch(/Earning and spending,Clothing/)
  expect(await csv('together-cash')).toContain('From earning and spending,2270.00')
})

test('books and crossings lead to where goods given away for something are written', async () => {
  for (const path of ['/books/entry?side=farm&kind=out', '/books/entry?side=farm&kind=journal', '/crossings'])
    expect(await page(path), path).toContain('href="/farm/notebook?open=goods#goods"')
  expect(await page('/books/entry?side=household&kind=out')).not.toContain('open=goods')
  expect(await page('/farm/notebook?open=goods')).toMatch(/<details[^>]* open[^>]* id="goods"/)
})
