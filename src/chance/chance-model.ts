// What drawing a course needs to know of a plan, as plain data that can be posted to a worker.
import { type Month, monthsBetween, parseMonth } from '#calendar/month.ts'
import { openSeats } from '#farm/selling/seats.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import { type PremiumDraws, premiumDraws, premiumHistory } from '#plan/place/premium-years.ts'
import type { Plan } from '#plan/plan.ts'
import type { ShockShape } from '#runway/shocks.ts'
import type { TableSex } from './draws/life-draws.ts'
import { lognormalOf } from './draws/market-draws.ts'
import { partOf } from './draws/random-stream.ts'
import { type MarketHistory, marketHistories } from './market-history.ts'

export interface ChanceModel {
  shape: ShockShape
  /** Distances to add to what the plan expects; `places` stay together across the four series. */
  markets: HistoryDistances | StatedDistances
  /** Each enterprise, then each herd: the part of its own stream, and the spread of its season. */
  seasons: readonly { part: number; logSd: number }[]
  seasonsTogether: number
  /** Each seat on a waiting list: the part of its own stream, and how likely it is. */
  seats: readonly { part: number; chance: number }[]
  premiums: PremiumDraws
  careSpread: number
  /** Each adult; `ageMonths` on the first of the plan's first month. */
  people: readonly { ageMonths: number; sex: TableSex }[]
  lives: boolean
  workLoss: { chancePerYear: number; months: number }
}

/** Years of history. Figures are distances of log growth: the year's return is expected + (1 + expected) · (e^distance − 1). */
export interface HistoryDistances {
  kind: 'history'
  years: number
  firstYear: number
  meanBlockYears: number
  stocks: Float64Array
  bonds: Float64Array
  bills: Float64Array | null
  inflation: Float64Array
}

/** Normal distances of log growth about a median, autoregressive for prices and bills. */
export interface StatedDistances {
  kind: 'stated'
  stocks: { shift: number; logSd: number }
  bonds: { shift: number; logSd: number }
  bills: { shift: number; sd: number }
  inflation: { shift: number; sd: number }
  stocksWithBonds: number
  persistence: number
}

/** Age up to which loss of work is drawn: full retirement age of those born from 1960 on. */
export const workingUntilMonths = 67 * 12

/** Reads a plan's chance settings beside the shape its compiled form gives. */
export function chanceModel(plan: Plan, shape: ShockShape): ChanceModel {
  const chance = plan.chance
  const spread = (each: { id: string; seasonSpread: number }) => ({
    part: partOf(each.id),
    logSd: chance.seasons ? each.seasonSpread : 0,
  })
  return {
    shape,
    markets:
      chance.markets === 'stated'
        ? statedDistances(plan, shape)
        : historyDistances(marketHistories[chance.markets], plan, shape),
    seasons: [...plan.farm.enterprises.map(spread), ...plan.farm.herds.map(spread)],
    seasonsTogether: chance.seasonsTogether,
    seats: openSeats(plan.farm).map(({ market, chance: likely }) => ({
      part: partOf(market),
      chance: likely,
    })),
    premiums: premiumDraws(chance, premiumHistory(plan.household.place)),
    careSpread: chance.careSpread,
    people: plan.household.people.map((person) => ({
      ageMonths: ageInMonths(person.born, firstMonthOf(plan)),
      sex: person.sex,
    })),
    lives: chance.lives,
    workLoss: { chancePerYear: chance.workLossChance, months: chance.workLossMonths },
  }
}

/**
 * With `centre` plan the average log growth of history is moved to what the plan expects, so that the middle of the
 * drawn courses is the expected course. With `centre` source every year comes out as it was.
 */
function historyDistances(history: MarketHistory, plan: Plan, shape: ShockShape): HistoryDistances {
  const distances = (series: readonly number[], expected: number) => {
    const logs = Float64Array.from(series, (year) => Math.log1p(year))
    const mean = logs.reduce((sum, each) => sum + each, 0) / logs.length
    const middle = plan.chance.centre === 'plan' ? mean : Math.log1p(expected)
    return logs.map((each) => each - middle)
  }
  return {
    kind: 'history',
    years: history.stocks.length,
    firstYear: history.firstYear,
    meanBlockYears: plan.chance.blockYears,
    stocks: distances(history.stocks, shape.expected.stocks),
    bonds: distances(history.bonds, shape.expected.bonds),
    bills: history.bills === null ? null : distances(history.bills, shape.expected.bills),
    inflation: distances(history.inflation, shape.expected.inflation),
  }
}

/** With `centre` plan the plan's expected return is the median growth; with `centre` source the stated mean is the mean. */
function statedDistances(plan: Plan, shape: ShockShape): StatedDistances {
  const { chance } = plan
  const isPlan = chance.centre === 'plan'
  const growth = (mean: number, sd: number, expected: number) => {
    const stated = lognormalOf(mean, sd)
    return { shift: isPlan ? 0 : stated.logMean - Math.log1p(expected), logSd: stated.logSd }
  }
  const level = (mean: number, sd: number, expected: number) => ({ shift: isPlan ? 0 : mean - expected, sd })
  return {
    kind: 'stated',
    stocks: growth(chance.stocksMean, chance.stocksSpread, shape.expected.stocks),
    bonds: growth(chance.bondsMean, chance.bondsSpread, shape.expected.bonds),
    bills: level(chance.billsMean, chance.billsSpread, shape.expected.bills),
    inflation: level(chance.inflationMean, chance.inflationSpread, shape.expected.inflation),
    stocksWithBonds: chance.stocksWithBonds,
    persistence: chance.inflationPersistence,
  }
}

/** Whole months from the month of birth to the first month of the plan. */
function ageInMonths(born: string, first: Month): number {
  const birth = parseMonth(born.slice(0, 7))
  if (birth === null) throw new Error(`not a month: ${born}`)
  return Math.max(0, monthsBetween(birth, first))
}
