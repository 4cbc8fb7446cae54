// The farm's expected course at plan prices as flat arrays, which the projection multiplies by price level and shocks.
import { addMonths, type Month } from '#calendar/month.ts'
import { type HerdMonths, herdMonths } from '#farm/herd/herd-months.ts'
import { cullTax } from '#farm/herd/herd-tax.ts'
import { type CourseRow, courseRows } from './course-row.ts'
import { enterpriseMonths, runsIn } from './enterprise-months.ts'
import type { Farm } from './farm-document.ts'
import { loanMonths } from './loans.ts'
import { monthFromText, seasonIndex, spreadOverYear } from './seasonal.ts'
import { longestWait, sellThroughMarkets, type WaitingGroup } from './selling/course-sales.ts'
import { addFollowers, dropsCustomers, withEveryTrip } from './selling/followers.ts'
import { type ClosedMarket, type MarketMonths, marketMonths } from './selling/market-months.ts'
import { emptyWorkDone, type WorkDone } from './work-done.ts'
import { crewMonths } from './work-months.ts'

/**
 * All amounts are dollars at the plan's first prices unless said otherwise. Row arrays are row-major: `row × monthCount + month`;
 * market and worker arrays likewise; the others hold one figure per month.
 */
export interface FarmCourse {
  firstMonth: Month
  monthCount: number
  rows: CourseRow[]
  markets: { id: string; name: string }[]
  /** Ids of people, with `hired` last. */
  workers: string[]
  /** What would be sold without any limit, and the most the markets take: sales under a yield shock are min(offered × shock, ceiling). Young of herds are offered in the month in which they leave. */
  offered: Float64Array
  ceiling: Float64Array
  /** Expected sales: min(offered × share of work done, ceiling). Young stock and products included, culls not. */
  sales: Float64Array
  directCosts: Float64Array
  /** Of direct costs those of the work that is done: the others are not paid either. */
  spent: Float64Array
  hours: Float64Array
  units: Float64Array
  /** Young of herds that wait for a market at the month's end, and that went to auction in it: heads. */
  waiting: Float64Array
  atAuction: Float64Array
  /** What they brought there: a part of the sales. */
  auctionSales: Float64Array
  /** Packaged meat of herds in the freezer at the month's end: pounds. */
  freezer: Float64Array
  /** Breeding stock: its worth, what is bought (capital, depreciated), what is sold as culls. Poultry is bought and sold as goods instead. */
  stockCapital: Float64Array
  stockBought: Float64Array
  culls: Float64Array
  /** Of the culls: section 1231 gain on raised stock (basis 0), and ordinary gain on bought stock written off when bought. Neither bears self-employment tax. */
  cullGain1231: Float64Array
  cullGainOrdinary: Float64Array
  marketSales: Float64Array
  marketCapacity: Float64Array
  marketTrips: Float64Array
  marketHours: Float64Array
  /** Fees and miles of all markets (Schedule F other and car lines), together by month, and each market's. */
  marketCosts: Float64Array
  marketCostsEach: Float64Array
  overheads: Float64Array
  /** Hours of enterprises, herds, market trips and overheads together, and what each worker can give. */
  hoursNeeded: Float64Array
  overheadHours: Float64Array
  hoursByWorker: Float64Array
  hoursAvailable: Float64Array
  /** Hours the plan gives to hired help by name; what comes of all hours with everyone well; hired hours at their cost (Schedule F line 22). */
  hiredByPlan: Float64Array
  hiredPromised: Float64Array
  work: WorkDone
  hiredCosts: Float64Array
  landUsed: Float64Array
  leaseIncome: Float64Array
  /** Stock and equipment sold as a phase begins: price, and the basis still to write off. */
  phaseSales: Float64Array
  phaseSalesBasis: Float64Array
  /** Contract dollars: never multiplied by the price level. */
  loanPayments: Float64Array
  loanInterest: Float64Array
  loanDrawn: Float64Array
  loanBalance: Float64Array
  herds: HerdMonths[]
}

/** `closed`: a market that is shut for a time (a storm). Its customers follow as the plan says. */
export const farmCourse = (
  farm: Farm,
  firstMonth: Month,
  monthCount: number,
  closed: ClosedMarket | null = null,
): FarmCourse => {
  // What waits for a market as the course begins comes from the months before it.
  const lead = longestWait(farm)
  if (lead === 0) return courseFrom(farm, firstMonth, monthCount, { closed, waiting: [] }).course
  const before = courseFrom(farm, addMonths(firstMonth, -lead), lead, { closed, waiting: [] })
  return courseFrom(farm, firstMonth, monthCount, { closed, waiting: before.waiting }).course
}

const courseFrom = (
  farm: Farm,
  firstMonth: Month,
  monthCount: number,
  begins: { closed: ClosedMarket | null; waiting: readonly WaitingGroup[][] },
): { course: FarmCourse; waiting: WaitingGroup[][] } => {
  const markets = marketsWithFollowers(farm, firstMonth, monthCount, begins.closed)
  const course = emptyCourse(farm, firstMonth, monthCount, markets)
  farm.enterprises.forEach((enterprise, row) => {
    const months = enterpriseMonths(farm, enterprise, firstMonth, monthCount)
    const at = row * monthCount
    course.units.set(months.units, at)
    course.offered.set(months.offered, at)
    course.directCosts.set(months.costs, at)
    course.hours.set(months.hours, at)
    for (let m = 0; m < monthCount; m += 1) course.landUsed[m]! += months.units[m]! * enterprise.landPerUnit
  })
  farm.herds.forEach((herd, index) => {
    const months = herdMonths(herd, firstMonth, monthCount, herdLimits(farm, herd.id))
    course.herds.push(months)
    addHerd(course, months, farm.enterprises.length + index, herd)
    for (let m = 0; m < monthCount; m += 1)
      course.landUsed[m]! += months.breedingFemales[m]! * herd.landPerFemale
  })
  const waiting = sellThroughMarkets(farm, course, begins.waiting)
  addMonthTotals(farm, course)
  Object.assign(course, crewMonths(farm, course))
  sellWhatIsWorked(course)
  return { course, waiting }
}

/** What the markets take, with the customers of dropped trips who follow: a share of what those trips sold. */
const marketsWithFollowers = (
  farm: Farm,
  firstMonth: Month,
  monthCount: number,
  closed: ClosedMarket | null,
): MarketMonths => {
  const markets = marketMonths(farm, firstMonth, monthCount, closed)
  if (!farm.markets.some((one) => one.followShare > 0)) return markets
  const before = withEveryTrip(farm)
  if (!dropsCustomers(farm, marketMonths(before, firstMonth, monthCount), markets)) return markets
  addFollowers(farm, firstMonth, farmCourse(before, firstMonth, monthCount).marketSales, markets)
  return markets
}

/** Hours that nobody works make the enterprises smaller. */
const sellWhatIsWorked = (course: FarmCourse) => {
  course.sales.forEach((_, cell) => {
    const share = course.work.share[cell % course.monthCount]!
    course.sales[cell] = Math.min(course.offered[cell]! * share, course.ceiling[cell]!)
    course.spent[cell] = course.directCosts[cell]! * share
  })
}

/** What slower years leave of a herd. */
export const herdLimits = (farm: Farm, id: string) =>
  farm.phases.flatMap((phase) =>
    phase.herdLimits.filter((one) => one.herd === id).map((one) => ({ from: phase.from, value: one.value })),
  )

const addHerd = (course: FarmCourse, months: HerdMonths, row: number, herd: Farm['herds'][number]) => {
  const at = row * course.monthCount
  const tax = cullTax(herd)
  for (let m = 0; m < course.monthCount; m += 1) {
    const cell = at + m
    const raised = months.cullSalesRaised[m]!
    const bought = months.cullSales[m]! - raised
    course.units[cell] = months.breedingFemales[m]!
    course.offered[cell] = months.sales[m]! + (tax.isGoods ? months.cullSales[m]! : 0)
    course.directCosts[cell] = months.costs[m]! + (tax.isGoods ? months.stockBought[m]! : 0)
    course.hours[cell] = months.hours[m]!
    course.stockCapital[cell] = months.stockCapital[m]!
    if (tax.isGoods) continue
    course.stockBought[cell] = months.stockBought[m]!
    course.culls[cell] = months.cullSales[m]!
    course.cullGain1231[cell] = raised * tax.raised1231 + bought * tax.bought1231
    course.cullGainOrdinary[cell] = raised * (1 - tax.raised1231) + bought * (1 - tax.bought1231)
  }
}

const addMonthTotals = (farm: Farm, course: FarmCourse) => {
  const overheads = farm.overheads.map((one) => ({ runs: runsIn(one), costs: spreadOverYear(one.costs) }))
  const phases = farm.phases.map((phase) => ({ phase, from: monthFromText(phase.from) }))
  for (let m = 0; m < course.monthCount; m += 1) {
    const at = addMonths(course.firstMonth, m)
    for (const { runs, costs } of overheads) if (runs(at)) course.overheads[m]! += costs[seasonIndex(at)]!
    const latest = phaseInForce(phases, at)
    if (latest) course.leaseIncome[m] = (latest.phase.landLeasedOut * latest.phase.leasePerAcreAndYear) / 12
    for (const { phase, from } of phases) {
      if (from !== at) continue
      for (const sale of phase.sales) {
        course.phaseSales[m]! += sale.price
        course.phaseSalesBasis[m]! += sale.basis
      }
    }
  }
}

interface BegunPhase {
  phase: Farm['phases'][number]
  from: Month
}

/** The last that has begun; of two of the same month the later in the list. */
const phaseInForce = (phases: readonly BegunPhase[], at: Month): BegunPhase | undefined => {
  let latest: BegunPhase | undefined
  for (const one of phases)
    if (one.from <= at && (latest === undefined || one.from >= latest.from)) latest = one
  return latest
}

const emptyCourse = (
  farm: Farm,
  firstMonth: Month,
  monthCount: number,
  markets: MarketMonths,
): FarmCourse => {
  const rows = courseRows(farm)
  const perRow = () => new Float64Array(rows.length * monthCount)
  const perMonth = () => new Float64Array(monthCount)
  const loans = loanMonths(farm.loans, firstMonth, monthCount)
  const marketCosts = perMonth()
  markets.costs.forEach((dollars, cell) => {
    marketCosts[cell % monthCount]! += dollars
  })
  return {
    firstMonth,
    monthCount,
    rows,
    markets: farm.markets.map(({ id, name }) => ({ id, name })),
    workers: [],
    offered: perRow(),
    ceiling: perRow(),
    sales: perRow(),
    directCosts: perRow(),
    spent: perRow(),
    hours: perRow(),
    units: perRow(),
    waiting: perRow(),
    atAuction: perRow(),
    auctionSales: perRow(),
    freezer: perRow(),
    stockCapital: perRow(),
    stockBought: perRow(),
    culls: perRow(),
    cullGain1231: perRow(),
    cullGainOrdinary: perRow(),
    marketSales: new Float64Array(farm.markets.length * monthCount),
    marketCapacity: markets.capacity,
    marketTrips: markets.trips,
    marketHours: markets.hours,
    marketCosts,
    marketCostsEach: markets.costs,
    overheads: perMonth(),
    hoursNeeded: perMonth(),
    overheadHours: perMonth(),
    ...noHands(),
    landUsed: perMonth(),
    leaseIncome: perMonth(),
    phaseSales: perMonth(),
    phaseSalesBasis: perMonth(),
    loanPayments: loans.payments,
    loanInterest: loans.interest,
    loanDrawn: loans.drawn,
    loanBalance: loans.balance,
    herds: [],
  }
}

/** Until the crew's months are known (`work-months.ts`). */
const noHands = () => ({
  hoursByWorker: new Float64Array(0),
  hoursAvailable: new Float64Array(0),
  hiredByPlan: new Float64Array(0),
  hiredPromised: new Float64Array(0),
  work: emptyWorkDone(0),
  hiredCosts: new Float64Array(0),
})
