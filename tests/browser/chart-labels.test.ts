// The words of charts: none lies on another or leaves its drawing, at any width, for the sample and for households unlike it.
import { randomUUID } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { addSide } from '#db/ledger/account-store.ts'
import { savePlan } from '#db/plan-store.ts'
import { type PlanInput, planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { drawnOf, drawnWords, fewOrAll } from '../fuzz/batches.ts'
import { openHouse, openPage, type RunningHouse } from './house.ts'
import { sampleHouse } from './sample-house.ts'

const opened = sampleHouse()

/** Pages with charts, of which the test command takes Runway and a few. What waits for a run of its own is asked for with it. */
const pages = [
  '/runway',
  ...drawnOf(
    [
      '/start',
      '/now?storms=yes',
      '/crossings',
      '/crossings/house-money',
      '/runway/storms',
      '/cover',
      '/cover/credit',
      '/cover/years',
      '/cover/place',
      '/farm',
      '/farm/herds',
      '/farm/buying',
      '/slower-years',
      '/slower-years/kept',
      '/books/spending',
      '/runway/actual',
      '/farm/batches/1',
    ],
    4,
  ),
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
  expect(found, drawnWords('npm run pages')).toEqual([])
  expect(drawings).toBeGreaterThan(fewOrAll(2, 30))
})

/** Amounts as large as fields take, with names as long as people give them. */
const hugeHouse = (): PlanInput => ({
  ...samplePlan(),
  household: {
    ...samplePlan().household,
    living: [{ id: 'living', name: 'Living', perMonth: 48_000_000 }],
  },
  savings: {
    accounts: [
      { id: 'cash', name: 'Checking', kind: 'cash', balance: 987_654_321 },
      { id: 'ira', name: 'Retirement', kind: 'traditional', owner: 'mara', balance: 876_543_210 },
    ],
  },
  draw: { policy: 'steps', steps: [{ from: '2026-11', perMonth: 12_345_678 }] },
})

/** One year, no savings, nothing that costs or earns. */
const emptyYear: PlanInput = {
  startMonth: '2026-11',
  years: 1,
  household: {
    living: [{ id: 'living', name: 'Living', perMonth: 0 }],
    floor: { kind: 'dollars', dollars: 0 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 0 }] },
  draw: { policy: 'steps', steps: [] },
  tax: { method: 'none' },
}

const samplePlan = (): PlanInput =>
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))

test.for([
  { name: 'huge amounts', plan: hugeHouse, least: fewOrAll(2, 15) },
  { name: 'one year of zeros', plan: () => emptyYear, least: fewOrAll(1, 2) },
])('words stand apart with $name too', { timeout: 240_000 }, async ({ plan, least }) => {
  const house = await openHouse('empty')
  try {
    keepPlan(house, plan())
    const { page } = await openPage(opened.browser, house.base, { javaScriptEnabled: false })
    const { found, drawings } = await faultsOf(page, pages)
    expect(found, drawnWords('npm run pages')).toEqual([])
    expect(drawings).toBeGreaterThanOrEqual(least)
  } finally {
    await house.close()
  }
})

function keepPlan({ books }: RunningHouse, input: PlanInput): void {
  const act = () => ({ formId: randomUUID(), at: '2026-11-25T12:00:00.000Z', actor: 'test' })
  const read = readPlan({ planVersion, ...input })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  addSide(books, act(), { kind: 'farm', name: 'Wrenfold' })
  addSide(books, act(), { kind: 'household', name: 'Household' })
  const first = { planId: 'ours', name: 'Ours', basedOn: 0, schemaVersion: planVersion }
  const saved = savePlan(books, act(), { ...first, document: read.plan })
  if (!saved.ok) throw new Error(saved.kind)
}
