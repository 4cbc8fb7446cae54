// What a phone is for: a receipt taken while entering, at 360 px, and found again from its entry; and the steps that bring a phone to the
// house's notebook, walked as far as they go without a phone: certificate and passphrase made, and the house opened over https by them.
import { readFileSync } from 'node:fs'
import { createServer } from 'node:https'
import { createAdaptorServer } from '@hono/node-server'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { createApp } from '#src/server.ts'
import { houseCertificate } from '#web/server/house-certificate.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse, sampleToday } from './house.ts'

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

/** A picture of one white point, as RFC 2083 has it. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==',
  'base64',
)

test('a photo taken while entering, at 360 px, is kept with the entry and found from it', async () => {
  const { page, complaints } = await openPage(browser, house.base, {
    viewport: { width: 360, height: 740 },
    hasTouch: true,
    isMobile: true,
  })
  const enter = async (payee: string, field: 'photo' | 'receipt') => {
    await page.goto('/books/entry?side=farm&kind=out')
    await page.locator('[name=payee]').fill(payee)
    await page.locator('[name=day]').fill('2026-11-20')
    await page.locator('[name=moneyAccount]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.account"]').selectOption({ index: 1 })
    await page.locator('[name="lines.0.amount"]').fill('18.40')
    await page
      .locator(`input[type=file][name=${field}]`)
      .setInputFiles({ name: `${field}.png`, mimeType: 'image/png', buffer: png })
    await page.getByRole('button', { name: 'Record it' }).click()
    await page.waitForURL(/notice=/)
    const no = house.books.sqlite.prepare('SELECT max(no) FROM entries').pluck().get() as number
    await page.goto(`/books/entries/${no}`)
  }
  for (const [payee, field] of [
    ['Fence post yard', 'photo'],
    ['Twine and nails', 'receipt'],
  ] as const) {
    await enter(payee, field)
    await page.getByRole('link', { name: 'Receipts kept with this entry' }).click()
    const link = page.getByRole('link', { name: new RegExp(`${field}\\.png`) }).first()
    const href = await link.getAttribute('href')
    const got = await page.request.get(href!)
    expect(got.status()).toBe(200)
    expect((await got.body()).equals(png)).toBe(true)
  }
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360)
  expect(complaints).toEqual([])
})

test('the steps that bring a phone: certificate and passphrase made, then the notebook over https, asked for by the passphrase', async () => {
  const { page, complaints } = await openPage(browser, house.base, { viewport: { width: 360, height: 740 } })
  await page.goto('/farm/notebook/phone')
  await page.getByLabel('This computer in your network').fill('localhost.local')
  await page.getByRole('button', { name: 'Make the certificate' }).click()
  await page.getByRole('heading', { name: 'A certificate of your own: made' }).waitFor()
  const authority = await page.request.get('/farm/notebook/phone/house.crt')
  expect(authority.headers()['content-type']).toBe('application/x-x509-ca-cert')
  await page.getByRole('link', { name: 'Set a passphrase' }).click()
  for (const box of await page.locator('input[type=password]').all()) await box.fill('barn owl over wet hay')
  await page.locator('main form[method=post] button').first().click()
  await page.goto('/farm/notebook/phone')
  expect(complaints).toEqual([])
  // Started as the page says, with the files that it made.
  const made = houseCertificate(house.books.path, new Date(sampleToday))!
  const app = createApp({
    books: house.books,
    clock: { now: () => new Date(sampleToday) },
    log: { info: () => {}, warn: () => {}, error: () => {} },
    isLoopback: false,
  })
  const server = createAdaptorServer({
    fetch: app.fetch,
    createServer,
    serverOptions: { cert: readFileSync(made.files.certificate), key: readFileSync(made.files.key) },
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', () => resolve()))
  const { port } = server.address() as { port: number }
  const phone = await openPage(browser, `https://127.0.0.1:${port}`, {
    viewport: { width: 360, height: 740 },
    ignoreHTTPSErrors: true,
  })
  await phone.page.goto('/farm/notebook')
  await phone.page.locator('input[type=password]').fill('barn owl over wet hay')
  await phone.page.locator('main button').first().click()
  await phone.page.waitForURL(/\/farm\/notebook/)
  expect(await phone.page.locator('h1').textContent()).toMatch(/notebook/i)
  await phone.page.context().close()
  await new Promise((resolve) => server.close(resolve))
})
