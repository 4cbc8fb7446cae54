// The desk by hand and keys: a place found by a few letters and said, each key once, and what is chosen so is what is booked.

import { randomUUID } from 'node:crypto'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

let browser: Browser
let house: RunningHouse
let watched: WatchedPage
let page: Page

const act = () => ({ formId: randomUUID(), at: '2026-10-01T12:00:00.000Z', actor: 'test' })
const idOf = (name: string) => listAccounts(house.books).find((one) => one.name === name)!.id
const payees = ['ALDER GARAGE', 'FERRY CRATES', 'MILL POND ELECTRIC', 'TARN GROCER']

beforeAll(async () => {
  browser = await launch()
  house = await openHouse('empty')
  expect(addSide(house.books, act(), { kind: 'household', name: 'Household' }).ok).toBe(true)
  const lines = payees.map((payee, at) => ({
    bankNumber: `n${at}`,
    day: day(`2026-09-0${at + 1}`),
    amount: cents(-1000 - at),
    payee,
  }))
  const file = statementFile(lines, { format: 'ofx', fileName: 'a.ofx' })
  const read = importStatement(house.books, act(), idOf('Household checking'), file, day('2026-10-01'))
  expect(read.ok).toBe(true)
  watched = await openPage(browser, house.base)
  page = watched.page
}, 180_000)
afterAll(async () => {
  expect(watched.complaints).toEqual([])
  await closePages(browser)
  await house.close()
})

const rowOf = (payee: string) => page.locator('.desk-group', { hasText: payee })
const take = (payee: string) => rowOf(payee).locator('.desk-take')
const placeOf = (payee: string) =>
  rowOf(payee)
    .getByRole('combobox', { name: /^Where/ })
    .evaluate((select: { selectedOptions: { text: string }[] }) => select.selectedOptions[0]!.text)
const letters = () => page.getByLabel('Type a few letters of the place')
const said = () => page.locator('.desk-said').textContent()
const isFocused = (what: ReturnType<typeof take>) =>
  expect.poll(() => what.and(page.locator(':focus')).count(), { timeout: 15_000 }).toBe(1)

test('letters typed with no row in hand go to the first row without a place, and what was found is said', async () => {
  await page.goto('/books/sorting')
  await letters().fill('util')
  await letters().press('Enter')
  expect(await said()).toBe('ALDER GARAGE goes to Utilities, and is checked.')
  expect(await placeOf('ALDER GARAGE')).toBe('Utilities')
  expect(await take('ALDER GARAGE').isChecked()).toBe(true)
  await isFocused(take('FERRY CRATES'))
})

test('up and down walk the rows; c and letters that nothing has say so, choose nothing, and lead back', async () => {
  await take('FERRY CRATES').press('ArrowDown')
  await isFocused(take('MILL POND ELECTRIC'))
  await take('MILL POND ELECTRIC').press('ArrowUp')
  await isFocused(take('FERRY CRATES'))
  await take('FERRY CRATES').press('c')
  await isFocused(letters())
  await letters().fill('zzz')
  await letters().press('Enter')
  expect(await said()).toBe('No place for FERRY CRATES has “zzz” in its name.')
  expect(await placeOf('FERRY CRATES')).toBe('Choose what it was for')
  expect(await take('FERRY CRATES').isChecked()).toBe(false)
  await letters().press('Escape')
  await isFocused(take('FERRY CRATES'))
})

test('Enter asks for letters where no place is chosen, and ticks and goes on where one is', async () => {
  await take('FERRY CRATES').press('Enter')
  await isFocused(letters())
  await letters().fill('groc')
  await letters().press('Enter')
  expect(await placeOf('FERRY CRATES')).toBe('Groceries')
  await take('FERRY CRATES').uncheck()
  await take('FERRY CRATES').press('Enter')
  expect(await take('FERRY CRATES').isChecked()).toBe(true)
  await isFocused(take('MILL POND ELECTRIC'))
})

test('x skips a row and s opens its split; what was chosen before is there after both, and is booked', async () => {
  await take('TARN GROCER').press('x')
  await page.getByText('Skipped: 1. They book nothing.').waitFor()
  expect(await rowOf('TARN GROCER').count()).toBe(0)
  // The hand is on the row that took its place, or the last one.
  await isFocused(page.locator('.desk-take').last())
  await take('MILL POND ELECTRIC').press('s')
  await page.waitForURL(/\/books\/sorting\/lines\/\d+/)
  await page.goto('/books/sorting')
  expect([await placeOf('ALDER GARAGE'), await placeOf('FERRY CRATES')]).toEqual(['Utilities', 'Groceries'])
  await page.getByRole('button', { name: 'Book the checked transactions' }).click()
  await page.getByText('Transactions sorted: 2 booked').waitFor()
  expect(countWaiting(house.books).waiting).toBe(1)
  const balances = balancesOn(house.books)
  expect([balances.get(idOf('Utilities')), balances.get(idOf('Groceries'))]).toEqual([1000, 1001])
})

test('that tax may have been withheld is asked as soon as money goes to pay, and answered there it is booked at once', async () => {
  const paid = [
    { bankNumber: 'p1', day: day('2026-09-18'), amount: cents(120_000), payee: 'CREAMERY PAYROLL' },
  ]
  const file = statementFile(paid, { format: 'ofx', fileName: 'b.ofx' })
  expect(importStatement(house.books, act(), idOf('Household checking'), file, day('2026-10-01')).ok).toBe(
    true,
  )
  await page.goto('/books/sorting')
  const row = rowOf('CREAMERY PAYROLL')
  const where = row.getByRole('combobox', { name: /^Where/ })
  const question = row.getByText('Was tax withheld?')
  await where.selectOption({ label: 'Other income' })
  expect(await question.isVisible()).toBe(false)
  await where.selectOption({ label: 'Off-farm pay' })
  expect(await question.isVisible()).toBe(true)
  await row.getByLabel('Nothing was withheld from CREAMERY PAYROLL').check()
  await page.getByRole('button', { name: 'Book the checked transactions' }).click()
  await page.getByText('Transactions sorted: 1 booked').waitFor()
  expect(balancesOn(house.books, day('2026-09-30')).get(idOf('Off-farm pay'))).toBe(-120_000)
})
