// Works out the Farm page: budgets beside the books, markets, the in-step check, herds with their payback, purchases in their queue.
import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, month, monthOfYear, monthText, yearIn, yearOf } from '#calendar/month.ts'
import { enterpriseActuals } from '#db/ledger/enterprise-actuals.ts'
import type { Books } from '#db/open.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { type FarmCourse, farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { yearOfCourse } from '#farm/farm-year.ts'
import { cullSale } from '#farm/herd/herd-tax.ts'
import { costOfHour, hiredYear } from '#farm/hired-help.ts'
import { inStepCheck } from '#farm/in-step.ts'
import { linePayback, type Payback } from '#farm/payback.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import { keptWith } from '#kept/keeper.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { type Dollars, type Prices, pricesIn, todaysDollars } from '#runway/dollars/dollars.ts'
import { byPart, lazily } from '#today/by-part.ts'
import { projectionOf } from '#today/projection/courses.ts'
import {
  budgetTimes,
  herdYearTimes,
  hiredTimes,
  marketTimes,
  paybackTimes,
  purchasesIn,
  yearTimes,
} from './farm-dollars.ts'
import { purchaseFigures } from './farm-purchases.ts'
import type { FarmFigures, HerdFigures, MarketFigures, PaybackFigures } from './figures.ts'

/** Years the page offers, and the years a herd and a payback look ahead. */
const yearsOffered = 30
const herdYears = 16
const paybackYears = 30

export const farmFigures = (
  books: Books,
  plan: Plan,
  revision: { planId: string; name: string; revisionNo: number },
  today: Day,
  askedYear: number | null,
  dollars: Dollars,
): FarmFigures => {
  const { farm } = plan
  const prices = lazily(() => pricesIn(projectionOf(plan), dollars))
  const start = firstMonthOf(plan)
  const firstYear = monthOfYear(start) === 1 ? yearOf(start) : yearOf(start) + 1
  const years = Array.from({ length: yearsOffered }, (_, k) => firstYear + k)
  const year = askedYear !== null && years.includes(askedYear) ? askedYear : firstYear
  const course = lazily(() =>
    keptWith(farm, `course ${firstYear}`, () => farmCourse(farm, month(firstYear, 1), yearsOffered * 12)),
  )
  const from = (year - firstYear) * 12
  const atToday = lazily(() => atPricesOf(plan, todaysDollars(today)))
  const ofTheYear = lazily(() => prices().ofFirst(`${year}-01`))
  const span = {
    from: firstDayOf(addMonths(monthOfDay(today), -12)),
    to: addDays(firstDayOf(monthOfDay(today)), -1),
  }
  const actuals = lazily(
    () => new Map(enterpriseActuals(books, span.from, span.to).map((one) => [one.tag, one])),
  )
  const purchases = lazily(() => purchaseFigures(books, plan, today))
  const bought = lazily(() => new Map(purchases().queue.map((one) => [one.id, one.bought])))
  return byPart<FarmFigures>({
    planName: () => revision.name,
    planId: () => revision.planId,
    revisionNo: () => revision.revisionNo,
    year: () => year,
    years: () => years,
    summary: () => yearTimes(yearOfCourse(course(), year), ofTheYear()),
    lines: () =>
      enterpriseBudgets(farm, course(), from, costOfHour(farm.hired)).map((line) => ({
        ...budgetTimes(line, ofTheYear()),
        actual: actuals().get(line.tag) ?? null,
      })),
    actualsSpan: () => (actuals().size > 0 ? span : null),
    markets: () => marketFigures(farm, course(), from).map((market) => marketTimes(market, ofTheYear())),
    inStep: () => inStepCheck(farm, year),
    herds: () =>
      farm.herds.map((_, index) =>
        herdFigures(farm, index, firstYear, { bought: bought(), prices: prices(), atToday: atToday() }),
      ),
    purchases: () => purchasesIn(purchases(), prices()),
    hired: () =>
      hiredTimes(hiredYear(farm, Array.from(course().work.hired.subarray(from, from + 12))), ofTheYear()),
    overheads: () => overheadFigures(farm).map((one) => ({ ...one, costs: one.costs * ofTheYear() })),
    facilities: () => facilityFigures(farm),
    loans: () => loanFigures(farm, year),
    basics: () => basicFigures(plan, Math.max(...course().landUsed.subarray(from, from + 12))),
  })
}

const atPricesOf = (plan: Plan, dollars: Extract<Dollars, { of: 'today' }>) => ({
  dollars,
  factor: pricesIn(projectionOf(plan), dollars).ofFirst(dollars.month),
})

const overheadFigures = (farm: Farm): FarmFigures['overheads'] =>
  farm.overheads.map(({ id, name, costs, hours }) => ({
    id,
    name,
    costs: sum(spreadOverYear(costs)),
    hours: sum(spreadOverYear(hours)),
  }))

const facilityFigures = (farm: Farm): FarmFigures['facilities'] =>
  farm.facilities.map(({ id, name, unit, uses }) => ({
    id,
    name,
    unit,
    uses: uses.map(({ by }) => [...farm.enterprises, ...farm.herds].find((one) => one.id === by)?.name ?? by),
  }))

const loanFigures = (farm: Farm, year: number): FarmFigures['loans'] =>
  farm.loans.map((loan) => ({
    id: loan.id,
    name: loan.name,
    principal: loan.principal,
    yearlyRate: loan.yearlyRate,
    owedAtYearEnd: farmCourse({ ...farm, loans: [loan] }, month(year, 1), 12).loanBalance[11]!,
  }))

const basicFigures = ({ farm, household }: Plan, landUsed: number): FarmFigures['basics'] => ({
  cash: farm.cash,
  reserve: farm.reserve,
  land: farm.land,
  landUsed,
  winterFeed: farm.winterFeed ?? null,
  crew: farm.crew.map(({ who, weeklyHours }) => ({
    who: household.people.find((person) => person.id === who)?.name ?? who,
    weeklyHours:
      typeof weeklyHours === 'number'
        ? String(weeklyHours)
        : `${Math.min(...weeklyHours)} to ${Math.max(...weeklyHours)}`,
  })),
  hiredHourlyCost: costOfHour(farm.hired),
})

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

const marketFigures = (farm: Farm, course: FarmCourse, from: number): MarketFigures[] =>
  farm.markets.map((market, k) => {
    const of = (values: Float64Array, start = from) => {
      const at = k * course.monthCount + start
      return values.subarray(at, at + 12).reduce((a, b) => a + b, 0)
    }
    const [trips, hours, sold, costs] = [
      of(course.marketTrips),
      of(course.marketHours),
      of(course.marketSales),
      of(course.marketCostsEach),
    ]
    const later = Array.from({ length: 10 }, (_, y) =>
      of(course.marketTrips, Math.min(from + 12 * (y + 1), course.monthCount - 12)),
    )
    return {
      id: market.id,
      name: market.name,
      trips,
      capacity: of(course.marketCapacity),
      sold,
      costs,
      hours,
      perHour: hours > 0 ? (sold - costs) / hours : null,
      followShare: market.followShare,
      tripsLaterChange: later.some((one) => Math.abs(one - trips) > 0.5),
    }
  })

interface HerdTold {
  bought: ReadonlyMap<string, Month | null>
  prices: Prices
  /** A payback counts money at one price level from first to last. */
  atToday: { dollars: Dollars; factor: number }
}

const herdFigures = (
  farm: Farm,
  index: number,
  firstYear: number,
  { bought, prices, atToday }: HerdTold,
): HerdFigures => {
  const herd = farm.herds[index]!
  const start = Math.min(firstYear, yearIn(herd.start))
  const count = firstYear + herdYears - start
  const course = keptWith(farm, `course ${start} for ${count}`, () =>
    farmCourse(farm, month(start, 1), count * 12),
  )
  const months = course.herds[index]!
  const row = farm.enterprises.length + index
  const back = keptWith(farm, `payback ${herd.id} ${[...bought].join(' ')}`, () =>
    linePayback(farm, herd.id, paybackYears, { bought }),
  )
  return {
    id: herd.id,
    name: herd.name,
    years: Array.from({ length: count }, (_, y) => {
      const of = (values: Float64Array, at = 0) =>
        values.subarray(at + y * 12, at + y * 12 + 12).reduce((a, b) => a + b, 0)
      const ofRow = (values: Float64Array) => of(values, row * count * 12)
      const year = {
        year: start + y,
        breedingFemales: months.breedingFemales[y * 12 + 11]!,
        sold: of(months.soldYoungHeads),
        culled: of(months.culledHeads),
        sales: ofRow(course.sales) + ofRow(course.culls),
        costs: ofRow(course.directCosts) + ofRow(course.stockBought),
        stockCapital: months.stockCapital[y * 12 + 11]!,
        hours: ofRow(course.hours),
        waiting: Math.max(...course.waiting.subarray((row * count + y) * 12, (row * count + y + 1) * 12)),
        atAuction: ofRow(course.atAuction),
      }
      return herdYearTimes(year, prices)
    }),
    payback: back
      ? paybackTimes({ ...paybackFigures(back), dollars: atToday.dollars }, atToday.factor)
      : null,
    tax: { raised: cullSale(herd, 'raised'), bought: cullSale(herd, 'purchased') },
  }
}

const paybackFigures = (back: Payback): Omit<PaybackFigures, 'dollars'> => ({
  firstMonth: monthText(back.firstMonth),
  moneyIn: back.moneyIn,
  deepest: back.deepest,
  deepestMonth: monthText(back.deepestMonth),
  paidBack: back.paidBack === null ? null : monthText(back.paidBack),
  monthsToPayBack: back.monthsToPayBack,
  presentWorth: back.presentWorth,
  yearlyReturn: back.yearlyReturn,
  worthAtEnd: back.worthAtEnd,
  hours: back.hours,
  running: Array.from(back.running, (dollars, m) => ({ month: back.firstMonth + m, dollars })).filter(
    (point, m) => monthOfYear(point.month as Month) === 12 || m === 0,
  ),
})
