// Parts of the plan's forms that are usually left as they are: folded under what stands in them, and sent along all the same.
import { afterAll, beforeAll, expect, test } from 'vitest'
import { latestRevision } from '#db/plan-store.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

// One person with goats: kids go as meat at 32 pounds hanging, and no rate is entered.
let app: TestApp
beforeAll(() => {
  app = testApp({ today: '2026-11-20' })
  const goats = {
    id: 'goats',
    kind: 'goats',
    name: 'Brush goats',
    start: '2027-01',
    breedingFemales: 6,
    carryingLimit: 12,
    meat: { hangingWeight: 32 },
    scheduleFCostLines: { '16': 3 },
  }
  app.savePlan(
    planSchema.parse({
      startMonth: '2027-01',
      household: { people: [{ id: 'ida', name: 'Ida', born: '1974-05-02' }] },
      farm: { herds: [goats], markets: [{ id: 'gate', name: 'Gate' }] },
    }),
  )
})
afterAll(() => app.close())

const herd = '/farm/herds/goats'
const goatsNow = () => (latestRevision(app.books, 'ours')!.document as Plan).farm.herds[0]!

/** What each fold says it holds, by its name, and whether it stands open. */
const foldsIn = (html: string): Record<string, [string, 'open' | 'closed']> =>
  Object.fromEntries(
    [
      ...html.matchAll(
        /<details class="fold"([^>]*)><summary><span class="fold-name">([^<]*)<\/span><span class="fold-holds">([^<]*)/g,
      ),
    ].map(([, attributes, name, holds]) => [
      name!,
      [holds!, / open(=|$| )/.test(attributes!) ? 'open' : 'closed'],
    ]),
  )
const foldsAt = async (page: string) => foldsIn(await (await app.get(page)).text())

test('a part with nothing of its own is closed and says so; one with entries is open and counts them', async () => {
  // Entered: of meat the hanging weight; of the lines of cost the row of line 16, and that of line 31, which stood there.
  expect(await foldsAt(herd)).toEqual({
    'Published figures to begin with': ['none shown', 'closed'],
    'Counts of the herd': ['nothing entered', 'closed'],
    Rates: ['nothing entered', 'closed'],
    'Sold as meat': ['1 entered', 'open'],
    'Waiting stock, books and tax': ['2 entered', 'open'],
  })
  expect(await foldsAt('/farm/enterprises/new')).toMatchObject({
    'Books and tax': ['standard values', 'closed'],
    'Who does the work': ['nothing entered', 'closed'],
  })
})

test('what lies in a closed part is sent along: saving another field leaves it as it was', async () => {
  const before = goatsNow()
  const reply = await app.post(herd, await filledForm(app, herd, { breedingFemales: '7' }))
  expect(reply.status).toBe(303)
  expect(goatsNow()).toEqual({ ...before, breedingFemales: 7 })
})

test('a part in which something is wrong stands open, with what was typed', async () => {
  const reply = await app.post(herd, await filledForm(app, herd, { 'rates.conception': '140' }))
  const html = await reply.text()
  expect(reply.status).toBe(422)
  expect(foldsIn(html)).toMatchObject({ Rates: ['1 entered', 'open'] })
  expect(html).toContain('value="140"')
})

test('a list in a closed part opens when a row is added, though nothing stands in the row', async () => {
  const reply = await app.post(herd, await filledForm(app, herd, { add: 'counts' }))
  expect(foldsIn(await reply.text())['Counts of the herd']?.[1]).toBe('open')
})
