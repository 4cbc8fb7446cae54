import { beforeAll, expect, test } from 'vitest'
import { loadSolver, type Program, type Row, type Solver, solveProgram } from '#farm/program.ts'

let solver: Solver
beforeAll(async () => {
  solver = await loadSolver()
})

const max = (objective: readonly number[], rows: Row[]): Program => ({
  sense: 'max',
  columns: objective.map((dollars) => ({
    objective: dollars,
    lower: 0,
    upper: Number.POSITIVE_INFINITY,
    whole: false,
  })),
  rows,
})
const row = (
  name: string,
  coefficients: readonly number[],
  relation: Row['relation'],
  limit: number,
): Row => ({
  name,
  terms: coefficients.map((coefficient, column) => [column, coefficient]),
  relation,
  limit,
})
const best = (program: Program) => {
  const solved = solveProgram(solver, program)
  if (solved.kind !== 'optimum') throw new Error(solved.kind)
  return solved
}
const near = (found: number, published: number) =>
  expect(Math.abs(found - published)).toBeLessThanOrEqual(1e-6 * Math.abs(published))

// P.B.R. Hazell 1971, American Journal of Agricultural Economics 53:53-62, data and plan as in the R package agridat,
// dataset hazell.vegetables (read). Objective and worths re-solved with scipy's HiGHS.
test('Hazell’s vegetable farm: the published acres, and what land, labor and rotation are worth', () => {
  const solved = best(
    max(
      [253, 443, 284, 516],
      [
        row('land', [1, 1, 1, 1], '<=', 200),
        row('labor', [25, 36, 27, 87], '<=', 10_000),
        row('rotation', [-1, 1, -1, 1], '<=', 0),
      ],
    ),
  )
  near(solved.objective, 77_996.078431)
  const acres = [0, 27.45098, 100, 72.54902]
  acres.forEach((published, i) => {
    expect(solved.values[i]!).toBeCloseTo(published, 4)
  })
  const worth = [318.411765, 1.431373, 73.058824]
  worth.forEach((published, i) => {
    expect(solved.rowWorth[i]!).toBeCloseTo(published, 5)
  })
})

// The same farm with risk: least sum of yearly shortfalls below the plan's mean, at a required mean income.
// Yearly gross margins from a public gist of the example (read); results re-solved with scipy's HiGHS.
const yearlyMargins = [
  [292, -128, 420, 579],
  [179, 560, 187, 639],
  [114, 648, 366, 379],
  [247, 544, 249, 924],
  [426, 182, 322, 5],
  [259, 850, 159, 569],
]
test.for([
  { mean: 50_000, shortfall: 6529.5598 },
  { mean: 60_000, shortfall: 7835.4717 },
  { mean: 70_000, shortfall: 21_374.017 },
  { mean: 75_000, shortfall: 31_632.6099 },
  { mean: 77_000, shortfall: 36_797.5421 },
])(
  'Hazell’s farm at a mean of $mean falls short by at least $shortfall over six years',
  ({ mean, shortfall }) => {
    const means = [0, 1, 2, 3].map((crop) => yearlyMargins.reduce((sum, year) => sum + year[crop]!, 0) / 6)
    const solved = best({
      sense: 'min',
      columns: Array.from({ length: 10 }, (_, i) => ({
        objective: i < 4 ? 0 : 1,
        lower: 0,
        upper: Number.POSITIVE_INFINITY,
        whole: false,
      })),
      rows: [
        row('land', [1, 1, 1, 1], '<=', 200),
        row('labor', [25, 36, 27, 87], '<=', 10_000),
        row('rotation', [-1, 1, -1, 1], '<=', 0),
        row('mean income', means, '=', mean),
        ...yearlyMargins.map(
          (year, t): Row => ({
            name: `year ${t + 1}`,
            terms: [
              ...year.map((margin, crop): [number, number] => [crop, margin - means[crop]!]),
              [4 + t, 1],
            ],
            relation: '>=',
            limit: 0,
          }),
        ),
      ],
    })
    near(solved.objective, shortfall)
  },
)

// lp_solve reference guide, formulation example (read): 75 acres of wheat and barley.
test('wheat and barley on 75 acres: $6,315.625, and the worth of storage and land', () => {
  const solved = best(
    max(
      [143, 60],
      [
        row('expense', [120, 210], '<=', 15_000),
        row('storage', [110, 30], '<=', 4000),
        row('land', [1, 1], '<=', 75),
      ],
    ),
  )
  near(solved.objective, 6315.625)
  expect(solved.values[0]!).toBeCloseTo(21.875, 4)
  expect(solved.values[1]!).toBeCloseTo(53.125, 4)
  expect(solved.rowWorth.map((worth) => Math.round(worth * 1e4) / 1e4)).toEqual([0, 1.0375, 28.875])
})

// Harshbarger and Reynolds, Mathematical Applications, 12th edition, as quoted on a public repository page (data read; optimum re-solved).
test('a cooperative’s corn and soybeans: $1,260,000', () => {
  const solved = best(
    max(
      [240, 160],
      [
        row('land', [1, 1], '<=', 6000),
        row('fertilizer', [9, 3], '<=', 40_500),
        row('harvest hours', [0.75, 1], '<=', 5250),
      ],
    ),
  )
  near(solved.objective, 1_260_000)
  expect(solved.values.map((acres) => Math.round(acres * 1e4) / 1e4)).toEqual([3750, 2250])
})

// Hillier and Lieberman, Introduction to Operations Research, chapter 3 (from memory; re-solved). Several plans reach it.
test('three farms with equal shares planted: $633,333.33', () => {
  const [land, water, quota, perAcre] = [
    [400, 600, 300],
    [600, 800, 375],
    [600, 500, 325],
    [3, 2, 1],
  ]
  const crops = [0, 1, 2]
  const onFarm = (farm: number, coefficients: readonly number[]) =>
    crops.map((crop): [number, number] => [farm * 3 + crop, coefficients[crop]!])
  const rows: Row[] = [0, 1, 2].flatMap((farm): Row[] => [
    { name: `land ${farm}`, terms: onFarm(farm, [1, 1, 1]), relation: '<=', limit: land[farm]! },
    { name: `water ${farm}`, terms: onFarm(farm, perAcre), relation: '<=', limit: water[farm]! },
  ])
  for (const crop of crops)
    rows.push({
      name: `quota ${crop}`,
      terms: [0, 1, 2].map((farm) => [farm * 3 + crop, 1]),
      relation: '<=',
      limit: quota[crop]!,
    })
  for (const farm of [1, 2])
    rows.push({
      name: `equal share ${farm}`,
      terms: [
        ...onFarm(0, [1 / land[0]!, 1 / land[0]!, 1 / land[0]!]),
        ...onFarm(farm, [-1 / land[farm]!, -1 / land[farm]!, -1 / land[farm]!]),
      ],
      relation: '=',
      limit: 0,
    })
  near(best(max([1000, 750, 250, 1000, 750, 250, 1000, 750, 250], rows)).objective, 633_333.333333)
})

// Kutcher, Meeraus and O'Mara, Agriculture Sector and Policy Models, World Bank 1988 (data read; optimum re-solved).
test('four hectares by months, with days hired in and out: 1,898.52', () => {
  const land = [
    [1, 1, 1, 1, 0, 0, 0],
    [1, 1, 1, 1, 0, 0, 0],
    [1, 0.5, 1, 1, 0.5, 0, 0],
    [1, 0, 1, 1, 1, 0, 0],
    [1, 0, 0, 0.25, 1, 0.25, 0],
    [0, 0, 0, 0, 1, 1, 0],
    [0, 0, 0, 0, 1, 1, 0.75],
    [0, 0, 0, 0, 1, 1, 1],
    [0, 0, 0, 0, 1, 1, 1],
    [0, 0, 0, 0, 1, 0.5, 1],
    [0.5, 0.25, 0.25, 0.5, 0.75, 0, 0.75],
    [1, 1, 1, 1, 0, 0, 0],
  ]
  const days = [
    [1.72, 4.5, 0.75, 5.16, 0, 0, 0],
    [0.5, 1, 0.75, 5, 0, 0, 0],
    [1, 8, 0.75, 5, 5, 0, 0],
    [1, 0, 16, 19.58, 5, 0, 0],
    [17.16, 0, 0, 2.42, 9, 4.3, 0],
    [2.34, 0, 0, 0, 2, 5.04, 0],
    [0, 0, 0, 0, 1.5, 7.16, 17],
    [0, 0, 0, 0, 2, 7.97, 15],
    [0, 0, 0, 0, 1, 4.41, 12],
    [0, 0, 0, 0, 26, 1.12, 7],
    [2.43, 2.5, 7.5, 11.16, 12, 0, 6],
    [1.35, 7.5, 0.75, 4.68, 0, 0, 0],
  ]
  const [yields, prices, costs] = [
    [1.5, 6.5, 1, 3, 1.5, 2, 3],
    [100, 0, 200, 125, 350, 70, 120],
    [10, 0, 5, 50, 80, 5, 50],
  ]
  const crops = yields.map((tonnes, crop) => tonnes * prices[crop]! - costs[crop]!)
  const months = [...land.keys()]
  const rows = months.flatMap((m): Row[] => [
    row(`land ${m}`, land[m]!, '<=', 4),
    {
      name: `days ${m}`,
      terms: [...days[m]!.map((count, crop): [number, number] => [crop, count]), [7 + m, 1], [19 + m, -1]],
      relation: '<=',
      limit: 25,
    },
  ])
  const solved = best({
    sense: 'max',
    columns: [...crops, ...months.map(() => 3), ...months.map(() => -4)].map((objective, i) => ({
      objective,
      lower: 0,
      upper: i >= 7 && i < 19 ? 25 : Number.POSITIVE_INFINITY,
      whole: false,
    })),
    rows,
  })
  near(solved.objective, 1898.52)
})
