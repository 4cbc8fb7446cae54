// Named ways of doing one thing, each a change of the plan: all of them run on the same simulations, today's plan among them.

import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { statePrograms } from '#rules/coverage/coverage-kinds.ts'
import { inDollars } from '#runway/dollars/dollars.ts'
import type { Projection } from '#runway/project.ts'
import { type Asking, partOf, saidIn } from './question.ts'
import { firstOf, isSurer, isWorse, type Ran, runOf, surerBy, worseBy } from './standing.ts'
import { inheritedEvenlyId, orderNamed, orderWays } from './ways/account-order.ts'
import { chosenOf } from './ways/best-way.ts'
import { conversionNamed, conversionWays, convertingFrom, laterYears } from './ways/conversions.ts'
import { lossNamed, lossWays } from './ways/losses.ts'
import type { Way } from './ways/way.ts'
import type { WayFlows, Ways, WaysQuestion, WayTried, WayYear } from './ways/ways-answer.ts'
import { sayWays, whyOfWays } from './ways/ways-words.ts'
import { type YearAhead, yearsAhead } from './ways/years-ahead.ts'

const waysOf: Readonly<Record<WaysQuestion, (plan: Plan) => readonly Way[]>> = {
  'account-order': (plan) => [...orderWays(plan), ...conversionWays(plan)],
  losses: lossWays,
}

/** Two ways together have the names of both. */
const together = '+'

const wayNamed: Readonly<Record<WaysQuestion, (plan: Plan, id: string) => Way | undefined>> = {
  'account-order': (plan, id) => orderNamed(plan, id) ?? conversionNamed(plan, id),
  losses: (_, id) => lossNamed(id),
}

/** The change that a way makes, found again by its short name; null where this plan has no such way, or not every part of it. */
export const changeOf =
  (question: WaysQuestion, id: string) =>
  (plan: Plan): Plan | null => {
    let changed = plan
    for (const part of id.split(together)) {
      const way = wayNamed[question](plan, part)
      if (way === undefined) return null
      changed = way.change(changed)
    }
    return changed
  }

/** Share of the work after which only the years are left to compare. */
const yearsPart = 0.93

interface RanWay {
  way: Way
  ran: Ran
  end: Float64Array
  paths: number
}

/** All ways are tried on few simulations; the likeliest, and what the best conversion and the best order make together, on all. */
const fewPaths = 100
const finalists = 4

export async function solveWays(question: WaysQuestion, asking: Asking): Promise<Ways> {
  const { plan, seed, paths, confidence } = asking
  const laterRate = asking.laterRate ?? laterRateOf(plan)
  const about = { question, confidence, paths, seed, laterRate } as const
  const others = waysOf[question](plan)
  if (others.length === 0) {
    const because = nothingToChoose[question]
    const answer = { kind: 'cannot be reached', because } as const
    return { ...about, answer, ways: [], years: [], beside: 'plan', ...saidIn(because), why: '' }
  }
  const waysTried = { ...asking, ...partOf(asking, 0, yearsPart) }
  const { own, rest, fewer } = await tryAll(question, waysTried, others, laterRate)
  const expected = (way: Way) => inDollars(asking.project(way.change(plan)), asking.dollars)
  const courses = new Map([own, ...rest, ...fewer].map(({ way }) => [way.id, expected(way)]))
  const ownCourse = courses.get('plan')!
  const tried = [own, ...rest].map((one) => triedOf(one, own, courses.get(one.way.id)!, ownCourse))
  const onFew = fewer.map((one) =>
    triedOf(one, wayOfFirst(own, one.paths), courses.get(one.way.id)!, ownCourse),
  )
  const chosen = chosenOf(tried)
  const { best, steadiest } = chosen
  const besides = best.id === 'plan' ? steadiest?.id : best.id
  const beside = tried.find(({ id }) => id === besides) ?? nextBest(tried)
  const { way } = rest.find((one) => one.way.id === beside.id)!
  const ahead = await yearsAhead(asking, way.change(plan), laterRate, partOf(asking, yearsPart, 1))
  return {
    ...about,
    answer: { kind: 'reached', best: best.id, steadiest: steadiest?.id ?? null },
    ways: [...tried, ...onFew],
    years: yearsOf(ownCourse, courses.get(beside.id)!, ahead),
    beside: beside.id,
    ...sayWays([...tried, ...onFew], chosen, laterRate, firstMonthOf(plan)),
    why: whyOfWays(question, laterRate, isTaxed(plan)),
  }
}

/** The plan and the likeliest ways on all simulations, and the others on few. */
async function tryAll(question: WaysQuestion, asking: Asking, others: readonly Way[], laterRate: number) {
  const { plan, paths } = asking
  const few = Math.min(paths, fewPaths)
  const isCoarse = few < paths && others.length > finalists
  const pairs = 8
  const expectedCourses = isCoarse
    ? (others.length + pairs) * few + (finalists + 1) * paths
    : (others.length + pairs + 1) * paths
  let done = 0
  const run = async (way: Way, count: number): Promise<RanWay> => {
    const from = Math.min(done, expectedCourses - count) / expectedCourses
    done += count
    const part = partOf(asking, from, Math.min(1, done / expectedCourses))
    const ran = await runOf({ ...asking, paths: count }, way.change(plan), part)
    return { way, ran, end: afterTax(ran, laterRate), paths: count }
  }
  const own = await run(asPlanned, paths)
  const ownOfFew = wayOfFirst(own, few)
  const first: RanWay[] = []
  for (const way of others) first.push(await run(way, few))
  for (const way of laterOf(question, plan, first, ownOfFew)) first.push(await run(way, few))
  for (const way of pairsOf(question, first, ownOfFew)) first.push(await run(way, few))
  if (!isCoarse) return { own, rest: first, fewer: [] }
  const likely = likeliest(first, ownOfFew)
  const rest: RanWay[] = []
  for (const { way } of likely) rest.push(await run(way, paths))
  return { own, rest, fewer: first.filter((one) => !likely.includes(one)) }
}

const asPlanned: Way = { id: 'plan', name: 'As planned', says: '', change: (same) => same }

/** The same way on the first of its simulations. */
const wayOfFirst = ({ way, ran, end }: RanWay, paths: number): RanWay => ({
  way,
  ran: firstOf(ran, paths),
  end: end.slice(0, paths),
  paths,
})

const leftMoreOf = (one: RanWay, own: RanWay): number => {
  return medianOf(one.end.map((each, path) => each - own.end[path]!))
}

const medianOf = (each: Float64Array): number => each.slice().sort()[Math.floor(each.length / 2)]!

const isConversion = ({ way }: RanWay) => way.id.startsWith('convert-') && way.id !== 'convert-nothing'

const byLeftMost = (ways: readonly RanWay[], own: RanWay) =>
  [...ways].sort((a, b) => leftMoreOf(b, own) - leftMoreOf(a, own))

/** The two conversions that leave most, begun later. */
function laterOf(question: WaysQuestion, plan: Plan, first: readonly RanWay[], own: RanWay): Way[] {
  if (question !== 'account-order') return []
  const best = byLeftMost(first.filter(isConversion), own).slice(0, 2)
  return best.flatMap(({ way }) => laterYears(plan).map((year) => convertingFrom(way, year)))
}

/**
 * Of those no worse than the plan, else of all, the best conversion with the best order of accounts, and with the next; what was inherited
 * in even parts with the best two conversions.
 */
function pairsOf(question: WaysQuestion, first: readonly RanWay[], own: RanWay): Way[] {
  if (question !== 'account-order') return []
  const byLeft = byLeftMost(first, own)
  const conversions = byLeft.filter(isConversion)
  const safe = conversions.filter((one) => !isWorse(one.ran, own.ran))
  const best = (safe.length > 0 ? safe : conversions).slice(0, 2)
  const orders = byLeft.filter((one) => !isConversion(one)).slice(0, 2)
  const evenly = first.filter(({ way }) => way.id === inheritedEvenlyId)
  return [
    ...best.slice(0, 1).flatMap((conversion) => orders.map((one) => pairOf(one.way, conversion.way))),
    ...evenly.flatMap((one) =>
      best.slice(orders.includes(one) ? 1 : 0).map((conversion) => pairOf(one.way, conversion.way)),
    ),
  ]
}

const pairOf = (one: Way, other: Way): Way => ({
  id: `${one.id}${together}${other.id}`,
  name: `${one.name}; ${other.name.charAt(0).toLowerCase()}${other.name.slice(1)}`,
  says: `Both together. ${one.says} ${other.says}`,
  change: (plan) => other.change(one.change(plan)),
})

/** Those that leave most and are no worse than the plan, the one that keeps savings above the floor most often, and the one that pays longest. */
function likeliest(first: readonly RanWay[], own: RanWay): RanWay[] {
  const safe = first.filter((one) => !isWorse(one.ran, own.ran))
  const pool = safe.length === 0 ? first : safe
  const above = ({ ran }: RanWay) => sum(ran.aboveBy)
  const steadiest = pool.reduce((most, one) => (above(one) > above(most) ? one : most))
  const paid = ({ ran }: RanWay) => [sum(ran.heldBy), medianOf(ran.shortBy), -sum(ran.unpaidBy)]
  const paysMost = pool.reduce((most, one) => {
    const [pays, paying] = [paid(one), paid(most)]
    const apart = pays.findIndex((each, k) => each !== paying[k])
    return apart >= 0 && pays[apart]! > paying[apart]! ? one : most
  })
  const byLeft = byLeftMost(pool, own)
  return [...new Set([...byLeft.slice(0, finalists - 1), steadiest, paysMost])]
}

const sum = (each: Float64Array): number => each.reduce((all, one) => all + one, 0)

const nothingToChoose: Readonly<Record<WaysQuestion, string>> = {
  'account-order':
    'This cannot be reached, because the plan has savings of one kind only: there is no order to choose.',
  losses:
    'This cannot be reached, because the plan has no farm whose losses or purchases could be written off.',
}

/** Our own assumption where nobody types another: the second of the federal rates. */
const usualLaterRate = 0.12

const isTaxed = ({ tax }: Plan): boolean => tax.method !== 'none'

/** A plan that counts no tax now counts none later. */
export const laterRateOf = (plan: Plan): number => (isTaxed(plan) ? usualLaterRate : 0)

const afterTax = ({ atEndBy, untaxedBy }: Ran, laterRate: number): Float64Array =>
  atEndBy.map((each, path) => each - laterRate * untaxedBy[path]!)

function triedOf(one: RanWay, own: RanWay, course: Projection, ownCourse: Projection): WayTried {
  const { way, ran, end, paths } = one
  const runsShort = runsShortOf(one, course)
  const planned = runsShortOf(own, ownCourse)
  const worseIn = worseBy(ran, own.ran) ?? (isSooner(runsShort, planned) ? 'short' : null)
  const sum = (name: 'tax' | 'premiumTaxCredit') => course.years.reduce((all, year) => all + year[name], 0)
  return {
    id: way.id,
    name: way.name,
    says: way.says,
    paths,
    ...ran.standing,
    runsShort,
    worse: worseIn !== null,
    worseIn,
    surer: isSurer(ran, own.ran),
    tax: sum('tax'),
    credit: sum('premiumTaxCredit'),
    programs: programsOf(course),
    holdsMore: surerBy(ran.heldBy, own.ran.heldBy),
    paysLonger: surerBy(ran.shortBy, own.ran.shortBy),
    paysMore: surerBy(own.ran.unpaidBy.map(Math.round), ran.unpaidBy.map(Math.round)),
    unpaid: medianOf(ran.unpaidBy),
    leftMore: leftMoreOf(one, own),
    endsWithMore: surerBy(end, own.end),
  }
}

/** By household income, as the credit is: one is in one of them or has the credit. */
const programsOf = ({ coverage }: Projection): WayTried['programs'] =>
  [...statePrograms]
    .map((program) => ({
      program,
      months: coverage.reduce((all, { months }) => all + months.filter((kind) => kind === program).length, 0),
    }))
    .filter(({ months }) => months > 0)

/** To show beside a plan that is the best: the one that leaves most of the others. */
const nextBest = ([, ...others]: readonly WayTried[]): WayTried =>
  others.reduce((most, way) => (way.leftMore > most.leftMore ? way : most))

const flowsOf = ({ months, years }: Projection, year: number): WayFlows => {
  const of = months.filter((one) => one.month.startsWith(`${year}-`))
  const sum = (
    name: 'withdrawnTaxable' | 'withdrawnTraditional' | 'withdrawnRoth' | 'withdrawnHealth' | 'converted',
  ) => of.reduce((all, month) => all + month[name], 0)
  const row = years.find((one) => one.year === year)
  return {
    taxable: sum('withdrawnTaxable'),
    traditional: sum('withdrawnTraditional'),
    roth: sum('withdrawnRoth'),
    health: sum('withdrawnHealth'),
    converted: sum('converted'),
    tax: row?.tax ?? 0,
    credit: row?.premiumTaxCredit ?? 0,
  }
}

/** On the simulations of the way. */
const runsShortOf = ({ ran, paths }: RanWay, { months, milestones }: Projection): WayTried['runsShort'] => {
  const place = months.findIndex(({ month }) => month === milestones.runsShort)
  return {
    median: medianOf(firstOf(ran, paths).shortBy),
    expected: place < 0 ? Number.POSITIVE_INFINITY : place,
  }
}

/** A way with which money runs short sooner, in the middle or as expected, is never better, whatever chance says. */
const isSooner = (one: WayTried['runsShort'], plan: WayTried['runsShort']): boolean =>
  one.median < plan.median || one.expected < plan.expected

const yearsOf = (plan: Projection, other: Projection, ahead: Map<number, YearAhead>): WayYear[] =>
  plan.years.map(({ year }) => ({
    year,
    plan: flowsOf(plan, year),
    other: flowsOf(other, year),
    more: ahead.get(year) ?? null,
  }))
