// A market of our own invention at which nothing is sold yet: it costs fees, miles and hours and brings nothing, which is said at once.
import { afterEach, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const planOf = (farm: object) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: { people: [{ id: 'una', name: 'Una', born: '1980-02-02' }] },
    farm,
  } as PlanInput)
const beds = { id: 'beds', name: 'Garden beds', scale: 20, salesPerUnit: 600, costsPerUnit: 90 }
const green = {
  id: 'green',
  name: 'Village green',
  trips: [0, 0, 0, 0, 4, 4, 4, 4, 4, 4, 0, 0],
  salesPerTrip: 650,
  feePerTrip: 35,
  milesPerTrip: 20,
  costPerMile: 0.75,
  hoursPerTrip: 8,
}
const open = (farm: object) => {
  app = testApp({ today: '2026-01-20' })
  app.savePlan(planOf(farm))
}
const page = async (path: string) => (await app.get(path)).text()

test('a market that nothing names is said on its page and on the farm’s, with what it costs and where to say what sells there', async () => {
  open({ enterprises: [beds], markets: [green] })
  // 24 trips × (35 + 20 × 0.75) = 1,200.
  for (const path of ['/farm', '/farm/markets']) {
    const html = await page(path)
    expect(html, path).toContain('Nothing is sold at Village green yet')
    expect(html, path).toContain('$1,200')
    expect(html, path).toContain('href="/farm/enterprises/beds"')
  }
  expect(await page('/farm/markets')).not.toContain('an hour at Village green leaves')
  const figures = (await (await app.get('/farm.json')).json()) as FarmFigures
  expect(figures.markets[0]!.isNamed).toBe(false)
})

test('once an enterprise sells there it is no longer said; several without are named together', async () => {
  open({ enterprises: [beds, { ...beds, id: 'more', name: 'More beds' }], markets: [green] })
  expect(await page('/farm/markets')).toContain('href="/farm/enterprises"')
  const form = await filledForm(app, '/farm/enterprises/beds', { 'markets[]': ['green'] })
  expect((await app.post('/farm/enterprises/beds', form)).status).toBe(303)
  expect(planSchema.parse(latestRevision(app.books, 'ours')!.document).farm.enterprises[0]!.markets).toEqual([
    'green',
  ])
  for (const path of ['/farm', '/farm/markets']) expect(await page(path)).not.toContain('Nothing is sold at')
  app.close()
  open({ enterprises: [beds], markets: [green, { ...green, id: 'stand', name: 'Road stand' }] })
  expect(await page('/farm')).toContain('Nothing is sold at Village green and Road stand yet')
})

test('a market saved by its form leads to the page that says it', async () => {
  open({ enterprises: [beds] })
  const form = await filledForm(app, '/farm/markets/new', { name: 'Harbor market', feePerTrip: '30' })
  const saved = await app.post('/farm/markets/new', form)
  expect(saved.status).toBe(303)
  expect(await page(new URL(saved.headers.get('location')!, 'http://x').pathname)).toContain(
    'Nothing is sold at Harbor market yet',
  )
})
