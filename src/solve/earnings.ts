// What simulations take money to earn and prices to do, what money earns that the plan does not have, and until when it must last, in sentences.
import { type Month, monthName } from '#calendar/month.ts'
import { fromTo } from '#calendar/spell.ts'
import { marketHistories } from '#chance/market-history.ts'
import { formatPercent } from '#money/format.ts'
import { allOf, anyOf } from '#money/lists.ts'
import type { Plan } from '#plan/plan.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'

interface Rates {
  stocks: number
  bonds: number
  bills: number
  inflation: number
}

/** Rates are nominal, a year, before tax. */
export function sayEarnings({ chance, assumptions }: Plan): string {
  const rates = `${sayRates(ratesOf(chance, assumptions))}, on average`
  const asPlanned = chance.centre === 'source' ? '' : ' as the plan expects'
  if (chance.markets === 'stated')
    return `${rates}${asPlanned}, with the ups and downs that ${asPlanned === '' ? 'the plan' : 'it'} states.`
  const { firstYear, lastYear } = marketHistories[chance.markets]
  const years = `the years ${fromTo(String(firstYear), String(lastYear))}`
  return isAsHistoryWas(chance)
    ? `Money is taken to earn, and prices to rise, what they did in ${years}.`
    : `${rates}${asPlanned}, with ups and downs like those of ${years}.`
}

const sayRates = (rates: Rates): string =>
  `Stocks are taken to earn ${formatPercent(rates.stocks)} a year, bonds ${formatPercent(rates.bonds)}, bills and savings accounts ${formatPercent(rates.bills)}, and prices to rise ${formatPercent(rates.inflation)}`

/** In which accounts money lies that a question adds, and what it earns there after fees, before tax and beyond prices, where that is one rate. */
function sayAdded({ savings }: Plan, compiled: CompiledPlan, rates: Rates | null): string {
  const { addedTo, stocks, bonds, bills, fee } = compiled.savings
  const places = savings.accounts.flatMap((account, place) =>
    addedTo[place]! > 0 ? [{ name: account.name, place }] : [],
  )
  const lies = `What is missing is taken to lie in ${allOf(places.map(({ name }) => name))}`
  if (rates === null) return `${lies}.`
  const earned = places.reduce((sum, { place }) => {
    const rate =
      stocks[place]! * rates.stocks + bonds[place]! * rates.bonds + bills[place]! * rates.bills - fee[place]!
    return sum + addedTo[place]! * rate
  }, 0)
  const earn = places.length === 1 ? 'which earns' : 'which earn'
  if (Math.abs(earned) < 5e-5) return `${lies}, ${earn} nothing.`
  const real = (1 + earned) / (1 + rates.inflation) - 1
  const beyond =
    Math.abs(real) < 5e-4
      ? 'as much as prices rise'
      : `${formatPercent(Math.abs(real))} a year ${real > 0 ? 'more than' : 'less than'} prices rise`
  return `${lies}, ${earn} ${formatPercent(earned)} a year before tax: ${beyond}.`
}

/** Until when money must last: to the plan's last month and who is how old then, or as long as the drawn lives. */
function sayLasting(plan: Plan, { firstMonth, people, shape, months }: CompiledPlan): string {
  if (plan.chance.lives && people.length > 0)
    return `It must last as long as ${anyOf(people.map(({ name }) => name))} lives, drawn from the life table in each simulation.`
  return `It must last ${sayEnd({ firstMonth, people, shape, months })}.`
}

/** Where nobody's life is drawn. */
function sayEnd({
  firstMonth,
  people,
  shape,
  months,
}: Pick<CompiledPlan, 'firstMonth' | 'people' | 'shape' | 'months'>): string {
  const ends = people.map((_, place) => Math.min(months, shape.plannedDeathMonth[place] ?? months))
  const last = Math.max(...ends, people.length === 0 ? months : 0) - 1
  const ages = people.flatMap(({ name, bornMonth }, place) =>
    ends[place]! - 1 === last ? [`${name} is ${Math.floor((firstMonth + last - bornMonth) / 12)}`] : [],
  )
  const then = ages.length === 0 ? '' : `, when ${allOf(ages)}`
  return `to ${monthName((firstMonth + last) as Month)}${then}`
}

const isAsHistoryWas = ({ markets, centre }: Plan['chance']): boolean =>
  centre === 'source' && markets !== 'stated'

/** A year, as the simulations stray about them. */
const ratesOf = (chance: Plan['chance'], assumptions: Plan['assumptions']): Rates =>
  chance.centre === 'source'
    ? {
        stocks: chance.stocksMean,
        bonds: chance.bondsMean,
        bills: chance.billsMean,
        inflation: chance.inflationMean,
      }
    : assumptions

/** Of a question that adds money: what it earns, where it lies, and until when it must last. */
export const sayTerms = (plan: Plan, compiled: CompiledPlan): string =>
  [
    sayEarnings(plan),
    sayAdded(plan, compiled, isAsHistoryWas(plan.chance) ? null : ratesOf(plan.chance, plan.assumptions)),
    sayLasting(plan, compiled),
  ].join(' ')

/** The same of the plan as expected. */
export const sayExpectedTerms = (plan: Plan, compiled: CompiledPlan): string =>
  `${sayRates(plan.assumptions)}. ${sayAdded(plan, compiled, plan.assumptions)} It must last ${sayEnd(compiled)}.`
