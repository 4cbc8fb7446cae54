// What a pack has nothing of takes no sheet: a household without entries, and crossings that never were. A nursery in Oregon.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { type KeptSheets, packDifferences, sheetsToKeep } from '#web/forms/pack/kept-sheets.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeAll(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
  book('farm', 'Farm checking', 'Vegetables and fruit sold', 900)
})
afterAll(() => app.close())

const book = (sideId: 'farm' | 'household', to: string, from: string, dollars: number) => {
  const idOf = (name: string) =>
    listAccounts(app.books).find((one) => one.sideId === sideId && one.name === name)!.id
  done(
    postEntry(app.books, act(), {
      sideId,
      day: day('2025-06-03'),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf(to), amountCents: cents(dollars * 100) },
        { accountId: idOf(from), amountCents: cents(-dollars * 100) },
      ],
    }),
  )
}
const text = async (path: string) => (await app.get(path)).text()
const kept = (): KeptSheets => sheetsToKeep(app.books, 2025, day('2026-02-10'))
const ids = () => kept().cash.sheets.map(({ id }) => id)

test('farm alone: no sheets of zeros, none of all sides that would say the farm’s again, and the cover says so', async () => {
  expect(ids()).toContain('farm-cash')
  expect(ids().filter((id) => /^(household|together)-|^crossings$/.test(id))).toEqual([])
  const paper = await text('/year-pack/print?year=2025')
  expect(paper).toContain('Nothing crossed between these books.')
  expect(paper).toMatch(/No entries and no balances: /)
  expect(paper).not.toContain('Nothing crossed.<')
})

test('with one entry of the household its sheets are there, and those of all sides', async () => {
  const before = kept()
  book('household', 'Savings', 'Interest and dividends', 12)
  for (const id of ['household-income', 'household-balance', 'together-income']) expect(ids()).toContain(id)
  expect(ids()).not.toContain('crossings')
  // A copy of a program that kept sheets of zeros differs in nothing by them.
  const zeros = {
    id: 'crossings',
    of: 'All sides',
    title: 'Crossings by month',
    total: '0.00 drawn',
    header: ['month', 'draws'],
    rows: [['January', '0.00']],
  }
  const older = { ...before, cash: { ...before.cash, sheets: [...before.cash.sheets, zeros] } }
  expect(packDifferences(older, before)).toEqual([])
  expect(await text('/year-pack/print?year=2025')).not.toContain('No entries and no balances')
})
