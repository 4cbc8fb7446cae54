// A month's work as the README walks through it, with script and without; and what only a browser can show: focus, keys, double clicks.
import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { listCrossings } from '#db/ledger/crossing-store.ts'
import { latestEntries } from '#db/ledger/latest-entries.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(async () => {
  await closePages(browser)
})

/** By its label, as a person finds it. */
const field = (page: Page, label: string): Locator => page.getByLabel(label, { exact: false }).first()
/** How long a slow machine may take. */
const patience = { timeout: 15_000 }
const press = (page: Page, name: string) => page.getByRole('button', { name }).first().click()
const choose = (page: Page, label: string, option: string) =>
  field(page, label).selectOption({ label: option })

describe.each(drawnOf([{ script: true }, { script: false }], 1))('with script: $script', ({ script }) => {
  let house: RunningHouse
  let watched: WatchedPage
  let page: Page

  beforeAll(async () => {
    house = await openHouse('empty')
    watched = await openPage(browser, house.base, { javaScriptEnabled: script })
    page = watched.page
  })
  afterAll(async () => {
    expect(watched.strayRequests).toEqual([])
    expect(watched.complaints).toEqual([])
    await page.context().close()
    await house.close()
  })

  test('an empty house leads to its start, and short steps to months left', async () => {
    await page.goto('/')
    expect(new URL(page.url()).pathname).toBe('/start')
    await page.getByRole('link', { name: 'Begin' }).click()
    await field(page, 'Name of the farm').fill('Wrenfold')
    await page.locator('[name="people.0.name"]').fill('Mara')
    await page.locator('[name="people.0.born"]').fill('1981-06-14')
    await press(page, 'Next: accounts and balances')
    await page.getByLabel('Household checking', { exact: true }).fill('9,400')
    await page.getByLabel('Savings', { exact: true }).fill('54,000')
    await page.getByLabel('Farm checking').fill('12,600')
    await press(page, 'Next: loans, and what you own')
    await page.getByRole('link', { name: 'Leave it for later' }).click()
    await press(page, 'Next: monthly costs')
    await field(page, 'Living, a month').fill('3,900')
    await field(page, 'Health premiums').fill('270')
    await field(page, 'Sales, a year').fill('60,000')
    await field(page, 'Costs, a year').fill('45,000')
    await field(page, 'Now, a month').fill('900')
    await press(page, 'See where you stand')
    expect(new URL(page.url()).pathname).toBe('/now')
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Now')
    expect(await page.locator('.answer-value').first().textContent()).toMatch(/^\d+ months?$/)
    expect(await page.locator('.notice').first().textContent()).toContain('The books are set up')
    // The bad years of a plan that says the same are known already where another house of this process asked.
    const badYears = page.getByRole('link', { name: 'Show what bad years would do' })
    if (!script && (await badYears.count()) > 0) await badYears.click()
    await page.locator('#savings-picture svg .band').first().waitFor({ state: 'attached' })
  })

  test('a draw is recorded once and stands on both sides', async () => {
    await page.goto('/crossings')
    await page.getByRole('link', { name: 'Owner’s draw' }).click()
    await field(page, 'Amount').fill('900')
    await press(page, 'Record it on both sides')
    expect(await page.locator('.notice').first().textContent()).toContain('in the books of both sides')
    await page.goto('/books')
    expect(await page.getByText('$900.00').count()).toBeGreaterThanOrEqual(3)
  })

  test('a mistake in an entry takes the focus to the summary, keeps what was typed, and leads to the field', async () => {
    await page.goto('/books/entry?side=farm&kind=out')
    await page.locator('[name="payee"]').fill('Feed store')
    await choose(page, 'Paid from', 'Farm checking')
    await page.locator('[name="lines.0.account"]').selectOption({ label: 'Feed' })
    await page.locator('[name="lines.0.amount"]').fill('lots')
    await press(page, 'Record it')
    // Without script the press returns before the new page has set its focus.
    await expect.poll(() => page.evaluate('document.activeElement.id'), patience).toBe('errors')
    expect(await page.locator('[name="payee"]').inputValue()).toBe('Feed store')
    await page.locator('.error-summary a').first().click()
    await expect.poll(() => page.evaluate('document.activeElement.name'), patience).toBe('lines.0.amount')
    await page.locator('[name="lines.0.amount"]').fill('84.20')
    await press(page, 'Record it')
    await expect.poll(() => new URL(page.url()).pathname, patience).toBe('/books')
    expect(latestEntries(house.books, { sideId: 'farm', text: 'feed store' })).toHaveLength(1)
  })

  test('pressing a button twice in haste books once', async () => {
    await page.goto('/crossings/new?kind=draw')
    await field(page, 'Amount').fill('77')
    await page.getByRole('button', { name: 'Record it on both sides' }).dblclick()
    await page.waitForURL(/\/crossings\?notice/)
    expect(listCrossings(house.books).filter((one) => one.amountCents === 7700)).toHaveLength(1)
  })

  test('figures open to what they are made of, with the keyboard alone', async () => {
    await page.goto('/now')
    await page.keyboard.press('Tab')
    expect(await page.evaluate('document.activeElement.className')).toBe('skip')
    await page.keyboard.press('Enter')
    const floor = page.locator('.figure', { hasText: 'Savings not to be spent' })
    await floor.locator('summary').focus()
    await page.keyboard.press('Enter')
    expect(await floor.locator('details').getAttribute('open')).not.toBeNull()
    expect(await floor.locator('.made-of').textContent()).toContain('as planned')
  })

  test('the register finds by words', async () => {
    const account = await page
      .goto('/books')
      .then(() => page.getByRole('link', { name: 'Farm checking' }).getAttribute('href'))
    await page.goto(account!)
    expect(await page.locator('tbody tr').count()).toBeGreaterThan(2)
    await field(page, 'Search').fill('feed store')
    await press(page, 'Find')
    await page.waitForFunction('document.querySelectorAll("tbody tr").length === 1')
    expect(await page.locator('tbody tr').textContent()).toContain('Feed store')
  })
})
