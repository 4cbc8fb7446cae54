// Bad years: a fall of markets in its own month and whole, starts found, deaths and lasting injuries among them.
import { expect, test } from 'vitest'
import { addMonths, monthText, parseMonth } from '#calendar/month.ts'
import { type Storm, stormSchema } from '#plan/assumption-plan.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { projectStorm, stormCourse } from '#runway/storms/storm.ts'
import { stormsOf } from '#runway/storms/usual-storms.ts'
import { compareEndings } from '#runway/storms/worst-start.ts'

const held = (startMonth: string, timing: 'start' | 'end' = 'start'): Plan =>
  planSchema.parse({
    startMonth,
    years: 5,
    savings: {
      accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 100_000, mix: { stocks: 0.5, bonds: 0.5 } }],
    },
    tax: { method: 'none' },
    assumptions: { inflation: 0, stocks: 0, bonds: 0, timing },
  })

const under = (plan: Plan, storm: Partial<Storm>) =>
  projectStorm(
    plan,
    publishedRules(plan),
    stormSchema.parse({ id: 'x', name: 'X', from: '2026-11', ...storm }),
  )

test('a fall of markets takes its whole part in its own month, whatever part of a year the plan has', () => {
  for (const timing of ['start', 'end'] as const)
    for (const [start, from] of [
      ['2026-01', '2026-01'],
      ['2026-11', '2026-11'],
      ['2026-01', '2026-12'],
      ['2026-06', '2027-12'],
    ] as const) {
      const { months } = under(held(start, timing), { from, stockFall: 0.4, bondFall: 0.1 })
      const at = months.findIndex((one) => one.month === from)
      if (at > 0) expect(months[at - 1]!.cash).toBe(100_000)
      // Half of 40 % and half of 10 %.
      expect(months[at]!).toMatchObject({ cash: 75_000, returns: -25_000 })
      expect(months.at(-1)!.cash).toBe(75_000)
    }
})

test('a fall before the plan has been felt already', () => {
  const { months } = under(held('2027-01'), { from: '2026-11', stockFall: 0.4 })
  expect(months.at(-1)!.cash).toBe(100_000)
})

const couple = (change: Partial<PlanInput> = {}): Plan =>
  planSchema.parse({
    startMonth: '2026-03',
    household: {
      people: [
        { id: 'ash', name: 'Ash', born: '1980-06-15', planToAge: 60 },
        { id: 'elm', name: 'Elm', born: '1982-02-10', planToAge: 60 },
      ],
      living: [{ id: 'l', name: 'L', perMonth: 3500 }],
      pay: [{ id: 'p', name: 'P', person: 'ash', perMonth: 1000 }],
      floor: { kind: 'dollars', dollars: 1000 },
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 30_000, mix: { stocks: 1 } }] },
    farm: {
      cash: 25_000,
      crew: [
        { who: 'ash', weeklyHours: 40 },
        { who: 'elm', weeklyHours: 30 },
      ],
      enterprises: [
        {
          id: 'e',
          name: 'E',
          salesPerUnit: [0, 0, 0, 0, 0, 0, 0, 0, 30_000, 30_000, 0, 0],
          costsPerUnit: [0, 0, 0, 9000, 9000, 0, 0, 0, 0, 0, 0, 0],
          hoursPerUnit: 2400,
        },
      ],
      phases: [
        { from: '2025-01', name: 'Past' },
        { from: '2034-01', name: 'Slower' },
      ],
    },
    draw: { policy: 'sweep', from: '2026-03' },
    health: { medicareFrom65: false },
    tax: { method: 'none' },
    assumptions: { inflation: 0, stocks: 0.02 },
    ...change,
  })

test('the usual ones have a lasting injury and a death, and a phase that is past is never chosen', () => {
  const plan = couple()
  const storms = stormsOf(plan)
  expect(storms.map((one) => one.id)).toEqual([
    'bad-season',
    'premium-jump',
    'injury',
    'lasting-injury',
    'death',
    'lost-job',
    'market-crash',
    'late-draws',
  ])
  expect(storms.find((one) => one.id === 'lasting-injury')).toMatchObject({ person: 'ash', months: 720 })
  expect(storms.find((one) => one.id === 'death')).toMatchObject({ name: 'A death: Ash', dies: 'ash' })
  expect(storms.find((one) => one.id === 'market-crash')!.from).toBe('2034-01')
  const past = couple({ farm: { ...plan.farm, phases: [plan.farm.phases[0]!] } })
  expect(stormsOf(past).find((one) => one.id === 'market-crash')!.name).toBe('The stock market falls')
})

/** Ash works most on the farm and earns nothing beside it; Elm's wages keep the house. */
const onWages = (): Plan => {
  const plan = couple()
  return planSchema.parse({
    ...plan,
    household: {
      ...plan.household,
      living: [{ id: 'l', name: 'L', perMonth: 6800 }],
      pay: [{ id: 'mill', name: 'Mill', person: 'elm', perMonth: 2600 }],
    },
    farm: { ...plan.farm, enterprises: plan.farm.enterprises.map((one) => ({ ...one, hoursPerUnit: 0 })) },
  })
}

test('an injury and a death are of the one whose absence hurts most, whoever works more', () => {
  const plan = onWages()
  const rules = publishedRules(plan)
  const storms = stormsOf(plan)
  for (const id of ['injury', 'lasting-injury'])
    expect(storms.find((one) => one.id === id)).toMatchObject({ person: 'elm' })
  expect(storms.find((one) => one.id === 'injury')!.name).toBe('Injury: Elm cannot work for a year')
  const months = (storm: Storm) => projectStorm(plan, rules, storm).milestones.monthsLeft
  for (const id of ['injury', 'lasting-injury', 'death']) {
    const usual = storms.find((one) => one.id === id)!
    const ending = projectStorm(plan, rules, usual).milestones
    for (const who of ['ash', 'elm'])
      for (let k = 0; k < 24; k += 1) {
        const from = monthText(addMonths(parseMonth('2026-03')!, k))
        const other = id === 'death' ? { ...usual, dies: who, from } : { ...usual, person: who, from }
        expect(
          compareEndings(ending, projectStorm(plan, rules, other).milestones),
          `${id} of ${who} from ${from}`,
        ).toBeLessThanOrEqual(0)
      }
  }
  expect(months(storms.find((one) => one.id === 'injury')!)).not.toBe(project(plan).milestones.monthsLeft)
})

test('where somebody earns wages, a lost job is among them: a year without pay, and the farm goes on', () => {
  const plan = onWages()
  const lost = stormsOf(plan).find((one) => one.id === 'lost-job')!
  expect(lost).toMatchObject({ name: 'Job lost: no pay for Elm for a year', payStops: 'elm', months: 12 })
  const { months } = projectStorm(plan, publishedRules(plan), { ...lost, from: '2026-07' })
  expect(months.map(({ pay }) => pay).slice(0, 18)).toEqual([
    ...Array(4).fill(2600),
    ...Array(12).fill(0),
    ...Array(2).fill(2600),
  ])
  expect(months[6]!.farmSales).toBe(project(plan).months[6]!.farmSales)
  expect(months[10]!.farmHours).toBe(project(plan).months[10]!.farmHours)
  // Half of Ash's farm hours do not make a job: without wages there is none to lose, nor with a pension alone.
  const pension = planSchema.parse({
    ...plan,
    household: {
      ...plan.household,
      pay: [{ id: 'old', name: 'Old', person: 'elm', kind: 'pension', perMonth: 900 }],
    },
  })
  expect(stormsOf(pension).some((one) => one.id === 'lost-job')).toBe(false)
})

test('lost pay is withheld nothing and counts as no wages of its year', () => {
  const plan = planSchema.parse({ ...onWages(), tax: {} })
  const paid = plan.household.pay[0]!
  const withTax = planSchema.parse({
    ...plan,
    household: { ...plan.household, pay: [{ ...paid, withheldShare: 0.1 }] },
  })
  const storm = { from: '2026-07', months: 3, payStops: 'elm' }
  const { years } = under(withTax, storm)
  // March to December are ten months; three of them without pay.
  expect(years[0]!.wages).toBeCloseTo(7 * 2600, 6)
})

test('each that has no date of its own begins in the month of the next two years in which it hurts most', () => {
  const plan = couple()
  const rules = publishedRules(plan)
  for (const storm of stormsOf(plan)) {
    if (storm.id === 'market-crash' || storm.id === 'late-draws') continue
    const ending = projectStorm(plan, rules, storm).milestones
    for (let k = 0; k < 24; k += 1) {
      const from = monthText(addMonths(parseMonth('2026-03')!, k))
      const other = projectStorm(plan, rules, { ...storm, from }).milestones
      expect(compareEndings(ending, other), `${storm.id} from ${storm.from} or ${from}`).toBeLessThanOrEqual(
        0,
      )
    }
  }
  // Half of a season's sales is lost whole when the year begins before both months of sale, not after one of them.
  const season = stormsOf(plan).find((one) => one.id === 'bad-season')!
  expect(season.from <= '2026-09').toBe(true)
})

test('a death takes pay, half of the farm and a quarter of the living costs from its month on', () => {
  const plan = couple()
  const { months } = projectStorm(plan, publishedRules(plan), {
    ...stormsOf(plan).find((one) => one.id === 'death')!,
    from: '2026-09',
  })
  expect(months[5]!).toMatchObject({ month: '2026-08', pay: 1000, living: 3500 })
  expect(months[6]!).toMatchObject({ month: '2026-09', pay: 0, living: 2625, farmSales: 15_000 })
})

test('what is kept of a bad year is what its whole course says', () => {
  const plan = couple()
  const rules = publishedRules(plan)
  const storms = stormsOf(plan)
  expect(storms.length).toBeGreaterThan(5)
  for (const storm of storms) {
    const { months, milestones } = projectStorm(plan, rules, storm)
    const kept = stormCourse(plan, rules, storm)
    expect(kept.milestones, storm.id).toEqual(milestones)
    expect([...kept.spendable], storm.id).toEqual(months.map((one) => one.spendable))
  }
})

test('of two endings with as much time left the one with less savings is worse', () => {
  const ending = (monthsLeft: number | null, lowestSpendable: number, unmetNeed = 0) => ({
    monthsLeft,
    lowestSpendable,
    unmetNeed,
  })
  expect(compareEndings(ending(9, 100), ending(9, 200))).toBeLessThan(0)
  expect(compareEndings(ending(9, 300), ending(10, 200))).toBeLessThan(0)
  expect(compareEndings(ending(null, 1), ending(600, 500))).toBeGreaterThan(0)
  // Money runs out in both: the one that leaves more unpaid is the worse.
  expect(compareEndings(ending(9, 0, 80_000), ending(9, -500, 20_000))).toBeLessThan(0)
})

test('work can be lost again once it was taken up, and not before', () => {
  const plan = couple()
  const rules = publishedRules(plan)
  const compiled = compilePlan(plan, rules)
  const shocks = expectedShocks(compiled.shape)
  // Spells of 12 months from months 3, 14 (the first lasts to 14) and 30.
  shocks.lossOfWorkMonth[0] = 3
  shocks.lossOfWorkMonth[1] = 14
  shocks.lossOfWorkMonth[2] = 30
  shocks.lossOfWorkMonths[0] = 12
  const { months } = project(plan, rules, shocks)
  const without = months.slice(0, 60).flatMap((one, m) => (one.pay === 0 ? [m] : []))
  const spell = (from: number) => Array.from({ length: 12 }, (_, k) => from + k)
  expect(without).toEqual([...spell(3), ...spell(30)])
})
