// What many courses come to: success share, percentiles and distributions of the milestones, and what the bad tenth share.
import { type CourseRun, figureOf, type PathFigure } from './course-run.ts'
import { percentileInterval, percentiles, type Share, shareOf } from './percentiles.ts'
import { factorNames, separateBadTenth } from './separating.ts'

/** Percentiles of one milestone. Months count from the plan's first; `Infinity` (null in JSON) says that it never happened. */
export interface Spread {
  p10: number
  p50: number
  p90: number
  /** 95 % interval of the median. */
  medianLow: number
  medianHigh: number
}

/** How often a milestone fell into each calendar year of the plan, and how often never. */
export interface YearCounts {
  firstYear: number
  counts: number[]
  never: number
}

export interface BadTenth {
  factor: (typeof factorNames)[number]
  /** 0.5 tells nothing; 1: lower values always went with the bad tenth; 0: higher. */
  lowerWhenBad: number
  meanOfBad: number
  meanOfRest: number
}

/** What is money, as one kind of dollars. */
export interface MoneySpreads {
  lowestSavings: Spread
  unmetNeed: Spread
  /** Null where no course lives to see a slower year. */
  atSlowerYear: Spread | null
  /** All savings at the end of the course. */
  atEnd: Spread
}

/** Money in dollars of its months, and besides at the plan's first prices, each course by its own. */
export interface Outcome extends MoneySpreads {
  paths: number
  seed: number
  /** Courses in which the household never went short. */
  held: Share
  /** Courses in which spendable savings never fell below the floor. */
  aboveFloor: Share
  monthsLeft: Spread
  firstShortMonth: Spread
  carryMonth: Spread
  firstDraw: Spread
  atFirstPrices: MoneySpreads
  courseMonths: Spread
  carryYears: YearCounts
  floorYears: YearCounts
  /** Best separating factors first. */
  badTenth: BadTenth[]
}

export function summarize(run: CourseRun, figures: Float64Array): Outcome {
  const column = (figure: PathFigure) => figureOf(figures, figure)
  const held = column('held').reduce((sum, each) => sum + each, 0)
  const monthsLeft = column('monthsLeft')
  return {
    paths: run.paths,
    seed: run.seed,
    held: shareOf(held, run.paths),
    aboveFloor: shareOf(countNever(monthsLeft), run.paths),
    monthsLeft: spreadOf(monthsLeft)!,
    firstShortMonth: spreadOf(column('firstShortMonth'))!,
    carryMonth: spreadOf(column('carryMonth'))!,
    firstDraw: spreadOf(column('firstDraw'))!,
    lowestSavings: spreadOf(column('lowestSavings'))!,
    unmetNeed: spreadOf(column('unmetNeed'))!,
    atSlowerYear: spreadOf(column('atSlowerYear')),
    atEnd: spreadOf(productOf(column('atEnd'), column('pricesAtEnd')))!,
    atFirstPrices: {
      lowestSavings: spreadOf(column('lowestAtFirstPrices'))!,
      unmetNeed: spreadOf(column('unmetAtFirstPrices'))!,
      atSlowerYear: spreadOf(
        productOf(
          column('atSlowerYear'),
          column('pricesAtSlowerYear').map((level) => 1 / level),
        ),
      ),
      atEnd: spreadOf(column('atEnd'))!,
    },
    courseMonths: spreadOf(column('months'))!,
    carryYears: yearCounts(run, column('carryMonth')),
    floorYears: yearCounts(run, monthsLeft),
    badTenth: badTenthOf(figures),
  }
}

const productOf = (a: Float64Array, b: Float64Array): Float64Array => a.map((each, path) => each * b[path]!)

const countNever = (values: Float64Array): number =>
  values.reduce((count, each) => count + (Number.isFinite(each) ? 0 : 1), 0)

/** Courses that ended before the milestone could be read (NaN) are left out of its percentiles. */
function spreadOf(all: Float64Array): Spread | null {
  const values = all.filter((each) => !Number.isNaN(each))
  if (values.length === 0) return null
  const [p10, p50, p90] = percentiles(values, [0.1, 0.5, 0.9])
  const median = percentileInterval(values, 0.5)
  return { p10: p10!, p50: p50!, p90: p90!, medianLow: median.low, medianHigh: median.high }
}

function yearCounts(run: CourseRun, values: Float64Array): YearCounts {
  const { firstYear, firstMonth, years } = run.plan
  const counts = new Array<number>(years).fill(0)
  let never = 0
  for (const month of values) {
    if (Number.isFinite(month)) counts[Math.floor((firstMonth + month) / 12) - firstYear]! += 1
    else never += 1
  }
  return { firstYear, counts, never }
}

/**
 * Bad courses: those that went short, the sooner the worse; then the others by their lowest savings. So there is a bad
 * tenth also where every course held.
 */
function badTenthOf(figures: Float64Array): BadTenth[] {
  const short = figureOf(figures, 'firstShortMonth')
  const lowest = figureOf(figures, 'lowestSavings')
  const least = lowest.reduce((worst, each) => Math.min(worst, each), 0)
  const outcome = lowest.map((savings, path) =>
    Number.isFinite(short[path]!) ? least - 1e9 + short[path]! : savings,
  )
  const factors = factorNames.map((name) => figureOf(figures, name))
  return separateBadTenth(outcome, factors).map(({ factor, ...rest }) => ({
    factor: factorNames[factor]!,
    ...rest,
  }))
}
