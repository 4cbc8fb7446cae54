// A question turns one number of a plan already made ready. Its figure must be that of the plan itself with that number written
// into it: whatever was made ready from the plan's own number has to turn with it.
import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { figureOf } from '#chance/course-run.ts'
import { type Dial, dial } from '#chance/dials.ts'
import { percentiles } from '#chance/percentiles.ts'
import { compileForChance, prepareChance } from '#chance/prepare.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { wholeCourse } from '#runway/course-buffers.ts'
import type { MonthSeries } from '#runway/figures/course-figures.ts'
import { rowsOf } from '#runway/figures/month-table.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { solveClaim } from '#solve/claim.ts'
import { farmPlan } from '../chance/plans.ts'
import { asking, courses } from './asking.ts'

vi.setConfig({ testTimeout: 180_000 })

const record = (amount: number) =>
  Array.from({ length: 30 }, (_, place) => ({ year: 1994 + place, amount: amount * 1.02 ** place }))

const couple = (born: [string, string], claims: [number, number], children: string[] = []): Plan => {
  const input: PlanInput = {
    startMonth: '2026-12',
    household: {
      people: ['osk', 'ree'].map((id, place) => ({
        id,
        name: id,
        born: born[place]!,
        claimAge: { years: claims[place]! },
        earnings: record([21_000, 14_000][place]!),
      })),
      dependents: children.map((date, place) => ({
        id: `child-${place}`,
        name: `Child ${place}`,
        born: date,
      })),
      living: [{ id: 'all', name: 'Living', perMonth: 2_600 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Checking', kind: 'cash', balance: 40_000, mix: { bills: 1 } },
        { id: 'funds', name: 'Funds', kind: 'taxable', balance: 410_000, basis: 300_000 },
        { id: 'ira', name: 'IRA', kind: 'traditional', owner: 'osk', balance: 280_000 },
        { id: 'roth', name: 'Roth', kind: 'roth', owner: 'ree', balance: 90_000 },
      ],
    },
  }
  return planSchema.parse(input)
}

const withAges = (plan: Plan, ages: readonly number[]): Plan => ({
  ...plan,
  household: {
    ...plan.household,
    people: plan.household.people.map((person, place) => ({
      ...person,
      claimAge: { years: ages[place]!, months: 0 },
    })),
  },
})

/** Figures of every course of the plan itself, on the draws that `asking` takes. */
const figuresOf = (plan: Plan, paths: number) =>
  courses.figures(prepareChance(plan, publishedRules(plan), { seed: 3, paths, keepsMonths: false }))

const paths = 8
const age = fc.integer({ min: 62, max: 70 })

describe('the claim ages tried are the plan’s own with those ages in it', () => {
  const households: [string, Plan][] = [
    ['two adults near their claims', couple(['1965-05-09', '1968-08-21'], [67, 67])],
    ['the first claims at once, the second late', couple(['1962-03-11', '1968-08-21'], [65, 70])],
    [
      'with children who are paid on a parent’s record',
      couple(['1965-05-09', '1971-02-17'], [70, 68], ['2012-10-02', '2015-06-30']),
    ],
  ]
  test.each(households)('%s', async (_, plan) => {
    const { tried } = await solveClaim(asking(plan, paths))
    const earliest = tried[0]!.ages
    const check = async (ages: readonly number[]) => {
      const found = tried.find((one) => one.ages.join() === ages.join())!
      const figures = await figuresOf(withAges(plan, ages), paths)
      const [p10, median] = percentiles(figureOf(figures, 'atEnd'), [0.1, 0.5])
      expect(found).toMatchObject({ p10AtEnd: p10, medianAtEnd: median })
      expect(found.held.share).toBeCloseTo(figureOf(figures, 'held').reduce((a, b) => a + b) / paths, 12)
    }
    await check(earliest)
    await fc.assert(
      fc.asyncProperty(age, age, (first, second) =>
        check([Math.max(first, earliest[0]!), Math.max(second, earliest[1]!)]),
      ),
      { numRuns: 8 },
    )
  })
})

test('whose benefit has begun has no age to choose and keeps the month of the claim', async () => {
  const begun = couple(['1960-05-09', '1968-08-21'], [65, 67])
  begun.household.people[0]!.claimAge.months = 7
  const { tried } = await solveClaim(asking(begun, paths))
  expect(tried.map(({ ages }) => ages)).toEqual(
    [62, 63, 64, 65, 66, 67, 68, 69, 70].map((each) => [65 + 7 / 12, each]),
  )
  const own = await figuresOf(begun, paths)
  const [p10, median] = percentiles(figureOf(own, 'atEnd'), [0.1, 0.5])
  expect(tried[5]).toMatchObject({ p10AtEnd: p10, medianAtEnd: median })
  begun.household.people[1]!.claimAge.years = 62
  begun.household.people[1]!.born = '1960-08-21'
  const { sentence } = await solveClaim(asking(begun, paths))
  expect(sentence).toBe(
    'This cannot be reached, because nobody in the plan has a claim age still to choose: the benefits of all have begun.',
  )
})

describe('a dial turned is the plan with its setting in it', () => {
  /** Every figure of every course, the dial turned to another value first. */
  const turned = (plan: Plan, what: Dial, value: number) => {
    const run = prepareChance(plan, publishedRules(plan), { seed: 3, paths: 6, keepsMonths: false })
    const dialled = dial(run.plan, what)
    dialled.turn(value * 3 + 1)
    dialled.turn(value)
    return courses.figures({ ...run, plan: dialled.plan })
  }
  const waiting = farmPlan()
  const plan: Plan = planSchema.parse({
    ...waiting,
    farm: {
      ...waiting.farm,
      purchases: [
        { id: 'barn', name: 'Barn', month: '2027-03', cost: 9_000, timing: 'when cash allows' },
        { id: 'tractor', name: 'Tractor', month: '2029-03', cost: 16_000, timing: 'when cash allows' },
      ],
    },
  })

  test('draws, as a farm that waits with its purchases expects them too', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: 6_000 }),
        fc.integer({ min: 0, max: 3 }),
        async (perMonth, years) => {
          const asked: Plan = {
            ...plan,
            draw: {
              policy: 'steps',
              steps: [
                { from: `${2027 + years}-01`, perMonth },
                { from: '2041-01', perMonth: 0 },
              ],
              growth: 0,
              withPrices: true,
            },
            savings: { ...plan.savings, drawsToHoldFloor: false },
          }
          const what = { kind: 'draw', fromMonth: 2 + 12 * years, toMonth: 170 } as const
          expect(await turned(plan, what, perMonth)).toEqual(await figuresOf(asked, 6))
        },
      ),
      { numRuns: 8, examples: [[0, 0]] },
    )
  })

  test('what is set aside', async () => {
    const oneOffs = ['2026-12', '2027-01'].map((month) => ({
      id: month,
      name: month,
      month,
      cost: -700,
      todaysPrices: true,
    }))
    const asked = { ...plan, household: { ...plan.household, oneOffs } }
    expect(await turned(plan, { kind: 'setAside', fromMonth: 1, toMonth: 3 }, 700)).toEqual(
      await figuresOf(asked, 6),
    )
  })

  test('the cushion: savings brought to what they are change nothing', () => {
    const compiled = compileForChance(plan, publishedRules(plan))
    const month = 50
    const shocks = expectedShocks(compiled.shape)
    const own = wholeCourse(compiled)
    runCourse(compiled, shocks, own)
    const ownRows = rowsOf(own.table)
    const at = (name: MonthSeries) => ownRows[month - 1]![name]
    const held = at('cash') + at('taxable') + at('traditional') + at('roth') - at('taxOwed')
    const dialled = dial(compiled, { kind: 'cushion', month })
    dialled.turn(held / at('level'))
    const brought = wholeCourse(dialled.plan)
    runCourse(dialled.plan, shocks, brought)
    const rows = rowsOf(brought.table)
    for (const name of ['cash', 'taxable', 'traditional', 'roth', 'taxes', 'spendable'] as const)
      for (let m = 0; m < own.endMonth; m += 1) expect(rows[m]![name]).toBeCloseTo(ownRows[m]![name], 4)
  })

  test('savings', async () => {
    const accounts = plan.savings.accounts.map((one) =>
      one.kind === 'traditional'
        ? one
        : { ...one, balance: one.balance / 2, basis: (one.basis ?? one.balance) / 2 },
    )
    const asked = { ...plan, savings: { ...plan.savings, accounts } }
    expect(await turned(plan, { kind: 'savings' }, 82_000)).toEqual(await figuresOf(asked, 6))
    expect(compileForChance(asked, publishedRules(asked)).savings.opening).not.toEqual(
      compileForChance(plan, publishedRules(plan)).savings.opening,
    )
  })
})
