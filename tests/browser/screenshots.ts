// `npm run screenshots`: a picture of each page of the sample farm, wide, on a phone, dark and as printed, into sample/screenshots.
// `npm run screenshots -- FOLDER [empty]`: every page that links lead to, whole, at both widths, light and dark, into a folder of yours, and how many
// screens each is: for looking at them one by one. `empty` has a house in which nothing is entered yet.
import { mkdirSync } from 'node:fs'
import { join, resolve } from 'node:path'
import type { Page } from 'playwright-core'
import { navigation } from '#web/forms/navigation.ts'
import { behindForms, pagesAmong, rooms, shapeOf } from './addresses.ts'
import { launch, openHouse } from './house.ts'

const [own, kind] = process.argv.slice(2)
const folder = own === undefined ? join(import.meta.dirname, '../../sample/screenshots') : resolve(own)
mkdirSync(folder, { recursive: true })

const house = await openHouse(kind === 'empty' ? 'empty' : 'sample', true)
const browser = await launch()
await (own === undefined ? shootRooms() : shootEvery())
await browser.close()
await house.close()

async function shootRooms(): Promise<void> {
  for (const { path } of navigation) {
    await shoot(path, '', {})
  }
  await shoot('/now', '-dark', { colorScheme: 'dark' })
  await shoot('/books', '-dark', { colorScheme: 'dark' })
  await shoot('/now', '-phone', { viewport: { width: 360, height: 740 } })
  await shoot('/books', '-phone', { viewport: { width: 360, height: 740 } })
  await shoot('/now', '-print', {}, 'print')
}

async function shootEvery(): Promise<void> {
  const sizes = [
    { name: 'desk', viewport: { width: 1280, height: 800 } },
    { name: 'phone', viewport: { width: 360, height: 740 } },
  ]
  const pages = await Promise.all(
    sizes.map(async (size) => ({
      ...size,
      page: await (await browser.newContext({ viewport: size.viewport, baseURL: house.base })).newPage(),
    })),
  )
  await pages[0]!.page.goto('/now')
  await simulationsRun(pages[0]!.page)
  const waiting = [...new Set([...rooms, ...behindForms])]
  const seen = new Set(waiting.map(shapeOf))
  for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
    const screens: string[] = []
    for (const { name, viewport, page } of pages) {
      await page.goto(path)
      const links = (await page.evaluate(
        `[...document.querySelectorAll('a[href^="/"]')].map((one) => one.getAttribute('href'))`,
      )) as string[]
      for (const link of pagesAmong(links)) {
        if (seen.has(shapeOf(link))) continue
        seen.add(shapeOf(link))
        waiting.push(link)
      }
      screens.push(
        (Number(await page.evaluate('document.documentElement.scrollHeight')) / viewport.height).toFixed(1),
      )
      const file = path.slice(1).replaceAll(/[^a-z0-9]+/gi, '_') || 'start'
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        await page.screenshot({ path: join(folder, `${file}.${name}.${colorScheme}.png`), fullPage: true })
      }
      await page.emulateMedia({ colorScheme: 'light' })
    }
    console.log(`${screens.map((one) => one.padStart(5)).join('')}  ${path}`)
  }
}

/** Bad years and simulations are run behind Now, which asks for them; a page opened after that holds them from the start. */
async function simulationsRun(page: Page): Promise<void> {
  const waits = page.locator('.answer-value', { hasText: /Not run|Being run/ })
  await waits.first().waitFor({ state: 'detached', timeout: 240_000 })
  await page.reload()
}

async function shoot(
  path: string,
  ending: string,
  options: Parameters<typeof browser.newContext>[0],
  media: 'screen' | 'print' = 'screen',
): Promise<void> {
  const context = await browser.newContext({ viewport: { width: 1100, height: 900 }, ...options })
  const page = await context.newPage()
  await page.emulateMedia({ media })
  await page.goto(house.base + path)
  if (path === '/now') await simulationsRun(page)
  // The file of these pictures is a passing one: its place would tell nothing.
  await page.evaluate(
    `document.querySelectorAll('main code').forEach((one) => { one.textContent = '…/dooryard/books.sqlite' })`,
  )
  await page.screenshot({ path: join(folder, `${path.slice(1)}${ending}.png`), fullPage: media === 'print' })
  await context.close()
}
