// A market named by three fields, from the desk and from the phone; hired help told with what it brings. Two beekeepers of our own.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { browserForms, fieldsOf } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  app.savePlan(
    planSchema.parse({
      startMonth: '2027-01',
      household: { people: [{ id: 'ann', name: 'Ann', born: '1980-02-02' }] },
      farm: {
        enterprises: [{ id: 'hives', name: 'Hives', hoursPerUnit: 1200, salesPerUnit: 40_000 }],
        crew: [{ who: 'ann', weeklyHours: 0 }],
        hired: { wage: 18, compensationRate: 0.08, weeklyHours: 5 },
      },
    }),
  )
})
afterAll(() => app.close())

const marketsNow = () => (latestRevision(app.books, 'ours')!.document as Plan).farm.markets
const newMarket = async (page: string, typed: Record<string, string>) => {
  const html = await (await app.get(page)).text()
  const form = browserForms(html, page).find(({ action }) => action === '/farm/markets/new')!
  const asked = form.fields.filter(([name]) => !/^(formId|planId|basedOn|from)$/.test(name))
  expect(asked.map(([name]) => name)).toEqual(['name', 'trips.one', 'salesPerTrip.one'])
  return app.post('/farm/markets/new', { ...fieldsOf(form), ...typed })
}

test('on the phone a first market takes three fields and leads back to its day', async () => {
  const saved = await newMarket('/farm/notebook?open=market', { name: 'Mill fair', 'trips.one': '2' })
  expect(saved.status).toBe(303)
  expect(saved.headers.get('location')).toMatch(/^\/farm\/notebook\?open=market/)
  // Nothing typed for the most it takes: no limit.
  expect(marketsNow()).toMatchObject([{ name: 'Mill fair', trips: 2, salesPerTrip: 1_000_000 }])
  const page = await (await app.get('/farm/notebook?open=market')).text()
  expect(page).toContain('Write market day')
  expect(page).not.toContain('A new market, called')
})

test('at the desk the same three fields stand below the markets; what is wrong is said on the whole form', async () => {
  const wrong = await newMarket('/farm/markets', { name: '', 'salesPerTrip.one': '300' })
  expect(wrong.status).toBe(422)
  const html = await wrong.text()
  expect(html).toContain('Give it a name')
  expect(html).toMatch(/name="salesPerTrip.one"[^>]*value="300"/)
  const saved = await newMarket('/farm/markets', { name: 'Stand', 'salesPerTrip.one': '300' })
  expect(saved.headers.get('location')).toMatch(/^\/farm\/markets/)
  expect(marketsNow()[1]).toMatchObject({ name: 'Stand', trips: 4, salesPerTrip: 300 })
})

// 1,200 hours at 18.00 are 21,600 of wages, 1,652.40 of payroll tax (7.65 percent) and 1,728 of compensation (8 percent).
test('hired help is told with its parts, its lines and its forms', async () => {
  const page = (await (await app.get('/farm/fit?year=2027')).text()).replace(/\s+/g, ' ')
  expect(page).toContain('the plan hires 1,200 hours for $24,980')
  expect(page).toContain(
    'wages $21,600, the employer’s social security and Medicare tax $1,652, workers’ compensation $1,728',
  )
  expect(page).toContain('Form 943')
  expect(page).toContain('$2,500, which these wages pass')
})
