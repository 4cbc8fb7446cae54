// What one course of the world does to a plan, as plain typed arrays: the expected course, a storm and a drawn path differ only in these numbers.

/**
 * Index 0 of every yearly array is the calendar year of the plan's first month. All rates are nominal yearly fractions.
 * Plain data: it can be posted to a worker and reused from run to run.
 */
export interface CourseShocks {
  /** Total return of each asset class in each year. */
  stocks: Float64Array
  bonds: Float64Array
  bills: Float64Array
  /** General price rise from the January of the year to the next. The first year's is felt in the second. */
  inflation: Float64Array
  /** Rise of premiums, of Medicare's and of the cost of care, felt at the next January as well. */
  premiumGrowth: Float64Array
  medicareGrowth: Float64Array
  careGrowth: Float64Array
  /** What care costs in the year itself, as a factor on the expected: 1 in an ordinary year. */
  careFactor: Float64Array
  /** The season common to all enterprises, a factor on sales: 1 in an ordinary year. */
  season: Float64Array
  /** Each enterprise's own season: factor at `enterprise × years + year`. Herds follow the enterprises. */
  enterpriseSeason: Float64Array
  /** Per person (at most two): months from the plan's first month to the first month after death. */
  deathMonth: Float64Array
  /** Person × year of the course (twelve months from its first): the month in which a spell without work begins, `Infinity` for none; and per person how many months one lasts. */
  lossOfWorkMonth: Float64Array
  lossOfWorkMonths: Float64Array
  /** The place in `bySeats` of the compiled farm; −1: seats on waiting lists are counted by their chance. */
  seats: number
}

/** The sizes and expected values that shocks are made from. `CompiledPlan` has them. */
export interface ShockShape {
  years: number
  enterprises: number
  expected: {
    stocks: number
    bonds: number
    bills: number
    inflation: number
    premiumGrowth: number
    medicareGrowth: number
    careGrowth: number
  }
  /** Per person: months from the plan's first month to the first month after the planned age is over. */
  plannedDeathMonth: readonly number[]
  /** The same for one who leaves by an event of the plan, whatever length of life is drawn; `Infinity` for one who stays. */
  departureMonth?: readonly number[]
}

/** Shocks that change nothing: the expected course. */
export const expectedShocks = (shape: ShockShape): CourseShocks => {
  const { years, enterprises, expected } = shape
  const everyYear = (value: number) => new Float64Array(years).fill(value)
  return {
    stocks: everyYear(expected.stocks),
    bonds: everyYear(expected.bonds),
    bills: everyYear(expected.bills),
    inflation: everyYear(expected.inflation),
    premiumGrowth: everyYear(expected.premiumGrowth),
    medicareGrowth: everyYear(expected.medicareGrowth),
    careGrowth: everyYear(expected.careGrowth),
    careFactor: everyYear(1),
    season: everyYear(1),
    enterpriseSeason: new Float64Array(years * enterprises).fill(1),
    deathMonth: Float64Array.from(
      [0, 1],
      (person) => shape.plannedDeathMonth[person] ?? Number.POSITIVE_INFINITY,
    ),
    lossOfWorkMonth: new Float64Array(2 * years).fill(Number.POSITIVE_INFINITY),
    lossOfWorkMonths: new Float64Array(2),
    seats: -1,
  }
}
