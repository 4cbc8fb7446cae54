// The year pack on paper: controls gone, one part of the pack per sheet where it begins, nothing wider than Letter or A4.
import { expect, test } from 'vitest'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

/** Width between the margins of 15 mm, in CSS pixels: Letter is 216 mm wide, A4 210 mm. */
const printWidths = { Letter: 703, A4: 680 } as const

test.for(['Letter', 'A4'] as const)('prints on %s', { timeout: 240_000 }, async (format) => {
  const { page, complaints } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: printWidths[format], height: 900 },
  })
  await page.emulateMedia({ media: 'print' })
  await page.goto('/year-pack?year=2025')
  expect(
    await page.locator('nav[aria-label="Pages"]:visible, form:visible, .button-row:visible').count(),
  ).toBe(0)
  expect(await page.locator('.caution:visible').count()).toBeGreaterThan(0)
  const tooWide = await page.evaluate(
    `[...document.querySelectorAll('.pack-table')]
      .filter((table) => table.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
      .map((table) => table.closest('section')?.id)`,
  )
  expect(tooWide).toEqual([])
  const beginning = (await page.evaluate(
    `[...document.querySelectorAll('.pack-sheet')].map((part) => getComputedStyle(part).breakBefore)`,
  )) as string[]
  expect(beginning.length).toBeGreaterThan(5)
  expect(new Set(beginning)).toEqual(new Set(['page']))
  // A total at the foot of a sheet, with half of its lines on the next, would be read as the total of what is above it.
  const totals = (await page.evaluate(
    `[...document.querySelectorAll('tfoot')].map((foot) => getComputedStyle(foot).display)`,
  )) as string[]
  expect(new Set(totals)).toEqual(new Set(['table-row-group']))
  const paper = await page.pdf({ format })
  const sheets = paper.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0
  expect(sheets).toBeGreaterThanOrEqual(beginning.length)
  expect(sheets).toBeLessThan(beginning.length + 14)
  expect(complaints).toEqual([])
})
