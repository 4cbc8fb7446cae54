// The desk with 750 transactions waiting: at most eight screens of 900 px at 1280, with its rows closed and with its longest one opened.
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { fillDesk } from '../bench/desk-books.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let house: RunningHouse

beforeAll(async () => {
  browser = await launch()
  house = await openHouse('empty')
  fillDesk(house.books, 750)
}, 180_000)
afterAll(async () => {
  await closePages(browser)
  await house.close()
})

const screen = 900
const most = 8

test.for(drawnOf([true, false], 1))('with script: %s', { timeout: 120_000 }, async (javaScriptEnabled) => {
  expect(countWaiting(house.books).waiting).toBe(750)
  const { page, complaints } = await openPage(browser, house.base, {
    viewport: { width: 1280, height: screen },
    javaScriptEnabled,
  })
  const height = () => page.evaluate('document.documentElement.scrollHeight').then(Number)
  await page.goto('/books/sorting')
  const closed = (await height()) / screen
  const row = page.locator('.desk-group', { has: page.getByText(/^83 transactions/) })
  const shown = row.locator('.desk-lines li')
  await row.locator('summary').click()
  if (!javaScriptEnabled) await row.getByRole('button', { name: /^See each/ }).click()
  await expect.poll(() => shown.count(), { timeout: 20_000 }).toBe(15)
  const opened = (await height()) / screen
  console.log(`The desk is ${closed.toFixed(1)} screens, with its longest row opened ${opened.toFixed(1)}`)
  expect(closed).toBeLessThanOrEqual(most)
  expect(opened).toBeLessThanOrEqual(most)

  const days = await shown.locator('.desk-day').allTextContents()
  await row.getByRole('button', { name: /^Later ones/ }).click()
  await page.waitForURL(/from=15/)
  await row.getByText('16 to 30 of 83').waitFor()
  expect(await shown.count()).toBe(15)
  if (javaScriptEnabled)
    await expect
      .poll(() => page.locator(':focus').getAttribute('data-act'), { timeout: 15_000 })
      .toBe('Later ones')
  expect(await shown.locator('.desk-day').allTextContents()).not.toEqual(days)
  expect(complaints).toEqual([])
  await page.context().close()
})

test('a phone shows four payees a screen above the bar that books', { timeout: 120_000 }, async () => {
  const { page } = await openPage(browser, house.base, { viewport: { width: 360, height: 740 } })
  await page.goto('/books/sorting')
  const seen = await page.evaluate(`(() => {
    const rows = [...document.querySelectorAll('.desk-group')]
    return [0, 4, 8, 12].map((first) => {
      rows[first].scrollIntoView({ block: 'start' })
      const bar = document.querySelector('.desk-bar').getBoundingClientRect().top
      const isWhole = (row) => row.getBoundingClientRect().top > -1 && row.getBoundingClientRect().bottom <= bar
      return rows.filter(isWhole).length
    })
  })()`)
  console.log(`Whole payees on a phone's screen, from four places: ${String(seen)}`)
  for (const count of seen as number[]) expect(count).toBeGreaterThanOrEqual(4)
  await page.context().close()
})
