// The notebook on a phone: an hour, a head and a market day each take four presses or fewer, typing left aside, with script and without.
import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listHeads, listMarketDays } from '#db/notebook/field-notes.ts'
import { latestHours } from '#db/notebook/hours-store.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let house: RunningHouse
beforeAll(async () => {
  browser = await launch()
})
afterAll(() => closePages(browser))
beforeEach(async () => {
  house = await openHouse('sample')
})
afterEach(() => house.close())

const phone = { viewport: { width: 360, height: 740 }, hasTouch: true }
const today = day('2026-11-25')

/** Counts every tap; a field that is tapped to type into counts as one. */
const thumb = (page: Page) => {
  let presses = 0
  return {
    presses: () => presses,
    async tap(what: Locator) {
      presses += 1
      await what.tap()
    },
    async type(what: Locator, text: string) {
      presses += 1
      await what.tap()
      await page.keyboard.type(text)
    },
  }
}

test.for(drawnOf([false, true], 1))(
  'an hour, a head and a market day by a thumb, script %s',
  async (javaScriptEnabled) => {
    const { page, complaints } = await openPage(browser, house.base, { ...phone, javaScriptEnabled })
    const open = (name: string) => page.locator('summary', { hasText: name }).first()

    await page.goto('/farm/notebook')
    const hour = thumb(page)
    await hour.tap(page.getByText('Honey', { exact: true }).first())
    await hour.tap(page.getByText('2 h', { exact: true }))
    await hour.tap(page.getByRole('button', { name: 'Write hours' }))
    await page.waitForURL(/open=hours&notice=/)
    expect(latestHours(house.books, 1)).toMatchObject([{ minutes: 120, subject: { id: 'honey' } }])

    const head = thumb(page)
    await page.goto('/farm/notebook')
    await head.tap(open('Head count'))
    await head.tap(page.getByText('Died', { exact: true }))
    await head.type(page.getByLabel('How many'), '1')
    await head.tap(page.getByRole('button', { name: 'Write the head count' }))
    await page.waitForURL(/open=heads&notice=/)
    expect(listHeads(house.books, today).at(-1)).toMatchObject({ kind: 'died', count: 1, herdId: 'sheep' })

    const market = thumb(page)
    await page.goto('/farm/notebook')
    await market.tap(open('Market day'))
    await market.type(page.getByLabel('Taken, cash'), '212')
    await market.type(page.getByLabel('Taken, card'), '386')
    await market.tap(page.getByRole('button', { name: 'Write market day' }))
    await page.waitForURL(/open=market&notice=/)
    expect(
      listMarketDays(house.books, today, today)[0]
        ?.takings.map((one) => one.amountCents)
        .sort(),
    ).toEqual([21200, 38600])

    const presses = [hour, head, market].map((one) => one.presses())
    expect(Math.max(...presses), `presses of an hour, a head, a market day: ${presses}`).toBeLessThanOrEqual(
      4,
    )
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360)
    expect(complaints).toEqual([])
  },
)

test('no name breaks within a word in its large button on a phone', async () => {
  const { page } = await openPage(browser, house.base, phone)
  await page.goto('/farm/notebook')
  // A name a letter too long for half the row, and a longer one: the letters of a word stay on one line.
  const lines = await page.evaluate(`['Strawberries', 'Blackcurrantbushes'].map((name, place) => {
    const label = document.querySelectorAll('.tile label')[place]
    label.textContent = name
    const range = document.createRange()
    range.selectNodeContents(label)
    return new Set([...range.getClientRects()].map(({ top }) => top)).size
  })`)
  expect(lines).toEqual([1, 1])
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360)
})
