// The year’s months that are over, one telling on all pages of Health. An invented household of four in Pennsylvania: his pay with an
// employer’s plan ends in August, both adults come to the marketplace in September, and in December the month’s income is Medicaid’s.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { latestRevision } from '#db/plan-store.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { postByName } from './post-by-name.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

type Health = NonNullable<PlanInput['health']>

const planWith = (health: Partial<Health> = {}) =>
  planSchema.parse({
    startMonth: '2026-07',
    household: {
      people: [
        { id: 'arlo', name: 'Arlo', born: '1984-02-20' },
        { id: 'wren', name: 'Wren', born: '1986-10-05' },
      ],
      dependents: [
        { id: 'jo', name: 'Jo', born: '2014-03-01' },
        { id: 'kit', name: 'Kit', born: '2023-06-01' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 2600 }],
      pay: [
        { id: 'mill', name: 'Mill', person: 'arlo', perMonth: 5200, to: '2026-08' },
        { id: 'school', name: 'School', person: 'wren', perMonth: 1500 },
      ],
      place: { state: 'PA' },
    },
    health: {
      marketplace: {
        planAt21: 300,
        benchmarkAt21: 320,
        members: [
          { person: 'arlo', from: '2026-09' },
          { person: 'wren', from: '2026-09' },
        ],
      },
      ...health,
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 80_000 }] },
    // The same pay from January to June.
    tax: { soFar: { wages: 40_200 } },
  } satisfies PlanInput)

const post = (on: string, amounts: Record<string, number>) => postByName(app.books, 'household', on, amounts)

beforeEach(() => {
  app = testApp({ today: '2026-12-01' })
  app.openSides()
  const accounts = listAccounts(app.books).filter(({ sideId }) => sideId === 'household')
  const premium = accounts.find(({ purpose }) => purpose === 'premium')!.name
  post('2026-07-01', { Savings: 80_000, 'Opening balances': -80_000 })
  for (const on of ['07', '08']) post(`2026-${on}-28`, { Savings: 6700, 'Off-farm pay': -6700 })
  for (const on of ['09', '10', '11']) {
    post(`2026-${on}-28`, { Savings: 1500, 'Off-farm pay': -1500 })
    post(`2026-${on}-03`, { Savings: -250, [premium]: 250 })
  }
  postByName(app.books, 'farm', '2026-09-10', { 'Farm checking': 2000, 'Vegetables and fruit sold': -2000 })
})

afterEach(() => app.close())

const cover = async () =>
  (await (await app.get('/cover.json')).json()) as Extract<CoverFigures, { status: 'read' }>
const of = async (name: string) => (await cover()).rows[0]!.people.find((one) => one.name === name)!.cover
const text = async (path: string) =>
  (await (await app.get(path)).text()).replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ')

test('months under the same kind twice in a year stand in their order', async () => {
  app.savePlan(planWith())
  expect((await of('Arlo')).slice(-2)).toEqual([
    { kind: 'marketplace', from: 9, months: 3 },
    { kind: 'Medicaid', from: 12, months: 1 },
  ])
  const years = await text('/cover/years')
  expect(years).toContain('then marketplace from September, then Medicaid from December')
  expect(years).toContain('then a marketplace plan from September 2026, then Medicaid from December 2026')
  expect(years).not.toContain('from October 2026')
  // What comes next is no month that is over.
  expect(years).toContain('From December 2026 Arlo and Wren have Medicaid.')
})

// The guideline of 2026 for four in the contiguous states is 33,000 (HHS, from memory): 6,700 a month are 244% of it, above the adults’ 138
// and the children's 157 and 133; 1,500 and the farm's 2,000 over twelve months, 1,666.67, are 61%.
test('a month whose own income was beyond Medicaid’s line is not told as Medicaid’s, one within it is', async () => {
  app.savePlan(planWith())
  expect(await of('Arlo')).toEqual([
    { kind: 'not known', from: 7, months: 2 },
    { kind: 'marketplace', from: 9, months: 3 },
    { kind: 'Medicaid', from: 12, months: 1 },
  ])
  expect(await of('Kit')).toEqual([
    { kind: 'not known', from: 7, months: 2 },
    { kind: 'Medicaid', from: 9, months: 4 },
  ])
  const page = await text('/cover')
  expect(page).toContain('Arlo and Wren have no known coverage, then a marketplace plan from September')
  expect(page).not.toContain('no coverage, then')
})

test('an employer’s plan covers its months, with no program and no marketplace in them', async () => {
  const everyone = ['arlo', 'wren', 'jo', 'kit']
  app.savePlan(planWith({ employerPlans: everyone.map((person) => ({ person, to: '2026-08' })) }))
  expect((await of('Arlo'))[0]).toEqual({ kind: 'other plan', from: 7, months: 2 })
  expect((await of('Kit'))[0]).toEqual({ kind: 'other plan', from: 7, months: 2 })
  expect(await text('/cover/years')).toContain(
    'Arlo has another plan at first, then a marketplace plan from September',
  )
})

test('the form of premiums asks from which month, and what covered them before', async () => {
  const nobody = planWith({ marketplace: { planAt21: 0, benchmarkAt21: 0, members: [] } })
  app.savePlan(nobody)
  const page = await (await app.get('/cover/marketplace')).text()
  // The month after his pay ends, for whoever is not listed yet.
  expect(page).toMatch(/name="from\.arlo"[^>]*value="2026-09"/)
  expect(page).toMatch(/name="employerUntil"[^>]*value=""/)
  const typed = {
    formId: '6f1c2a52-93a5-4a83-9d1c-0f6a1b0f3c21',
    basedOn: '1',
    'members[]': ['arlo', 'wren'],
    plan: '700',
    benchmark: '750',
    care: '',
    advance: 'yes',
    'from.arlo': '2026-09',
    'from.wren': '2026-10',
    'from.jo': '2026-09',
    employerUntil: '2026-08',
  }
  const wrong = await app.post('/cover/marketplace', { ...typed, 'from.wren': 'soon' })
  expect(wrong.status).toBe(422)
  expect(await wrong.text()).toMatch(/value="soon"/)
  expect((await app.post('/cover/marketplace', typed)).status).toBe(303)
  const { health } = latestRevision(app.books, 'ours')!.document as { health: Health }
  expect(health.marketplace!.members).toEqual([
    { person: 'arlo', from: '2026-09' },
    { person: 'wren', from: '2026-10' },
  ])
  expect(health.employerPlans).toEqual(
    ['arlo', 'wren', 'jo', 'kit'].map((person) => ({ person, to: '2026-08' })),
  )
  expect((await cover()).rows[0]!.marketplaceMonths).toBe(3)
  expect(await (await app.get('/cover/marketplace')).text()).toMatch(/name="from\.wren"[^>]*value="2026-10"/)
  // By person in the plan's own form: this one asks no more.
  app.savePlan(planWith({ employerPlans: [{ person: 'arlo', to: '2026-08' }] }), { basedOn: 2 })
  expect(await (await app.get('/cover/marketplace')).text()).not.toContain('name="employerUntil"')
})

test('who is on Medicare as the plan begins is on no employer’s plan, and is offered none of the marketplace', async () => {
  const plan = planWith({ marketplace: { planAt21: 0, benchmarkAt21: 0, members: [] } })
  plan.household.dependents.push({
    ...plan.household.dependents[0]!,
    id: 'ulla',
    name: 'Ulla',
    born: '1944-09-05',
    relation: 'relative',
  })
  app.savePlan(plan)
  const page = await (await app.get('/cover/marketplace')).text()
  expect(page).toContain('On Medicare as the plan begins: Ulla.')
  expect(page).toContain('Last month in which an employer’s plan covered all of you who are not on Medicare')
  expect(page).not.toContain('name="from.ulla"')
  const typed = {
    formId: '6f1c2a52-93a5-4a83-9d1c-0f6a1b0f3c22',
    basedOn: '1',
    plan: '',
    benchmark: '',
    care: '',
    advance: 'yes',
    employerUntil: '2026-08',
  }
  expect((await app.post('/cover/marketplace', typed)).status).toBe(303)
  const { health } = latestRevision(app.books, 'ours')!.document as { health: Health }
  expect(health.employerPlans).toEqual(
    ['arlo', 'wren', 'jo', 'kit'].map((person) => ({ person, to: '2026-08' })),
  )
  // Asked again, one month for all of them still stands.
  expect(await (await app.get('/cover/marketplace')).text()).toMatch(
    /name="employerUntil"[^>]*value="2026-08"/,
  )
})

// In December 138% of 33,000 is 45,540 a year of such months: what came before it stands on top, so that the year is far beyond 138%.
test('a limit of a year that has begun says that the months ahead are meant', async () => {
  app.savePlan(planWith())
  const page = await text('/cover')
  expect(page).toMatch(
    /up to \$\d\d,\d{3} in the whole year, where December alone comes to 138% of FPL of 2026/,
  )
  expect(page).not.toMatch(/up to \$\d\d,\d{3}, 138% of FPL of 2026/)
  // A whole year ahead has no such months.
  expect(await text('/cover?year=2027')).toMatch(/up to \$\d\d,\d{3}, 138% of FPL of 2027/)
})

test('no coverage is told as what the plan lists, with what a child may have beyond the program', async () => {
  app.savePlan(planWith())
  const page = await text('/cover')
  expect(page).toContain('no coverage from December')
  expect(page).toContain(
    '“No coverage” means that the plan lists none. The marketplace covers anyone, children too',
  )
  expect(page).toContain('Pennsylvania also sells its children’s program at full cost')
})

/**
 * One weaver alone: 24,000 of farm profit since July, which goes by its year (42 CFR 435.603(h)(3)). Self-employment tax 3,391.09, half of it
 * 1,695.55: 22,304.45 without premiums, 1,858.70 a month. 138 % of 15,960 (HHS 2026 for one, from memory) are 1,835.40 a month: December is
 * beyond Medicaid, whatever the premiums of five months that are over take off the year’s return.
 */
test('premiums that are over move no line of the month ahead: limits, cover and income are those of the projection', async () => {
  const alone = planSchema.parse({
    startMonth: '2026-07',
    household: {
      people: [{ id: 'fern', name: 'Fern', born: '1981-08-11' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1400 }],
      place: { state: 'PA' },
    },
    health: {
      marketplace: { planAt21: 320, benchmarkAt21: 320, members: [{ person: 'fern', from: '2026-07' }] },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 80_000 }] },
  } satisfies PlanInput)
  app.close()
  app = testApp({ today: '2026-12-01' })
  app.openSides()
  const premium = listAccounts(app.books).find(({ purpose }) => purpose === 'premium')!.name
  post('2026-07-01', { Savings: 80_000, 'Opening balances': -80_000 })
  for (const on of ['07', '08', '09', '10', '11']) post(`2026-${on}-03`, { Savings: -250, [premium]: 250 })
  postByName(app.books, 'farm', '2026-09-10', {
    'Farm checking': 24_000,
    'Vegetables and fruit sold': -24_000,
  })
  app.savePlan(alone)
  const { rows, inSight } = await cover()
  expect(rows[0]!.people[0]!.cover).toEqual([{ kind: 'marketplace', from: 7, months: 6 }])
  const sight = inSight!
  expect(sight.bands[sight.standsOn]!.people[0]).toMatchObject({ kind: 'marketplace', later: [] })
  expect(sight.plannedIncome).toBeCloseTo(rows[0]!.householdIncome, 2)
  // The plan expects nothing of the farm: all of the income is that of the books, 22,304.45 less 391.14 of premiums (see below).
  expect(Math.abs(sight.plannedIncome - 21_913.31)).toBeLessThan(2)
  expect(await text('/cover/credit')).toContain(
    'Income for July to December 2026: before December 2026 by the books, as planned where they hold nothing, and from then on by the plan',
  )
  // The year’s income is about 140 % of 15,650 (90 FR 5917), where 3.57 % of it is their own share (Rev. Proc. 2025-25: 3.14 to 4.19 % from 133
  // to 150 %): 782.28 a year, 325.95 in five months. The limit is 11 twelfths of 22,304.45 and the month’s 1,835.40 less that: 21,955.19.
  const line = sight.bands[sight.standsOn - 1]!.toIncome!
  expect(Math.abs(line - 21_955.19)).toBeLessThan(2)
})
