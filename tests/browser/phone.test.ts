// The house on a phone: the pages behind one button, the heading at once. How long pages are is looked at in every-page.
import { expect, test } from 'vitest'
import { navigation, roomsOf } from '#web/forms/navigation.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()
const phone = { viewport: { width: 360, height: 740 }, javaScriptEnabled: false }

test('pages and rooms lie behind one button that needs no script, and the heading is in sight at once', async () => {
  const { page } = await openPage(opened.browser, opened.house.base, phone)
  await page.goto('/books/entry')
  const pages = page.getByRole('navigation', { name: 'Pages' })
  expect(await pages.isVisible()).toBe(false)
  expect((await page.locator('h1').boundingBox())!.y).toBeLessThan(160)
  await page.getByRole('button', { name: 'Pages' }).click()
  expect(await pages.getByRole('link').allTextContents()).toEqual(navigation.map((one) => one.name))
  const rooms = page.getByRole('navigation', { name: 'Parts of Books' })
  expect(await rooms.getByRole('link').count()).toBe(roomsOf('/books').length)
  await rooms.getByRole('link', { name: 'Reconcile' }).click()
  await page.waitForURL('**/books/reconcile')
  expect(await page.getByRole('button', { name: 'Close' }).isVisible()).toBe(false)
})

test('where there is room, pages and rooms stand in the head and the button is gone', async () => {
  const { page } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: 1280, height: 900 },
  })
  await page.goto('/books')
  expect(await page.getByRole('navigation', { name: 'Pages' }).isVisible()).toBe(true)
  expect(await page.getByRole('navigation', { name: 'Parts of Books' }).isVisible()).toBe(true)
  expect(await page.getByRole('button', { name: 'Pages' }).count()).toBe(0)
})

test('a table is a stop of the Tab key only where it has something to scroll', async () => {
  // No table of the sample has to scroll at 360 px: narrower than any phone, one does.
  const narrow = { viewport: { width: 220, height: 740 } }
  const { page } = await openPage(opened.browser, opened.house.base, narrow)
  await page.goto('/runway/years')
  const frame = page.locator('.table-frame').filter({ visible: true }).first()
  expect(await frame.getAttribute('tabindex')).toBe('0')
  await page.setViewportSize({ width: 1280, height: 900 })
  await page.waitForFunction(
    `![...document.querySelectorAll('.table-frame')].find((one) => one.checkVisibility()).hasAttribute('tabindex')`,
  )
})

test.for(drawnOf([1280, 360], 1))(
  'at %s px the first lever is ten presses of Tab from the skip link, at most',
  async (width) => {
    const { page } = await openPage(opened.browser, opened.house.base, { viewport: { width, height: 740 } })
    await page.goto('/runway')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    const isLever = () => page.evaluate(`document.activeElement.matches('.levers input')`)
    let presses = 0
    while (presses < 30 && !(await isLever())) {
      await page.keyboard.press('Tab')
      presses += 1
    }
    expect(await isLever()).toBe(true)
    expect(presses).toBeLessThanOrEqual(10)
  },
)
