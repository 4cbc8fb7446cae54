// What is left over follows each tick; and the notice of what was just done has the focus, so that nobody begins at the top again.
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

let browser: Browser
let house: RunningHouse
let watched: WatchedPage
let page: Page

beforeAll(async () => {
  browser = await launch()
  house = await openHouse('sample')
  watched = await openPage(browser, house.base)
  page = watched.page
})
afterAll(async () => {
  expect(watched.complaints).toEqual([])
  await house.close()
  await closePages(browser)
})

const text = (selector: string) => page.locator(selector).textContent()
const centsOf = (shown: string | null): number =>
  Math.round(Number((shown ?? '').replace(/[$,]/g, '').replace('−', '-')) * 100)

test('left over and the checked sum follow a check before it is saved, and the server says the same after', async () => {
  const account = listAccounts(house.books).find((one) => one.name === 'Farm checking')!
  await page.goto('/books/reconcile')
  await page.locator('[name="account"]').selectOption(String(account.id))
  await page.locator('[name="statementDay"]').fill('2026-11-20')
  await page.locator('[name="balance"]').fill('0')
  await page.locator('form:has([name="statementDay"]) button').first().click()
  const before = centsOf(await text('#left-over'))
  const tick = page.locator('input[name="ticked[]"]').first()
  const amount = Number(await tick.getAttribute('data-cents'))
  await tick.setChecked(!(await tick.isChecked()))
  const isTicked = await tick.isChecked()
  const after = centsOf(await text('#left-over'))
  expect(after).toBe(before - (isTicked ? amount : -amount))
  const sum = await text('#ticked-sum')
  await page.getByRole('button', { name: 'Save what is checked' }).click()
  expect(centsOf(await text('#left-over'))).toBe(after)
  expect(await text('#ticked-sum')).toBe(sum)
})

test('after a month is closed the focus is on the words that say so', async () => {
  await page.goto('/books/close')
  await page
    .getByRole('button', { name: /^(Close the month|Check again and close)$/ })
    .first()
    .click()
  await page.waitForLoadState()
  const focused = page.locator(':focus')
  expect(await focused.getAttribute('class')).toMatch(/notice|error-summary/)
  expect(await focused.textContent()).toMatch(/closed through|Not closed\./)
})
