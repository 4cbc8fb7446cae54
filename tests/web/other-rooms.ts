// What Health, Farm, Slower years and the list of what is due say of the plan, held against Runway: one projection, said once.
import { expect } from 'vitest'
import { formatDollars } from '#money/format.ts'
import type { Milestones, ProjectedMonth, ProjectedYear } from '#runway/project.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import type { NowFigures } from '#today/now/figures.ts'
import type { SlowerFigures } from '#today/slower-years/figures.ts'
import type { TestApp } from './test-app.ts'

export interface RunwaySaid {
  milestones: Milestones
  months: ProjectedMonth[]
  years: { year: number; spendable: number; coverRatio: number | null }[]
  yearReturns: ProjectedYear[]
  savingsAtEnd: number
}

/** How much of it there was to hold, so that a house without a farm or coverage proves nothing by itself. */
export interface Held {
  healthYears: number
  farmYears: number
  purchases: number
  phases: number
  taxDue: number
}

/** No raw double: money to the cent, shares and levels to a millionth; and no month that is a bare number. */
export const expectPlain = (figures: unknown, where: string): void =>
  expect([...notPlain(figures, where)]).toEqual([])

/** One by one, told only where they are not: an expectation for each of a million figures takes longer than working them out. */
function* notPlain(figures: unknown, where: string): Generator<string> {
  if (typeof figures === 'number') {
    const shares = Math.abs(figures) < 1 || /level$|Ratio$|ratio$|factor$|Share$/.test(where)
    const isPlain = shares ? /^-?\d+(\.\d{1,6}|e-\d+)?$/ : /^-?\d+(\.\d{1,2})?$/
    if (!isPlain.test(String(figures))) yield `${where}: ${figures}`
    if (/(?<![pP]er)[mM]onth$/.test(where) && !(figures < 1900 * 12)) yield `${where}: month ${figures}`
  } else if (typeof figures === 'object' && figures !== null)
    for (const [name, value] of Object.entries(figures))
      yield* notPlain(value, Array.isArray(figures) ? where : `${where} ${name}`)
}

/** `farmYear`: of the farm's years each one, or each fifth of a house whose every other page is held too. */
export async function expectSameRooms(
  app: TestApp,
  runway: RunwaySaid,
  now: NowFigures,
  farmYear: 'each' | 'each fifth' = 'each',
): Promise<Held> {
  const json = async <Figures>(path: string) => (await (await app.get(path)).json()) as Figures
  const months = new Map(runway.months.map((one) => [one.month, one]))
  const returns = new Map(runway.yearReturns.map((one) => [one.year, one]))

  const health = await json<CoverFigures>('/cover.json')
  let healthYears = 0
  if (health.status === 'read')
    for (const row of health.rows.filter(
      ({ year }) => months.has(`${year}-01`) && months.has(`${year}-12`),
    )) {
      const told = returns.get(row.year)!
      const said = [row.householdIncome, row.povertyPercent, row.credit]
      const projected = [told.householdIncome, told.povertyPercent, told.premiumTaxCredit]
      for (const [k, figure] of said.entries())
        expect(figure, `Health ${row.year} ${k}`).toBeCloseTo(projected[k]!, 2)
      healthYears += 1
    }

  let farmYears = 0
  const first = await json<FarmFigures>('/farm.json')
  const isDescribed = first.lines.length + first.overheads.length + first.purchases.queue.length > 0
  const years = first.years.filter((_, place) => farmYear === 'each' || place % 5 === 0)
  for (const year of isDescribed ? years : []) {
    const rows = runway.months.filter((one) => one.month.startsWith(`${year}-`))
    if (rows.length < 12) continue
    const { summary, lines } = await json<FarmFigures>(`/farm.json?year=${year}`)
    const sum = (pick: (one: ProjectedMonth) => number) => rows.reduce((total, one) => total + pick(one), 0)
    expect(summary.sales, `Farm ${year}`).toBeCloseTo(
      sum((one) => one.farmSales),
      1,
    )
    expect(
      summary.directCosts + summary.marketCosts + summary.overheads + summary.hiredCosts,
      `Farm ${year}`,
    ).toBeCloseTo(
      sum((one) => one.farmCosts),
      1,
    )
    // The lines of work add up to it, as far as everyone lives to work them.
    if (sum((one) => one.undoneHours) === 0 && year < 2045)
      expect(
        lines.reduce((total, one) => total + one.sales, 0),
        `lines ${year}`,
      ).toBeCloseTo(summary.sales + summary.culls, 1)
    farmYears += 1
  }
  for (const { month, dollars } of first.purchases.cash)
    expect(dollars, `farm cash ${month}`).toBeCloseTo(months.get(String(month))!.farmCash, 2)

  const slower = await json<SlowerFigures>('/slower-years.json')
  expect(slower.firstSlower).toBe(runway.milestones.firstSlowerMonth)
  expect(slower.savingsAtEnd).toBe(runway.savingsAtEnd)

  const about = now.due.flatMap(
    ({ says }) => /, about (\$[\d,]+) for the year by the plan/.exec(says)?.[1] ?? [],
  )
  const taxes = runway.yearReturns
    .flatMap(({ tax, stateTax, localTax }) => [tax - stateTax, stateTax - localTax, localTax])
    .map((tax) => formatDollars(tax))
  for (const dollars of about) expect(taxes.slice(0, 3), 'tax that is due').toContain(dollars)
  return {
    healthYears,
    farmYears,
    purchases: first.purchases.cash.length,
    phases: slower.phases.length,
    taxDue: about.length,
  }
}

/** Of a bad year, of drawn courses, of the plan as it was saved, or of a month that is over: told as such, and not the projection’s own. */
const ofAnother =
  /^(storms|worst|badYear|baseline|suggestions|paths|chance|spread|parts|before|runs?|ways|answers?|revisions|plans\.[1-9]\d*)$/

/**
 * Every address of the app that takes nothing: wherever its figures name one of the projection's, whichever page it is, it is that
 * one. Returns where they do.
 */
export async function expectSameNames(
  app: TestApp,
  { milestones, savingsAtEnd }: RunwaySaid,
): Promise<string[]> {
  const told: Record<string, unknown> = {
    ...milestones,
    lowestDollars: milestones.lowestSpendable,
    savingsAtEnd,
  }
  const names = [
    'monthsLeft',
    'floorMonth',
    'carryMonth',
    'lowestMonth',
    'lowestSpendable',
    'lowestDollars',
    'savingsAtEnd',
  ]
  const found: string[] = []
  const look = (figures: unknown, at: string): void => {
    if (typeof figures !== 'object' || figures === null) return
    for (const [name, value] of Object.entries(figures)) {
      const here = `${at} ${name}`
      if (ofAnother.test(name) || ofAnother.test(`${at.split(' ').at(-1)}.${name}`)) continue
      // What a month changed tells months left as they were and as they are.
      const isOne = names.includes(name)
      const now =
        isOne && typeof value === 'object' && value !== null ? (value as { now?: unknown }).now : value
      if (isOne) {
        expect(now, here).toEqual(told[name])
        found.push(here)
      } else look(value, here)
    }
  }
  const addresses = new Set(
    app.routes.filter(({ method, path }) => method === 'GET' && !/[:*.]/.test(path)).map(({ path }) => path),
  )
  for (const path of addresses) {
    const answered = await app.get(`${path}.json`)
    if (answered.headers.get('content-type')?.includes('json') && answered.status === 200)
      look(await answered.json(), path)
  }
  return found
}
