// Life events, each worked by hand: a house of a luthier and a nurse of our own invention. 3,000 a month (six tenths of it for one
// alone), 1,000 of pay without tax, a marketplace plan, an older child; nothing grows.
import { expect, test } from 'vitest'
import { doubtsOf } from '#plan/doubts.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { headOfHousehold, marriedJoint, single, survivingSpouse } from '#rules/filing-status.ts'
import { linesPlannedIn } from '#runway/against-books/suggestions.ts'
import { varianceOf } from '#runway/against-books/variance.ts'
import { type ActualMonth, plannedMonths } from '#runway/against-books/variance-lines.ts'
import { childrenOfYear } from '#runway/children-of-year.ts'
import { project } from '#runway/project.ts'
import { traceMonth } from '#runway/trace.ts'
import { whySentences } from '#runway/why.ts'
import { peopleOfYear } from '#today/cover/cover-household.ts'

const house = (events: PlanInput['events'], more: Partial<PlanInput['household']> = {}): Plan =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ora', name: 'Ora', born: '1980-03-05' },
        { id: 'pim', name: 'Pim', born: '1980-09-12' },
      ],
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      survivorShare: 0.6,
      pay: [{ id: 'ward', name: 'Ward', person: 'pim', perMonth: 1000 }],
      ...more,
    },
    health: {
      marketplace: { planAt21: 300, members: [{ person: 'ora' }, { person: 'pim' }], advanceCredit: false },
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 200_000 },
        { id: 'ora-ira', name: 'Ora’s IRA', kind: 'traditional', owner: 'ora', balance: 30_000 },
        { id: 'pim-ira', name: 'Pim’s IRA', kind: 'traditional', owner: 'pim', balance: 20_000 },
      ],
    },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, wageGrowth: 0 },
    events,
  })

const noMonth = Object.fromEntries(
  [
    ...['care', 'premiums', 'taxes', 'loanPayments', 'loansDrawn', 'cardsUnread', 'things', 'draws'],
    ...['contributions', 'reimbursements', 'ventures', 'lent', 'pay', 'benefits', 'interest'],
    ...['otherIncome', 'setAside', 'other', 'spendable', 'change'],
  ].map((name) => [name, 0]),
) as unknown as ActualMonth

const monthOf = (plan: Plan, month: string) => project(plan).months.find((one) => one.month === month)!

test('a death ends pay, premium and a share of living costs in the month after it; what it costs is paid in its own', () => {
  const plan = house([{ kind: 'death', person: 'pim', month: '2027-06', cost: 5000 }])
  const june = monthOf(plan, '2027-06')
  expect(june).toMatchObject({ living: 3000, pay: 1000, oneOffs: 5000 })
  const july = monthOf(plan, '2027-07')
  expect(july).toMatchObject({ living: 1800, pay: 0, oneOffs: 0, traditional: 50_000 })
  // Both were born in 1980, so that each pays half.
  expect(july.premiums).toBeCloseTo(june.premiums / 2, 6)
})

test('the year of a death is filed jointly; then single, or with a child as a surviving spouse for two years and as head after', () => {
  const alone = house([{ kind: 'death', person: 'ora', month: '2027-12' }])
  const statuses = (plan: Plan, years: number[]) => years.map((year) => peopleOfYear(plan, year).status)
  expect(statuses(alone, [2027, 2028])).toEqual([marriedJoint, single])
  expect(peopleOfYear(alone, 2028)).toMatchObject({ people: 1, age: [48, 0] })
  const withChild = house([{ kind: 'death', person: 'ora', month: '2027-12' }], {
    dependents: [{ id: 'kit', name: 'Kit', born: '2020-01-10' }],
  })
  expect(statuses(withChild, [2027, 2028, 2029, 2030])).toEqual([
    marriedJoint,
    survivingSpouse,
    survivingSpouse,
    headOfHousehold,
  ])
})

test('who leaves by a separation takes own accounts and what is paid out; the year is filed as no longer married', () => {
  const plan = house([{ kind: 'separation', person: 'pim', month: '2027-06', takes: 8000, lessPremium: 0 }])
  expect(monthOf(plan, '2027-05')).toMatchObject({ living: 3000, pay: 1000, traditional: 50_000 })
  expect(monthOf(plan, '2027-06')).toMatchObject({ living: 1800, pay: 0, oneOffs: 8000, traditional: 30_000 })
  expect([2026, 2027].map((year) => peopleOfYear(plan, year).status)).toEqual([marriedJoint, single])
  const inDecember = house([{ kind: 'separation', person: 'pim', month: '2028-01' }])
  expect([2027, 2028].map((year) => peopleOfYear(inDecember, year).status)).toEqual([marriedJoint, single])
})

test('after a separation nobody’s benefit rests on the other’s record, after a death it does', () => {
  const record = Array.from({ length: 35 }, (_, k) => ({ year: 1985 + k, amount: 60_000 }))
  const old = (events: PlanInput['events']) =>
    house(events, {
      people: [
        { id: 'ora', name: 'Ora', born: '1957-03-05', claimAge: { years: 67 } },
        { id: 'pim', name: 'Pim', born: '1957-09-12', claimAge: { years: 67 }, earnings: record },
      ],
      pay: [],
    })
  const benefit = (events: PlanInput['events']) => monthOf(old(events), '2027-08').socialSecurity
  const both = benefit([])
  const death = benefit([{ kind: 'death', person: 'pim', month: '2027-05' }])
  // Six months after full retirement age raise the worker's benefit by 4 % (42 USC 402(w)), which the widow has as well, but not the
  // spouse's half (42 USC 402(b), (e)): 1.04 against 1.54 of the primary amount.
  expect(death / both).toBeCloseTo(1.04 / 1.54, 3)
  expect(benefit([{ kind: 'separation', person: 'pim', month: '2027-05' }])).toBe(0)
  const left = benefit([{ kind: 'separation', person: 'ora', month: '2027-05' }])
  expect(left).toBeCloseTo(death, 0)
})

test('a child that is born counts, costs and is covered from its month; one that leaves home no more', () => {
  const plan = house(
    [
      { kind: 'birth', name: 'Lio', born: '2027-05-10', perMonth: 400 },
      { kind: 'leaving', child: 'kit', month: '2028-08', lessPerMonth: 700 },
    ],
    { dependents: [{ id: 'kit', name: 'Kit', born: '2012-01-10' }] },
  )
  expect(monthOf(plan, '2027-04').living).toBe(3000)
  expect(monthOf(plan, '2027-05').living).toBe(3400)
  expect(monthOf(plan, '2027-05').premiums).toBeGreaterThan(monthOf(plan, '2027-04').premiums + 100)
  expect(monthOf(plan, '2028-08').living).toBe(3400)
  expect(monthOf(plan, '2028-09').living).toBe(2700)
  const counted = (year: number) => childrenOfYear(plan, year).dependentAges
  expect([2026, 2027, 2028].map(counted)).toEqual([[14], [15, 0], [1]])
})

test('after the second of two deaths the plan is over, and between them one is alone', () => {
  const plan = house(
    [
      { kind: 'death', person: 'ora', month: '2032-04', cost: 7000 },
      { kind: 'death', person: 'pim', month: '2029-06' },
    ],
    { dependents: [{ id: 'kit', name: 'Kit', born: '2022-01-10' }] },
  )
  const { months } = project(plan)
  expect(months.at(-1)).toMatchObject({ month: '2032-04', living: 1800, oneOffs: 7000 })
  expect(monthOf(plan, '2029-06')).toMatchObject({ living: 3000, pay: 1000 })
  expect(monthOf(plan, '2029-07')).toMatchObject({ living: 1800, pay: 0 })
  // A surviving spouse for the two years after the year of the first death (26 USC 2(a)), then head of household.
  expect([2029, 2030, 2031, 2032].map((year) => peopleOfYear(plan, year).status)).toEqual([
    marriedJoint,
    survivingSpouse,
    survivingSpouse,
    headOfHousehold,
  ])
})

test('a plan that is continued after an event goes on without whoever left', () => {
  const events: PlanInput['events'] = [{ kind: 'separation', person: 'pim', month: '2027-06', takes: 8000 }]
  const { months } = project({ ...house(events), continuesFrom: '2027-09' })
  expect(months[0]).toMatchObject({ month: '2027-09', living: 1800, pay: 0, oneOffs: 0 })
  const widow = project({
    ...house([{ kind: 'death', person: 'pim', month: '2027-06' }]),
    continuesFrom: '2027-09',
  })
  expect(widow.months[0]).toMatchObject({ living: 1800, pay: 0 })
})

test('what cannot be is refused at its field', () => {
  const refused = (events: unknown, household: object = {}) => {
    const base = house([])
    const read = planSchema.safeParse({ ...base, household: { ...base.household, ...household }, events })
    return read.success ? [] : read.error.issues.map(({ path }) => path.join('.'))
  }
  expect(refused([{ kind: 'death', person: 'nobody', month: '2027-06' }])).toEqual(['events.0.person'])
  expect(refused([{ kind: 'death', person: 'ora', month: '1979-06' }])).toEqual(['events.0.month'])
  expect(refused([{ kind: 'leaving', child: 'kit', month: '2027-06' }])).toEqual(['events.0.child'])
  const leaves = (kind: string, person: string, month: string) => ({ kind, person, month })
  const [apart, gone] = [leaves('separation', 'ora', '2029-06'), leaves('death', 'ora', '2029-06')]
  expect(refused([gone, leaves('death', 'ora', '2030-06')])).toEqual(['events.1.person'])
  expect(refused([apart, leaves('separation', 'pim', '2030-06')])).toEqual(['events.1.person'])
  // Nobody parts from the dead; a death may follow on either, in whichever order they were entered.
  expect(refused([gone, leaves('separation', 'pim', '2029-07')])).toEqual(['events.1.person'])
  expect(refused([apart, leaves('death', 'pim', '2029-05')])).toEqual(['events.1.person'])
  expect(refused([apart, leaves('death', 'pim', '2030-06')])).toEqual([])
  expect(refused([gone, leaves('death', 'pim', '2030-06')])).toEqual([])
  expect(refused([gone, leaves('death', 'pim', '2028-06')])).toEqual([])
  const [ora] = house([]).household.people
  const alone = { people: [ora], pay: [] }
  expect(refused([{ kind: 'separation', person: 'ora', month: '2027-06' }], alone)).toContain(
    'events.0.person',
  )
  expect(refused([{ kind: 'birth', name: '', born: '2027-02-31' }])).toEqual([
    'events.0.name',
    'events.0.born',
  ])
})

test('a month taken apart, the reasons and the pace of the books know the lines that an event adds', () => {
  const plan = house([{ kind: 'birth', name: 'Lio', born: '2027-05-10', perMonth: 400 }])
  const course = project(plan)
  const living = traceMonth(plan, course, '2027-05')!.find(({ title }) => title === 'Living costs')!
  expect(living.lines.map(({ name, dollars }) => [name, Math.round(dollars)])).toEqual([
    ['Living', 3000],
    ['For Lio', 400],
  ])
  expect(() => whySentences(plan, course)).not.toThrow()
  const expected = plannedMonths(plan, course.months)
  const books = expected.slice(0, 6).map((one) => ({
    ...noMonth,
    livingBy: {},
    month: one.month,
    living: one.living,
  }))
  const variance = varianceOf(expected, books, 0)!
  expect(linesPlannedIn(plan, course, variance)).toEqual(new Map([['living', 18_000]]))
})

test('more than there is, paid out at once, is asked about; up to what stays behind it is not', () => {
  const doubts = (event: PlanInput['events'] & object) =>
    doubtsOf(house(event), '2027-01-15').map(
      ({ path, asks, message }) => `${path.join('.')}${asks ? '?' : ''} ${message}`,
    )
  const apart = (takes: number) => [{ kind: 'separation' as const, person: 'pim', month: '2027-06', takes }]
  const death = (cost: number) => [{ kind: 'death' as const, person: 'pim', month: '2027-06', cost }]
  // 200,000 in cash and Ora's 30,000 stay; Pim's 20,000 leave in any case.
  expect(doubts(apart(230_000))).toEqual([])
  expect(doubts(apart(500_000))).toEqual([
    'events.0.takes? Pim: $500,000 is more than all that the plan begins with beside Pim’s own accounts, $230,000. Is that so?',
  ])
  expect(doubts(death(250_000))).toEqual([])
  expect(doubts(death(250_001))).toEqual([
    'events.0.cost? Pim: $250,001 is more than all savings that the plan begins with, $250,000. Is that so?',
  ])
})

test('what a separation takes is told by its name, and nobody who has left by how old', () => {
  const plan = house([{ kind: 'separation', person: 'pim', month: '2027-06', takes: 500_000 }], {
    pay: [{ id: 'ward', name: 'Ward', person: 'ora', perMonth: 1000 }],
  })
  const farmed: Plan = {
    ...plan,
    farm: { ...plan.farm, cash: 3000 },
    draw: { ...plan.draw, policy: 'steps', steps: [{ from: '2027-01', perMonth: 100 }] } as Plan['draw'],
  }
  const said = whySentences(farmed, project(farmed))
  expect(said[0]).toContain('because “Paid out at the separation” costs $500,000 in the year before')
  expect(said.at(-1)).toContain('Money runs short in June 2027 (Ora is 47)')
  // Who dies later than that is named with the others.
  const later = house([{ kind: 'death', person: 'pim', month: '2060-06' }])
  expect(project(later).milestones.agesWhenShort.map(({ name }) => name)).toEqual(['Ora', 'Pim'])
})
