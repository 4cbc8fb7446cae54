// State tax paid in the year before the books begin counts as the federal tax beside it does: on Now, on the worksheet, in what is still
// to be paid ahead. An invented grower of cut flowers in North Carolina, alone, whose books begin in October.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { filledForm } from './browser-form.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)

const planWith = (
  statePaid: number,
  {
    state = 'NC',
    localRate = 0,
    localPaid = 0,
  }: { state?: string; localRate?: number; localPaid?: number } = {},
) =>
  planSchema.parse({
    startMonth: '2026-10',
    household: {
      people: [{ id: 'ida', name: 'Ida', born: '1984-05-02' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1700 }],
      place: { state },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
    tax: {
      stateTax: { kind: 'law', localRate },
      lastYear: { tax: 5000, stateTax: 1300 },
      soFar: { paid: 400, withheld: 400, statePaid, localPaid },
    },
  })

beforeEach(() => {
  app = testApp({ today: '2026-11-28' })
  app.openSides()
  post('household', '2026-10-01', { Savings: 60_000, 'Opening balances': -60_000 })
  post('farm', '2026-10-10', { 'Farm checking': 60_000, 'Vegetables and fruit sold': -60_000 })
  post('household', '2026-11-05', { 'State and local income taxes': 150, Savings: -150 })
})

afterEach(() => app.close())

const now = async () =>
  (
    (await (await app.get('/now.json')).json()) as {
      tax: { total: number; paid: number; setAside: number; state: { tax: number; paid: number } }
    }
  ).tax
const worksheet = async () =>
  (
    (await (await app.get('/year-pack.json?year=2026')).json()) as {
      tax: {
        worksheet: {
          statePayments: { estimates: number }
          localPayments: { estimates: number } | null
          stateEstimated: { installments: { due: string; amount: number }[] }
        }
      }
    }
  ).tax.worksheet

// 60,000 × 92.35% × 15.3% is 8,477.73, half of it, 4,238.87, deducted (26 USC 1402(a)(12), 164(f)): income 55,761.13. North Carolina takes
// off 12,750 and 3.99% of the rest (N.C. Gen. Stat. 105-153.5, 105-153.7): 1,716.14.
const stateTax = (60_000 - 4238.87 - 12_750) * 0.0399

test('what was paid before the books lowers what lies aside, the worksheet says it, and nothing more is paid ahead', async () => {
  app.savePlan(planWith(0))
  const before = await now()
  expect(before.state.tax).toBeCloseTo(stateTax, 1)
  expect(before.state.paid).toBe(150)
  expect(before.setAside).toBeCloseTo(before.total - 400 + stateTax - 150, 1)
  expect((await worksheet()).stateEstimated.installments.length).toBeGreaterThan(0)
  app.savePlan(planWith(1700), { basedOn: 1 })
  const after = await now()
  expect(after.state.paid).toBe(1850)
  expect(after.setAside).toBeCloseTo(after.total - 400, 2)
  const { statePayments, stateEstimated } = await worksheet()
  expect(statePayments.estimates).toBe(1850)
  expect(stateEstimated.installments).toEqual([])
})

test('the step of this year so far asks for it beside the federal one, and keeps it', async () => {
  app.savePlan(planWith(0))
  const page = await (await app.get('/start/year')).text()
  expect(page).toContain('State income tax withheld or paid ahead')
  const form = await filledForm(app, '/start/year', { statePaid: '825.50' })
  expect([
    (await app.post('/start/year', form)).status,
    (await app.post('/start/year', form)).status,
  ]).toEqual([303, 303])
  expect((await now()).state.paid).toBe(975.5)
  expect(await (await app.get('/start/year')).text()).toContain('value="825.50"')
})

// Pennsylvania takes 3.07% of net profits (72 P.S. 7302), and the local collector, an office of its own (53 P.S. 6924.501), here 1.6%:
// of 60,000 that is 1,842 and 960.
test('tax of a local office stands apart from the state’s, in what was paid before the books too', async () => {
  const here = { state: 'PA', localRate: 0.016, localPaid: 320 }
  app.savePlan(planWith(1120, here))
  const { state } = await now()
  expect(state.tax).toBeCloseTo(1842 + 960, 2)
  expect(state.paid).toBe(1120 + 150)
  const { statePayments, localPayments } = await worksheet()
  expect(statePayments.estimates).toBe(1120 - 320 + 150)
  expect(localPayments!.estimates).toBe(320)
  const due = await (await app.get('/now')).text()
  expect(due).toMatch(/Pennsylvania estimated tax for 2026.*?about \$[\d,]+ for the year by the plan/)
  expect(due).toMatch(/and about \$960 to your local office, which has its own due dates, \$320 of it paid/)
  const form = await filledForm(app, '/start/year', { localPaid: '1120.01' })
  const refused = await app.post('/start/year', form)
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain(
    'More than was withheld or paid ahead for state and local tax together',
  )
  await app.post('/start/year', { ...form, localPaid: '444' })
  expect((await worksheet()).localPayments!.estimates).toBe(444)
  // In Maryland it goes with the state's return: no part of it stands apart.
  app.savePlan(planWith(1120, { ...here, state: 'MD' }), { basedOn: 2 })
  expect((await worksheet()).statePayments.estimates).toBe(1120 + 150)
  expect(await (await app.get('/start/year')).text()).not.toContain('to a local office')
})
