// Putting the farm's purchases in order: by dragging with a mouse, and by the buttons that do the same without script.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

const order = (page: Page): Promise<(string | null)[]> =>
  page
    .locator('.purchase-queue > li')
    .evaluateAll((items) => items.map((item) => item.getAttribute('data-id')))

test('a purchase dragged to the top stays there, and Undo puts it back', { timeout: 60_000 }, async () => {
  // Tall enough to need no scrolling: a page that scrolls under a held mouse starts the drag elsewhere.
  const { page, complaints } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: 1100, height: 6_000 },
  })
  await page.goto('/farm/buying')
  const before = await order(page)
  const place = async (id: string | null | undefined) =>
    (await page.locator(`.purchase-queue > [data-id="${id}"]`).boundingBox())!
  const [last, first] = [await place(before.at(-1)), await place(before[0])]
  await page.mouse.move(last.x + 60, last.y + last.height / 2)
  await page.mouse.down()
  await page.mouse.move(first.x + 60, first.y + first.height / 2, { steps: 8 })
  await page.mouse.move(first.x + 60, first.y + 2, { steps: 4 })
  await Promise.all([page.waitForURL(/notice=/), page.mouse.up()])
  expect(await order(page)).toEqual([before.at(-1), ...before.slice(0, -1)])
  await page.getByRole('button', { name: 'Undo' }).click()
  await page.goto('/farm/buying')
  expect(await order(page)).toEqual(before)
  expect(complaints).toEqual([])
  await page.context().close()
})

test('without script a button moves it by a place', { timeout: 60_000 }, async () => {
  const { page } = await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })
  await page.goto('/farm/buying')
  const [first, second, ...rest] = await order(page)
  await page
    .locator('.purchase-queue > li')
    .nth(1)
    .getByRole('button', { name: /Earlier/ })
    .click()
  expect(await order(page)).toEqual([second, first, ...rest])
  await page.context().close()
})
