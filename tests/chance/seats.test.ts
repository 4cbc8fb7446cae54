// A seat on a waiting list is had or not in each drawn course, as often as it is likely; worked by hand on an invented stand with nothing else that varies.
import { expect, test } from 'vitest'
import { chanceModel } from '#chance/chance-model.ts'
import { courseMemory, figureOf } from '#chance/course-run.ts'
import { drawCourse } from '#chance/draw-course.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { prepareChance } from '#chance/prepare.ts'
import { openSeats, seatsByChance } from '#farm/selling/seats.ts'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { quiet } from './plans.ts'

/** 2,000 of pickles a month for a stand that takes 1,000 and a square with a list that takes 1,500 for fees of 100; all is drawn. */
const pickles = (chance: number, rest: Partial<PlanInput> = {}) =>
  planSchema.parse({
    startMonth: '2026-01',
    years: 3,
    household: {
      living: [{ id: 'all', name: 'Living', perMonth: 1_500 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 50_000 }] },
    farm: {
      enterprises: [
        {
          id: 'pickles',
          name: 'Pickles',
          salesPerUnit: Array(12).fill(2_000),
          seasonSpread: 0,
          markets: ['stand', 'square'],
        },
      ],
      markets: [
        { id: 'stand', name: 'Stand', salesPerTrip: 1_000 },
        {
          id: 'square',
          name: 'Square',
          salesPerTrip: 1_500,
          feePerTrip: 100,
          seat: { from: '2027-01', chance },
        },
      ],
    },
    draw: { policy: 'sweep', from: '2026-01' },
    chance: quiet,
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
    ...rest,
  } satisfies PlanInput)

const endsOf = (chance: number, paths: number, seed = 5) => {
  const plan = pickles(chance)
  const run = prepareChance(plan, publishedRules(plan), { seed, paths, keepsMonths: false })
  const memory = courseMemory(run)
  takePaths(run, memory, makeWorkspace(run))
  const [house, farm] = (['atEnd', 'farmAtEnd'] as const).map((figure) => figureOf(memory.figures, figure))
  return [...house!].map((savings, path) => Math.round(savings + farm![path]!))
}

test('each course has the seat or has not, as often as it is likely, and their mean is what the parts expect', () => {
  // Without it 500 a month are missing for three years; with it 2,000 − 100 come from 2027 on: 400 a month stay over for two years, in the farm.
  const [without, had] = [50_000 - 36 * 500, 50_000 - 12 * 500 + 24 * 400]
  const ends = endsOf(0.3, 2_000)
  expect(new Set(ends)).toEqual(new Set([without, had]))
  const share = ends.filter((one) => one === had).length / ends.length
  // Three standard errors of 2,000 draws: 3 √(0.3 · 0.7 / 2,000).
  expect(Math.abs(share - 0.3)).toBeLessThan(0.031)
  expect(new Set(endsOf(1, 20))).toEqual(new Set([had]))
  expect(new Set(endsOf(0, 20))).toEqual(new Set([without]))
  expect(endsOf(0.3, 50)).toEqual(ends.slice(0, 50))
})

test('the expected course counts the seat by its chance, as before', () => {
  const plan = pickles(0.5)
  const { months } = project(plan, publishedRules(plan))
  // Half of 1,500 and of 100 from 2027 on: 1,000 + 750 − 50.
  expect(months[12]!.farmSales).toBeCloseTo(1_750, 6)
  expect(months[12]!.farmMarketCosts).toBeCloseTo(50, 6)
})

test('a seat that is drawn leaves every other draw as it was', () => {
  const people = [{ id: 'ada', name: 'Ada', born: '1981-06-14', sex: 'female' as const }]
  const drawn = (chance: number) => {
    const plan = pickles(chance, { household: { people }, chance: {} })
    const { model } = prepareChance(plan, publishedRules(plan), { seed: 3, paths: 1 })
    const shocks = expectedShocks(model.shape)
    drawCourse(chanceModel(plan, model.shape), 3, 7, shocks)
    return shocks
  }
  const [sure, open] = [drawn(1), drawn(0.5)]
  expect(sure.seats).toBe(-1)
  expect([0, 1]).toContain(open.seats)
  expect({ ...open, seats: -1 }).toEqual(sure)
})

test('four uncertain seats are drawn in the order of the markets; those after them count by their chance', () => {
  const { farm } = pickles(0.4)
  const square = farm.markets[1]!
  const many = {
    ...farm,
    markets: [
      farm.markets[0]!,
      ...['a', 'b', 'c'].map((id) => ({ ...square, id })),
      { ...square, id: 'sure', seat: { from: '2027-01', chance: 1 } },
      ...['d', 'e', 'f'].map((id) => ({ ...square, id })),
    ],
  }
  expect(openSeats(many).map(({ market }) => market)).toEqual(['a', 'b', 'c', 'd'])
  expect(seatsByChance(many).map(({ market }) => market)).toEqual(['e', 'f'])
  expect(seatsByChance(farm)).toEqual([])
})
