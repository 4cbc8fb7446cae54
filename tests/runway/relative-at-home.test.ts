// A parent or another adult relative at home whom the household supports: one more in it (26 USC 36B(d)(1), 42 CFR 435.603(f)), the
// credit for other dependents (26 USC 24(h)(4): $500), and a child for nothing. Guidelines of HHS: for 2025 15,650 and 5,500 each more,
// for 2026 15,960 and 5,680.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { filingStatusOf } from '#rules/filing-status-of.ts'
import { childrenOfYear } from '#runway/children-of-year.ts'
import { project } from '#runway/project.ts'

const aunt = { id: 'ulla', name: 'Ulla', born: '1944-09-05', relation: 'relative' as const }

/** Lars and Mina with a girl of 11 on wages of so much a month. Prices stand still. */
const house = (perMonth: number, more: object[], people = 2) =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      place: { state: 'PA', county: 'Erie County' },
      people: [
        { id: 'lars', name: 'Lars', born: '1981-02-10', planToAge: 70 },
        { id: 'mina', name: 'Mina', born: '1983-04-10', planToAge: 70 },
      ].slice(0, people),
      dependents: [{ id: 'tove', name: 'Tove', born: '2014-06-10' }, ...more] as never,
      living: [{ id: 'l', name: 'Living', perMonth: 1500 }],
      pay: [{ id: 'p', name: 'Pay', person: 'lars', perMonth }],
    },
    health: {
      marketplace: {
        members: people < 2 ? [] : [{ person: 'lars' }, { person: 'mina' }, { person: 'ulla' }],
      },
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 500_000 }] },
    assumptions: { inflation: 0, bills: 0, premiumGrowth: 0 },
  } satisfies PlanInput)

const without = (perMonth: number) => {
  const plan = house(perMonth, [{ ...aunt, planToAge: 95 }])
  plan.household.dependents = plan.household.dependents.slice(0, 1)
  plan.health.marketplace.members = plan.health.marketplace.members.slice(0, 2)
  return plan
}

test('a relative of 82 is one of the other dependents to the end of the year before she leaves the plan', () => {
  const plan = house(4000, [{ ...aunt, planToAge: 90 }])
  expect(childrenOfYear(plan, 2026)).toEqual({
    childrenUnder17: 1,
    otherDependents: 1,
    earnedCreditChildren: 1,
    careChildren: 1,
    dependentAges: [12, 82],
    relatives: 1,
  })
  expect(childrenOfYear(plan, 2033)).toMatchObject({ otherDependents: 1, relatives: 1 })
  // Ninety in September 2034; Tove is 19 the year before.
  expect(childrenOfYear(plan, 2034)).toMatchObject({ childrenUnder17: 0, otherDependents: 0, relatives: 0 })
})

test('she counts in the household by which Medicaid takes the parents, and is on Medicare herself', () => {
  // 45,000 a year: 164.7 percent of 27,320 for three, 136.4 percent of 33,000 for four; the line is 138.
  const kinds = (plan: ReturnType<typeof house>) =>
    Object.fromEntries(project(plan).coverage.map(({ id, months }) => [id, months[4]]))
  expect(kinds(without(3750))).toEqual({
    lars: 'marketplace',
    mina: 'marketplace',
    tove: 'children’s program',
  })
  expect(kinds(house(3750, [aunt]))).toEqual({
    lars: 'Medicaid',
    mina: 'Medicaid',
    tove: 'Medicaid',
    ulla: 'Medicare',
  })
  const [, , , , month] = project(house(5000, [aunt])).months
  const alone = project(without(5000)).months[4]!
  expect(month!.premiums + month!.advanceCredit).toBeCloseTo(alone.premiums + alone.advanceCredit, 6)
})

test('the credit is by a household of four, and tax falls by the 500 of the credit for other dependents', () => {
  const [year] = project(house(5500, [aunt])).years
  const [three] = project(without(5500)).years
  // 66,000: 205.3 percent of 32,150; 247.7 of 26,650.
  expect(year!.povertyPercent).toBe(205)
  expect(three!.povertyPercent).toBe(247)
  // Joint in 2026: 66,000 less 32,200; 10 percent of 24,800 and 12 of 9,000 are 3,560, less 2,200 for Tove, less 500 for Ulla.
  const own = (one: typeof year) => one!.incomeTax
  expect(own(three)).toBeCloseTo(3560, 0)
  expect(own(year)).toBeCloseTo(3560, 0)
  const after = (one: typeof year) => one!.tax - one!.stateTax
  expect(after(three)).toBeCloseTo(1360, 0)
  expect(after(year)).toBeCloseTo(860, 0)
})

test('her own benefits for the household come in each month and stand on no return', () => {
  const bare = project(house(5500, [aunt]))
  const with910 = project(house(5500, [{ ...aunt, planToAge: 90, ownMoney: 910 }]))
  const at = (plan: typeof bare, month: string) => plan.months.find((one) => one.month === month)!
  expect(at(bare, '2027-03').othersBenefits).toBe(0)
  expect(at(with910, '2027-03')).toMatchObject({ othersBenefits: 910, socialSecurity: 910 })
  expect(at(with910, '2034-08').othersBenefits).toBe(910)
  expect(at(with910, '2034-09').othersBenefits).toBe(0)
  expect(at(with910, '2026-06').spendable - at(bare, '2026-06').spendable).toBeCloseTo(6 * 910, 4)
  expect(with910.years[1]!.adjustedGrossIncome).toBeCloseTo(bare.years[1]!.adjustedGrossIncome, 2)
  expect(with910.years[1]!.benefits).toBe(0)
})

test('a relative alone makes a head of household and no surviving spouse (26 USC 2(a)(1)(B), 2(b)(1)(A)(ii))', () => {
  const left = (hasChildren: boolean) => filingStatusOf(-1, 2, 1, true, 1, 2, hasChildren)
  expect(left(true)).toBe(4)
  expect(left(false)).toBe(2)
  expect(filingStatusOf(-1, 1, 1, true, Number.POSITIVE_INFINITY, 2, false)).toBe(2)
  const plan = house(4000, [aunt], 1)
  plan.household.dependents = plan.household.dependents.slice(1)
  plan.health.marketplace.members = []
  expect(project(plan).years[0]!.filingStatus).toBe(2)
})
