// What holds for every plan: the model's "always true" list and its net draws, each as a function that throws where it does not.
import { expect } from 'vitest'
import { planSchemaTold } from '#plan/form/schema-told.ts'
import type { Plan } from '#plan/plan.ts'
import { compilePlan } from '#runway/compile/compile.ts'
import { wholeCourse } from '#runway/course-buffers.ts'
import { type MonthSeries, monthSeries } from '#runway/figures/course-figures.ts'
import { rowsOf } from '#runway/figures/month-table.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { runCourse } from '#runway/run-course.ts'
import { expectedShocks } from '#runway/shocks.ts'
import { plainCourse } from './plain-month.ts'

const hair = 1e-6

const wobble = (state: number) => {
  let x = state + 1
  return () => {
    x = (x * 48271) % 2147483647
    return x / 2147483647
  }
}

/** A run of a plan under random shocks, as chance draws them. */
const runShocked = (plan: Plan, start: number) => {
  const compiled = compilePlan(plan, publishedRules(plan))
  const shocks = expectedShocks(compiled.shape)
  const next = wobble(start)
  for (let y = 0; y < compiled.years; y += 1) {
    shocks.stocks[y] = 0.07 + 0.35 * (next() - 0.5)
    shocks.bonds[y] = 0.03 + 0.15 * (next() - 0.5)
    shocks.inflation[y] = 0.03 + 0.06 * (next() - 0.5)
    shocks.season[y] = 0.5 + next()
    shocks.premiumGrowth[y] = 0.1 * next()
    shocks.medicareGrowth[y] = shocks.premiumGrowth[y]!
    shocks.careFactor[y] = 2 * next()
  }
  shocks.deathMonth[0] = Math.floor(next() * compiled.months) + 1
  const lost = Math.floor(next() * compiled.months)
  shocks.lossOfWorkMonth[Math.floor(lost / 12)] = lost
  shocks.lossOfWorkMonths[0] = 12
  const buffers = wholeCourse(compiled)
  runCourse(compiled, shocks, buffers)
  return { compiled, buffers }
}

type Run = ReturnType<typeof runShocked>

const savingsBalance = ({ compiled, buffers }: Run) => {
  const { endMonth } = buffers
  const rows = rowsOf(buffers.table)
  let before = compiled.savings.opening.reduce((a, b) => a + b, 0)
  for (let m = 0; m < endMonth; m += 1) {
    const of = (name: MonthSeries) => rows[m]![name]
    const held = of('cash') + of('taxable') + of('traditional') + of('roth')
    const into =
      of('draw') +
      of('pay') +
      of('side') +
      of('socialSecurity') +
      of('saversMatch') +
      of('returns') +
      of('loanDrawn')
    const outOf =
      of('living') +
      of('loanPayments') +
      of('premiums') +
      of('care') +
      of('taxes') +
      of('oneOffs') +
      of('contribution')
    const off = before + into - outOf + of('unmetNeed') - held
    if (Math.abs(off) > hair) throw new Error(`household, month ${m}: off by ${off}`)
    before = held
  }
}

const farmBalance = ({ compiled, buffers }: Run) => {
  const { endMonth } = buffers
  const rows = rowsOf(buffers.table)
  let before = compiled.farm.described ? compiled.farm.openingCash : 0
  for (let m = 0; m < endMonth; m += 1) {
    const of = (name: MonthSeries) => rows[m]![name]
    const into =
      of('farmSales') + of('farmStock') + of('farmLoans') + of('farmPurchaseGains') + of('contribution')
    const off = before + into - of('farmCosts') - of('farmPurchases') - of('draw') - of('farmCash')
    if (Math.abs(off) > hair) throw new Error(`farm, month ${m}: off by ${off}`)
    before = of('farmCash')
  }
}

/** What ventures earn they keep or hand over; what they hold changes by what they keep. */
const ventureBalance = ({ compiled, buffers }: Run) => {
  const { endMonth } = buffers
  const rows = rowsOf(buffers.table)
  let before = compiled.household.ventures.opening.reduce((a, b) => a + b, 0)
  for (let m = 0; m < endMonth; m += 1) {
    const off = before + rows[m]!.sideKept - rows[m]!.ventureCash
    if (Math.abs(off) > hair) throw new Error(`ventures, month ${m}: off by ${off}`)
    before = rows[m]!.ventureCash
  }
}

const nothingBelowZero = ({ buffers }: Run) => {
  const { years, endMonth } = buffers
  const rows = rowsOf(buffers.table)
  for (let m = 0; m < endMonth; m += 1) {
    for (const name of [
      'cash',
      'taxable',
      'traditional',
      'roth',
      'farmCash',
      'ventureCash',
      'unmetNeed',
      'unmetDraw',
    ] as const)
      if (!(rows[m]![name] >= -hair)) throw new Error(`${name} in month ${m}: ${rows[m]![name]}`)
    for (const name of monthSeries)
      if (!Number.isFinite(rows[m]![name])) throw new Error(`${name} in month ${m}: ${rows[m]![name]}`)
  }
  for (const [name, series] of Object.entries(years))
    for (const value of series) if (!Number.isFinite(value)) throw new Error(`${name}: ${value}`)
}

/** Every month of household, farm and ventures balances to a millionth of a dollar, and nothing falls below zero. */
export const everyMonthBalances = (plan: Plan, start: number): void => {
  const run = runShocked(plan, start)
  savingsBalance(run)
  farmBalance(run)
  ventureBalance(run)
  nothingBelowZero(run)
}

/** Planned draws are paid or unmet, more is drawn only to hold the floor, and no draw takes farm cash below its reserve. */
export const drawsAreOfSpareCash = (plan: Plan, start: number): void => {
  const { compiled, buffers } = runShocked(plan, start)
  const { endMonth } = buffers
  const rows = rowsOf(buffers.table)
  for (let m = 0; m < endMonth; m += 1) {
    const paid = rows[m]!.draw + rows[m]!.unmetDraw - rows[m]!.drawToHoldFloor
    if (!(Math.abs(paid - rows[m]!.plannedDraw) < hair / 2)) throw new Error(`month ${m}: paid ${paid}`)
    if (!compiled.farm.described) continue
    if (!(rows[m]!.draw <= rows[m]!.farmSpare + hair)) throw new Error(`month ${m}: over what is spare`)
    const reserve = compiled.farm.reserve * rows[m]!.level
    if (rows[m]!.draw > hair && !(rows[m]!.farmCash >= reserve - hair))
      throw new Error(`month ${m}: ${rows[m]!.farmCash} is under the reserve of ${reserve}`)
  }
}

/** Net draws never exceed what can be spared, and no draw is put back within the year. */
export const noDrawIsPutBack = (plan: Plan): void => {
  const { months } = project(plan)
  const compiled = compilePlan(plan, publishedRules(plan))
  const deaths = compiled.shape.plannedDeathMonth
  let lastDraw = Number.NEGATIVE_INFINITY
  months.forEach((month, m) => {
    if (compiled.farm.described) expect(month.draw).toBeLessThanOrEqual(month.farmSpare + hair)
    // A death within the year is foreseen by nobody.
    const afterDeath = deaths.some((death) => m >= death && m - death < 12)
    if (month.contribution > hair && !afterDeath) expect(m - lastDraw).toBeGreaterThan(11)
    if (month.draw > hair) lastDraw = m
  })
}

export const noShocksAreTheExpectedCourse = (plan: Plan): void => {
  const rules = publishedRules(plan)
  const compiled = compilePlan(plan, rules)
  expect(project(plan, rules, expectedShocks(compiled.shape))).toEqual(project(plan, rules))
}

export const buffersForgetTheLastRun = (plan: Plan): void => {
  const compiled = compilePlan(plan, publishedRules(plan))
  const once = wholeCourse(compiled)
  const twice = wholeCourse(compiled)
  runCourse(compiled, expectedShocks(compiled.shape), once)
  runCourse(compiled, expectedShocks(compiled.shape), twice)
  runCourse(compiled, expectedShocks(compiled.shape), twice)
  expect(rowsOf(twice.table)).toEqual(rowsOf(once.table))
  expect(twice.years).toEqual(once.years)
}

const monthsLeft = (plan: Plan) => project(plan).milestones.monthsLeft ?? Number.POSITIVE_INFINITY

/** Without tax, with surplus kept spendable and savings that do not lose. */
export const moreSavingsNeverShorten = (drawn: Plan, extra: number): void => {
  const plan: Plan = {
    ...drawn,
    tax: { ...drawn.tax, method: 'none' },
    savings: {
      ...drawn.savings,
      surplusToRetirement: 0,
      accounts: drawn.savings.accounts.filter((one) => one.kind === 'cash'),
    },
    household: { ...drawn.household, sideVentures: [] },
    assumptions: { ...drawn.assumptions, stocks: Math.max(0.01, drawn.assumptions.stocks) },
  }
  const richer: Plan = {
    ...plan,
    savings: {
      ...plan.savings,
      accounts: plan.savings.accounts.map((one) => ({ ...one, balance: one.balance + extra })),
    },
  }
  expect(monthsLeft(richer)).toBeGreaterThanOrEqual(monthsLeft(plan))
}

export const aHigherFloorNeverLengthens = (plan: Plan, floor: number, more: number): void => {
  const withFloor = (dollars: number): Plan => ({
    ...plan,
    household: { ...plan.household, floor: { kind: 'dollars', dollars } },
  })
  expect(monthsLeft(withFloor(floor + more))).toBeLessThanOrEqual(monthsLeft(withFloor(floor)))
}

/** Without law, every amount doubled doubles every dollar. */
export const doubledDoubles = (drawn: Plan): void => {
  const alone: Plan = {
    ...drawn,
    tax: { ...drawn.tax, method: 'share' },
    household: { ...drawn.household, people: [], pay: [], sideVentures: [], dependents: [] },
    health: { ...drawn.health, marketplace: { ...drawn.health.marketplace, members: [] } },
    savings: { ...drawn.savings, surplusToRetirement: 0, contributions: [] },
  }
  onlyNumbers(alone)
  // Whatever taxes are worked out by, the premium credit is the law's own, which knows no doubled poverty level: none is left to settle.
  const soFar = { ...drawn.tax.soFar, advanceCredit: 0, marketplaceBenchmark: 0 }
  const plan: Plan = { ...alone, tax: { ...alone.tax, soFar } }
  const once = project(plan)
  const twice = project(doubled(plan))
  once.months.forEach((month, m) => {
    expect(twice.months[m]!.cash).toBeCloseTo(2 * month.cash, 4)
    expect(twice.months[m]!.farmCash).toBeCloseTo(2 * month.farmCash, 4)
    expect(twice.months[m]!.unmetNeed).toBeCloseTo(2 * month.unmetNeed, 4)
  })
}

const onlyNumbers = (plan: Plan): void => {
  const { months, years } = project(plan)
  for (const row of [...months, ...years])
    for (const [name, value] of Object.entries(row))
      if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${name}: ${value}`)
}

const figures = [
  'draw',
  'contribution',
  'unmetDraw',
  'farmCash',
  'ventureCash',
  'farmSales',
  'farmCosts',
  'farmHours',
  'hiredHours',
  'living',
  'farmGoods',
  'premiums',
  'care',
  'taxes',
  'stateTaxes',
  'socialSecurity',
  'othersBenefits',
  'cash',
  'taxable',
  'traditional',
  'roth',
  'taxOwed',
  'spendable',
  'unmetNeed',
  'floor',
] as const

/** What the second, plain writing of the months says otherwise than the run, by a cent or more: the first of it, or null. */
export const firstDifference = (plan: Plan): string | null => {
  const fast = project(plan).months
  const plain = plainCourse(plan)
  if (fast.length !== plain.length) return `${fast.length} months against ${plain.length}`
  for (const [m, month] of plain.entries())
    for (const name of figures) {
      const off = Math.abs(fast[m]![name] - month[name].toNumber())
      if (!(off < 0.01)) return `${month.month}, ${name}: ${fast[m]![name]} against ${month[name].toFixed(6)}`
    }
  return null
}

/** A part of the plan's schema as it is told: `unit` says which numbers are money. */
interface Shape {
  type?: string
  const?: unknown
  unit?: string | undefined
  properties?: Record<string, Shape>
  items?: Shape
  additionalProperties?: Shape | boolean
  anyOf?: Shape[]
  oneOf?: Shape[]
}

const planShape = planSchemaTold() as Shape

/** With every amount doubled: what is an amount is read from the schema, so that a new one is among them. */
const doubled = <Value>(value: Value, shape: Shape | undefined = planShape): Value => {
  const fitting = (shape?.anyOf ?? shape?.oneOf)?.find((one) => fits(value, one)) ?? shape
  const unit = shape?.unit ?? fitting?.unit
  if (typeof value === 'number') return (unit?.startsWith('dollars') ? value * 2 : value) as Value
  if (Array.isArray(value))
    return value.map((one) =>
      doubled(one, { ...fitting?.items, unit: unit ?? fitting?.items?.unit }),
    ) as Value
  if (typeof value !== 'object' || value === null) return value
  const { properties = {}, additionalProperties } = fitting ?? {}
  const others = typeof additionalProperties === 'object' ? additionalProperties : undefined
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [name, doubled(one, properties[name] ?? others)]),
  ) as Value
}

const fits = (value: unknown, shape: Shape): boolean => {
  if (Array.isArray(value)) return shape.type === 'array'
  if (typeof value !== 'object' || value === null) return shape.type === typeof value
  const given = value as Record<string, unknown>
  return Object.entries(shape.properties ?? {}).every(
    ([name, one]) => one.const === undefined || one.const === given[name],
  )
}
