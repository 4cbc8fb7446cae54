// `npm run screenshots`: a picture of each page of the sample farm, wide, on a phone, dark and as printed, into sample/screenshots.
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { navigation } from '#web/forms/navigation.ts'
import { launch, openHouse } from './house.ts'

const folder = join(import.meta.dirname, '../../sample/screenshots')
mkdirSync(folder, { recursive: true })

const house = await openHouse('sample', true)
const browser = await launch()
for (const { path } of navigation) {
  await shoot(path, '', {})
}
await shoot('/now', '-dark', { colorScheme: 'dark' })
await shoot('/books', '-dark', { colorScheme: 'dark' })
await shoot('/now', '-phone', { viewport: { width: 360, height: 740 } })
await shoot('/books', '-phone', { viewport: { width: 360, height: 740 } })
await shoot('/now', '-print', {}, 'print')
await browser.close()
await house.close()

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
  if (path === '/now') {
    // Storms and simulations are run behind the page, which asks for them; a page opened after that holds them from the start.
    const waits = page.locator('.answer-value', { hasText: /Not run|Being run/ })
    await waits.first().waitFor({ state: 'detached', timeout: 240_000 })
    await page.reload()
  }
  // The file of these pictures is a passing one: its place would tell nothing.
  await page.evaluate(
    `document.querySelectorAll('main code').forEach((one) => { one.textContent = '…/dooryard/books.sqlite' })`,
  )
  await page.screenshot({ path: join(folder, `${path.slice(1)}${ending}.png`), fullPage: media === 'print' })
  await context.close()
}
