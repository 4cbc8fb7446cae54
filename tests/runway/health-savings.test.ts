// Health savings accounts in a projection, by hand: Form 8889 (limits, line 13 deduction, lines 16 and 17b) and 26 USC 223.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

const still = {
  inflation: 0,
  wageGrowth: 0,
  bills: 0,
  premiumGrowth: 0,
  medicareGrowth: 0,
  careGrowth: 0,
} as const

/** Dana has turned 50 and Eli 56; she is paid 7,500 a month in 2026, and each puts 1,000 a month into an account where it is named. */
const couple = (health: PlanInput['health'], into: ('dana' | 'eli')[], eliBorn = '1970-02-10') =>
  project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [
          { id: 'dana', name: 'Dana', born: '1976-05-20', planToAge: 53 },
          { id: 'eli', name: 'Eli', born: eliBorn, planToAge: 67 },
        ],
        pay: [{ id: 'pay', name: 'Pay', person: 'dana', perMonth: 7500 }],
        living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
      },
      health,
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 },
          ...into.map((owner) => ({ id: owner, name: `HSA of ${owner}`, kind: 'health', owner, balance: 0 })),
        ],
        contributions: into.map((id) => ({ id, account: id, perMonth: 1000 })),
      },
      assumptions: still,
    }),
  )

test('family cover takes 8,750 of 2026 in one account, and each from 55 on 1,000 more in their own; all of it is deducted', () => {
  const one = couple({ savingsCover: 'familyPlan' }, ['dana'])
  expect(one.months[11]!.health).toBeCloseTo(8750, 6)
  expect(one.years[0]!.adjustedGrossIncome).toBeCloseTo(90_000 - 8750, 2)
  const both = couple({ savingsCover: 'familyPlan' }, ['dana', 'eli'])
  expect(both.months[11]!.health).toBeCloseTo(9750, 6)
  expect(both.years[0]!.adjustedGrossIncome).toBeCloseTo(90_000 - 9750, 2)
  // What was put in is net worth as before: only the tax differs.
  expect(both.months[11]!.health + both.months[11]!.cash).toBeGreaterThan(50_000)
})

test('cover for its owner alone takes 4,400 each; no plan that goes with it, nothing', () => {
  expect(couple({ savingsCover: 'ownPlan' }, ['dana']).months[11]!.health).toBeCloseTo(4400, 6)
  expect(couple({ savingsCover: 'ownPlan' }, ['dana', 'eli']).months[11]!.health).toBeCloseTo(9800, 6)
  expect(couple({ savingsCover: 'none' }, ['dana']).months[11]!.health).toBe(0)
  expect(couple({}, ['dana']).months[11]!.health).toBe(0)
})

test('months on Medicare give no room: 65 in September leaves eight twelfths of 4,400 and of the 1,000 (Form 8889, line 3 worksheet)', () => {
  const run = couple({ savingsCover: 'ownPlan' }, ['eli'], '1961-09-15')
  expect(run.months[11]!.health).toBeCloseTo((5400 * 8) / 12, 6)
})

test('the county’s bronze plan goes with it from 2026; a silver one only where somebody says that it does', () => {
  const marketplace = { members: [{ person: 'dana' }, { person: 'eli' }] }
  const bronze = { ...marketplace, countyPlan: 'bronze' as const }
  expect(couple({ marketplace: bronze }, ['dana']).months[11]!.health).toBeCloseTo(8750, 6)
  expect(couple({ marketplace }, ['dana']).months[11]!.health).toBe(0)
  const one = { members: [{ person: 'dana' }], countyPlan: 'bronze' as const }
  expect(couple({ marketplace: one }, ['dana', 'eli']).months[11]!.health).toBeCloseTo(4400, 6)
})

/** Fay lives alone from 20,000 of health savings and nothing else: 300 a month of care, and so much for living. */
const alone = (born: string, living: number, spendOrder?: string[]) =>
  project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'fay', name: 'Fay', born, planToAge: 90 }],
        living: [{ id: 'living', name: 'Living', perMonth: living }],
      },
      health: { careBefore65: 300, careFrom65: 300, medicareFrom65: false },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
          { id: 'hsa', name: 'HSA', kind: 'health', balance: 20_000 },
        ],
        ...(spendOrder ? { spendOrder } : {}),
      },
      assumptions: still,
    }),
  )

test('care is paid from it free of tax; anything else is income, with a fifth more before 65 and none after', () => {
  const care = alone('1980-03-03', 0)
  expect(care.months[11]!.health).toBeCloseTo(20_000 - 3600, 6)
  expect(care.years[0]).toMatchObject({ adjustedGrossIncome: 0, tax: 0 })
  const young = alone('1980-03-03', 500)
  // Three payments ahead of a fourth of 90% of the 1,200 that January expects come out of it too, and are income like the rest.
  expect(young.months[11]!.health).toBeCloseTo(20_000 - 9600 - 810, 6)
  expect(young.years[0]!.adjustedGrossIncome).toBe(6810)
  expect(young.years[0]!.tax).toBeCloseTo(1362, 2)
  const old = alone('1956-03-03', 500)
  expect(old.years[0]).toMatchObject({ adjustedGrossIncome: 6000, tax: 0 })
})

test('an order that names it only for care never spends it on anything else', () => {
  const run = alone('1980-03-03', 500, ['health-for-care', 'cash'])
  expect(run.months[11]!.health).toBeCloseTo(20_000 - 3600, 6)
  expect(run.years[0]!.adjustedGrossIncome).toBe(0)
  expect(run.months[11]!.unmetNeed).toBeCloseTo(500, 6)
})

test('care that was paid from cash comes out of it free in a later year (IRS Notice 2004-50, Q&A 39)', () => {
  const run = project(
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'gil', name: 'Gil', born: '1980-03-03', planToAge: 90 }],
        living: [{ id: 'living', name: 'Living', perMonth: 100, from: '2027-01' }],
        oneOffs: [{ id: 'roof', name: 'Roof', month: '2026-12', cost: 6400 }],
      },
      health: { careBefore65: 300 },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 },
          { id: 'hsa', name: 'HSA', kind: 'health', balance: 20_000 },
        ],
        spendOrder: ['cash', 'health'],
      },
      assumptions: still,
    }),
  )
  expect(run.months[11]!.health).toBeCloseTo(20_000, 6)
  // 2027 takes 4,800: 3,600 of its own care and 1,200 of 2026's.
  expect(run.months[23]!.health).toBeCloseTo(20_000 - 4800, 6)
  expect(run.years[1]!.adjustedGrossIncome).toBe(0)
})

test('Medicare premiums are paid from it free from 65 on, and are then not deducted as well', () => {
  const run = project(
    planSchema.parse({
      startMonth: '2026-01',
      household: { people: [{ id: 'hal', name: 'Hal', born: '1955-03-03', planToAge: 90 }] },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
          { id: 'hsa', name: 'HSA', kind: 'health', balance: 20_000 },
        ],
      },
      assumptions: still,
    }),
  )
  expect(run.years[0]!.adjustedGrossIncome).toBe(0)
  expect(20_000 - run.months[11]!.health).toBeCloseTo(
    run.months.slice(0, 12).reduce((sum, one) => sum + one.premiums, 0),
    6,
  )
  expect(run.months[0]!.premiums).toBeGreaterThan(200)
})

test('counted in months left it is worth what is left after tax: care whole, the rest less the rate and the fifth', () => {
  const at = (born: string) =>
    project(
      planSchema.parse({
        startMonth: '2026-01',
        household: { people: [{ id: 'ivy', name: 'Ivy', born, planToAge: 90 }] },
        health: { careBefore65: 300, careFrom65: 300, medicareFrom65: false },
        savings: {
          accounts: [
            { id: 'cash', name: 'Cash', kind: 'cash', balance: 10_000 },
            { id: 'hsa', name: 'HSA', kind: 'health', balance: 10_300 },
          ],
          spendOrder: ['cash'],
          retirementIsSpendable: true,
        },
        assumptions: still,
      }),
    ).months[0]!
  // Named nowhere in the order, it pays the 300 of care itself.
  expect(at('1980-03-03').spendable).toBeCloseTo(10_000 + 10_000 * (1 - 0.1 - 0.2), 6)
  expect(at('1950-03-03').spendable).toBeCloseTo(10_000 + 10_000 * (1 - 0.1), 6)
})
