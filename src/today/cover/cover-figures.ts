// The figures of Cover: who is covered by what, the credit over income, the room left, the move to Medicare, the tax set-aside.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { byPart, lazily } from '#kept/by-part.ts'
import { keeper } from '#kept/keeper.ts'
import { ratingPlaceOf } from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { limitSource } from '#rules/coverage/coverage-limits.ts'
import { type CoverageStep, knowsPremiums, stepLineCents } from '#rules/coverage/coverage-steps.ts'
import * as marketplace from '#rules/data/marketplace.ts'
import { filingStatuses } from '#rules/filing-status.ts'
import { coverMethods, type HouseholdYear, householdSize } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law.ts'
import { costlySpans, creditCurve, creditEndsAt, keptCurve } from '#rules/marketplace/credit-curve.ts'
import { costlyLine, extraNames, extraOf, incomeRoom } from '#rules/marketplace/income-room.ts'
import {
  applicableHundredths,
  povertyLineCents,
  programPovertyLine,
} from '#rules/marketplace/premium-credit.ts'
import { type ExtraIncome, standAt, standing } from '#rules/marketplace/year-standing.ts'
import { partBMonthly } from '#rules/medicare/premiums.ts'
import { childrenAtFullCost } from '#rules/places/children-at-full-cost.ts'
import { stateNames } from '#rules/places/state-names.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
import { taxSoFarFigures } from '#today/tax/tax-so-far.ts'
import { householdOfYear } from './cover-household.ts'
import { placeFiguresOf } from './cover-place.ts'
import { medicaidByWorkOf, workInSight, workOf } from './cover-work.ts'
import { type CoverYear, partOfCosts } from './cover-year.ts'
import { coverYears, medicareStarts, untoldMonths } from './cover-years.ts'
import type { CoverageBand, CoverFigures, CoverYearRow, MedicareStart, YearInSight } from './figures.ts'
import { type AskedOf, leftWithoutAt } from './left-without.ts'
import { otherIncomeMeeting } from './met-income.ts'
import { monthIncome } from './month-income.ts'
import { chargesOf, paidInMonths, paidTimes } from './paid-in-months.ts'
import { premiumsByAge } from './premiums-by-age.ts'

export interface CoverWish {
  /** Year to look at; null for this one. */
  year: number | null
  /** Household income to look at, in dollars; null for the plan's. */
  income: number | null
}

/** Years of the plan are told in the dollars asked for; the year in sight in its own, in which the law draws its lines. */
export const coverFigures = (
  books: Books,
  current: CurrentPlan,
  today: Day,
  wish: CoverWish,
  dollars: Dollars,
): CoverFigures => {
  if (current.status === 'none') return { status: 'none', tax: null }
  if (current.status === 'unreadable') {
    const fault = current.faults[0]
    return { status: 'unreadable', says: fault ? `${fault.path}: ${fault.message}` : '', tax: null }
  }
  const { plan } = continuedPlan(books, current.plan, today)
  const tax = lazily(() => taxSoFarFigures(books, current.plan, today))
  const rules = rulesOf(plan)
  const incomeIn = (month: Month) => monthIncome(books, current.plan, month)
  const years = coverYears(plan, rules, projectionOf(plan), incomeIn).filter(
    (one) => one.year >= rules.firstYear,
  )
  const thisYear = Number.parseInt(today.slice(0, 4), 10)
  const seen = years.find((one) => one.year === (wish.year ?? thisYear)) ?? years[0]
  if (!seen) return byPart<Extract<CoverFigures, { status: 'no-years' }>>({ status: () => 'no-years', tax })
  return byPart<Extract<CoverFigures, { status: 'read' }>>({
    status: () => 'read',
    planName: () => current.name,
    month: () => monthOfDay(today),
    childrenAtFullCost: () => fullCostOf(plan),
    rows: () => {
      const { ofMonth } = pricesIn(projectionOf(plan), dollars)
      return years.map((one) => rowTimes(rowOf(plan, rules.lawFor(one.year), one), ofMonth(`${one.year}-12`)))
    },
    inSight: () =>
      seen.steps.length > 1 || seen.steps.at(-1)!.coverMonths > 0
        ? keptSight(plan, `${seen.year} ${wish.income}`, () => sightOf(plan, rules, seen, wish.income))
        : null,
    year: () => seen.year,
    untold: () => untoldMonths(plan, seen.year),
    ageRating: () => ratingPlaceOf(plan),
    premiumByAge: () => {
      const factor = pricesIn(projectionOf(plan), dollars).ofMonth(`${seen.year}-12`)
      return premiumsByAge(plan, rules, seen.year).map((one) => ({
        age: one.age,
        plan: one.plan * factor,
        benchmark: one.benchmark * factor,
      }))
    },
    place: () => placeFiguresOf(plan, rules, seen.year),
    medicare: () => medicareOf(plan, rules, monthOfDay(today)),
    tax,
  })
}

const fullCostOf = ({ household: { place } }: Plan) =>
  place.state !== undefined && childrenAtFullCost.states.includes(place.state)
    ? { state: stateNames[place.state], source: childrenAtFullCost.source }
    : null

const rowOf = (plan: Plan, law: LawYear, cover: CoverYear): CoverYearRow => {
  const household = householdOfYear(plan, law, cover)
  const { householdIncome, povertyPercent, premiumTaxCredit } = cover.projected
  return {
    year: cover.year,
    part: cover.part,
    isProjectedLaw: law.basis === 'projected',
    people: cover.people.map((person) => ({
      name: person.name,
      age: person.age,
      turns: person.turns,
      cover: person.cover,
      premiumMonthly: person.premiumMonthly,
      work: workOf(plan, cover, person),
    })),
    premiumMonthly: cover.premiumMonthly,
    benchmarkMonthly: cover.benchmarkMonthly,
    marketplaceMonths: cover.marketplaceMonths,
    householdIncome,
    povertyPercent,
    credit: premiumTaxCredit,
    marketplacePaid: leftByCredit(cover),
    paidMonthly: afterCredit(cover),
    paidInMonths: paidInMonths(cover, premiumTaxCredit),
    filing: filingStatuses[household.status]!,
  }
}

const rowTimes = (row: CoverYearRow, factor: number): CoverYearRow => ({
  ...row,
  people: row.people.map((person) => ({ ...person, premiumMonthly: person.premiumMonthly * factor })),
  premiumMonthly: row.premiumMonthly * factor,
  benchmarkMonthly: row.benchmarkMonthly * factor,
  householdIncome: row.householdIncome * factor,
  credit: row.credit * factor,
  marketplacePaid: row.marketplacePaid * factor,
  paidMonthly: row.paidMonthly * factor,
  paidInMonths: row.paidInMonths && paidTimes(row.paidInMonths, factor),
})

/** Premiums of the year's marketplace that its credit leaves, in advance or with the return. */
const leftByCredit = ({ premiumMonthly, marketplaceMonths, projected }: CoverYear): number =>
  Math.max(0, premiumMonthly * marketplaceMonths - projected.premiumTaxCredit)

/** All premiums a month, on average over the months of the projection. */
const afterCredit = (cover: CoverYear): number => {
  const { monthsRun, marketplaceMonths, premiumsPaid, amongLivingCosts } = cover
  const { charged, advance, months } = cover.paidIn.ahead
  if (monthsRun === 0) return 0
  const others = Math.max(0, premiumsPaid - (charged - advance)) + amongLivingCosts
  const left = months > 0 ? (leftByCredit(cover) * months) / marketplaceMonths : 0
  return (others + left) / monthsRun
}

/** Hundreds of returns: kept with the plan, from which all of it follows. */
const keptSight = keeper(3)

const sightOf = (plan: Plan, rules: RunwayRules, cover: CoverYear, typed: number | null): YearInSight => {
  const law = rules.lawFor(cover.year)
  const { steps } = cover
  const planned = householdOfYear(plan, law, cover)
  const plannedIncome = standAt(law, planned, 'otherIncome', 0, steps).householdIncome
  const household = typed === null ? planned : withHouseholdIncome(law, planned, typed, steps)
  const kind = extraOf(household)
  const room = incomeRoom(law, household, kind, steps)
  const kept = keptCurve(law, household, kind, spanOf(household, kind), steps)
  const step = steps[room.now.step]!
  const asked: AskedOf = { law, household, kind, steps, ...oneMore(plan, rules, cover) }
  return {
    query: `year=${cover.year}${typed === null ? '' : `&income=${typed.toFixed(2)}`}`,
    year: cover.year,
    part: cover.part,
    goesOnFrom: cover.goesOnFrom,
    costPart: partOfCosts(cover),
    isProjectedLaw: law.basis === 'projected',
    projectedRules: law.projected.length,
    householdSize: householdSize(household),
    povertyLine: povertyLineCents(law, household.region, householdSize(household)) / 100,
    plannedIncome,
    lookedAtIncome: room.now.householdIncome,
    isTried: typed !== null,
    expectedIncome: cover.expectedIncome,
    months: step.coverMonths,
    premiumMonthly: step.premiumMonthly,
    benchmarkMonthly: step.benchmarkMonthly,
    runFrom: cover.runFrom,
    charges: chargesOf(step),
    monthsAtMost: steps.at(-1)!.coverMonths,
    paidInMonths: paidInMonths(cover, room.now.credit),
    applicablePercent: applicableHundredths(law, room.now.povertyPercent) / 100,
    method: coverMethods[room.now.method]!,
    room,
    cliff: costlyLine(room, steps),
    leftWithout: room.rooms.map((line) => leftWithoutAt(asked, line)),
    extraIs: extraNames[kind],
    extraNow: kind === 'farmProfit' ? profitOf(household) : household.otherIncome,
    credit: creditCurve(
      law,
      { household, steps },
      Math.max(450, Math.ceil(room.now.povertyPercent / 50) * 50),
    ),
    creditEndsAt: creditEndsAt(law, { household, steps }),
    kept,
    costly: costlySpans(kept).filter((span) => span.loses >= 5),
    careMonthly: plan.health.careBefore65 * household.people,
    bands: bandsOf(law, household, steps),
    work: workInSight(plan, cover, room.now.householdIncome),
    medicaidByWork: medicaidByWorkOf(plan, cover, percentOf(law, household, room.now.householdIncome)),
    knowsPremiums: knowsPremiums(steps),
    standsOn: room.now.step,
    sources: sourcesOf(plan),
  }
}

/** By the level of the year itself, as Medicaid goes. */
const percentOf = (law: LawYear, household: HouseholdYear, income: number): number =>
  (100 * income) / programPovertyLine(law, household.region, householdSize(household))

/** What one more on the marketplace would cost, by name. */
const oneMore = (plan: Plan, rules: RunwayRules, { year, part, people }: CoverYear) => {
  const ages = premiumsByAge(plan, rules, year)
  return {
    months: part?.months ?? 12,
    premiumFor: (name: string) => ages[people.find((one) => one.name === name)?.age ?? ages.length] ?? null,
  }
}

const sourcesOf = (plan: Plan): YearInSight['sources'] => ({
  percentage: marketplace.applicablePercentage.source,
  poverty: marketplace.povertyFirst.source,
  costSharing: marketplace.costSharing.source,
  medicaid:
    plan.household.place.state === undefined ? marketplace.medicaidPercent.source : limitSource('adult'),
})

const bandsOf = (law: LawYear, household: HouseholdYear, steps: readonly CoverageStep[]): CoverageBand[] =>
  steps.map((step) => {
    const line = stepLineCents(law, household, step)
    return {
      toIncome: Number.isFinite(line) ? line / 100 : null,
      limit: step.limit,
      people: step.people
        .filter(({ kind }) => kind !== 'absent')
        .map(({ name, kind, later }) => ({ name, kind, later })),
      premiumMonthly: step.premiumAhead,
    }
  })

/** The household with so much other income, more or less, that its household income is what was typed. */
const withHouseholdIncome = (
  law: LawYear,
  household: HouseholdYear,
  income: number,
  steps: readonly CoverageStep[],
): HouseholdYear => {
  const at = standing(law, { ...household, otherIncome: 0 }, 'otherIncome', steps)
  const incomeWith = (otherIncome: number) => at(otherIncome).householdIncome
  return { ...household, otherIncome: otherIncomeMeeting(income, household.otherIncome, incomeWith) }
}

const profitOf = ({ farmProfit }: HouseholdYear): number => farmProfit[0]! + farmProfit[1]!

/** From half the profit less to as far as a household of this size may think of, by steps of 250 dollars. */
const spanOf = (household: HouseholdYear, kind: ExtraIncome): { from: number; to: number; step: number } => {
  const profit = kind === 'farmProfit' ? profitOf(household) : 0
  const from = -Math.max(0, Math.min(20_000, Math.floor(profit / 2 / 1000) * 1000))
  return { from, to: 100_000, step: 250 }
}

const signUpMonths = 3

const medicareOf = (plan: Plan, rules: RunwayRules, thisMonth: number): MedicareStart[] =>
  medicareStarts(plan)
    .filter((start) => start.month + signUpMonths >= thisMonth)
    .sort((a, b) => a.month - b.month)
    .map((start) => {
      const law = rules.medicareFor(Math.max(start.year, rules.firstYear))
      const income = projectionOf(plan).years.find((one) => one.year === start.year - 2)?.medicareIncome ?? 0
      return {
        name: start.name,
        month: start.month,
        signUpFrom: addMonths(start.month, -signUpMonths),
        signUpTo: addMonths(start.month, signUpMonths),
        partBMonthly: partBMonthly(law, income, plan.household.people.length > 1 ? 1 : 0),
        year: start.year,
      }
    })
