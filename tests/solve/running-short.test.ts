// A household whose money runs short in every simulation, whatever it chooses: what the questions tell it first, and what they never
// propose. The household is our own invention.
import { expect, test, vi } from 'vitest'
import { monthName, parseMonth } from '#calendar/month.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { sayRecords } from '#solve/claim.ts'
import { askQuestion } from '#solve/questions.ts'
import { takesOf } from '#solve/take.ts'
import { changeOf, solveWays } from '#solve/ways.ts'
import { asking } from './asking.ts'
import { saidOf } from './said-of.ts'

vi.setConfig({ testTimeout: 180_000 })

/** Two of 44 and 47, savings of some 18 months, and a farm that earns 6,500 a year. */
const strained = planSchema.parse({
  startMonth: '2026-12',
  household: {
    people: [
      { id: 't', name: 'Tove', born: '1982-05-14', sex: 'female', planToAge: 70 },
      { id: 'r', name: 'Rurik', born: '1979-02-09', sex: 'male', planToAge: 70 },
    ],
    living: [{ id: 'all', name: 'Living', perMonth: 3_460 }],
    pay: [{ id: 'wage', name: 'Wage', person: 't', perMonth: 2_200, to: '2028-06' }],
    floor: { kind: 'months', months: 6 },
  },
  health: { premiums: [{ id: 'p', name: 'Premium', perMonth: 410, from: '2026-12' }] },
  savings: {
    accounts: [
      { id: 'check', name: 'Checking', kind: 'cash', balance: 9_400 },
      { id: 'save', name: 'Savings', kind: 'cash', balance: 46_600 },
      { id: 'ira', name: 'IRA', kind: 'traditional', heldAs: 'ira', owner: 'r', balance: 62_000 },
    ],
  },
  farm: {
    cash: 6_300,
    reserve: 2_000,
    enterprises: [
      {
        id: 'veg',
        name: 'Vegetables',
        salesPerUnit: Array(12).fill(31_000 / 12),
        costsPerUnit: Array(12).fill(24_500 / 12),
      },
    ],
  },
  draw: {
    policy: 'steps',
    steps: [
      { from: '2026-12', perMonth: 0 },
      { from: '2027-06', perMonth: 500 },
    ],
  },
} satisfies PlanInput)

test('no order of accounts is proposed with which money runs short sooner than as planned', async () => {
  const about = asking(strained, 20)
  const found = await solveWays('account-order', about)
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  const short = (id: string) => about.project(changeOf('account-order', id)(strained)!).milestones.runsShort!
  const planned = about.project(strained).milestones.runsShort!
  // Locked into even payments the IRA pays a little a year while bills go unpaid.
  expect(short('even-payments') < planned).toBe(true)
  const even = found.ways.find(({ id }) => id === 'even-payments')!
  expect(even.worse).toBe(true)
  for (const id of [found.answer.best, found.answer.steadiest])
    if (id !== null && id !== 'plan') expect(short(id) >= planned, id).toBe(true)
})

/** The same until they are 66, with hours of work and a slower phase that has fewer, so that every question has something to try. */
const endingEarly = planSchema.parse({
  ...strained,
  household: {
    ...strained.household,
    people: strained.household.people.map((person) => ({ ...person, planToAge: 66 })),
  },
  farm: {
    ...strained.farm,
    enterprises: strained.farm.enterprises.map((one) => ({ ...one, hoursPerUnit: Array(12).fill(100) })),
    crew: [{ who: 't', weeklyHours: 40 }],
    phases: [{ from: '2035-01', name: 'Slower', weeklyHours: [{ who: 't', hours: 20 }] }],
  },
})

test.for(['claim', 'plow-back', 'slow-down', 'draw'] as const)(
  'where nothing holds whatever is chosen, %s says first when money runs short and calls nothing the best',
  async (question) => {
    const about = asking(endingEarly, 20)
    const { answer } = await askQuestion(question, about)
    const short = monthName(parseMonth(about.project(endingEarly).milestones.runsShort!)!)
    const line = `The plan runs short of money in ${short} whatever is chosen here: close that gap first.`
    expect(answer.sentence.slice(0, line.length)).toBe(line)
    expect(saidOf(answer)).not.toMatch(/strongest|best of those/)
    if (question === 'draw') return
    expect(answer.answer.kind).toBe('cannot be reached')
    expect(takesOf(answer)).toEqual([])
    if (question === 'claim')
      expect(saidOf(answer)).toContain('no earnings record of Tove and Rurik: the benefit')
    if (answer.question === 'slow-down') expect(answer.tried).toEqual([])
  },
)

test('where nothing of a few simulations holds no more are run', async () => {
  const ran: number[] = []
  const about = asking(endingEarly, 500)
  const figures: typeof about.courses.figures = (run) => {
    ran.push(run.paths)
    return about.courses.figures(run)
  }
  const { answer, moves } = await askQuestion('slow-down', {
    ...about,
    courses: { ...about.courses, figures },
  })
  expect(answer.sentence).toMatch(/^The plan runs short of money in .* close that gap first\.$/)
  expect(answer.paths).toBe(60)
  expect(moves).toBeNull()
  expect(Math.max(...ran)).toBe(60)
})

test('whose earnings record is missing is said, and only theirs', () => {
  const [tove, rurik] = endingEarly.household.people
  const people = [{ ...tove!, earnings: [{ year: 2025, amount: 26_400 }] }, rurik!]
  const known = planSchema.parse({ ...endingEarly, household: { ...endingEarly.household, people } })
  expect(sayRecords(known)).toContain('no earnings record of Rurik:')
})

test('who told the estimate of the statement, which goes before a record, is asked for none', () => {
  const [tove, rurik] = endingEarly.household.people
  const told = (statementBenefit: number) => {
    const people = [
      { ...tove!, statementBenefit: 1900 },
      { ...rurik!, statementBenefit },
    ]
    return planSchema.parse({ ...endingEarly, household: { ...endingEarly.household, people } })
  }
  expect(sayRecords(told(1150))).toBe('')
  // An estimate of nothing leaves the benefit to what is earned.
  expect(sayRecords(told(0))).toContain('no earnings record of Rurik:')
})
