// The plan document: small plans are whole, wrong fields say what would be right, older documents are brought up, newer ones refused.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { differences } from '#plan/difference.ts'
import { planJsonSchema } from '#plan/json-schema.ts'
import { planSchema, planVersion } from '#plan/plan.ts'
import { readPlan, readPlanText } from '#plan/upgrade.ts'
import { project } from '#runway/project.ts'

const faultsOf = (document: unknown) => {
  const read = readPlan(document)
  return read.ok ? [] : read.faults
}

test('a plan of a first month alone is a whole plan', () => {
  const read = readPlan({ startMonth: '2027-01' })
  expect(read.ok && read.plan.planVersion).toBe(planVersion)
  expect(read.ok && project(read.plan).milestones.unmetNeed).toBe(0)
})

test('living cost, premium, draws, savings and floor make a first plan that says how many months are left', () => {
  const read = readPlan({
    startMonth: '2027-01',
    household: {
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      floor: { kind: 'dollars', dollars: 10_000 },
    },
    health: { premiums: [{ id: 'premium', name: 'Premium', perMonth: 500 }] },
    savings: { accounts: [{ id: 'savings', name: 'Savings', kind: 'cash', balance: 45_000 }] },
    draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 1000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0 },
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  // 45,000 less 2,500 a month: 10,000 is reached after fourteen months and undercut in the fifteenth.
  expect(project(read.plan).milestones).toMatchObject({ monthsLeft: 14, floorMonth: '2028-03' })
  expect(
    project({ ...read.plan, draw: { policy: 'steps', steps: [], growth: 0, withPrices: false } }).milestones
      .monthsLeft,
  ).toBe(10)
})

test.for([
  [{ startMonth: 'January' }, 'startMonth', 'Enter a month, like 2027-04'],
  [
    { startMonth: '2027-01', household: { living: [{ id: 'a', name: 'A', perMonth: '12' }] } },
    'household.living.0.perMonth',
    'Enter an amount, like 1200 or 1200.50',
  ],
  [
    { startMonth: '2027-01', household: { living: [{ id: 'a', name: 'A', perMonth: -1 }] } },
    'household.living.0.perMonth',
    'Enter an amount of 0 or more',
  ],
  [
    { startMonth: '2027-01', assumptions: { inflation: 3 } },
    'assumptions.inflation',
    'Enter a rate of at most 30 %',
  ],
  [
    { startMonth: '2027-01', savings: { accounts: [] } },
    'savings.accounts',
    'Add one account of kind cash: money moves through it',
  ],
  [
    { startMonth: '2027-01', household: { pay: [{ id: 'p', name: 'P', person: 'no-one', perMonth: 1 }] } },
    'household.pay.0.person',
    'No one in the plan is called no-one. Choose one of: add people first',
  ],
  [
    {
      startMonth: '2027-01',
      household: { living: [{ id: 'a', name: 'A', perMonth: 1, from: '2028-01', to: '2027-05' }] },
    },
    'household.living.0.to',
    'Enter a month from 2028-01 on',
  ],
  [
    { startMonth: '2027-01', household: { people: [{ id: 'ash', name: 'Ash', born: '1980-02-30' }] } },
    'household.people.0.born',
    'Enter a date, like 1981-06-14',
  ],
] as const)('a wrong field says what would be right: %j', ([document, path, message]) => {
  expect(faultsOf(document)).toContainEqual({ path, message })
})

test('a plan from a newer version is refused in plain words', () => {
  const [fault] = faultsOf({ planVersion: planVersion + 1, startMonth: '2027-01' })
  expect(fault!.message).toContain(`newer version (${planVersion + 1})`)
  expect(fault!.message).toContain('Update the program')
})

test('a version that is no number is told as such', () => {
  for (const version of [null, 'two', 1.5])
    expect(readPlan({ planVersion: version, startMonth: '2026-06' })).toEqual({
      ok: false,
      faults: [
        { path: 'planVersion', message: expect.stringContaining('planVersion is a whole number') as string },
      ],
    })
})

test('a building written off at once by a plan of version 2 follows its class; what may be stays as it was', () => {
  const purchases = [
    {
      id: 'barn',
      name: 'Barn',
      cost: 9000,
      month: '2028-01',
      assetClass: 'farm-building',
      section179Share: 1,
    },
    { id: 'mower', name: 'Mower', cost: 900, month: '2028-01', section179Share: 0.5 },
  ]
  const read = readPlan({ planVersion: 2, startMonth: '2027-01', farm: { purchases } })
  expect(read.ok && read.plan.farm.purchases.map((one) => one.section179Share)).toEqual([0, 0.5])
  const [fault] = faultsOf({ startMonth: '2027-01', farm: { purchases } })
  expect(fault!.path).toBe('farm.purchases.0.section179Share')
})

test('a plan of version 1 says the federal age curve, which it reckoned with; a later choice stays', () => {
  const health = { medicaidExpansion: true, marketplace: { planAt21: 300 } }
  const read = readPlan({ planVersion: 1, startMonth: '2027-01', health })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect(read.upgradedFrom).toBe(1)
  expect(read.plan.planVersion).toBe(planVersion)
  expect(read.plan.health).toMatchObject({
    medicaidExpansion: true,
    marketplace: { planAt21: 300, ageRating: 'federal' },
  })
  const own = readPlan({ startMonth: '2027-01', health: { marketplace: { ageRating: 'MA' } } })
  expect(own.ok && own.plan.health.marketplace.ageRating).toBe('MA')
  const [fault] = faultsOf({ startMonth: '2027-01', health: { marketplace: { ageRating: 'PA' } } })
  expect(fault!.path).toBe('health.marketplace.ageRating')
})

test('a plan of version 3 loads: no loans of the household yet, no state tax becomes the law of the place, typed rates stay', () => {
  const old = { planVersion: 3, startMonth: '2027-01' }
  const read = readPlan({ ...old, tax: { stateTax: { kind: 'none' } } })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect(read.upgradedFrom).toBe(3)
  expect(read.plan.household.loans).toEqual([])
  expect(read.plan.tax.stateTax.kind).toBe('law')
  const typed = { kind: 'flat', base: 'federal-agi', rate: 0.031 }
  const flat = readPlan({ ...old, tax: { stateTax: typed } })
  if (!flat.ok) throw new Error(JSON.stringify(flat.faults))
  expect(flat.plan.tax.stateTax).toMatchObject(typed)
})

test('children and what their care costs load by the spelling that plans had up to version 5', () => {
  const kit = { id: 'kit', name: 'Kit', born: '2019-04-02' }
  const old = { startMonth: '2027-01', household: { dependants: [kit] }, health: { careEachDependant: 40 } }
  // A plan by hand that says no version is read the same way: the child is never dropped.
  for (const document of [{ ...old, planVersion: 5 }, { ...old, planVersion: 1 }, old]) {
    const read = readPlan(document, { refuseUnknown: true })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(read.plan.household.dependents).toMatchObject([kit])
    expect(read.plan.health.careEachDependent).toBe(40)
    expect(JSON.stringify(read.plan)).not.toContain('ependant')
  }
})

test('the first shape of a plan is brought up with nothing lost', () => {
  const read = readPlan({
    planVersion: 0,
    name: 'Before',
    startMonth: '2026-12',
    livingPerMonth: 3100,
    premiumPerMonth: 260,
    draws: [{ from: '2027-03', perMonth: 800 }],
    savings: 52_000,
    floorDollars: 15_000,
  })
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  expect(read.upgradedFrom).toBe(0)
  expect(read.plan.name).toBe('Before')
  expect(read.plan.household.living[0]!.perMonth).toBe(3100)
  expect(read.plan.health.premiums[0]!.perMonth).toBe(260)
  expect(read.plan.draw).toMatchObject({ policy: 'steps', steps: [{ from: '2027-03', perMonth: 800 }] })
  expect(read.plan.savings.accounts[0]!.balance).toBe(52_000)
  expect(read.plan.household.floor).toEqual({ kind: 'dollars', dollars: 15_000 })
})

test('the first shape of a plan had a floor of six months where it named none, and no savings, premium or draw that it did not name', () => {
  const brought = (named: object) => {
    const read = readPlan({ planVersion: 0, startMonth: '2026-12', ...named })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    return read.plan
  }
  expect(brought({}).household.floor).toEqual({ kind: 'months', months: 6 })
  expect(brought({ floorMonths: 9 }).household.floor).toEqual({ kind: 'months', months: 9 })
  const { household, health, savings, draw } = brought({})
  expect([household.living, health.premiums, savings.accounts[0]!.balance]).toEqual([[], [], 0])
  expect(draw).toMatchObject({ policy: 'steps', steps: [] })
})

test('text that is not JSON is told apart from a plan that is wrong', () => {
  const read = readPlanText('{"startMonth": ')
  expect(read.ok).toBe(false)
  expect(read.ok ? '' : read.faults[0]!.message).toMatch(/^It is not JSON/)
})

test('the sample plan is valid', () => {
  expect(
    faultsOf(JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8'))),
  ).toEqual([])
})

test('the JSON Schema asks for nothing but the first month and carries titles and units', () => {
  const schema = planJsonSchema() as {
    required: string[]
    properties: Record<string, { properties?: Record<string, { title?: string; unit?: string }> }>
  }
  expect(schema.required).toEqual(['startMonth'])
  expect(schema.properties.assumptions!.properties!.inflation).toMatchObject({
    title: 'Prices rise',
    unit: 'rate a year',
  })
})

test('differences name the field by its line, with both values', () => {
  const plan = planSchema.parse({
    startMonth: '2027-01',
    household: { living: [{ id: 'food', name: 'Food', perMonth: 900 }] },
  })
  const other = planSchema.parse({
    startMonth: '2027-01',
    household: { living: [{ id: 'food', name: 'Food', perMonth: 950 }] },
  })
  expect(differences(plan, other)).toEqual([
    { path: 'household.living.food.perMonth', first: '900', second: '950' },
  ])
  expect(differences(plan, plan)).toEqual([])
})

test('another order of the same lines is a difference', () => {
  const list = (...ids: string[]) => ({ purchases: ids.map((id) => ({ id, cost: 1 })) })
  expect(differences(list('van', 'tractor', 'cooler'), list('tractor', 'van', 'shed'))).toEqual([
    { path: 'purchases.order', first: 'van, tractor', second: 'tractor, van' },
    { path: 'purchases.cooler', first: '{"id":"cooler","cost":1}', second: null },
    { path: 'purchases.shed', first: null, second: '{"id":"shed","cost":1}' },
  ])
})

test('brackets of a state’s tax start at nothing and rise', () => {
  const faults = (brackets: { over: number; rate: number }[]) =>
    faultsOf({ startMonth: '2027-01', tax: { stateTax: { kind: 'brackets', brackets } } })
  expect(
    faults([
      { over: 0, rate: 0.02 },
      { over: 20_000, rate: 0.05 },
    ]),
  ).toEqual([])
  const path = 'tax.stateTax.brackets'
  expect(faults([{ over: 5, rate: 0.02 }])).toEqual([{ path, message: 'Start the first bracket at 0' }])
  expect(
    faults([
      { over: 0, rate: 0.02 },
      { over: 0, rate: 0.05 },
    ]),
  ).toEqual([{ path, message: 'Enter brackets in rising order' }])
})

// At 100 % of last year's distance kept, prices would wander without end.
test('prices keep at most 98 % of last year’s distance', () => {
  const kept = (inflationPersistence: number) =>
    faultsOf({ startMonth: '2027-01', chance: { inflationPersistence } })
  expect(kept(0.98)).toEqual([])
  expect(kept(0.985)).toEqual([{ path: 'chance.inflationPersistence', message: 'Enter 98% or less' }])
})
