// Premiums of drawn years as a county's own years: an invented history worked by hand, and what is said where it is too short.
import { expect, test } from 'vitest'
import { chanceModel } from '#chance/chance-model.ts'
import { courseMemory } from '#chance/course-run.ts'
import { drawCourse } from '#chance/draw-course.ts'
import { makeWorkspace, takePaths } from '#chance/paths.ts'
import { CoursePool } from '#chance/pool.ts'
import { prepareChance } from '#chance/prepare.ts'
import { premiumDraws, premiumHistory, premiumWords } from '#plan/place/premium-years.ts'
import { planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { farmPlan, quiet } from './plans.ts'

/** No county: 200, 220, 198, 198, none in 2022, 300, 330: changes of +10 %, −10 %, 0 % and +10 %, on average 2.5 %. */
const invented = [
  [2018, 200],
  [2019, 220],
  [2020, 198],
  [2021, 198],
  [2023, 300],
  [2024, 330],
].map(([year, at21]) => ({ year: year!, at21: at21! }))

const asCounty = (history: readonly { year: number; at21: number }[], premiumSpread = 0.03, years = 30) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    years,
    assumptions: { premiumGrowth: 0.06 },
    chance: { ...quiet, premiums: 'county', premiumSpread },
  })
  const model = chanceModel(plan, compilePlan(plan, publishedRules(plan)).shape)
  return { ...model, premiums: premiumDraws(plan.chance, history) }
}

const growthOf = (model: ReturnType<typeof asCounty>, path: number, seed = 9, from?: 'history') => {
  const shocks = expectedShocks(model.shape)
  drawCourse(model, seed, path, shocks, from)
  return shocks.premiumGrowth
}

test('each drawn year is the plan’s growth plus one of the changes less their average, each as often as it was', () => {
  const model = asCounty(invented)
  const counts = new Map<string, number>()
  let sum = 0
  for (let path = 0; path < 2_000; path += 1)
    for (const growth of growthOf(model, path).subarray(0, 20)) {
      counts.set(growth.toFixed(6), (counts.get(growth.toFixed(6)) ?? 0) + 1)
      sum += growth
    }
  // 6 % − 12.5 %, 6 % − 2.5 % and, twice in four, 6 % + 7.5 %.
  expect([...counts.keys()].sort()).toEqual(['-0.065000', '0.035000', '0.135000'])
  const n = 40_000
  const fiveSd = (share: number) => 5 * Math.sqrt(n * share * (1 - share))
  for (const [growth, share] of [
    ['-0.065000', 0.25],
    ['0.035000', 0.25],
    ['0.135000', 0.5],
  ] as const)
    expect(Math.abs(counts.get(growth)! - n * share)).toBeLessThan(fiveSd(share))
  // The four distances squared average 0.006875: the mean of the draws has a standard error of 0.083 / 200.
  expect(Math.abs(sum / n - 0.06)).toBeLessThan((5 * Math.sqrt(0.006875)) / Math.sqrt(n))
})

test('the same draw is high or low in both ways of drawing, and a longer plan leaves the first years as they were', () => {
  const county = asCounty(invented)
  const stated = { ...county, premiums: { spread: 0.03, ownYears: null } }
  for (let path = 0; path < 50; path += 1) {
    const [own, typed] = [growthOf(county, path), growthOf(stated, path)]
    // The lower half of the normal draws is the lower half of the changes.
    for (const [year, growth] of typed.entries()) expect(own[year]! > 0.1).toBe(growth > 0.06)
  }
  expect(growthOf(asCounty(invented, 0.03, 40), 3).subarray(0, 30)).toEqual(growthOf(county, 3))
})

test('Medicare’s premiums, which are no county’s, stray as they did before', () => {
  const county = asCounty(invented)
  const stated = { ...county, premiums: { spread: 0.03, ownYears: null } }
  const [own, typed] = [county, stated].map((model) => {
    const shocks = expectedShocks(model.shape)
    drawCourse(model, 9, 2, shocks)
    return shocks
  })
  expect(own!.medicareGrowth).toEqual(typed!.medicareGrowth)
  // Both rise by 6 % here: by the spread they stray alike.
  for (const [year, growth] of typed!.premiumGrowth.entries())
    expect(typed!.medicareGrowth[year]).toBeCloseTo(growth, 12)
})

test('a county whose premium never changed is the expected course, to the last bit; so is a replay of history', () => {
  const flat = asCounty(
    [2018, 2019, 2020, 2021, 2022].map((year) => ({ year, at21: 310 })),
    0,
  )
  const shocks = expectedShocks(flat.shape)
  drawCourse(flat, 9, 4, shocks)
  expect(shocks).toEqual(expectedShocks(flat.shape))
  const plan = planSchema.parse({
    startMonth: '2026-01',
    years: 30,
    chance: { ...quiet, markets: 'calendar' },
  })
  const replayed = {
    ...chanceModel(plan, flat.shape),
    premiums: asCounty(invented).premiums,
  }
  expect(growthOf(replayed, 4, 9, 'history')).toEqual(growthOf(replayed, 4, 77, 'history'))
})

test('with three known changes the typed spread is drawn, and the page says so', () => {
  const short = invented.slice(0, 4)
  const model = asCounty(short)
  expect(model.premiums).toEqual({ spread: 0.03, ownYears: null })
  const plan = farmPlan({ chance: { premiums: 'county', premiumSpread: 0.04 } })
  const lived = { ...plan, household: { ...plan.household, place: { state: 'OR', county: 'Lane' } as const } }
  expect(premiumWords(lived, short).says).toBe(
    'The plan asks for the county’s own years of premiums, but of Lane, Oregon 3 yearly changes are known, and 4 are needed. The typed spread of 4% is used instead.',
  )
  expect(premiumWords(plan).says).toContain('but it names no county. The typed spread of 4% is used instead.')
  // Distances of −12.5, −2.5, 7.5 and 7.5 points: a spread of 8.3.
  expect(premiumWords(lived, invented).says).toContain(
    'changed 4 times from one year to the next, by −10% to 10%, on average 2.5%, with a spread of 8.3%.',
  )
})

test('a plan takes the years of its own county, and workers give what one process gives', async () => {
  const plan = farmPlan({ chance: { premiums: 'county' } })
  const lived = { ...plan, household: { ...plan.household, place: { state: 'OR', county: 'Lane' } as const } }
  const run = prepareChance(lived, publishedRules(lived), { seed: 5, paths: 60 })
  const history = premiumHistory(lived.household.place)
  expect(run.model.premiums).toMatchObject({ ownYears: { length: history.length - 1 } })
  const memory = courseMemory(run)
  takePaths(run, memory, makeWorkspace(run))
  const pool = new CoursePool(2)
  try {
    expect((await pool.run(run)).figures).toEqual(memory.figures)
  } finally {
    await pool.close()
  }
}, 120_000)
