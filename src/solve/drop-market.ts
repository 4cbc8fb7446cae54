// Which market to drop: for each, the hours and dollars of a year that end with it, as its customers follow or not, and how the plan then stands.
import { type Month, monthName, monthsToNextJanuary, monthText, yearOf } from '#calendar/month.ts'
import { farmYear } from '#farm/farm-year.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { grownFarm } from '#runway/farm/grown-course.ts'
import {
  type Asking,
  type Certainty,
  type NotReached,
  roundOf,
  type Said,
  saidIn,
  shownAt,
} from './question.ts'
import {
  isSurer,
  type Ran,
  runOf,
  type Standing,
  sayHolding,
  sayHoldingBeside,
  type WorseIn,
  worseBy,
} from './standing.ts'

export interface DropMarket extends Certainty, Said {
  question: 'drop-market'
  answer:
    | {
        kind: 'reached' /** Short name of the one to drop first; null where each leaves the plan worse. */
        market: string | null
      }
    | NotReached
  today: Standing
  /** The one whose hour brings least first. */
  markets: MarketDropped[]
  /** The January from which on, counted from the plan's first month. */
  fromMonth: number
  why: string
}

export interface MarketDropped extends Standing {
  id: string
  name: string
  /** Fraction of its customers that follow to other markets, as the plan says. */
  follow: number
  /** Hours of a year that end with it, and what the farm's net of the year loses: as they follow, if none do, if half do. */
  hours: number
  lost: number
  lostIfNone: number
  lostIfHalf: number
  worse: boolean
  worseIn: WorseIn | null
  surer: boolean
}

export async function solveDropMarket(asking: Asking): Promise<DropMarket> {
  const { plan, seed, paths, confidence } = asking
  const first = firstMonthOf(plan)
  const fromMonth = monthsToNextJanuary(first)
  const from = (first + fromMonth) as Month
  const runs = running(plan, yearOf(from))
  const rounds = runs.length + 1
  const own = await runOf(asking, plan, roundOf(asking, 0, rounds))
  const about = { question: 'drop-market', confidence, paths, seed, fromMonth, today: own.standing } as const
  if (runs.length === 0) {
    const because =
      'This cannot be reached, because the plan goes to no market: add those it goes to on the Farm page.'
    return {
      ...about,
      answer: { kind: 'cannot be reached', because },
      markets: [],
      ...saidIn(because),
      why: '',
    }
  }
  const markets: MarketDropped[] = []
  for (const [place, { id }] of runs.entries()) {
    const ran = await runOf(asking, withoutMarket(plan, id, from), roundOf(asking, place + 1, rounds))
    markets.push(droppedOf(asking, id, from, ran, own))
  }
  markets.sort((a, b) => worthOf(a) - worthOf(b))
  const market = markets.find((one) => !one.worse && one.hours > 0)?.id ?? null
  return {
    ...about,
    answer: { kind: 'reached', market },
    markets,
    ...say(markets, market, own.standing, from),
    why: 'What a market sells beyond what the others can take is lost with it, but for the customers who follow; its fees, miles and hours end. What is grown for it is grown as before: Slower years finds the mix that fits what is left.',
  }
}

/** No more trips to a market from a month on; its customers follow as the plan says. */
export const withoutMarket = (plan: Plan, id: string, from: Month): Plan => ({
  ...plan,
  farm: {
    ...plan.farm,
    markets: plan.farm.markets.map((one) =>
      one.id === id
        ? {
            ...one,
            tripsSteps: [
              ...one.tripsSteps.filter((step) => step.from < monthText(from)),
              { from: monthText(from), value: 0 },
            ],
          }
        : one,
    ),
    phases: plan.farm.phases.map((phase) => ({
      ...phase,
      trips: phase.from < monthText(from) ? phase.trips : phase.trips.filter((trip) => trip.market !== id),
    })),
  },
})

const running = (plan: Plan, year: number): Plan['farm']['markets'] =>
  plan.farm.markets.filter(({ id }) => {
    const without = withoutMarket(plan, id, (year * 12) as Month)
    const [now, then] = [plan, without].map((one) => farmYear(one.farm, year))
    return now!.hours !== then!.hours || now!.net !== then!.net
  })

function droppedOf(asking: Asking, id: string, from: Month, ran: Ran, own: Ran): MarketDropped {
  const { plan } = asking
  const year = yearOf(from)
  const { name, followShare } = plan.farm.markets.find((one) => one.id === id)!
  const shown = shownAt(asking, from - firstMonthOf(plan))
  const now = farmYear(grownFarm(plan, plan.farm, year), year)
  const then = (follow: number) => {
    const { farm } = withoutMarket(plan, id, from)
    const markets = farm.markets.map((one) => (one.id === id ? { ...one, followShare: follow } : one))
    return farmYear(grownFarm(plan, { ...farm, markets }, year), year)
  }
  const worseIn = worseBy(ran, own)
  const lostAt = (follow: number) => (now.net - then(follow).net) * shown
  return {
    id,
    name,
    follow: followShare,
    hours: now.hours - then(followShare).hours,
    lost: lostAt(followShare),
    lostIfNone: lostAt(0),
    lostIfHalf: lostAt(0.5),
    ...ran.standing,
    worse: worseIn !== null,
    worseIn,
    surer: isSurer(ran, own),
  }
}

/** Dollars that an hour of it brings; one that takes no hours has no price and comes last. */
const worthOf = ({ lost, hours }: MarketDropped): number => (hours > 0 ? lost / hours : Number.MAX_VALUE)

function say(markets: readonly MarketDropped[], chosen: string | null, today: Standing, from: Month): Said {
  const priced = markets.filter(({ hours }) => hours > 0)
  const worths = priced.map((one) => `${one.name} ${formatDollarsAndCents(worthOf(one))}`).join(', ')
  const hour = priced.length === 0 ? '' : `An hour at market brings, after its costs: ${worths}.`
  const market = markets.find(({ id }) => id === chosen)
  if (market === undefined)
    return saidIn(
      `No market can be dropped without leaving the plan worse: as planned ${sayHolding(today)}.`,
      hour,
    )
  const money = (lost: number) =>
    lost >= 0 ? `costs ${formatDollars(lost)} a year` : `brings ${formatDollars(-lost)} a year more`
  const others = [
    { follow: 0, says: `${money(market.lostIfNone)} if none do` },
    { follow: 0.5, says: `${money(market.lostIfHalf)} if half do` },
  ]
    .filter(({ follow }) => follow !== market.follow)
    .map(({ says }) => says)
    .join(', and ')
  return saidIn(
    `${market.name} can go first: from ${monthName(from)} on that frees ${Math.round(market.hours)} hours a year and ${money(market.lost)} with ${formatPercent(market.follow, 0)} of its customers following (it ${others}).`,
    `${sayHoldingBeside(market, today)}.`,
    hour,
  )
}
