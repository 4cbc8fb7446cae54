// What was drawn for a path, in a dozen numbers: the factors among which the one that the bad tenth share is looked for.
import type { CourseShocks } from '#runway/shocks.ts'
import { type CourseRun, placeOf } from './course-run.ts'

/** Years of the plan that count as early; the later ones are the fifteen after them. */
export const earlyYears = 10
const laterYears = 15

/**
 * Writes the factors of one path: average yearly log growth of stocks and bonds above prices, of prices and of premiums,
 * mean seasons and cost of care (1 = expected), and months until deaths and loss of work (the plan's length where never).
 */
export function writeFactors(run: CourseRun, shocks: CourseShocks, figures: Float64Array): void {
  const { years, months } = run.plan
  const early = Math.min(earlyYears, years)
  const later = Math.min(earlyYears + laterYears, years)
  figures[placeOf.stocksEarly] = growthAbovePrices(shocks.stocks, shocks.inflation, 0, early)
  figures[placeOf.stocksLater] = growthAbovePrices(shocks.stocks, shocks.inflation, early, later)
  figures[placeOf.bondsEarly] = growthAbovePrices(shocks.bonds, shocks.inflation, 0, early)
  figures[placeOf.inflationEarly] = growth(shocks.inflation, 0, early)
  figures[placeOf.inflationLater] = growth(shocks.inflation, early, later)
  const enterprises = run.model.seasons.length
  figures[placeOf.seasonEarly] = meanSeason(shocks.enterpriseSeason, enterprises, years, 0, early)
  figures[placeOf.seasonLater] = meanSeason(shocks.enterpriseSeason, enterprises, years, early, later)
  figures[placeOf.premiumEarly] = growth(shocks.premiumGrowth, 0, early)
  figures[placeOf.care] = mean(shocks.careFactor, 0, years)
  const [first, second] = deathsOf(run, shocks)
  figures[placeOf.firstDeath] = Math.min(first, second, months)
  figures[placeOf.lastDeath] = Math.min(Math.max(first, second), months)
  figures[placeOf.workLost] = shocks.lossOfWorkMonth.reduce((first, month) => Math.min(first, month), months)
}

function deathsOf(run: CourseRun, shocks: CourseShocks): [number, number] {
  const first = shocks.deathMonth[0]!
  return run.model.people.length < 2 ? [first, first] : [first, shocks.deathMonth[1]!]
}

function growth(rates: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let year = from; year < to; year += 1) sum += Math.log1p(rates[year]!)
  return to > from ? sum / (to - from) : 0
}

const growthAbovePrices = (rates: Float64Array, inflation: Float64Array, from: number, to: number): number =>
  growth(rates, from, to) - growth(inflation, from, to)

function mean(values: Float64Array, from: number, to: number): number {
  let sum = 0
  for (let year = from; year < to; year += 1) sum += values[year]!
  return to > from ? sum / (to - from) : 0
}

function meanSeason(
  seasons: Float64Array,
  enterprises: number,
  years: number,
  from: number,
  to: number,
): number {
  if (enterprises === 0 || to <= from) return 1
  let sum = 0
  for (let enterprise = 0; enterprise < enterprises; enterprise += 1)
    sum += mean(seasons, enterprise * years + from, enterprise * years + to)
  return sum / enterprises
}
