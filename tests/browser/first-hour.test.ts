// The first hour of a stranger: the first button can be read, wide screens cut no table, and the keyboard keeps its place.
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { axeFindings, axeInLightAndDark } from './findings.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let empty: RunningHouse
let sample: RunningHouse

beforeAll(async () => {
  browser = await launch()
  empty = await openHouse('empty')
  sample = await openHouse('sample')
}, 180_000)

afterAll(async () => {
  await closePages(browser)
  await empty.close()
  await sample.close()
})

test('what an empty house shows first is accessible, in the light and in the dark', async () => {
  const { page } = await openPage(browser, empty.base)
  const problems: string[] = []
  await page.goto('/start')
  problems.push(...(await axeInLightAndDark({ page }, '/start')))
  await page.emulateMedia({ colorScheme: 'light' })
  await page.goto('/start/who')
  problems.push(...(await axeFindings({ page }, '/start/who')))
  expect(problems).toEqual([])
})

test('at 1200 px no table of the pages with the widest ones is cut', { timeout: 60_000 }, async () => {
  const { page } = await openPage(browser, sample.base, { viewport: { width: 1200, height: 900 } })
  const cut: string[] = []
  for (const path of ['/runway', '/farm', '/cover']) {
    await page.goto(path)
    const wider = (await page.evaluate(`[...document.querySelectorAll('.table-frame')]
      .filter((frame) => frame.scrollWidth > frame.clientWidth + 1)
      .map((frame) => frame.getAttribute('aria-label'))`)) as string[]
    cut.push(...wider.map((name) => `${path}: ${name}`))
  }
  expect(cut).toEqual([])
})

test('a run by chance keeps the keyboard in its part, and Stop can be pressed between two looks', {
  timeout: 60_000,
}, async () => {
  const page = await runUnderWay()
  expect(await focused(page)).toBe('Stop')
  // Two looks or more replace the part meanwhile.
  await page.waitForTimeout(1200)
  expect(await focused(page)).toBe('Stop')
  await page.keyboard.press('Enter')
  await page.getByText('Stopped. No result was kept.').waitFor()
  // The focus is set a moment after the part has come.
  await expect.poll(() => focused(page), patience).toBe('chance')
})

test('Stop pressed the moment the keyboard is on it loads no whole page', { timeout: 60_000 }, async () => {
  const page = await runUnderWay()
  // From here on the next part's Stop is pressed as it gets the focus, sooner than any hand could.
  await page.evaluate(`document.addEventListener('focusin', ({ target }) => target.click(), { once: true })`)
  const loaded = await page.evaluate('performance.timeOrigin')
  await page.getByText('Stopped. No result was kept.').waitFor()
  expect(await page.evaluate('performance.timeOrigin')).toBe(loaded)
  await expect.poll(() => focused(page), patience).toBe('chance')
})

/** A long run by chance begun by the keyboard, which is then on its Stop. */
async function runUnderWay(): Promise<Page> {
  const { page } = await openPage(browser, sample.base)
  await page.goto('/runway/chance')
  await page.locator('.chance-form summary').click()
  await page.locator('.chance-form [name="paths"]').fill('20000')
  await page.locator('.chance-form button').focus()
  await page.keyboard.press('Enter')
  await page.locator('#chance progress').waitFor()
  await expect.poll(() => focused(page), patience).toBe('chance')
  await page.keyboard.press('Tab')
  return page
}

/** How long a slow machine may take. */
const patience = { timeout: 15_000 }

/** The id of what has the focus, else its words. */
const focused = (page: Page) =>
  page.evaluate(`document.activeElement.id || document.activeElement.textContent.trim()`)
