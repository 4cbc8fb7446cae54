// The words of charts: none lies on another or leaves its drawing, at any width, for the sample and for households unlike it.
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

/** Pages with charts. What waits for a run of its own is asked for with it. */
const pages = [
  '/now?storms=yes',
  '/crossings',
  '/crossings/house-money',
  '/runway',
  '/runway/storms',
  '/cover',
  '/cover/credit',
  '/cover/years',
  '/cover/place',
  '/farm',
  '/farm/herds',
  '/farm/buying',
  '/slower-years',
  '/books/spending',
  '/runway/actual',
  '/farm/batches/1',
]
const widths = [360, 480, 768, 1024, 1280, 1600]

/** Of each drawing in sight: texts that meet, and texts that lie outside. In px; touching by less than half of one is no fault. */
const faults = `(() => {
  const found = []
  for (const svg of document.querySelectorAll('main svg[role="img"]')) {
    const frame = svg.getBoundingClientRect()
    if (frame.width === 0) continue
    const texts = [...svg.querySelectorAll('text')].map((one) => ({ says: one.textContent.trim(), box: one.getBoundingClientRect() }))
    const name = svg.getAttribute('aria-label').slice(0, 40)
    texts.forEach(({ says, box }, at) => {
      if (box.left < frame.left - 0.5 || box.right > frame.right + 0.5 || box.top < frame.top - 0.5 || box.bottom > frame.bottom + 0.5)
        found.push(name + ': “' + says + '” leaves the drawing')
      for (const other of texts.slice(at + 1))
        if (box.left + 0.5 < other.box.right && other.box.left + 0.5 < box.right && box.top + 0.5 < other.box.bottom && other.box.top + 0.5 < box.bottom)
          found.push(name + ': “' + says + '” on “' + other.says + '”')
    })
  }
  return { found, drawings: document.querySelectorAll('main svg[role="img"]').length }
})()`

async function faultsOf(
  page: Page,
  paths: readonly string[],
): Promise<{ found: string[]; drawings: number }> {
  const found: string[] = []
  let drawings = 0
  for (const path of paths) {
    await page.goto(path)
    for (const width of widths) {
      await page.setViewportSize({ width, height: 900 })
      const of = (await page.evaluate(faults)) as { found: string[]; drawings: number }
      found.push(...of.found.map((one) => `${path} at ${width}: ${one}`))
      if (width === widths[0]) drawings += of.drawings
    }
  }
  return { found, drawings }
}

test('words of the charts of the sample stand apart and inside', { timeout: 240_000 }, async () => {
  const { page } = await openPage(opened.browser, opened.house.base, { javaScriptEnabled: false })
  const { found, drawings } = await faultsOf(page, pages)
  expect(found).toEqual([])
  expect(drawings).toBeGreaterThan(30)
})
