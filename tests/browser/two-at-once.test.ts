// What only a form leads to: two versions of one account, and a day far from today; at AA, at 360 px, and without script.
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { findAccount, listAccounts } from '#db/ledger/account-store.ts'
import { axeFindings, sidewaysFindings } from './findings.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

let browser: Browser
let house: RunningHouse
/** One screen with script, one narrow without. */
let wide: WatchedPage
let narrow: WatchedPage

beforeAll(async () => {
  browser = await launch()
  house = await openHouse('sample')
  wide = await openPage(browser, house.base)
  narrow = await openPage(browser, house.base, {
    viewport: { width: 360, height: 740 },
    javaScriptEnabled: false,
  })
})
afterAll(async () => {
  await closePages(browser)
  await house.close()
})

const press = ({ page }: WatchedPage, name: string) => page.getByRole('button', { name }).first().click()

test('the one who saves later sees both versions and saves after the other, on either screen', async () => {
  const { id } = listAccounts(house.books).find(({ name }) => name === 'Farm checking')!
  for (const [first, second] of [
    [wide, narrow],
    [narrow, wide],
  ] as const) {
    for (const { page } of [first, second]) await page.goto(`/settings/accounts/${id}`)
    await first.page.locator('[name=note]').fill(`kept by ${first === wide ? 'one' : 'the other'}`)
    await press(first, 'Save')
    await second.page.locator('[name=note]').fill('at the creek')
    await press(second, 'Save')
    expect(await second.page.locator('h1').textContent()).toContain('Two versions of the account')
    expect(await second.page.locator('main').textContent()).toContain('kept by')
    expect(await (second === wide ? axeFindings : sidewaysFindings)(second, 'two versions')).toEqual([])
    await press(second, 'Save yours after theirs')
    expect(findAccount(house.books, id)!.note).toBe('at the creek')
  }
})

test('a day far from today is asked about below its field, and taken when the box is checked', async () => {
  for (const watched of [wide, narrow]) {
    const { page } = watched
    await page.goto('/books/entry?side=farm&kind=out')
    await page.locator('[name=day]').fill('1979-12-31')
    await page.locator('[name=payee]').fill('Seed house')
    await page.locator('[name=moneyAccount]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.account"]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.amount"]').fill('12.50')
    await press(watched, 'Record it')
    const box = page.getByLabel('Yes, Dec 31, 1979 is right')
    expect(await box.isChecked()).toBe(false)
    expect(await (watched === wide ? axeFindings : sidewaysFindings)(watched, 'a far day')).toEqual([])
    await box.check()
    await press(watched, 'Record it')
    // The sample's books are closed through a later month: the day was taken, and that is what is said now.
    expect(await page.locator('.error-summary').textContent()).toContain('closed through')
  }
})

test('neither screen complained or asked anything of other hosts', () => {
  // A version that is no longer the newest is answered with 409, which the browser logs as a failed load.
  const complaints = [wide, narrow]
    .flatMap((watched) => watched.complaints)
    .filter((text) => !text.includes('409'))
  expect([...complaints, ...wide.strayRequests, ...narrow.strayRequests]).toEqual([])
})
