// Sentences that a couple reads once: a bad year that takes no month of savings says why on Runway, and what the farm pays a house that
// never put anything in is no repayment.
import { afterEach, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { act, done } from '../db/fresh-books.ts'
import { accountIn } from '../today/moved.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

const page = async (path: string) =>
  (await (await app.get(path)).text()).replace(/<[^>]+>/g, '').replace(/\s+/g, ' ')

const opened = () => {
  app = testApp({ today: '2026-03-15' })
  app.openSides()
  app.savePlan(
    planSchema.parse({
      startMonth: '2026-03',
      household: {
        people: [
          { id: 'ines', name: 'Ines', born: '1975-04-11', planToAge: 85 },
          { id: 'otto', name: 'Otto', born: '1974-09-02', planToAge: 85 },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
        floor: { kind: 'dollars', dollars: 1000 },
      },
      farm: {
        cash: 5000,
        enterprises: [{ id: 'flowers', name: 'Flowers', salesPerUnit: 24_000, costsPerUnit: 6000 }],
      },
      savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 70_000 }] },
      tax: { method: 'none' },
      assumptions: { inflation: 0 },
    }),
  )
}

test('on Runway each bad year that takes no month says why, with what to enter where hours are missing', async () => {
  opened()
  const { storms } = (await (await app.get('/runway/storms.json')).json()) as {
    storms: { name: string; monthsLeft: number | null; says: string | null; lacks: object | null }[]
  }
  const { milestones } = (await (await app.get('/runway.json')).json()) as {
    milestones: { monthsLeft: number }
  }
  const noWorse = storms.filter(({ monthsLeft }) => (monthsLeft ?? Infinity) >= milestones.monthsLeft)
  expect(noWorse.length).toBeGreaterThan(1)
  const runway = await page('/runway')
  expect(runway).toContain(`Why ${noWorse.length} are no worse than the plan`)
  for (const { name, says, lacks } of noWorse) {
    expect(says !== null || lacks !== null, name).toBe(true)
    expect(runway).toContain(`${name}: ${says ?? ''}`.trim())
  }
  expect(runway).toMatch(
    /Injury: Ines cannot work for a year: It changes nothing but the farm’s work, .*The hours that the farm’s enterprises need are not given, so none of its work is lost\. Give the hours an enterprise needs/,
  )
})

test('what the farm pays a house that put nothing in is not called paid back', async () => {
  opened()
  const draw = (on: string, dollars: number, kind: 'draw' | 'contribution' = 'draw') => {
    const [farm, house] = [
      accountIn(app.books, 'farm', 'Farm checking'),
      accountIn(app.books, 'household', 'Household checking'),
    ]
    const [fromAccountId, toAccountId] = kind === 'draw' ? [farm, house] : [house, farm]
    const amountCents = cents(dollars * 100)
    done(
      postCrossing(app.books, act(), {
        kind,
        day: day(on),
        amountCents,
        fromAccountId,
        toAccountId,
        memo: '',
      }),
    )
  }
  draw('2026-03-02', 900)
  expect(await page('/crossings')).toContain(
    'The farm has paid the house $900 since March 2026, and the house has put nothing in.',
  )
  draw('2026-03-04', 400, 'contribution')
  expect(await page('/crossings')).toContain(
    'The farm has paid the house $500 more than the house put in since March 2026.',
  )
})
