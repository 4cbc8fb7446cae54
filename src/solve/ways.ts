// Named ways of doing one thing, each a change of the plan: all of them run on the same simulations, today's plan among them.

import { formatDollars, formatPercent } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { inDollars } from '#runway/dollars/dollars.ts'
import type { Projection } from '#runway/project.ts'
import { type Asking, type Certainty, type NotReached, roundOf } from './question.ts'
import { isSurer, isWorse, type Ran, runOf, type Standing, type Surer, surerBy } from './standing.ts'
import { orderWays } from './ways/account-order.ts'
import { lossWays } from './ways/losses.ts'
import type { Way } from './ways/way.ts'

export type WaysQuestion = 'account-order' | 'losses'

export interface Ways extends Certainty {
  question: WaysQuestion
  answer: BestWay | NotReached
  /** As planned first. */
  ways: WayTried[]
  /** Year by year on the expected course: the plan, and beside it the best of the others. */
  years: WayYear[]
  beside: string
  sentence: string
  why: string
}

export interface BestWay {
  kind: 'reached'
  /** Short name of it; `plan` where none is better. */
  best: string
  /** The one that keeps savings above the floor most often by more than chance, where that is another: it may leave less. Null for none. */
  steadiest: string | null
}

export interface WayTried extends Standing {
  id: string
  name: string
  says: string
  worse: boolean
  surer: boolean
  /** On the expected course over all years: federal and state tax less what comes back, and the premium credit. */
  tax: number
  credit: number
  /** Left at the end more than by the plan: in the middle of all courses, and the share of courses in which it is more less the share in which it is less. */
  leftMore: number
  endsWithMore: Surer
}

export interface WayYear {
  year: number
  plan: WayFlows
  other: WayFlows
}

export interface WayFlows {
  taxable: number
  traditional: number
  roth: number
  tax: number
  credit: number
}

const waysOf: Readonly<Record<WaysQuestion, (plan: Plan) => readonly Way[]>> = {
  'account-order': orderWays,
  losses: lossWays,
}

const whys: Readonly<Record<WaysQuestion, string>> = {
  'account-order':
    'Money from a traditional account is income: it is taxed, and it lowers the premium credit or ends Medicaid in its year. Contributions to a Roth come out free; an account used up early cannot grow on.',
  losses:
    'A loss is worth the tax of the year it is set against: back, that of the two years before, at once; forward, that of later years. Writing off at once lowers the income of its year, which moves credits and cover too, and leaves less to write off later.',
}

/** The change that a way makes, found again by its short name. */
export const changeOf =
  (question: WaysQuestion, id: string) =>
  (plan: Plan): Plan =>
    waysOf[question](plan)
      .find((way) => way.id === id)
      ?.change(plan) ?? plan

interface RanWay {
  way: Way
  ran: Ran
  end: Float64Array
  expected: Projection
}

export async function solveWays(question: WaysQuestion, asking: Asking): Promise<Ways> {
  const { plan, seed, paths, confidence } = asking
  const about = { question, confidence, paths, seed } as const
  const others = waysOf[question](plan)
  if (others.length === 0) {
    const because = nothingToChoose[question]
    return {
      ...about,
      answer: { kind: 'cannot be reached', because },
      ways: [],
      years: [],
      beside: 'plan',
      sentence: because,
      why: '',
    }
  }
  const ways: Way[] = [{ id: 'plan', name: 'As planned', says: '', change: (same) => same }, ...others]
  const all: RanWay[] = []
  for (const [place, way] of ways.entries()) {
    const changed = way.change(plan)
    const ran = await runOf(asking, changed, roundOf(asking, place, ways.length))
    all.push({ way, ran, end: afterTax(ran), expected: inDollars(asking.project(changed), asking.dollars) })
  }
  const own = all[0]!
  const tried = all.map((one) => triedOf(one, own))
  const best = bestOf(tried)
  const steadiest = steadiestOf(tried, best)
  const besides = best.id === 'plan' ? steadiest?.id : best.id
  const other = all.find(({ way }) => way.id === besides) ?? all[nextBest(tried)]!
  return {
    ...about,
    answer: { kind: 'reached', best: best.id, steadiest: steadiest?.id ?? null },
    ways: tried,
    years: yearsOf(own.expected, other.expected),
    beside: other.way.id,
    sentence: say(tried, best, steadiest),
    why: whys[question],
  }
}

const nothingToChoose: Readonly<Record<WaysQuestion, string>> = {
  'account-order':
    'This cannot be reached, because the plan has savings of one kind only: there is no order to choose.',
  losses:
    'This cannot be reached, because the plan has no farm whose losses or purchases could be written off.',
}

/** Our own assumption: what is left in traditional accounts bears the second of the federal rates when it is taken out. */
const rateLater = 0.12

const afterTax = ({ atEndBy, untaxedBy }: Ran): Float64Array =>
  atEndBy.map((each, path) => each - rateLater * untaxedBy[path]!)

function triedOf({ way, ran, end, expected }: RanWay, own: RanWay): WayTried {
  const sum = (name: 'tax' | 'premiumTaxCredit') => expected.years.reduce((all, year) => all + year[name], 0)
  const more = end.map((each, path) => each - own.end[path]!).sort()
  return {
    id: way.id,
    name: way.name,
    says: way.says,
    ...ran.standing,
    worse: isWorse(ran, own.ran),
    surer: isSurer(ran, own.ran),
    tax: sum('tax'),
    credit: sum('premiumTaxCredit'),
    leftMore: more[Math.floor(more.length / 2)]!,
    endsWithMore: surerBy(end, own.end),
  }
}

/**
 * Of those no worse than the plan in either way of holding: the one that leaves most in the middle course, if it leaves more in more
 * courses than it leaves less. What only moves money to where the floor counts it is no gain.
 */
function bestOf(tried: readonly WayTried[]): WayTried {
  const better = tried.filter((way) => !way.worse && way.leftMore > 1 && way.endsWithMore.low > 0)
  return better.reduce((best, way) => (way.leftMore > best.leftMore ? way : best), tried[0]!)
}

const steadiestOf = (tried: readonly WayTried[], best: WayTried): WayTried | null => {
  const surer = tried.filter((way) => way.surer && !way.worse && way.id !== best.id)
  const most = surer.reduce<WayTried | null>(
    (first, way) => (first === null || way.aboveFloor.share > first.aboveFloor.share ? way : first),
    null,
  )
  return most !== null && most.aboveFloor.share > best.aboveFloor.share ? most : null
}

/** Place of the way to show beside a plan that is the best: the one that leaves most of the others. */
const nextBest = (tried: readonly WayTried[]): number => {
  const others = tried.slice(1)
  return 1 + others.indexOf(others.reduce((most, way) => (way.leftMore > most.leftMore ? way : most)))
}

const flowsOf = ({ months, years }: Projection, year: number): WayFlows => {
  const of = months.filter((one) => one.month.startsWith(`${year}-`))
  const sum = (name: 'withdrawnTaxable' | 'withdrawnTraditional' | 'withdrawnRoth') =>
    of.reduce((all, month) => all + month[name], 0)
  const row = years.find((one) => one.year === year)
  return {
    taxable: sum('withdrawnTaxable'),
    traditional: sum('withdrawnTraditional'),
    roth: sum('withdrawnRoth'),
    tax: row?.tax ?? 0,
    credit: row?.premiumTaxCredit ?? 0,
  }
}

const yearsOf = (plan: Projection, other: Projection): WayYear[] =>
  plan.years.map(({ year }) => ({ year, plan: flowsOf(plan, year), other: flowsOf(other, year) }))

function say(tried: readonly WayTried[], best: WayTried, steadiest: WayTried | null): string {
  const plan = tried[0]!
  const share = ({ held, aboveFloor }: WayTried) =>
    `nothing goes unpaid in ${formatPercent(held.share, 1)} of simulations, and savings stay above the floor in ${formatPercent(aboveFloor.share, 1)}`
  const trade =
    steadiest === null
      ? ''
      : ` At a price: with “${steadiest.name}” savings stay above the floor most often, in ${formatPercent(steadiest.aboveFloor.share, 1)} of simulations, and ${leftIn(steadiest)}.`
  if (best.id === 'plan')
    return `None of the ${tried.length - 1} other ways tried leaves more than today’s plan by more than chance without being less sure: as planned ${share(plan)}.${trade}`
  const tax = best.tax - plan.tax
  const taxes =
    Math.abs(tax) < 50
      ? ''
      : ` Over all years the expected taxes are ${formatDollars(Math.abs(tax))} ${tax < 0 ? 'less' : 'more'}.`
  return `Best of those tried: ${best.name}. Then ${share(best)}; as planned ${share(plan)}. Then ${leftIn(best)}.${taxes}${trade}`
}

/** Beside the plan, with how sure that is. */
function leftIn({ leftMore, endsWithMore: { share, low, high } }: WayTried): string {
  const word = leftMore >= 0 ? 'more' : 'less'
  const sign = leftMore >= 0 ? 1 : -1
  const [first, last] = [sign * low, sign * high].sort((one, two) => one - two)
  return `${formatDollars(Math.abs(leftMore))} ${word} is left at the end in the middle simulation than as planned (simulations that end with ${word} outnumber the others by ${formatPercent(sign * share, 0)} of all, between ${formatPercent(first!, 0)} and ${formatPercent(last!, 0)})`
}
