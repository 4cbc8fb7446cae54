// Works out the Farm page: budgets beside the books, markets, the in-step check, herds with their payback, purchases in their queue.

import { addDays, type Day, firstDayOf, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, month, monthOfYear, monthText, yearIn, yearOf } from '#calendar/month.ts'
import { enterpriseActuals } from '#db/ledger/enterprise-actuals.ts'
import { farmBegan } from '#db/ledger/farm-months.ts'
import { headMoves } from '#db/notebook/field-notes.ts'
import type { Books } from '#db/open.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import type { Farm } from '#farm/farm-document.ts'
import { type FarmYear, netOf, yearOfCourse } from '#farm/farm-year.ts'
import { fitYears } from '#farm/fit/fit-years.ts'
import type { HerdMonths } from '#farm/herd/herd-months.ts'
import { cullSale } from '#farm/herd/herd-tax.ts'
import { costOfHour, hiredYear } from '#farm/hired-help.ts'
import { inStepCheck, type StepDollars } from '#farm/in-step.ts'
import type { HeadMove } from '#farm/notebook/heads.ts'
import { linePayback, type Payback } from '#farm/payback.ts'
import { spreadOverYear } from '#farm/seasonal.ts'
import { byPart, lazily } from '#kept/by-part.ts'
import { keptWith } from '#kept/keeper.ts'
import { formatRange } from '#money/format.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import { isDescribed } from '#runway/compile/compile-farm.ts'
import { type Dollars, type Prices, pricesIn, todaysDollars } from '#runway/dollars/dollars.ts'
import { grownCourse } from '#runway/farm/grown-course.ts'
import type { ProjectedMonth, Projection } from '#runway/project.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { projectionOf } from '#today/projection/courses.ts'
import {
  budgetTimes,
  herdYearTimes,
  hiredTimes,
  marketTimes,
  paybackTimes,
  purchasesIn,
  soldTimes,
  yearTimes,
} from './farm-dollars.ts'
import { purchaseFigures } from './farm-purchases.ts'
import type { FarmFigures, HerdFigures, PaybackFigures } from './figures.ts'
import { herdNoted, joiningNext } from './herd-noted.ts'
import { marketFigures } from './market-figures.ts'
import { soldFigures } from './sold-figures.ts'

/** Years the page offers, and the years a herd and a payback look ahead. */
const yearsOffered = 30
const herdYears = 16
const fitSpan = 8
const paybackYears = 30

export const farmFigures = (
  books: Books,
  plan: Plan,
  revision: { planId: string; name: string; revisionNo: number },
  today: Day,
  askedYear: number | null,
  dollars: Dollars,
): FarmFigures => {
  // As the projection has it: with heads as they were counted and loans as they are owed.
  const { plan: ongoing } = continuedPlan(books, plan, today)
  const { farm } = ongoing
  const projection = lazily(() => projectionOf(ongoing))
  const prices = lazily(() => pricesIn(projection(), dollars))
  const start = firstMonthOf(plan)
  const firstYear = monthOfYear(start) === 1 ? yearOf(start) : yearOf(start) + 1
  const years = Array.from({ length: yearsOffered }, (_, k) => firstYear + k)
  const year = askedYear !== null && years.includes(askedYear) ? askedYear : firstYear
  const course = lazily(() =>
    keptWith(farm, `course ${firstYear}`, () =>
      grownCourse(ongoing, farmCourse(farm, month(firstYear, 1), yearsOffered * 12)),
    ),
  )
  const from = (year - firstYear) * 12
  const atToday = lazily(() => atPricesOf(projection(), todaysDollars(today)))
  const ofTheYear = lazily(() => prices().ofFirst(`${year}-01`))
  const span = yearBefore(monthOfDay(today), farmBegan(books))
  const stepDollars = (of: number) => stepDollarsOf(ongoing, prices(), of)
  const actuals = lazily(() => actualsOf(books, span))
  const purchases = lazily(() => purchaseFigures(books, plan, today))
  const bought = lazily(() => new Map(purchases().queue.map((one) => [one.id, one.bought])))
  return byPart<FarmFigures>({
    planName: () => revision.name,
    planId: () => revision.planId,
    revisionNo: () => revision.revisionNo,
    year: () => year,
    years: () => years,
    summary: () => summaryOf(ongoing, yearOfCourse(course(), year), prices(), ofTheYear()),
    lines: () =>
      enterpriseBudgets(farm, course(), from, costOfHour(farm.hired)).map((line) => ({
        ...budgetTimes(line, ofTheYear()),
        actual: actuals().get(line.tag) ?? null,
      })),
    actualsSpan: () => (actuals().size > 0 ? span : null),
    markets: () => marketFigures(ongoing, course(), from).map((market) => marketTimes(market, ofTheYear())),
    soldWhere: () =>
      soldFigures(books, farm, course(), from, today).map((one) => soldTimes(one, ofTheYear())),
    inStep: () => inStepCheck(farm, year, stepDollars(year)),
    fit: () => fitYears(farm, firstYear, fitSpan, bought(), stepDollars),
    herds: () => {
      const told = { bought: bought(), prices: prices(), atToday: atToday(), ...notesOf(books, today) }
      return farm.herds.map((_, index) => herdFigures(ongoing, index, firstYear, told))
    },
    purchases: () => purchasesIn(purchases(), prices()),
    hired: () =>
      hiredTimes(hiredYear(farm, Array.from(course().work.paid.subarray(from, from + 12))), ofTheYear()),
    overheads: () => overheadFigures(farm).map((one) => ({ ...one, costs: one.costs * ofTheYear() })),
    facilities: () => facilityFigures(farm),
    loans: () => loanFigures(plan.farm, farm, year),
    basics: () => basicFigures(plan, Math.max(...course().landUsed.subarray(from, from + 12))),
  })
}

const stepDollarsOf = (plan: Plan, prices: Prices, year: number): StepDollars => ({
  grown: (one) => grownCourse(plan, one),
  factor: prices.ofFirst(`${year}-01`),
})

const actualsOf = (books: Books, { from, to }: ReturnType<typeof yearBefore>) =>
  new Map(enterpriseActuals(books, from, to).map((one) => [one.tag, one]))

/** The twelve whole months before this one, or as many of them as there have been books. */
const yearBefore = (month: Month, began: Month | null) => {
  const months = Math.max(1, Math.min(12, month - (began ?? 0)))
  return { from: firstDayOf(addMonths(month, -months)), to: addDays(firstDayOf(month), -1), months }
}

const atPricesOf = (projection: Projection, dollars: Extract<Dollars, { of: 'today' }>) => ({
  dollars,
  factor: pricesIn(projection, dollars).ofFirst(dollars.month),
})

/** A year that the projection holds whole is told by it: with hours that purchases save, and with what a death leaves undone. */
const summaryOf = (plan: Plan, year: FarmYear, prices: Prices, factor: number): FarmFigures['summary'] => {
  const byPlan = yearTimes(year, factor)
  // Of a farm that is not described the projection takes what it gives for sales.
  if (!isDescribed(plan.farm)) return byPlan
  const { months } = projectionOf(plan)
  const first = months.findIndex(({ month }) => month === `${year.year}-01`)
  if (first < 0 || first + 12 > months.length) return byPlan
  const sum = (pick: (one: ProjectedMonth) => number, price: (place: number) => number = prices.at) =>
    months.slice(first, first + 12).reduce((total, one, place) => total + pick(one) * price(first + place), 0)
  const hours = (pick: (one: ProjectedMonth) => number) => sum(pick, () => 1)
  const told = {
    ...byPlan,
    sales: sum((one) => one.farmSales),
    directCosts: sum((one) => one.farmCosts - one.farmMarketCosts - one.farmOverheads - one.farmHired),
    marketCosts: sum((one) => one.farmMarketCosts),
    hiredCosts: sum((one) => one.farmHired),
    overheads: sum((one) => one.farmOverheads),
    hours: hours((one) => one.farmHours + one.undoneHours),
    worked: hours((one) => one.farmHours),
    hiredHours: hours((one) => one.hiredHours),
  }
  return { ...told, net: netOf(told) }
}

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

/** By the terms of the plan; what is owed follows from what the books say is owed now. */
const loanFigures = (saved: Farm, ongoing: Farm, year: number): FarmFigures['loans'] =>
  saved.loans.map((loan, place) => ({
    id: loan.id,
    name: loan.name,
    principal: loan.principal,
    yearlyRate: loan.yearlyRate,
    owedAtYearEnd: farmCourse({ ...ongoing, loans: [ongoing.loans[place]!] }, month(year, 1), 12)
      .loanBalance[11]!,
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
        : formatRange(Math.min(...weeklyHours), Math.max(...weeklyHours)),
  })),
  hiredHourlyCost: costOfHour(farm.hired),
})

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

interface HerdTold {
  bought: ReadonlyMap<string, Month | null>
  prices: Prices
  /** A payback counts money at one price level from first to last. */
  atToday: { dollars: Dollars; factor: number }
  /** What the notebook tells of heads, up to today. */
  moves: readonly HeadMove[]
  today: Day
}

const notesOf = (books: Books, today: Day) => ({ moves: headMoves(books, today), today })

const herdFigures = (
  plan: Plan,
  index: number,
  firstYear: number,
  { bought, prices, atToday, moves, today }: HerdTold,
): HerdFigures => {
  const { farm } = plan
  const herd = farm.herds[index]!
  const start = Math.min(firstYear, yearIn(herd.start))
  const count = firstYear + herdYears - start
  const course = keptWith(farm, `course ${start} for ${count}`, () =>
    grownCourse(plan, farmCourse(farm, month(start, 1), count * 12)),
  )
  const months = course.herds[index]!
  const row = farm.enterprises.length + index
  const worked = course.hours.map((hours, cell) => hours * course.work.share[cell % course.monthCount]!)
  const back = keptWith(farm, `payback ${herd.id} ${[...bought].join(' ')}`, () =>
    linePayback(farm, herd.id, paybackYears, { bought, grown: (one) => grownCourse(plan, one) }),
  )
  return {
    id: herd.id,
    name: herd.name,
    kind: herd.kind,
    isMeat: herd.meat !== undefined,
    noted: herdNoted(moves, herd.id, today, firstMonthOf(plan)),
    joinNext: joiningNext(months, monthOfDay(today)),
    years: Array.from({ length: count }, (_, y) => {
      const of = (values: Float64Array, at = 0) =>
        values.subarray(at + y * 12, at + y * 12 + 12).reduce((a, b) => a + b, 0)
      const ofRow = (values: Float64Array) => of(values, row * count * 12)
      const year = {
        year: start + y,
        breedingFemales: months.breedingFemales[y * 12 + 11]!,
        kept: months.replacements[y * 12 + 11]!,
        forSale: months.young[y * 12 + 11]!,
        sold: of(months.soldYoungHeads),
        culled: of(months.culledHeads),
        sales: ofRow(course.sales) + ofRow(course.culls),
        costs: ofRow(course.spent) + ofRow(course.stockBought),
        stockCapital: months.stockCapital[y * 12 + 11]!,
        hours: ofRow(worked),
        waiting: Math.max(...course.waiting.subarray((row * count + y) * 12, (row * count + y + 1) * 12)),
        atAuction: ofRow(course.atAuction),
        auctionSales: ofRow(course.auctionSales),
        freezer: course.freezer[(row * count + y) * 12 + 11]!,
      }
      return herdYearTimes(year, prices)
    }),
    payback: back
      ? paybackTimes({ ...paybackFigures(back, months), dollars: atToday.dollars }, atToday.factor)
      : null,
    tax: { raised: cullSale(herd, 'raised'), bought: cullSale(herd, 'purchased') },
  }
}

const paybackFigures = (back: Payback, stock: HerdMonths): Omit<PaybackFigures, 'dollars'> => ({
  firstMonth: monthText(back.firstMonth),
  moneyIn: back.moneyIn,
  isPutIn: back.isPutIn,
  deepest: back.deepest,
  deepestMonth: monthText(back.deepestMonth),
  paidBack: back.paidBack === null ? null : monthText(back.paidBack),
  monthsToPayBack: back.monthsToPayBack,
  presentWorth: back.presentWorth,
  yearlyReturn: back.yearlyReturn,
  ...stockThen(stock, back.paidBack),
  hours: back.hours,
  // Year by year; what the year's end no longer shows is the month in which it is deepest, before its own money comes in.
  running: Array.from(back.running, (dollars, m) => ({ month: back.firstMonth + m, dollars })).flatMap(
    (point, m) => {
      if (point.month === back.deepestMonth) return [{ ...point, dollars: back.deepest }]
      return monthOfYear(point.month as Month) === 12 || m === 0 ? [point] : []
    },
  ),
})

const stockThen = ({ firstMonth, stockCapital }: HerdMonths, paidBack: Month | null) => {
  const last = stockCapital.length - 1
  const place = paidBack === null ? last : Math.min(last, Math.max(0, paidBack - firstMonth))
  return { stockWorth: stockCapital[place]!, stockWorthMonth: monthText(addMonths(firstMonth, place)) }
}
