// The way of a bank file through the browser, with script and without: chosen, looked at, read in, sorted; and its pages by axe and at 360 px.
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { drawnOf } from '../fuzz/batches.ts'
import { axeFindings } from './findings.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, type WatchedPage } from './house.ts'

// November of the sample farm, as its bank would write it on; the first row is known already.
const november = `Posted Date,Description,Note,Withdrawals,Deposits,Balance
10/30/2026,MILLSTONE MARKET,Groceries,277.57,,8044.50
11/03/2026,KEYSTEM HEALTH PLAN PREMIUM,Silver plan,268.90,,7775.60
11/06/2026,MILLSTONE MARKET,Groceries,301.10,,7474.50
11/09/2026,<b>QUILL & STAMP</b>,Letters,12.40,,7462.10
11/10/2026,OXEYE BINDERY,Cookbook,18.25,,7443.85
`

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(async () => {
  await closePages(browser)
})

describe.each(drawnOf([{ script: true }, { script: false }], 1))('with script: $script', ({ script }) => {
  let house: RunningHouse
  let watched: WatchedPage
  let page: Page

  beforeAll(async () => {
    house = await openHouse('sample')
    watched = await openPage(browser, house.base, { javaScriptEnabled: script })
    page = watched.page
  }, 180_000)
  afterAll(async () => {
    expect(watched.strayRequests).toEqual([])
    expect(watched.complaints).toEqual([])
    await page.context().close()
    await house.close()
  })

  const choose = async (text: string, name: string) => {
    await page.goto('/books/statements')
    await page
      .getByLabel('Files from the bank')
      .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) })
    await page.getByRole('button', { name: 'Preview', exact: true }).click()
  }

  test('a broken file comes back at its field, with its line', async () => {
    await choose('<OFX><STMTTRN><DTPOSTED>2026<TRNAMT>1</STMTTRN></OFX>', 'broken.ofx')
    expect(await page.locator('.error-summary').textContent()).toContain('Line 1: “2026” is not a date')
  })

  test('a file is looked at, its account chosen, its new lines read in', async () => {
    await choose(november, 'november.csv')
    await page.getByLabel('This is the statement of').selectOption({ label: 'Household checking' })
    if (!script) await page.getByRole('button', { name: 'Preview again' }).click()
    await page.getByText('4 new, 1 seen before, 0 doubtful.').waitFor()
    expect(await page.getByText('<b>QUILL & STAMP</b>').count()).toBeGreaterThan(0)
    const before = countWaiting(house.books).waiting
    await page.getByRole('button', { name: 'Read in 4 transactions' }).click()
    await page.getByText('4 new transactions were read in').waitFor()
    expect(countWaiting(house.books).waiting).toBe(before + 4)
  })

  /** A row stands for all that waits of one payee. */
  const rowOf = (payee: string) => page.locator('.desk-group', { hasText: payee })
  const listOf = (payee: string) => rowOf(payee).getByRole('combobox', { name: /^Where/ })
  /** From the list, which the script fills; without it by letters, of which the list beside shows the places. */
  const sendTo = (payee: string, place: string) =>
    script
      ? listOf(payee).selectOption({ label: place })
      : rowOf(payee)
          .getByLabel(/^Another place for/)
          .fill(place.slice(0, 6))
  const tickedRows = () => page.locator('.desk-group:has(.desk-take:checked)')

  test('proposed rows are checked; all checked ones are booked by one button', async () => {
    const sizes = await tickedRows().evaluateAll((rows) =>
      rows.map((row) => Number(row.getAttribute('data-count'))),
    )
    const ticked = sizes.reduce((sum, size) => sum + size, 0)
    expect(ticked).toBeGreaterThanOrEqual(4)
    expect(await page.locator('#desk-count').textContent()).toMatch(new RegExp(`^${ticked} of \\d+ checked`))
    const before = countWaiting(house.books).waiting
    await page.getByRole('button', { name: 'Book the checked transactions' }).click()
    await page.getByText(`Transactions sorted: ${ticked} booked`).waitFor()
    expect(countWaiting(house.books).waiting).toBe(before - ticked)
  })

  test('a checked row without a choice says so at its field, and what else was chosen stays', async () => {
    await sendTo('OXEYE BINDERY', 'Utilities')
    await rowOf('QUILL & STAMP').locator('.desk-take').check()
    const before = countWaiting(house.books).waiting
    await page.getByRole('button', { name: 'Book the checked transactions' }).click()
    expect(await page.locator('.error-summary').textContent()).toContain(
      'Choose what this transaction was for',
    )
    expect(countWaiting(house.books).waiting).toBe(before)
    const kept = await listOf('OXEYE BINDERY').inputValue()
    expect(kept).toBe(`a:${listAccounts(house.books).find(({ name }) => name === 'Utilities')!.id}`)
    expect(await rowOf('QUILL & STAMP').textContent()).toContain('Choose what this transaction was for')
    const field = listOf('QUILL & STAMP')
    await page.locator('.error-summary a').first().click()
    await expect
      .poll(() => page.evaluate('document.activeElement?.id'), { timeout: 15_000 })
      .toBe(await field.getAttribute('id'))
  })

  test('choosing where a row goes ticks it, and is enough to book it', async () => {
    await page.goto('/books/sorting')
    for (const tick of await page.locator('.desk-take').all()) await tick.uncheck()
    const row = rowOf('QUILL & STAMP')
    await sendTo('QUILL & STAMP', 'Groceries')
    expect(await row.locator('.desk-take').isChecked()).toBe(script)
    const before = countWaiting(house.books).waiting
    await page.getByRole('button', { name: 'Book the checked transactions' }).click()
    await page.getByText('Transactions sorted: 1 booked').waitFor()
    expect(countWaiting(house.books).waiting).toBe(before - 1)
  })

  test('a rule shows what it would have caught before it is saved', async () => {
    await page.goto('/books/sorting/rules/new')
    await page.getByLabel('These words').fill('crossroads fuel')
    await page.getByLabel('this rule wins').check()
    await page.getByLabel('Goes to').selectOption({ label: 'Fuel and oil' })
    if (!script) await page.getByRole('button', { name: 'Try it on past transactions' }).click()
    await page.getByText(/it would have caught 2\d\d/).waitFor()
    await page.getByRole('button', { name: 'Save the rule' }).click()
    await page.getByText('The rule is saved').waitFor()
  })
})

test('of changes made faster than they are answered the last one counts', { timeout: 90_000 }, async () => {
  const house = await openHouse('sample')
  const { page } = await openPage(browser, house.base)
  await page.goto('/books/sorting/rules/new')
  await page.route('**/rules/new', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 700))
    await route.continue().catch(() => {})
  })
  for (const words of ['fuel', 'crossroads', 'crossroads fuel']) {
    await page.getByLabel('These words').fill(words)
    await page.keyboard.press('Tab')
  }
  await page.getByLabel('this rule wins').check()
  await page.getByLabel('Goes to').selectOption({ label: 'Fuel and oil' })
  await page.getByText(/it would have caught 2\d\d/).waitFor({ timeout: 15_000 })
  await house.close()
})

test('the looks at files and lines are accessible and fit 360 px', { timeout: 240_000 }, async () => {
  const house = await openHouse('sample')
  const { page, complaints } = await openPage(browser, house.base, { viewport: { width: 360, height: 740 } })
  await page.goto('/books/statements')
  await page
    .getByLabel('Files from the bank')
    .setInputFiles({ name: 'n.csv', mimeType: 'text/csv', buffer: Buffer.from(november) })
  await page.getByRole('button', { name: 'Preview', exact: true }).click()
  await page.getByLabel('This is the statement of').selectOption({ label: 'Household checking' })
  await page.getByText('4 new, 1 seen before').waitFor()
  const look = page.url()
  const line = await page.request.get('/books/sorting.json').then((reply) => reply.json())
  const read = await page.request.get('/books/statements.json').then((reply) => reply.json())
  const findings: unknown[] = []
  // First, as it stands: the others lead away from it.
  const others = [
    '/books/sorting',
    `/books/sorting/lines/${line.rows[0].id}`,
    '/books/sorting/rules/new',
    '/books/sorting/set-aside',
    '/books/statements',
    `/books/statements/${read.statements[0].id}/take-back`,
  ]
  for (const path of [look, ...drawnOf(others, 1)]) {
    if (path !== look) await page.goto(path)
    findings.push(...(await axeFindings({ page }, path)))
    const over = await page.evaluate('document.documentElement.scrollWidth - innerWidth')
    if ((over as number) > 0) findings.push(`${path}: ${over} px too wide`)
  }
  expect(findings).toEqual([])
  expect(complaints).toEqual([])
  await page.context().close()
  await house.close()
})

test('a file dropped anywhere on the page goes into its field and is looked at; other things dropped do nothing', {
  timeout: 120_000,
}, async () => {
  const house = await openHouse('sample')
  const { page, complaints } = await openPage(browser, house.base)
  await page.goto('/month')
  await page.getByText('Or drop them anywhere on this page.').waitFor()
  const carrying = (what: string) =>
    page.evaluateHandle(`(() => { const carried = new DataTransfer(); ${what}; return carried })()`)
  const text = await carrying(`carried.setData('text/plain', 'a word')`)
  await page.dispatchEvent('h1', 'dragover', { dataTransfer: text })
  expect(await page.locator('.drop-here').count()).toBe(0)
  const file = await carrying(`carried.items.add(new File([${JSON.stringify(november)}], 'november.csv'))`)
  await page.dispatchEvent('h1', 'dragover', { dataTransfer: file })
  expect(await page.locator('.drop-here').count()).toBe(1)
  await page.dispatchEvent('h1', 'drop', { dataTransfer: file })
  await page.waitForURL(/\/books\/statements\/read\//)
  await page.getByRole('heading', { name: 'Look at november.csv' }).waitFor()
  expect(complaints).toEqual([])
  await page.context().close()
  await house.close()
})
