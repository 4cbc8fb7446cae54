// What the answer about ways of doing one thing says in words: the best of them with its price, and why it is so.
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { type Said, saidIn } from '../question.ts'
import { sayHolding, sayHoldingBeside } from '../standing.ts'
import type { Chosen } from './best-way.ts'
import type { WaysQuestion, WayTried } from './ways-answer.ts'

export const whyOfWays = (question: WaysQuestion, laterRate: number, isTaxed: boolean): string =>
  !isTaxed && laterRate === 0
    ? untaxed
    : `${whys[question]} What is left untaxed in traditional accounts counts less ${formatPercent(laterRate, 0)}, the tax on it later, yours or that of whoever is left with it; nothing is taken off Roth accounts. That rate is our own assumption: type yours.`

const untaxed =
  'The plan counts no tax: accounts differ only by what they earn, and by when they can be used.'

const whys: Readonly<Record<WaysQuestion, string>> = {
  'account-order':
    'Money from a traditional account is income: it is taxed, and it lowers the premium credit or ends Medicaid in its year. Converting pays that tax early, at the rate of a poor year. Contributions to a Roth come out free, what was converted after five years or at 59½.',
  losses:
    'A loss is worth the tax of the year it is set against: back, that of the two years before, at once; forward, that of later years. Writing off at once lowers the income of its year, which moves credits and cover too, and leaves less to write off later.',
}

export function sayWays(
  tried: readonly WayTried[],
  { most, best, steadiest }: Chosen,
  laterRate: number,
  firstMonth: number,
): Said {
  const plan = tried[0]!
  const short = runsShortWith(best, plan, firstMonth)
  const same = tried.slice(1).filter((way) => isSame(way, plan))
  if (same.length > 0 && tried.slice(1).every((way) => way.worse || same.includes(way)))
    return saidIn(sayNothing(tried, same.length), `As planned ${sayHolding(plan)}.`, short)
  if (best.id === 'plan')
    return saidIn(
      `None of the ${tried.length - 1} other ways tried leaves more than today’s plan by more than chance without being less sure: as planned ${sayHolding(plan)}.`,
      short,
      surest(steadiest, best),
    )
  const lost = worseIn(best, plan)
  const left = `${leftIn(best, plan, laterRate)}${taxes(best, plan)}`
  const unpaid = lessUnpaid(best, plan)
  const instead = insteadOf(most, best)
  // Called the best only where no figure is worse; else by what it is the best, and what that costs.
  if (lost.length > 0)
    return saidIn(
      `“${best.name}”${instead === '' ? '' : `${instead},`} ${bestBy(most, best, plan)}, and costs this against today’s plan: ${lost.join(', and ')}. With it ${unpaid === '' ? '' : `${unpaid}, and `}${left}.`,
      short,
      surest(steadiest, best),
    )
  return saidIn(
    `Best of those tried: ${best.name}${unpaid === '' ? '' : `, with which ${unpaid}`}${instead}: ${left}.`,
    short,
    `${sayHoldingBeside(best, plan)}.`,
    surest(steadiest, best),
  )
}

/** What it was chosen by (`chosenOf`). */
function bestBy(most: WayTried, best: WayTried, plan: WayTried): string {
  if (most.id !== best.id) return 'is the surest of those tried that leave nearly as much'
  if (best.holdsMore.low > 0) return 'leaves most of the ways tried that pay all bills most often'
  if (plan.held.share < 0.5 && best.paysLonger.low > 0)
    return 'leaves most of the ways tried with which money lasts longest'
  return plan.held.share < 0.5 && best.paysMore.low > 0
    ? 'leaves most of the ways tried with which least goes unpaid'
    : 'leaves most of the ways tried'
}

const taxes = (best: WayTried, plan: WayTried): string => {
  const tax = best.tax - plan.tax
  return Math.abs(tax) < 50
    ? ''
    : `, and over all years the expected taxes are ${formatDollars(Math.abs(tax))} ${tax < 0 ? 'less' : 'more'}`
}

/** Pays as much, is as sure and leaves the same to the dollar. */
const isSame = (way: WayTried, plan: WayTried): boolean =>
  Math.abs(way.leftMore) <= 1 &&
  Math.abs(way.unpaid - plan.unpaid) <= 1 &&
  [way.holdsMore, way.paysMore, way.endsWithMore].every(({ low, high }) => low <= 0 && high >= 0)

function sayNothing(tried: readonly WayTried[], same: number): string {
  const why = tried.every(({ tax }) => Math.abs(tax) < 1) ? ', because no tax is paid' : ''
  const others = tried.length - 1
  const which = same === others ? `all ${others}` : `${same} of the ${others}`
  return `Nothing of this matters here${why}: ${which} other ways tried pay and leave the same as today’s plan, and none does better.`
}

/** Where money runs short, when: in the middle simulation and on the expected course, which the Runway page shows. */
function runsShortWith(best: WayTried, plan: WayTried, firstMonth: number): string {
  const when = (month: number) =>
    Number.isFinite(month) ? `in ${monthName(addMonths(firstMonth as Month, month))}` : 'never'
  const told = ([of, where]: readonly ['median' | 'expected', string]): string[] => {
    const [then, planned] = [best.runsShort[of], plan.runsShort[of]]
    if (!Number.isFinite(then) && !Number.isFinite(planned)) return []
    if (best.id === 'plan') return [`${when(planned)} ${where}`]
    return then === planned
      ? [`${when(planned)} with it and as planned ${where}`]
      : [`${when(then)} with it and ${when(planned)} as planned ${where}`]
  }
  const parts = [
    ...told(['median', 'in the middle simulation']),
    ...told(['expected', 'when all goes as expected']),
  ]
  const planned = best.id === 'plan' ? 'As planned money' : 'Money'
  return parts.length === 0 ? '' : ` ${planned} runs short ${parts.join(', ')}.`
}

/** Where bills decided, and they go unpaid whatever is done. */
const lessUnpaid = (best: WayTried, plan: WayTried): string =>
  best.holdsMore.low <= 0 && best.paysMore.low > 0 && plan.unpaid - best.unpaid > 1
    ? `${formatDollars(best.unpaid)} goes unpaid in the middle simulation instead of ${formatDollars(plan.unpaid)}`
    : ''

/** Where it leaves nearly as much as another and is surer: what decided. */
const insteadOf = (most: WayTried, best: WayTried): string => {
  if (most.id === best.id) return ''
  const name = most.id === 'plan' ? 'as planned' : `with “${most.name}”`
  return `, with savings above the floor in ${formatPercent(best.aboveFloor.share, 1)} of simulations, where ${name} they are in ${formatPercent(most.aboveFloor.share, 1)} and only ${formatDollars(Math.max(0, most.leftMore - best.leftMore))} more is left`
}

/** The one that is above the floor more often than the best comes last, with its price. */
const surest = (steadiest: WayTried | null, best: WayTried): string =>
  steadiest === null
    ? ''
    : ` Surest of those tried: “${steadiest.name}”, with savings above the floor in ${formatPercent(steadiest.aboveFloor.share, 1)} of simulations instead of ${formatPercent(best.aboveFloor.share, 1)}, and ${formatDollars(Math.abs(steadiest.leftMore))} ${steadiest.leftMore >= 0 ? 'more' : 'less'} left at the end than as planned.`

/** What is worse with it than as planned, be it no more than chance. */
function worseIn(best: WayTried, plan: WayTried): string[] {
  return [
    ...(best.held.share < plan.held.share
      ? [
          `nothing goes unpaid in ${formatPercent(best.held.share, 1)} of simulations instead of ${formatPercent(plan.held.share, 1)}`,
        ]
      : []),
    ...(best.aboveFloor.share < plan.aboveFloor.share
      ? [
          `savings stay above the floor in ${formatPercent(best.aboveFloor.share, 1)} of simulations instead of ${formatPercent(plan.aboveFloor.share, 1)}`,
        ]
      : []),
    ...(best.lowestSavings.value < plan.lowestSavings.value - 1
      ? [
          `lowest savings are ${formatDollars(best.lowestSavings.value)} instead of ${formatDollars(plan.lowestSavings.value)}`,
        ]
      : []),
  ]
}

/** Beside the plan, with how sure that is. */
function leftIn(
  { leftMore, endsWithMore: { share, low, high }, atEnd }: WayTried,
  plan: WayTried,
  laterRate: number,
): string {
  const word = leftMore >= 0 ? 'more' : 'less'
  const sign = leftMore >= 0 ? 1 : -1
  const uncounted = atEnd.median - plan.atEnd.median
  // What is taken off is told above all ways: here only where it turns more into less.
  const counted =
    laterRate === 0 || uncounted >= 0 === leftMore >= 0
      ? ''
      : `, when what is left untaxed in traditional accounts counts ${formatPercent(laterRate, 0)} less; uncounted it is ${formatDollars(Math.abs(uncounted))} ${uncounted >= 0 ? 'more' : 'less'}`
  const ends = [sign * low, sign * high]
    .map((each) => Math.max(-1, Math.min(1, each)))
    .sort((one, two) => one - two)
  const [first, last] = ends.map((each) => formatPercent(each, 0))
  const range = first === last ? '' : `, between ${first} and ${last}`
  return `${formatDollars(Math.abs(leftMore))} ${word} is left at the end in the middle simulation than as planned${counted} (simulations that end with ${word} outnumber the others by ${formatPercent(sign * share, 0)} of all${range})`
}
