// What a bad year says of itself: why it changes nothing, what it is made of, and why a death can look better than life. Two
// households of our own invention without tax and without rising prices, so that each figure can be worked by hand.
import { expect, test } from 'vitest'
import { parseMonth } from '#calendar/month.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'
import { dollarsOfTheYear } from '#runway/dollars/dollars.ts'
import { stormTable } from '#today/runway/runway-figures.ts'

const people = [
  { id: 'ines', name: 'Ines', born: '1975-04-11', planToAge: 66 },
  { id: 'otto', name: 'Otto', born: '1974-09-02', planToAge: 66 },
]

/** They live on savings in cash: no farm, no pay, no premium. */
const onSavings = (change: Partial<PlanInput> = {}): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people,
      living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
      floor: { kind: 'dollars', dollars: 1000 },
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 150_000 }] },
    health: { medicareFrom65: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0, premiumGrowth: 0, careGrowth: 0, bills: 0 },
    ...change,
  })

const said = (plan: Plan) =>
  Object.fromEntries(stormTable(plan, dollarsOfTheYear).map((storm) => [storm.id, storm]))

test('a household that lives on savings hears of each bad year why it does nothing', () => {
  const storms = said(onSavings())
  const nothing = (id: string) => storms[id]!.says
  expect(nothing('bad-season')).toBe('It changes nothing. The farm sells nothing in these months.')
  expect(nothing('premium-jump')).toBe('It changes nothing. No premium is paid in these months.')
  expect(nothing('injury')).toMatch(
    /^It changes nothing\. (Ines|Otto) has no pay and no side venture in these months\. The farm asks for no hours in these months\.$/,
  )
  expect(nothing('market-crash')).toBe('It changes nothing. No account holds stocks or bonds.')
  expect(nothing('late-draws')).toBe('It changes nothing. The plan has no draws.')
  for (const id of ['bad-season', 'premium-jump', 'injury', 'market-crash', 'late-draws'])
    expect(storms[id]!.changes, id).toEqual([])
})

test('a death that leaves more in hand says what that is made of', () => {
  const storms = said(onSavings())
  const { says, changes, monthsLeft } = storms.death!
  expect(monthsLeft!).toBeGreaterThan(49)
  // A quarter of 3,000 a month over 120 months; savings of 150,000 last 49 months of 3,000 and the floor.
  expect(changes[0]).toMatchObject({ name: 'living costs', dollars: -90_000, isCost: true, helps: true })
  expect(says).toBe(
    'In money it looks better than as planned, and money is all that is counted here. Over the ten years after it costs end or fall (living costs $90,000).',
  )
})

test('an injury does nothing where the other one’s hours suffice, and takes the pay where there is some', () => {
  const farm: PlanInput['farm'] = {
    cash: 5000,
    crew: [
      { who: 'ines', weeklyHours: 40 },
      { who: 'otto', weeklyHours: 30 },
    ],
    enterprises: [
      { id: 'mushrooms', name: 'Mushrooms', salesPerUnit: 24_000, costsPerUnit: 6000, hoursPerUnit: 1000 },
    ],
  }
  expect(said(onSavings({ farm })).injury!.says).toBe(
    'It changes nothing. Ines has no pay and no side venture in these months. Otto can work the farm’s hours without Ines.',
  )
  const { household } = onSavings()
  const pay = [{ id: 'mill', name: 'Mill', person: 'ines', perMonth: 900 }]
  const withPay = said(onSavings({ farm, household: { ...household, pay } as PlanInput['household'] }))
  const paid = withPay.injury!
  expect(withPay['lost-job']!.changes).toEqual(paid.changes)
  // Twelve months of 900, which the farm can spare and gives before savings fall below the floor.
  expect(paid.says).toBe(
    'It takes $10,800, made good by more draws in the ten years after it begins: savings stay above the floor all the same.',
  )
  expect(paid.changes).toContainEqual(
    expect.objectContaining({ name: 'pay', dollars: expect.closeTo(-10_800, 6), helps: false }),
  )
})

test('draws that come late move none of what has begun, and say where the farm gives it all the same', () => {
  // 1,800 a month from the farm, and 9,000 more than its reserve; 3,000 to live on, 40,000 in cash and a floor of 6,000.
  const farm: PlanInput['farm'] = {
    cash: 12_000,
    reserve: 3000,
    enterprises: [{ id: 'goats', name: 'Goats', salesPerUnit: 36_000, costsPerUnit: 14_400 }],
  }
  const late = (draw: PlanInput['draw'], drawsToHoldFloor: boolean) => {
    const accounts = [{ id: 'cash', name: 'Cash', kind: 'cash' as const, balance: 40_000 }]
    const household = { ...onSavings().household, floor: { kind: 'dollars' as const, dollars: 6000 } }
    const plan = onSavings({
      farm,
      draw,
      household: household as PlanInput['household'],
      savings: { accounts, drawsToHoldFloor },
    })
    return said(plan)['late-draws']!
  }
  const begun = late({ policy: 'sweep', from: '2025-10' }, true)
  expect(begun).toMatchObject({
    monthsLeft: 35,
    says: 'It changes nothing. All draws of the plan have begun already.',
  })
  const steps = [{ from: '2026-07', perMonth: 1800 }]
  const held = late({ policy: 'steps', steps }, true)
  // As planned 49,000 less 1,200 a month: 35 months; two years late the farm has saved up what it gives from the floor on.
  expect(held).toMatchObject({ monthsLeft: 35, changes: [] })
  expect(held.says).toBe(
    'It moves draws to later months: over the ten years after it begins they come to the same. Before savings fall below the floor, all that the farm can spare is drawn, however late the planned draws come.',
  )
  // Draws from 2027 on: by December 2026 all that the farm can spare is called on, with and without them.
  expect(late({ policy: 'steps', steps: [{ from: '2027-01', perMonth: 1800 }] }, true).says).toBe(
    'It changes nothing. Before savings fall below the floor, all that the farm can spare is drawn, however late the planned draws come.',
  )
  // With the switch off 40,000 alone bear 3,000 a month: 7,000 after eleven months.
  expect(late({ policy: 'steps', steps }, false).monthsLeft).toBe(11)
})

test('a fall of markets finds nothing in accounts that hold none, and says what it took where they do', () => {
  const accounts = [
    { id: 'cash', name: 'Cash', kind: 'cash' as const, balance: 1000 },
    {
      id: 'fund',
      name: 'Fund',
      kind: 'taxable' as const,
      balance: 100_000,
      mix: { stocks: 0.5, bonds: 0.5 },
    },
  ]
  const crash = said(
    onSavings({ savings: { accounts }, assumptions: { inflation: 0, stocks: 0, bonds: 0, bills: 0 } }),
  )['market-crash']!
  expect(crash.says).toBeNull()
  expect(crash.changes[0]).toMatchObject({ name: 'returns of accounts', helps: false })
})

test('a bad year begins in the first month that has not yet begun', () => {
  const seenFrom = (from: string): PlanOfDay => {
    const badYearsFrom = parseMonth(from)!
    return { ...onSavings(), seenFrom: { leftFrom: badYearsFrom, badYearsFrom } }
  }
  const plan = seenFrom('2026-02')
  for (const storm of stormTable(plan, dollarsOfTheYear).filter(({ id }) => id !== 'death'))
    expect(storm.from, storm.id).toBe('2026-02')
  // The later the other's costs end the worse.
  expect(said(plan).death!.from).toBe('2028-01')
  expect(said(seenFrom('2027-06')).death!.from).toBe('2029-05')
})

test('a bad year that touches nothing says so once', () => {
  const plain = { id: 'quiet', name: 'Quiet', from: '2027-01', months: 6 }
  const { storms } = onSavings({ storms: [plain] })
  expect(said(onSavings({ storms })).quiet!.says).toBe('It changes nothing that the plan has.')
})

test('an injury on a farm whose hours nobody gave says so, with the way to give them', () => {
  const enterprise = { id: 'flowers', name: 'Cut flowers', salesPerUnit: 18_000, costsPerUnit: 5000 }
  const farm: PlanInput['farm'] = { cash: 4000, enterprises: [enterprise] }
  const lacks = {
    says: 'The hours that the farm’s enterprises need are not given, so none of its work is lost.',
    asks: 'Give the hours an enterprise needs',
    href: '/farm/enterprises/flowers',
  }
  const storms = said(onSavings({ farm }))
  for (const id of ['injury', 'lasting-injury'])
    expect(storms[id], id).toMatchObject({
      lacks,
      says: expect.stringMatching(
        /^It changes nothing but the farm’s work, and the hours it needs are not given\. (Ines|Otto) has no pay and no side venture in these months\.$/,
      ),
    })
  expect(storms['bad-season']!.lacks).toBeNull()
  // What each of them can give is known from the start: that is not what is missing.
  const able = [
    { who: 'ines', weeklyHours: 46 },
    { who: 'otto', weeklyHours: 18 },
  ]
  expect(said(onSavings({ farm: { ...farm, crew: able } })).injury!.lacks).toEqual({
    ...lacks,
    says: `${lacks.says} The plan has what each can give (Ines 46 hours a week, Otto 18 hours a week).`,
  })
  // Pay is lost, and it is said all the same that nothing of the farm is.
  const { household } = onSavings()
  const pay = [
    { id: 'mill', name: 'Mill', person: 'ines', perMonth: 900 },
    { id: 'yard', name: 'Yard', person: 'otto', perMonth: 900 },
  ]
  const paid = said(onSavings({ farm, household: { ...household, pay } as PlanInput['household'] }))
  expect(paid.injury).toMatchObject({
    lacks,
    says: 'It takes $5,000 in the ten years after it begins: savings stay above the floor all the same.',
  })
  const two = [enterprise, { ...enterprise, id: 'goats', name: 'Goats' }]
  expect(said(onSavings({ farm: { enterprises: two } })).injury!.lacks!.href).toBe('/farm')
  const crew = [{ who: 'ines', weeklyHours: 30 }]
  const worked = { crew, enterprises: [{ ...enterprise, hoursPerUnit: 400 }] }
  expect(said(onSavings({ farm: worked })).injury!.lacks).toBeNull()
  expect(said(onSavings()).injury!.lacks).toBeNull()
})

test('a death is looked for while there are savings above the floor, and where there are none that is said', () => {
  const spent = (dollars: number) =>
    said(onSavings({ savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: dollars }] } }))
  // 20,000 less 3,000 a month: 2,000 after June, below 1,000 in July. The later a quarter of the costs ends the worse: June.
  const { death } = spent(20_000)
  expect(death).toMatchObject({ from: '2026-06', monthsLeft: 6, lowestSpendable: 0 })
  expect(death!.says).toMatch(/^In money it looks better than as planned/)
  // 3,000 in hand: below the floor in the first month, with the death or without it; 3,500 would be 1,250 with it.
  expect(spent(3500).death).toMatchObject({ from: '2026-01', monthsLeft: 1 })
  const late = spent(3000).death!
  expect(late).toMatchObject({ from: '2026-01', monthsLeft: 0 })
  expect(late.says).toMatch(
    /^Savings are below the floor as it begins, with or without it: months left cannot show what it does\. /,
  )
})
