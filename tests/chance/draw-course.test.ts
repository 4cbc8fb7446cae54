import { describe, expect, test } from 'vitest'
import { type ChanceModel, chanceModel } from '#chance/chance-model.ts'
import { drawCourse } from '#chance/draw-course.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { type CourseShocks, expectedShocks, type ShockShape } from '#runway/shocks.ts'
import { quiet } from './plans.ts'

const seed = 31_415

const shape = (years: number, enterprises = 0): ShockShape => ({
  years,
  enterprises,
  expected: {
    stocks: 0.065,
    bonds: 0.04,
    bills: 0.03,
    inflation: 0.025,
    premiumGrowth: 0.06,
    medicareGrowth: 0.055,
    careGrowth: 0.045,
  },
  plannedDeathMonth: [600, 620],
})

const couple = [
  { id: 'ada', name: 'Ada', born: '1981-06-14', sex: 'female' as const },
  { id: 'bo', name: 'Bo', born: '1979-02-02', sex: 'male' as const },
]

function modelOf(chance: PlanInput['chance'], years = 3, rest: Partial<PlanInput> = {}): ChanceModel {
  const plan = planSchema.parse({ startMonth: '2026-01', household: { people: couple }, ...rest, chance })
  return chanceModel(plan, shape(years, plan.farm.enterprises.length + plan.farm.herds.length))
}

function coursesOf(model: ChanceModel, paths: number, read: (shocks: CourseShocks) => void, from = 'chance') {
  const shocks = expectedShocks(model.shape)
  for (let path = 0; path < paths; path += 1) {
    drawCourse(model, seed, path, shocks, from as 'chance')
    read(shocks)
  }
}

describe('a drawn course', () => {
  test('without spread is the expected course, to the last bit', () => {
    const farm = { enterprises: [{ id: 'salad', name: 'Salad' }] }
    const model = modelOf(quiet, 30, { farm })
    const shocks = expectedShocks(model.shape)
    drawCourse(model, seed, 17, shocks)
    expect(shocks).toEqual(expectedShocks(model.shape))
  })

  test('keeps every other draw when an enterprise is added before the others', () => {
    const one = { id: 'salad', name: 'Salad' }
    const other = { id: 'honey', name: 'Honey' }
    const [alone, both] = [[one], [other, one]].map((enterprises) => {
      const model = modelOf({}, 10, { farm: { enterprises } })
      const shocks = expectedShocks(model.shape)
      drawCourse(model, seed, 3, shocks)
      return shocks
    })
    expect(both!.stocks).toEqual(alone!.stocks)
    expect(both!.deathMonth).toEqual(alone!.deathMonth)
    expect(both!.enterpriseSeason.slice(10)).toEqual(alone!.enterpriseSeason)
    expect(both!.enterpriseSeason.slice(0, 10)).not.toEqual(alone!.enterpriseSeason)
  })

  test('leaves nothing of the course before in the arrays it uses again', () => {
    const model = modelOf({ workLossChance: 0.2 }, 20)
    const again = expectedShocks(model.shape)
    for (const path of [5, 9, 2]) drawCourse(model, seed, path, again)
    const fresh = expectedShocks(model.shape)
    drawCourse(model, seed, 2, fresh)
    expect(again).toEqual(fresh)
  })

  test('keeps what happened in one year of history together', () => {
    const model = modelOf({ markets: 'calendar', centre: 'source' }, 2)
    const shocks = expectedShocks(model.shape)
    drawCourse(model, seed, 1974 - 1928, shocks, 'history')
    // 1974 as published: stocks -25.9 %, bonds +2.0 %, prices +12.3 % (December on December).
    expect(shocks.stocks[0]).toBeCloseTo(-0.259, 3)
    expect(shocks.bonds[0]).toBeCloseTo(0.02, 3)
    expect(shocks.inflation[0]).toBeCloseTo(0.123, 3)
  })

  test('moves the average growth of history to what the plan expects, and leaves the plan’s bills where it has none', () => {
    let growth = 0
    const model = modelOf({ markets: 'january' }, 152)
    coursesOf(
      model,
      1,
      (shocks) => {
        for (const year of shocks.stocks) growth += Math.log1p(year)
        expect(shocks.bills.every((rate) => rate === 0.03)).toBe(true)
      },
      'history',
    )
    expect(growth / 152).toBeCloseTo(Math.log1p(0.065), 12)
  })

  test('raises premiums and care further where prices rose further than the plan expects', () => {
    const model = modelOf({ ...quiet, inflationSpread: 0.03 }, 1)
    coursesOf(model, 50, (shocks) => {
      const prices = (1 + shocks.inflation[0]!) / 1.025
      expect(shocks.premiumGrowth[0]).toBeCloseTo(1.06 * prices - 1, 12)
      expect(shocks.careGrowth[0]).toBeCloseTo(1.045 * prices - 1, 12)
    })
  })

  test('has the stated moments', () => {
    const n = 40_000
    const chance = {
      ...quiet,
      centre: 'source',
      stocksMean: 0.1,
      stocksSpread: 0.18,
      bondsMean: 0.05,
      bondsSpread: 0.065,
      inflationMean: 0.03,
      inflationSpread: 0.02,
      stocksWithBonds: 0.25,
      inflationPersistence: 0.6,
    } as const
    const stated = { stocks: [0.1, 0.18], bonds: [0.05, 0.065], inflation: [0.03, 0.02] } as const
    const sums = { stocks: [0, 0], bonds: [0, 0], inflation: [0, 0] }
    let together = 0
    let nextYear = 0
    coursesOf(modelOf(chance, 2), n, (drawn) => {
      for (const name of ['stocks', 'bonds', 'inflation'] as const) {
        sums[name][0]! += drawn[name][1]!
        sums[name][1]! += (drawn[name][1]! - stated[name][0]) ** 2
      }
      together += (Math.log1p(drawn.stocks[1]!) - 0.082097863) * (Math.log1p(drawn.bonds[1]!) - 0.046877726)
      nextYear += (drawn.inflation[0]! - 0.03) * (drawn.inflation[1]! - 0.03)
    })
    for (const name of ['stocks', 'bonds', 'inflation'] as const) {
      const [mean, sd] = stated[name]
      expect(Math.abs(sums[name][0]! / n - mean)).toBeLessThan((5 * sd) / Math.sqrt(n))
      // The sd of a sample sd is about sd·√((k − 1) / 4n), kurtosis k below 4 for these: five of them are 2.2 %.
      expect(Math.abs(Math.sqrt(sums[name][1]! / n) / sd - 1)).toBeLessThan(0.022)
    }
    // A correlation of 40,000 pairs has sd 1/200.
    expect(Math.abs(together / n / (0.162556554 * 0.061845577) - 0.25)).toBeLessThan(0.025)
    expect(Math.abs(nextYear / n / 0.02 ** 2 - 0.6)).toBeLessThan(0.025)
  })

  test('ends each life in a month of its own, the planned one when lives are not drawn', () => {
    const deaths = new Set<number>()
    coursesOf(modelOf({}), 100, (shocks) => deaths.add(shocks.deathMonth[0]!))
    expect(deaths.size).toBeGreaterThan(50)
    coursesOf(modelOf({ lives: false }), 3, (shocks) => expect([...shocks.deathMonth]).toEqual([600, 620]))
  })

  test('loses work as often as stated, again after it was taken up', () => {
    let spells = 0
    coursesOf(modelOf({ workLossChance: 0.02, workLossMonths: 9 }, 30), 4_000, (shocks) => {
      spells += shocks.lossOfWorkMonth.filter(Number.isFinite).length
      expect([...shocks.lossOfWorkMonths]).toEqual([9, 9])
      shocks.lossOfWorkMonth.forEach((month, cell) => {
        if (Number.isFinite(month))
          expect(Math.floor(month / 12)).toBe(cell % (shocks.lossOfWorkMonth.length / 2))
      })
    })
    // Ada has 23 working years left (44 to 67), Bo 21: 44 chances of 0.02 a course; sd of 176,000 of them 58.7.
    expect(Math.abs(spells - 4_000 * 44 * 0.02)).toBeLessThan(5 * 59)
  })
})

test('who leaves by an event of the plan is drawn to live no longer in it, and one gone before it begins is gone', () => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: { people: couple },
    events: [{ kind: 'separation', person: 'bo', month: '2025-06' }],
    chance: { lives: true },
  })
  const { shape: own } = compilePlan(plan, publishedRules(plan))
  const model = chanceModel(plan, own)
  coursesOf(model, 200, ({ deathMonth }) => {
    expect(deathMonth[1]).toBeLessThanOrEqual(-7)
    expect(deathMonth[0]).toBeGreaterThan(0)
  })
})
