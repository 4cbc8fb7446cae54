import { expect, test } from 'vitest'
import { doubtsOf, newDoubts } from '#plan/doubts.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'

const plan = (parts: Partial<PlanInput>) => planSchema.parse({ startMonth: '2026-06', ...parts })
const at = (parts: Partial<PlanInput>) =>
  doubtsOf(plan(parts), '2026-11-25').map(({ path, asks }) => `${path.join('.')}${asks ? '?' : ''}`)
const phases = (...months: string[]) => ({
  farm: { phases: months.map((from, place) => ({ from, name: `Phase ${place}` })) },
})

test('an adult is born by today; a child may be born later', () => {
  const [ida, ole] = [
    { id: 'ida', name: 'Ida', born: '1980-04-02' },
    { id: 'ole', name: 'Ole', born: '2026-11-26' },
  ]
  expect(at({ household: { people: [ida, ole] } })).toEqual(['household.people.1.born'])
  expect(at({ household: { people: [ida], dependents: [ole] } })).toEqual([])
})

test('an adult of more than 110 or of less than 16 years is asked about', () => {
  const born = (day: string) => at({ household: { people: [{ id: 'ida', name: 'Ida', born: day }] } })
  expect(born('1917-01-01')).toEqual(['household.people.0.planToAge'])
  expect(born('1900-01-01')).toEqual(['household.people.0.planToAge', 'household.people.0.born?'])
  expect(born('2015-01-01')).toEqual(['household.people.0.born?'])
  expect(born('1950-01-01')).toEqual([])
})

test('a plan that begins when all its people have passed the age it runs to is refused at that age', () => {
  const people = (...ages: number[]) =>
    at({
      household: {
        people: ages.map((planToAge, k) => ({ id: `p${k}`, name: `P${k}`, born: '1970-01-01', planToAge })),
      },
    })
  expect(people(56)).toEqual([])
  expect(people(55)).toEqual(['household.people.0.planToAge'])
  expect(people(55, 60)).toEqual([])
  expect(people(55, 54)).toEqual(['household.people.0.planToAge', 'household.people.1.planToAge'])
})

test('a benefit above what the law pays who earned the whole base of every year is asked about, at its field', () => {
  const told = (statementBenefit: number, statementAt: '62' | 'full' | '70', born = '1959-04-02') =>
    at({ household: { people: [{ id: 'ida', name: 'Ida', born, statementBenefit, statementAt }] } })
  const asked = ['household.people.0.statementBenefit?']
  expect(told(99_999, 'full')).toEqual(asked)
  // A yearly amount typed as a monthly one.
  expect(told(24_000, 'full')).toEqual(asked)
  expect(told(4100, 'full')).toEqual([])
  expect(told(5100, 'full')).toEqual(asked)
  expect(told(5100, '70')).toEqual([])
  expect(told(3200, '62', '1964-04-02')).toEqual(asked)
})

test('a life event lies within the plan, of someone still in it, and once', () => {
  const household = {
    people: [
      { id: 'ida', name: 'Ida', born: '1980-04-02', planToAge: 90 },
      { id: 'ole', name: 'Ole', born: '1990-01-20', planToAge: 80 },
    ],
    dependents: [{ id: 'una', name: 'Una', born: '2012-02-03', untilAge: 20 }],
    living: [
      { id: 'food', name: 'Food', perMonth: 900 },
      { id: 'rent', name: 'Rent', perMonth: 1600 },
    ],
  }
  const health = { premiums: [{ id: 'dental', name: 'Dental', perMonth: 60 }] }
  const events = (...list: PlanInput['events'] & object) => at({ household, health, events: list })
  const death = (person: string, month: string) => ({ kind: 'death' as const, person, month })
  const birth = (name: string, born: string, perMonth = 0) => ({
    kind: 'birth' as const,
    name,
    born,
    perMonth,
  })
  const leaving = (month: string, lessPerMonth = 0) => ({
    kind: 'leaving' as const,
    child: 'una',
    month,
    lessPerMonth,
  })
  expect(events(death('ida', '1999-01'))).toEqual(['events.0.month'])
  expect(events(death('ida', '2026-05'))).toEqual(['events.0.month'])
  expect(events(death('ida', '2026-06'))).toEqual([])
  // Ole is in the plan to 80, January 2070; Ida to 90, April 2070.
  expect(events(death('ole', '2070-01'))).toEqual([])
  expect(events(death('ole', '2070-02'))).toEqual(['events.0.month'])
  expect(events(death('ida', '2070-02'))).toEqual([])
  expect(events(birth('Pia', '2027-03-01'), birth('pia ', '2029-03-01'))).toEqual(['events.1.name'])
  expect(events(birth('Una', '2027-03-01'))).toEqual(['events.0.name'])
  expect(events(birth('Pia', '2026-03-01'))).toEqual(['events.0.born'])
  expect(events(birth('Pia', '2071-03-01'))).toEqual(['events.0.born'])
  // Una is at home until the month before she is 20, January 2032.
  expect(events(leaving('2032-01'))).toEqual([])
  expect(events(leaving('2032-02'))).toEqual(['events.0.month'])
  expect(events(leaving('2060-01'))).toEqual(['events.0.month'])
  // All living costs are 2,500 a month, all other premiums 60.
  expect(events(birth('Pia', '2027-03-01', 999_999))).toEqual(['events.0.perMonth?'])
  expect(events(birth('Pia', '2027-03-01', 2500))).toEqual([])
  expect(events(leaving('2030-01', 2501))).toEqual(['events.0.lessPerMonth?'])
  expect(events(birth('Pia', '2027-03-01', 400), leaving('2030-01', 2900))).toEqual([])
  expect(events({ ...death('ole', '2030-01'), lessPremium: 61 })).toEqual(['events.0.lessPremium?'])
  expect(events({ ...death('ole', '2030-01'), lessPremium: 60 })).toEqual([])
  // Ida leaves before the child of hers is born: it may live in either home.
  const apart = (month: string) => ({ kind: 'separation' as const, person: 'ida', month })
  const hers = { ...birth('Pia', '2027-03-01'), mother: 'ida' }
  expect(events(apart('2027-01'), hers)).toEqual(['events.1.mother?'])
  expect(events(hers, apart('2027-03'))).toEqual(['events.0.mother?'])
  expect(events(hers, apart('2027-04'))).toEqual([])
  expect(events(apart('2027-01'), { ...hers, mother: 'ole' })).toEqual([])
  // She can die in the month of the birth, and not in one before.
  expect(events(death('ida', '2027-03'), hers)).toEqual([])
  expect(events(death('ida', '2027-02'), hers)).toEqual(['events.1.mother'])
})

test('a child is younger than its parents, at home when the plan begins, and not to be born long after', () => {
  const people = [
    { id: 'ida', name: 'Ida', born: '1980-04-02' },
    { id: 'ole', name: 'Ole', born: '1990-01-20' },
  ]
  const child = (born: string, untilAge?: number) =>
    at({
      household: {
        people,
        dependents: [{ id: 'una', name: 'Una', born, ...(untilAge ? { untilAge } : {}) }],
      },
    })
  expect(child('2012-02-03')).toEqual([])
  expect(child('2027-02-03')).toEqual([])
  expect(child('2040-02-03')).toEqual(['household.dependents.0.born?'])
  // 35 as the plan begins, past the 30 to which a child can be at home: refused, it would count nowhere.
  expect(child('1991-02-03', 30)).toEqual(['household.dependents.0.born'])
  expect(child('1948-03-19')).toEqual(['household.dependents.0.born'])
  expect(child('2000-02-03', 30)).toEqual([])
  expect(child('2000-02-03')).toEqual(['household.dependents.0.untilAge?'])
  const young = [{ id: 'ole', name: 'Ole', born: '2001-01-20' }]
  const una = { id: 'una', name: 'Una', born: '2010-02-03' }
  expect(at({ household: { people: young, dependents: [una] } })).toEqual(['household.dependents.0.born?'])
})

test('an adult relative is grown, and in the plan to an age beyond her own', () => {
  const relative = (born: string, more: object = {}) =>
    at({
      household: {
        people: [{ id: 'ole', name: 'Ole', born: '1975-01-20' }],
        dependents: [{ id: 'gro', name: 'Gro', born, relation: 'relative', ...more }],
      },
    })
  expect(relative('1944-09-05')).toEqual([])
  expect(relative('1974-09-05', { untilAge: 19 })).toEqual([])
  expect(relative('1930-01-05')).toEqual(['household.dependents.0.planToAge'])
  expect(relative('1930-01-05', { planToAge: 99 })).toEqual([])
  expect(relative('2012-02-03')).toEqual(['household.dependents.0.born?'])
})

test('two steps of draws do not begin in one month, and one from long before the plan is asked about', () => {
  const steps = (...months: string[]) =>
    at({ draw: { policy: 'steps', steps: months.map((from) => ({ from, perMonth: 500 })) } })
  expect(steps('2026-06', '2028-01')).toEqual([])
  expect(steps('2028-01', '2029-01', '2028-01')).toEqual(['draw.steps.2.from'])
  expect(steps('2024-01')).toEqual([])
  expect(steps('1999-01')).toEqual(['draw.steps.0.from?'])
})

test('two savings accounts of one name are refused', () => {
  const accounts = ['Pond', 'Reed', 'pond'].map((name, k) => ({
    id: `a${k}`,
    name,
    kind: 'cash' as const,
    balance: 1,
  }))
  expect(at({ savings: { accounts } })).toEqual(['savings.accounts.2.name'])
})

test('a retirement account of a couple is one person’s: which is asked at its owner', () => {
  const household = {
    people: [
      { id: 'ida', name: 'Ida', born: '1980-04-02' },
      { id: 'ole', name: 'Ole', born: '1990-01-20' },
    ],
  }
  const accounts = (owner?: string) => [
    { id: 'cash', name: 'Cash', kind: 'cash' as const, balance: 1 },
    { id: 'ira', name: 'IRA', kind: 'traditional' as const, balance: 1, ...(owner ? { owner } : {}) },
  ]
  expect(at({ household, savings: { accounts: accounts() } })).toEqual(['savings.accounts.1.owner'])
  expect(at({ household, savings: { accounts: accounts('ole') } })).toEqual([])
  const alone = { people: household.people.slice(0, 1) }
  expect(at({ household: alone, savings: { accounts: accounts() } })).toEqual([])
})

test('two phases do not begin in one month, and a phase that another follows before the plan begins is over', () => {
  expect(at(phases('2030-01', '2035-01'))).toEqual([])
  expect(at(phases('2030-01', '2030-01'))).toEqual(['farm.phases.1.from'])
  expect(at(phases('2020-01', '2026-06'))).toEqual(['farm.phases.0.from'])
})

test('a phase in which the plan begins is asked about: it may be so', () => {
  expect(at(phases('2020-01', '2026-07'))).toEqual(['farm.phases.0.from?'])
})

test('a bad year that is over by this month is refused', () => {
  const storm = (from: string, months: number) => ({
    storms: [{ id: 'dry', name: 'Dry well', from, months }],
  })
  expect(at(storm('2020-01', 12))).toEqual(['storms.0.from'])
  expect(at(storm('2026-06', 5))).toEqual(['storms.0.from'])
  expect(at(storm('2026-06', 6))).toEqual([])
})

test('two bad years, phases or markets of one name are refused, whatever their letters', () => {
  const storms = ['Dry well', 'dry well '].map((name, place) => ({ id: `s${place}`, name, from: '2028-01' }))
  expect(at({ storms })).toEqual(['storms.1.name'])
  const markets = ['Stand', 'Fair', 'STAND'].map((name, place) => ({ id: `m${place}`, name }))
  expect(at({ farm: { markets } })).toEqual(['farm.markets.2.name'])
})

test('what was doubtful before is no new doubt', () => {
  const before = plan(phases('2020-01', '2030-01', '2030-01'))
  const after = plan(phases('2020-01', '2030-01', '2030-01', '2030-01'))
  expect(newDoubts(before, before, '2026-11-25')).toEqual([])
  expect(newDoubts(after, before, '2026-11-25').map(({ path }) => path.join('.'))).toEqual([
    'farm.phases.3.from',
  ])
})

test('an annuity without its factor, and a plan of the own business that is no traditional account', () => {
  const account = { id: 'saved', name: 'Saved', balance: 0 }
  const cash = { id: 'cash', name: 'Cash', kind: 'cash' as const, balance: 0 }
  const people = [{ id: 'ann', name: 'Ann', born: '1976-02-10', planToAge: 90 }]
  const told = (more: { kind: 'traditional' | 'roth'; [field: string]: unknown }) =>
    at({ household: { people }, savings: { accounts: [cash, { ...account, ...more }] } })
  expect(told({ kind: 'traditional', evenPaymentsFrom: '2026-12', evenPaymentsBy: 'annuity' })).toEqual([
    'savings.accounts.1.evenPaymentsFactor',
  ])
  expect(
    told({
      kind: 'traditional',
      evenPaymentsFrom: '2026-12',
      evenPaymentsBy: 'annuity',
      evenPaymentsFactor: 16,
    }),
  ).toEqual([])
  expect(told({ kind: 'roth', heldAs: 'sep' })).toEqual(['savings.accounts.1.heldAs'])
  expect(told({ kind: 'traditional', heldAs: 'sep' })).toEqual([])
})

test('young that are past their age when their months of sale come are asked about, with how old they become', () => {
  const herd = (rates: object) => ({
    id: 'kids',
    kind: 'goats' as const,
    name: 'Meat goats',
    start: '2026-06',
    breedingFemales: 12,
    carryingLimit: 12,
    ownedAlready: true,
    prices: { youngSold: 180 },
    rates: { birthMonths: [3], ...rates },
  })
  const said = (rates: object) =>
    doubtsOf(plan({ farm: { herds: [herd(rates)] } }), '2026-11-25').map(({ path, message, asks }) => [
      path.join('.') + (asks ? '?' : ''),
      message,
    ])
  // Nine months from March is December; the next September is nine months on.
  expect(said({ saleAgeMonths: 9, saleMonths: [9, 10] })).toEqual([
    [
      'farm.herds.0.rates.saleMonths?',
      'Meat goats: kids of March are 9 months old in December and wait for September, when they are 18. Is that so?',
    ],
  ])
  expect(said({ saleAgeMonths: 9, saleMonths: [6] })).toEqual([])
  expect(said({ saleMonths: [9, 10] })).toEqual([])
  expect(said({ saleAgeMonths: 9 })).toEqual([])
})
