// Marketplace cover that the plan lists for later changes nothing of a year whose premiums were paid for another plan, on no page. An
// invented household of three in North Carolina that grows flowers.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const ownPlan = { id: 'own', name: 'Health insurance', perMonth: 250 }
const all = ['ida', 'per', 'una'].map((person) => ({ person }))

const planWith = (health: PlanInput['health']) =>
  planSchema.parse({
    startMonth: '2026-10',
    household: {
      people: [
        { id: 'ida', name: 'Ida', born: '1984-05-02' },
        { id: 'per', name: 'Per', born: '1986-09-12' },
      ],
      dependents: [{ id: 'una', name: 'Una', born: '2015-03-20' }],
      living: [{ id: 'living', name: 'Living', perMonth: 2400 }],
      place: { state: 'NC' },
    },
    health,
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 60_000 }] },
  } satisfies PlanInput)

const typed = { planAt21: 480, benchmarkAt21: 500 }

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)

beforeEach(() => {
  app = testApp({ today: '2026-11-28' })
  app.openSides()
  post('household', '2026-10-01', { Savings: 60_000, 'Opening balances': -60_000 })
  post('farm', '2026-10-10', { 'Farm checking': 60_000, 'Vegetables and fruit sold': -60_000 })
  const premiums = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  for (const on of ['2026-10-03', '2026-11-03']) post('household', on, { [premiums]: 250, Savings: -250 })
})

afterEach(() => app.close())

interface Pack {
  tax: { worksheet: { figures: Record<string, number>; assumed: string[] } }
}
const worksheet = async () =>
  ((await (await app.get('/year-pack.json?year=2026')).json()) as Pack).tax.worksheet
const now = async () =>
  (await (await app.get('/now.json')).json()) as { tax: { setAside: number; state: { tax: number } } }

// Each has half of 60,000: × 92.35% × 15.3% is 4,238.87, half of it, 2,119.44, deducted (26 USC 1402(a)(12), 164(f)); with the premiums of
// 500 income is 55,261.12. North Carolina takes off 25,500 and, from 40,001 to 60,000 of a couple, 2,500 a child (N.C. Gen. Stat. 105-153.5), and
// 3.99% of the rest (105-153.7): 1,087.72.
const income = 55_261.12
const stateTax = (income - 25_500 - 2500) * 0.0399

test('cover that begins next July is none of this year: its premiums are deducted as they were paid', async () => {
  app.savePlan(planWith({ premiums: [ownPlan] }))
  const [before, today] = [await worksheet(), await now()]
  expect(before.figures.adjustedGrossIncome).toBeCloseTo(income, 2)
  app.savePlan(
    planWith({
      premiums: [{ ...ownPlan, to: '2027-06' }],
      marketplace: { ...typed, members: all.map((one) => ({ ...one, from: '2027-07' })) },
    }),
    { basedOn: 1 },
  )
  const after = await worksheet()
  expect(after.figures).toEqual(before.figures)
  expect(after.figures.premiumTaxCredit).toBe(0)
  expect(after.assumed.join(' ')).not.toContain('Marketplace')
  const { tax } = await now()
  expect(tax).toEqual(today.tax)
  expect(tax.state.tax).toBeCloseTo(stateTax, 0)
  expect(tax.state.tax).toBeCloseTo(after.figures.stateIncomeTax!, 2)
})

test('cover from November on is one month of it, and the premium of October stays one of the plan before', async () => {
  app.savePlan(
    planWith({
      premiums: [{ ...ownPlan, to: '2026-10' }],
      marketplace: { ...typed, members: all.map((one) => ({ ...one, from: '2026-11' })) },
    }),
  )
  // The policy is issued in November: on the federal curve for 2026 (from memory) 1.325 at 42, 1.278 at 40 and 0.765 at 11 make 3.368 of
  // 480, 1,616.64, of which 250 was paid: 1,366.64 came in advance.
  const { figures, assumed } = await worksheet()
  expect(assumed.join(' ')).toContain('Marketplace premium and benchmark are the plan’s')
  // The credit and the premium that is left make one month; that part and October's whole premium are deducted.
  expect(figures.premiumTaxCredit).toBeGreaterThan(1000)
  expect(figures.premiumTaxCredit! + figures.netPremium!).toBeCloseTo(1616.64, 2)
  expect(figures.selfEmployedHealthDeduction).toBeCloseTo(250 + figures.netPremium!, 2)
})

test('someone who joins later in the year raises the premiums of those months alone', async () => {
  const credit = async (
    members: NonNullable<NonNullable<PlanInput['health']>['marketplace']>['members'],
    basedOn: number,
  ) => {
    app.savePlan(planWith({ marketplace: { ...typed, members } }), { basedOn })
    return (await worksheet()).figures.premiumTaxCredit!
  }
  const [ida, ...others] = all
  const whole = await credit(all, 0)
  const alone = await credit([ida!], 1)
  const joined = await credit([ida!, ...others.map((one) => ({ ...one, from: '2026-11' }))], 2)
  expect(joined).toBeGreaterThan(alone)
  expect(joined).toBeLessThan(whole)
})
