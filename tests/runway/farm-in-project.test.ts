// The farm's own answers against the projection: a mix, the purchase queue and the course say what `project` says.
import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parseMonth } from '#calendar/month.ts'
import { dial } from '#chance/dials.ts'
import { farmYear } from '#farm/farm-year.ts'
import { farmBeforePhase, phaseWithMix, solveMix } from '#farm/mix/mix.ts'
import { linePayback } from '#farm/payback.ts'
import { loadSolver, type Solver } from '#farm/program.ts'
import { queuePurchases } from '#farm/purchases.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { wholeCourse } from '#runway/course-buffers.ts'
import { rowsOf } from '#runway/figures/month-table.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { claimChoices, expectedCushion, oneAlone, slowerYears } from '#solve/slower-years.ts'
import { cashAhead } from '#today/projection/purchases-ahead.ts'

const sample: Plan = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)
/** The farm alone, at constant prices, no purchases, loans or draws, so that farm cash moves by the net only. */
const still = (plan: Plan): Plan => ({
  ...plan,
  farm: { ...plan.farm, purchases: [], loans: [] },
  draw: { policy: 'steps', steps: [], growth: 0, withPrices: false },
  assumptions: { ...plan.assumptions, inflation: 0, farmPriceGrowth: 0, farmCostGrowth: 0 },
})

let solver: Solver
beforeAll(async () => {
  solver = await loadSolver()
})

test('a mix taken into a phase gives the same net in the projection, to the dollar', () => {
  const phase = sample.farm.phases[0]!
  const year = Number(phase.from.slice(0, 4))
  const farm = { ...farmBeforePhase(sample.farm, phase), herds: [] }
  const mix = solveMix(solver, farm, { year, kind: 'most net' })
  if (mix.kind !== 'found') throw new Error(mix.because)
  const phases = [...farm.phases.slice(0, -1), phaseWithMix(phase, mix)]
  const { months } = project(still({ ...sample, farm: { ...farm, phases } }))
  const net = months
    .filter((one) => one.month.startsWith(String(year)))
    .reduce((sum, one) => sum + one.farmSales - one.farmCosts + one.farmStock, 0)
  expect(Math.abs(net - mix.net)).toBeLessThan(1)
})

test('the farm’s course and the projection agree on every whole year', () => {
  const { months } = project(still(sample))
  for (const year of [2027, 2030, 2035, 2036, 2043, 2050]) {
    const own = farmYear(sample.farm, year)
    const rows = months.filter((one) => one.month.startsWith(String(year)))
    const net = rows.reduce((sum, one) => sum + one.farmSales - one.farmCosts + one.farmStock, 0)
    const sold = sample.farm.phases.filter((phase) => phase.from.startsWith(String(year)))
    const pieces = sold.flatMap((phase) => phase.sales).reduce((sum, sale) => sum + sale.price, 0)
    expect(net).toBeCloseTo(own.net + own.leaseIncome + pieces, 4)
  }
})

test('the purchase queue spends what the projection spends, in the same months', () => {
  const projection = project(sample)
  const { months } = projection
  const { queue } = queuePurchases(sample.farm.purchases, cashAhead(sample, projection))
  const first = parseMonth(sample.startMonth)!
  const spentOwn = new Map<number, number>()
  for (const one of queue.filter((item) => item.bought !== null && item.bought - first < 240))
    spentOwn.set(one.bought! - first, (spentOwn.get(one.bought! - first) ?? 0) + one.cost)
  const spent = months
    .slice(0, 240)
    .flatMap((one, m) => (one.farmPurchases > 0 ? [[m, one.farmPurchases] as const] : []))
  expect(spent.map(([m]) => m)).toEqual([...spentOwn.keys()].sort((a, b) => a - b))
  for (const [m, dollars] of spent) expect(spentOwn.get(m)!).toBeCloseTo(dollars, 6)
})

test('a flock that was there already counts at what such stock costs: it pays back as one bought in that month does', () => {
  const herds = sample.farm.herds.map((herd) => ({ ...herd, ownedAlready: true }))
  const [owned, bought] = [{ ...sample.farm, herds }, sample.farm].map(
    (farm) => linePayback(farm, 'sheep', 30)!,
  )
  expect(owned!.moneyIn).toBeCloseTo(bought!.moneyIn, 6)
  expect(owned!.paidBack).toBe(bought!.paidBack)
})

test('the sample tells its story: sheep pay back late, the second market day is dropped, all but a fortieth of the net holds', () => {
  const back = linePayback(sample.farm, 'sheep', 30)!
  expect(back.monthsToPayBack!).toBeGreaterThanOrEqual(7 * 12)
  expect(back.monthsToPayBack!).toBeLessThan(14 * 12)
  const phase = sample.farm.phases[0]!
  expect(phase.trips.find((one) => one.market === 'wednesday')!.value).toBe(0)
  const year = Number(phase.from.slice(0, 4))
  const [before, after] = [farmYear(sample.farm, year - 1), farmYear(sample.farm, year)]
  // What Wednesday's customers still buy is a share of what it sold, not of what it could have: the net falls by a fortieth.
  expect(after.net / before.net).toBeGreaterThan(0.97)
  expect(after.net / before.net).toBeLessThan(0.98)
  expect(after.hours / before.hours).toBeLessThan(0.9)
})

test('with just the cushion the plan lasts, and with a little less it goes short', () => {
  const rules = publishedRules(sample)
  const cushion = expectedCushion(sample, rules)!
  expect(cushion.needed).toBeGreaterThan(0)
  expect(cushion.needed).toBeLessThan(cushion.savings)
  const compiled = compilePlan(sample, rules)
  const { months } = project(sample, rules)
  const at = months.findIndex((one) => one.month === cushion.month)
  const dialled = dial(compiled, { kind: 'cushion', month: at })
  const course = wholeCourse(dialled.plan)
  const shortWith = (held: number) => {
    dialled.turn(held / months[at - 1]!.level)
    runCourse(dialled.plan, expectedShocks(compiled.shape), course)
    return rowsOf(course.table)
      .slice(at)
      .filter(({ unmetNeed }) => unmetNeed > 0.5).length
  }
  expect(shortWith(cushion.needed)).toBe(0)
  expect(shortWith(cushion.needed - 300)).toBeGreaterThan(0)
})

test('a later claim never lowers what Social Security pays after seventy', () => {
  for (const person of claimChoices(sample, publishedRules(sample))) {
    const monthly = person.choices.map((one) => one.monthlyAfter70!)
    expect([...monthly].sort((a, b) => a - b)).toEqual(monthly)
  }
})

test('one of us alone has less at the end than both of us', () => {
  const rules = publishedRules(sample)
  const both = slowerYears(sample, project(sample, rules)).at(-1)!
  for (const one of oneAlone(sample, rules, parseMonth('2036-01')!))
    expect(one.savingsAtEnd).toBeLessThan(both.savings)
})
