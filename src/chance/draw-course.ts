// One drawn course of the world: the shocks of path `path` of seed `seed`, written into arrays that are used again and again.
import type { PremiumDraws } from '#plan/place/premium-years.ts'
import type { CourseShocks } from '#runway/shocks.ts'
import {
  type ChanceModel,
  type HistoryDistances,
  type StatedDistances,
  workingUntilMonths,
} from './chance-model.ts'
import { drawMonthsOfLife, drawWorkSpells } from './draws/life-draws.ts'
import { drawBlocks, replayPlaces } from './draws/market-draws.ts'
import { normalQuantile } from './draws/normal-quantile.ts'
import { openStream, type RandomStream } from './draws/random-stream.ts'
import { drawCommonSeason, drawFactors, drawSeasons } from './draws/season-draws.ts'

const noStray: PremiumDraws = { spread: 0, ownYears: null }

/** Random draws, or history as it happened from its first year + `path` on (then only markets and prices differ between courses). */
export type DrawnFrom = 'chance' | 'history'

/**
 * Fills `into` for one path. Every family has a stream of its own, so that a change of the plan leaves the other draws
 * as they were. `into` must have the sizes of `model.shape`.
 */
export function drawCourse(
  model: ChanceModel,
  seed: number,
  path: number,
  into: CourseShocks,
  from: DrawnFrom = 'chance',
): void {
  drawMarkets(model, seed, path, into, from)
  const hasChance = from === 'chance'
  const stray = (spread: number) => (hasChance ? spread : 0)
  const premiums = hasChance ? model.premiums : noStray
  drawGrowth(model, premiums, openStream(seed, path, 'premium'), into)
  drawFactors(stray(model.careSpread), openStream(seed, path, 'care'), into.careFactor)
  into.season.fill(1)
  const { years } = model.shape
  const common = drawCommonSeason(openStream(seed, path, 'season'), years)
  for (const [place, season] of model.seasons.entries()) {
    const factors = into.enterpriseSeason.subarray(place * years, (place + 1) * years)
    const spread = { logSd: stray(season.logSd), together: model.seasonsTogether }
    drawSeasons(common, spread, openStream(seed, path, 'enterprise', season.part), factors)
  }
  drawPeople(model, seed, path, into, hasChance)
  into.seats = hasChance && model.seats.length > 0 ? drawSeats(model.seats, seed, path) : -1
}

function drawMarkets(
  model: ChanceModel,
  seed: number,
  path: number,
  into: CourseShocks,
  from: DrawnFrom,
): void {
  const { markets, shape } = model
  if (markets.kind === 'stated') {
    if (from === 'history') throw new Error('a replay of history needs a history, not stated moments')
    drawStatedYears(markets, model, openStream(seed, path, 'market'), into)
    return
  }
  const places =
    from === 'history'
      ? replayPlaces(markets.years, path, shape.years)
      : drawBlocks(openStream(seed, path, 'market'), markets.years, markets.meanBlockYears, shape.years)
  readYears(markets, model, places, into)
}

function readYears(
  markets: HistoryDistances,
  model: ChanceModel,
  places: Int32Array,
  into: CourseShocks,
): void {
  const { expected } = model.shape
  for (const [year, place] of places.entries()) {
    into.stocks[year] = moved(expected.stocks, markets.stocks[place]!)
    into.bonds[year] = moved(expected.bonds, markets.bonds[place]!)
    into.bills[year] = markets.bills === null ? expected.bills : moved(expected.bills, markets.bills[place]!)
    into.inflation[year] = moved(expected.inflation, markets.inflation[place]!)
  }
}

/** Three normals are spent every year: stocks, what bonds have of their own, prices (which bills follow). */
function drawStatedYears(
  markets: StatedDistances,
  model: ChanceModel,
  stream: RandomStream,
  into: CourseShocks,
): void {
  const { expected, years } = model.shape
  const together = markets.stocksWithBonds
  const apart = Math.sqrt(1 - together * together)
  const kept = markets.persistence
  const fresh = Math.sqrt(1 - kept * kept)
  let prices = 0
  for (let year = 0; year < years; year += 1) {
    const first = stream.normal()
    const second = stream.normal()
    const third = stream.normal()
    prices = year === 0 ? third : kept * prices + fresh * third
    const { stocks, bonds, bills, inflation } = markets
    into.stocks[year] = moved(expected.stocks, stocks.shift + stocks.logSd * first)
    into.bonds[year] = moved(expected.bonds, bonds.shift + bonds.logSd * (together * first + apart * second))
    into.bills[year] = expected.bills + bills.shift + bills.sd * prices
    into.inflation[year] = expected.inflation + inflation.shift + inflation.sd * prices
  }
}

/** expected + (1 + expected)(e^distance − 1): exactly `expected` at distance 0, so that no shock is the expected course. */
const moved = (expected: number, distance: number): number => expected + (1 + expected) * Math.expm1(distance)

/**
 * Premiums and care rise with prices as the plan expects them to, further or less where prices did, and premiums stray.
 * One uniform a year says how far, in either way of drawing: the same luck is high or low in both, and Medicare's premiums,
 * which are no county's, stray by the typed spread alike.
 */
function drawGrowth(
  model: ChanceModel,
  premiums: PremiumDraws,
  stream: RandomStream,
  into: CourseShocks,
): void {
  const { expected, years } = model.shape
  const { spread, ownYears } = premiums
  for (let year = 0; year < years; year += 1) {
    const prices = (1 + into.inflation[year]!) / (1 + expected.inflation) - 1
    const luck = stream.uniform()
    const typed = spread * normalQuantile(luck)
    const stray = ownYears === null ? typed : ownYears[Math.floor(luck * ownYears.length)]!
    into.premiumGrowth[year] = stray + (expected.premiumGrowth + (1 + expected.premiumGrowth) * prices)
    const ofMedicare = prices + typed / (1 + expected.premiumGrowth)
    into.medicareGrowth[year] = expected.medicareGrowth + (1 + expected.medicareGrowth) * ofMedicare
    into.careGrowth[year] = expected.careGrowth + (1 + expected.careGrowth) * prices
  }
}

function drawPeople(
  model: ChanceModel,
  seed: number,
  path: number,
  into: CourseShocks,
  hasChance: boolean,
): void {
  into.lossOfWorkMonth.fill(Number.POSITIVE_INFINITY)
  into.lossOfWorkMonths.fill(0)
  into.deathMonth.fill(Number.POSITIVE_INFINITY)
  for (const [place, person] of model.people.entries()) {
    const planned = model.shape.plannedDeathMonth[place] ?? Number.POSITIVE_INFINITY
    const drawn = drawMonthsOfLife(person.ageMonths, person.sex, openStream(seed, path, 'life', place)) + 1
    const departure = model.shape.departureMonth?.[place] ?? Number.POSITIVE_INFINITY
    into.deathMonth[place] = hasChance && model.lives ? Math.min(drawn, departure) : planned
    const workingYears = Math.max(0, Math.ceil((workingUntilMonths - person.ageMonths) / 12))
    if (!hasChance || workingYears === 0 || model.workLoss.chancePerYear === 0) continue
    const { years } = model.shape
    drawWorkSpells(
      model.workLoss.chancePerYear,
      openStream(seed, path, 'work', place),
      workingYears,
      into.lossOfWorkMonth.subarray(place * years, (place + 1) * years),
    )
    into.lossOfWorkMonths[place] = model.workLoss.months
  }
}

/** Which seats a path has, as the place of its farm: bit k for the k-th. */
const drawSeats = (seats: ChanceModel['seats'], seed: number, path: number): number =>
  seats.reduce(
    (had, { part, chance }, k) =>
      openStream(seed, path, 'seat', part).uniform() < chance ? had | (1 << k) : had,
    0,
  )
