// Back after a form that came back to be corrected: the page of the form, never the browser's own error.
import { randomUUID } from 'node:crypto'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { importStatement } from '#db/statements/statement-store.ts'
import { cents } from '#money/cents.ts'
import { statementFile } from '../db/statement-file.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let house: RunningHouse
beforeAll(async () => {
  browser = await launch()
  house = await openHouse('sample')
}, 180_000)
afterAll(async () => {
  await closePages(browser)
  await house.close()
})

test('an entry refused, corrected and booked: Back and Forward show pages, and a reload sends nothing again', async () => {
  const { page, complaints } = await openPage(browser, house.base)
  const record = () => page.getByRole('button', { name: 'Record it' }).first().click()
  const count = () => house.books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get() as number
  const before = count()
  await page.goto('/books/entry?side=farm&kind=out')
  const fill = async (amount: string) => {
    await page.locator('[name=payee]').fill('Seed house')
    await page.locator('[name=day]').fill('2026-11-20')
    await page.locator('[name=moneyAccount]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.account"]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.amount"]').fill(amount)
    await record()
  }
  await page.locator('[name=payee]').fill('Seed house')
  await record()
  await page.locator('.error-summary').waitFor()
  await fill('12.50')
  await page.waitForURL(/notice=/)
  expect(count()).toBe(before + 1)
  const back = await page.goBack()
  expect(page.url()).toContain('/books/entry?side=farm&kind=out')
  expect(back === null || back.ok()).toBe(true)
  expect(await page.locator('h1').textContent()).toContain('Money out')
  // The page is made anew, yet its form is the one that was booked: with another amount it is answered with both, and books nothing.
  await fill('13.50')
  await page.getByRole('heading', { name: 'Two versions of entry' }).waitFor()
  expect(await page.locator('table').textContent()).toContain('13.50')
  expect(count()).toBe(before + 1)
  await page.goBack()
  await fill('12.50')
  await page.waitForURL(/notice=/)
  expect(count()).toBe(before + 1)
  await page.goBack()
  await page.reload()
  expect(await page.locator('h1').textContent()).toContain('Money out')
  await page.goForward()
  expect(await page.locator('main').count()).toBe(1)
  expect(count()).toBe(before + 1)
  // The browser logs the answer with both as a failed load.
  expect(complaints.filter((text) => !text.includes('status of 409'))).toEqual([])
})

test('a file can be made again from the page that gave one, and a double press makes one', async () => {
  const { page } = await openPage(browser, house.base, { acceptDownloads: true })
  await page.goto('/settings/backups')
  const make = page.getByRole('button', { name: 'Make the file' })
  let files = 0
  page.on('download', () => {
    files += 1
  })
  for (const expected of [1, 2]) {
    await expect.poll(() => make.getAttribute('aria-disabled'), { timeout: 10_000 }).toBeNull()
    const given = page.waitForEvent('download')
    await make.dblclick()
    await (await given).cancel()
    expect(files).toBe(expected)
  }
  await page.context().close()
})

test('Back to the desk after booking: no payee is checked, or sent anywhere, that was never chosen', async () => {
  const own = await openHouse('empty')
  const act = () => ({ formId: randomUUID(), at: '2026-10-01T12:00:00.000Z', actor: 'test' })
  expect(addSide(own.books, act(), { kind: 'household', name: 'Household' }).ok).toBe(true)
  const payees = [
    'BRINE DELI',
    'CANDLE WORKS',
    'DOVECOTE BAKERY',
    'ELM CYCLES',
    'FOUNDRY OPTICS',
    'GROVE SHOES',
  ]
  const lines = payees.map((payee, at) => ({
    bankNumber: `b${at}`,
    day: day(`2026-09-1${at}`),
    amount: cents(-2300 - at),
    payee,
  }))
  const checking = listAccounts(own.books).find(({ name }) => name === 'Household checking')!.id
  const file = statementFile(lines, { format: 'ofx', fileName: 'b.ofx' })
  expect(importStatement(own.books, act(), checking, file, day('2026-10-01')).ok).toBe(true)
  const { page, complaints } = await openPage(browser, own.base)
  await page.goto('/books/sorting')
  for (const payee of ['BRINE DELI', 'CANDLE WORKS', 'DOVECOTE BAKERY'])
    await page
      .locator('.desk-group', { hasText: payee })
      .getByRole('combobox', { name: /^Where/ })
      .selectOption({ label: 'Groceries' })
  await page.getByRole('button', { name: 'Book the checked transactions' }).click()
  await page.getByText('Transactions sorted: 3 booked').waitFor()
  await page.goBack()
  await page.locator('.desk-group').first().waitFor()
  expect(await page.locator('.desk-group').count()).toBe(3)
  expect(await page.locator('.desk-take:checked').count()).toBe(0)
  expect(await page.locator('#desk-count').textContent()).toBe('0 of 3 checked')
  const places = await page
    .getByRole('combobox', { name: /^Where/ })
    .evaluateAll((lists: { value: string }[]) => lists.map(({ value }) => value))
  expect(places).toEqual(['', '', ''])
  expect(complaints).toEqual([])
  await page.context().close()
  await own.close()
})
