// Marketplace months of a year under way are one truth on all pages: what was entered for the time before the books, what the books paid,
// and what the plan expects. An invented household of three in Ohio whose pay ended in July; the ages of it are said as those of the year.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const everyone = ['ines', 'tove', 'ada'].map((person) => ({ person }))

const planWith = (health: NonNullable<PlanInput['health']>) =>
  planSchema.parse({
    startMonth: '2026-08',
    household: {
      people: [
        { id: 'ines', name: 'Ines', born: '1988-05-20' },
        { id: 'tove', name: 'Tove', born: '1990-03-11' },
      ],
      dependents: [{ id: 'ada', name: 'Ada', born: '2018-09-01' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1900 }],
      pay: [{ id: 'shop', name: 'Shop', person: 'tove', perMonth: 700 }],
      place: { state: 'OH' },
    },
    health,
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    tax: {
      soFar: {
        wages: 31_000,
        marketplaceMonths: 3,
        marketplacePremiums: 2700,
        marketplaceBenchmark: 2850,
        advanceCredit: 2100,
      },
    },
  } satisfies PlanInput)

const marketplace = { planAt21: 300, benchmarkAt21: 320, members: everyone }

const post = (side: string, on: string, amounts: Record<string, number>) =>
  postByName(app.books, side, on, amounts)

beforeEach(() => {
  app = testApp({ today: '2026-11-30' })
  app.openSides()
  post('household', '2026-08-01', { Savings: 50_000, 'Opening balances': -50_000 })
  post('farm', '2026-09-10', { 'Farm checking': 6000, 'Vegetables and fruit sold': -6000 })
})

afterEach(() => app.close())

const payPremiums = (dollars: number) => {
  const name = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  for (const on of ['08', '09', '10', '11'])
    post('household', `2026-${on}-03`, { [name]: dollars, Savings: -dollars })
}

interface Worksheet {
  figures: Record<string, number>
  assumed: string[]
}
const worksheet = async () =>
  ((await (await app.get('/year-pack.json?year=2026')).json()) as { tax: { worksheet: Worksheet } }).tax
    .worksheet
const cover = async () =>
  (await (await app.get('/cover.json')).json()) as Extract<CoverFigures, { status: 'read' }>
const text = async (path: string) => (await app.get(path)).text()

// On the federal curve for 2026 (45 CFR 147.102, factors from memory): 1.238 at 37, 1.222 at 35 and 0.765 at 7 make 3.225 of 300, 967.50.
const month = 967.5

test('months before the books and months that the books paid make the worksheet’s', async () => {
  app.savePlan(planWith({ marketplace }))
  const before = await worksheet()
  // Of nothing booked yet, those that were entered: the credit is none of the lines that are zero.
  expect(before.figures.premiumTaxCredit! + before.figures.netPremium!).toBeCloseTo(2700, 2)
  payPremiums(180)
  const { figures, assumed } = await worksheet()
  expect(figures.premiumTaxCredit! + figures.netPremium!).toBeCloseTo(2700 + 4 * month, 2)
  expect(assumed.join(' ')).toContain(
    'advance credit of 3 months are as entered for the time before the books',
  )
  expect(assumed.join(' ')).toContain('for 4 months in which the books hold premiums')
})

test('the plan of the day counts them until its first month, and household income is one number', async () => {
  app.savePlan(planWith({ marketplace }))
  payPremiums(180)
  const { rows, inSight } = await cover()
  const [first] = rows
  // Continued from November: August to October as paid; from then on income of a month puts all on Medicaid.
  expect(first!.marketplaceMonths).toBe(6)
  expect(first!.premiumMonthly * 6).toBeCloseTo(2700 + 3 * month, 1)
  expect(first!.people[0]!.cover).toEqual([
    { kind: 'marketplace', from: 8, months: 3 },
    { kind: 'Medicaid', from: 11, months: 2 },
  ])
  expect(inSight!.months).toBe(6)
  expect(inSight!.room.now.householdIncome).toBeCloseTo(first!.householdIncome, 2)
  expect(inSight!.plannedIncome).toBeCloseTo(first!.householdIncome, 2)
  expect(inSight!.room.now.credit).toBeCloseTo(first!.credit, 0)
  const years = await text('/cover/years')
  expect(years).toContain('credit for 6 months on the marketplace')
  expect(years).not.toContain('credit for August to December 2026')
  expect(years).toContain('turns 38 · marketplace, then Medicaid from November')
  const page = await text('/cover/credit')
  expect(page).toContain('For 6 months on the marketplace that are over')
  expect(page).not.toContain('no credit')
})

test('premiums of a plan’s own line, a little dearer than planned, are none of the marketplace', async () => {
  app.savePlan(planWith({ marketplace, premiums: [{ id: 'teeth', name: 'Dental plan', perMonth: 44 }] }))
  payPremiums(47)
  const { figures, assumed } = await worksheet()
  expect(figures.premiumTaxCredit! + figures.netPremium!).toBeCloseTo(2700, 2)
  expect(assumed.join(' ')).not.toContain('in which the books hold premiums')
})

test('where nobody is listed, what the books paid is no month of the marketplace', async () => {
  app.savePlan(planWith({}))
  payPremiums(180)
  const { figures } = await worksheet()
  expect(figures.premiumTaxCredit! + figures.netPremium!).toBeCloseTo(2700, 2)
})

// One return feeds both: premiums less their credit lower income, with it Ohio's tax and what of the federal credits comes back.
test('set-aside and worksheet say the same state tax, credits and federal tax', async () => {
  const plan = planWith({ marketplace })
  plan.tax.soFar.wages = 58_000
  app.savePlan(plan)
  payPremiums(180)
  const { figures } = await worksheet()
  const { tax } = await cover()
  expect(figures.selfEmployedHealthDeduction).toBeGreaterThan(100)
  expect(figures.stateIncomeTax).toBeGreaterThan(0)
  expect(tax!.state!.tax).toBeCloseTo(figures.stateIncomeTax!, 2)
  expect(tax!.total).toBeCloseTo(figures.totalTax!, 2)
  expect(tax!.mayComeBack).toBeCloseTo(figures.earnedIncomeCredit! + figures.additionalChildTaxCredit!, 2)
})

interface Beside {
  revisionNo: number
  oneSided: { id: string; says: string; button: string | null }[]
}
const beside = async () => (await (await app.get('/runway/actual.json')).json()) as Beside
const told = async () => (await beside()).oneSided.find(({ id }) => id === 'premiums-paid')
const takeIn = async () =>
  app.post('/runway/actual/take', {
    formId: '00000000-0000-4000-8000-000000000077',
    what: 'premiums-paid',
    planId: 'ours',
    basedOn: String((await beside()).revisionNo),
  })
const premiumsOf = async () =>
  ((await (await app.get('/runway.json')).json()) as { months: { month: string; premiums: number }[] }).months

test('premiums that the books pay and the plan does not from now on are named, and one press goes on paying them', async () => {
  app.savePlan(planWith({ marketplace }))
  payPremiums(180)
  expect(await text('/runway/actual')).toContain('The books paid $180 a month for premiums lately')
  expect(await text('/now')).toContain('in the books alone or in the plan alone')
  expect((await told())!.button).toBe('Plan to pay them until December 2026')
  // One press: the marketplace plan that the program takes the place of is no second cover to be asked about.
  expect((await takeIn()).status).toBe(303)
  const months = await premiumsOf()
  const paid = (month: string) => months.find((one) => one.month === month)!.premiums
  expect([paid('2026-11'), paid('2026-12')]).toEqual([180, 180])
  expect(await told()).toBeUndefined()
})

test('premiums that no part of the plan knows are named too, and taken in for good', async () => {
  app.savePlan(planWith({}))
  payPremiums(180)
  expect((await told())!.says).toContain('unless other costs hold them, months left are too many')
  expect((await told())!.button).toBe('Take them into the plan')
  expect((await takeIn()).status).toBe(303)
  const months = await premiumsOf()
  expect(months.find((one) => one.month === '2026-11')!.premiums).toBe(180)
  // Premiums rise 5% each January, the first by the part of the year since the plan's first month, August: five months.
  expect(months.find((one) => one.month === '2027-03')!.premiums).toBeGreaterThan(180)
  expect(await told()).toBeUndefined()
})
