// The year pack on paper: controls gone, a sheet of paper per statement, nothing wider than Letter or A4; each page a few screens at most.
import { expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { keepPack } from '#db/year/kept-packs.ts'
import { sheetsToKeep } from '#web/forms/pack/kept-sheets.ts'
import { act, done } from '../db/fresh-books.ts'
import { drawnOf, drawnWords } from '../fuzz/batches.ts'
import { openPage } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

/** Width between the margins of 15 mm, in CSS pixels: Letter is 216 mm wide, A4 210 mm. */
const printWidths = { Letter: 703, A4: 680 } as const

test.for(drawnOf(['Letter', 'A4'] as const, 1))('prints on %s', { timeout: 240_000 }, async (format) => {
  const { page, complaints } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: printWidths[format], height: 900 },
  })
  await page.emulateMedia({ media: 'print' })
  await page.goto('/year-pack/print?year=2025')
  expect(await page.locator('nav[aria-label="Pages"]:visible, form:visible, .button:visible').count()).toBe(0)
  expect(await page.locator('.caution:visible').count()).toBeGreaterThan(0)
  // What is open stands on the first sheet, before any statement.
  expect(await page.locator('.pack-cover ol li:visible').count()).toBeGreaterThan(0)
  const tooWide = await page.evaluate(
    `[...document.querySelectorAll('.pack-table')]
      .filter((table) => table.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
      .map((table) => table.closest('section')?.id)`,
  )
  expect(tooWide).toEqual([])
  const beginning = (await page.evaluate(
    `[...document.querySelectorAll('.pack-paper')].map((part) => getComputedStyle(part).breakBefore)`,
  )) as string[]
  expect(beginning.length).toBeGreaterThan(15)
  expect(new Set(beginning)).toEqual(new Set(['page']))
  // Each sheet says whose it is, of which days and which year.
  const heads = await page.locator('.pack-paper .sheet-of').allTextContents()
  for (const head of heads)
    expect(head).toMatch(/cash basis, January 1 to December 31, 2025.*Year pack 2025, sheet \d+: \S/)
  // Where a sheet runs over a page, its head stands on that one too.
  const repeated = (await page.evaluate(
    `[...document.querySelectorAll('.sheet-head')].map((head) => getComputedStyle(head).display)`,
  )) as string[]
  expect(new Set(repeated)).toEqual(new Set(['table-header-group']))
  // A total at the foot of a sheet, with half of its lines on the next, would be read as the total of what is above it.
  const totals = (await page.evaluate(
    `[...document.querySelectorAll('tfoot')].map((foot) => getComputedStyle(foot).display)`,
  )) as string[]
  expect(new Set(totals)).toEqual(new Set(['table-row-group']))
  // Nor does a sum go to the next page with a single row of what it is the sum of.
  const before = (await page.evaluate(
    `[...document.querySelectorAll('tr + .pack-subtotal')].map((sum) => getComputedStyle(sum.previousElementSibling).breakBefore)`,
  )) as string[]
  expect(new Set(before)).toEqual(new Set(['avoid']))
  // A line's note says more than its name again.
  const doubled = await page.evaluate(
    `[...document.querySelectorAll('th > .pack-note')]
      .map((note) => [note.previousSibling?.textContent ?? '', note.textContent].map((text) => text.trim().toLowerCase()))
      .filter(([name, note]) => name !== '' && note.startsWith(name + '.'))`,
  )
  expect(doubled).toEqual([])
  const paper = await page.pdf({ format })
  const sheets = paper.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0
  expect(sheets).toBeGreaterThan(beginning.length)
  expect(sheets).toBeLessThan(beginning.length + 8)
  // The cover with its open points and contents is one sheet of paper.
  await page.evaluate(
    `document.querySelectorAll('.pack-paper, .pack-cover ~ .pack-part').forEach((part) => { part.hidden = true; part.style.display = 'none' })`,
  )
  const cover = await page.pdf({ format })
  expect(cover.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length).toBe(1)
  expect(complaints).toEqual([])
})

test('no page of the pack is longer than four screens', { timeout: 240_000 }, async () => {
  const { page } = await openPage(opened.browser, opened.house.base, {
    viewport: { width: 1280, height: 900 },
  })
  await page.goto('/year-pack?year=2025')
  const sheets = (await page.evaluate(
    `[...document.querySelectorAll('.pack-contents th a')].map((link) => link.getAttribute('href'))`,
  )) as string[]
  expect(sheets.length).toBeGreaterThan(15)
  for (const path of ['/year-pack?year=2025', ...drawnOf(sheets, 6)]) {
    await page.goto(path)
    const height = (await page.evaluate('document.documentElement.scrollHeight')) as number
    expect([path, height < 4 * 900], drawnWords('npm run pages')).toEqual([path, true])
  }
})

test('a kept copy prints every sheet whole, with script off', { timeout: 240_000 }, async () => {
  const { books, base } = opened.house
  const sheets = JSON.stringify(sheetsToKeep(books, 2025, day('2026-11-25')))
  done(keepPack(books, act(), { year: 2025, sheets, note: '', over: 0 }))
  const { page } = await openPage(opened.browser, base, {
    viewport: { width: printWidths.A4, height: 900 },
    javaScriptEnabled: false,
  })
  await page.emulateMedia({ media: 'print' })
  await page.goto('/year-pack/kept/2025/1')
  const kept = JSON.parse(sheets).cash.sheets as { rows: unknown[] }[]
  expect(await page.locator('.kept-sheet tbody tr:visible').count()).toBeGreaterThanOrEqual(
    kept.reduce((sum, { rows }) => sum + rows.length, 0),
  )
  for (const table of await page.locator('.kept-sheet table').all()) {
    const box = await table.boundingBox()
    expect([await table.textContent(), box!.x + box!.width <= printWidths.A4 + 1]).toEqual([
      expect.anything(),
      true,
    ])
  }
  const paper = await page.pdf({ format: 'A4' })
  expect(paper.toString('latin1').match(/\/Type\s*\/Page[^s]/g)!.length).toBeGreaterThan(10)
})
