// The figures of Cover: who is covered by what, the credit over income, the room left, the move to Medicare, the tax set-aside.
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { Plan } from '#plan/plan.ts'
import * as marketplace from '#rules/data/marketplace.ts'
import { marriedJoint, single } from '#rules/filing-status.ts'
import { coverMethods, type HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law.ts'
import { costlySpans, creditCurve, keptCurve } from '#rules/marketplace/credit-curve.ts'
import { type ExtraIncome, incomeRoom, standAt } from '#rules/marketplace/income-room.ts'
import {
  applicableHundredths,
  type Cover,
  medicaidLineCents,
  povertyLineCents,
} from '#rules/marketplace/premium-credit.ts'
import { partBMonthly } from '#rules/medicare/premiums.ts'
import { wholeCents } from '#rules/rounding.ts'
import { type Dollars, pricesIn } from '#runway/dollars/dollars.ts'
import type { RunwayRules } from '#runway/runway-rules.ts'
import { byPart, lazily } from '#today/by-part.ts'
import { currentPlan } from '#today/current-plan.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { projectionOf, rulesOf } from '#today/projection/courses.ts'
import { taxSoFarFigures } from '#today/tax/tax-so-far.ts'
import { householdOfYear } from './cover-household.ts'
import { type CoverYear, coverYears, medicareStarts } from './cover-years.ts'
import type { CoverFigures, CoverYearRow, MedicareStart, YearInSight } from './figures.ts'

export interface CoverWish {
  /** Year to look at; null for this one. */
  year: number | null
  /** Household income to look at, in dollars; null for the plan's. */
  income: number | null
}

/** Years of the plan are told in the dollars asked for; the year in sight in its own, in which the law draws its lines. */
export const coverFigures = (books: Books, today: Day, wish: CoverWish, dollars: Dollars): CoverFigures => {
  const current = currentPlan(books)
  if (current.status === 'none') return { status: 'none', tax: null }
  if (current.status === 'unreadable') {
    const fault = current.faults[0]
    return { status: 'unreadable', says: fault ? `${fault.path}: ${fault.message}` : '', tax: null }
  }
  const { plan } = continuedPlan(books, current.plan, today)
  const tax = lazily(() => taxSoFarFigures(books, current.plan, today))
  const rules = rulesOf(plan)
  const years = coverYears(plan, rules, projectionOf(plan)).filter((one) => one.year >= rules.firstYear)
  const thisYear = Number.parseInt(today.slice(0, 4), 10)
  const seen = years.find((one) => one.year === (wish.year ?? thisYear)) ?? years[0]
  if (!seen) return byPart<Extract<CoverFigures, { status: 'no-years' }>>({ status: () => 'no-years', tax })
  return byPart<Extract<CoverFigures, { status: 'read' }>>({
    status: () => 'read',
    planName: () => current.name,
    rows: () => {
      const { ofMonth } = pricesIn(projectionOf(plan), dollars)
      return years.map((one) => rowTimes(rowOf(plan, rules.lawFor(one.year), one), ofMonth(`${one.year}-12`)))
    },
    inSight: () =>
      seen.marketplaceMonths > 0 || seen.onMedicaid ? sightOf(plan, rules, seen, wish.income) : null,
    year: () => seen.year,
    ageRating: () => plan.health.marketplace.ageRating,
    premiumByAge: () => {
      const factor = pricesIn(projectionOf(plan), dollars).ofMonth(`${seen.year}-12`)
      return premiumsByAge(plan, rules, seen.year - (years[0]?.year ?? seen.year)).map((one) => ({
        age: one.age,
        plan: one.plan * factor,
        benchmark: one.benchmark * factor,
      }))
    },
    medicare: () => medicareOf(plan, rules, monthOfDay(today)),
    tax,
  })
}

const rowOf = (plan: Plan, law: LawYear, cover: CoverYear): CoverYearRow => {
  const standing = standAt(law, coveredHousehold(plan, law, cover), 'otherIncome', 0)
  const months = standing.onMedicaid ? 0 : cover.marketplaceMonths
  return {
    year: cover.year,
    isProjectedLaw: law.basis === 'projected',
    people: cover.people.map((person) => ({
      name: person.name,
      age: person.age,
      cover: (
        Object.entries(person.months) as [CoverYearRow['people'][number]['cover'][number]['kind'], number][]
      )
        .filter(([, count]) => count > 0)
        .map(([kind, count]) => ({ kind, months: count })),
      premiumMonthly: person.premiumMonthly,
    })),
    premiumMonthly: cover.premiumMonthly,
    benchmarkMonthly: cover.benchmarkMonthly,
    marketplaceMonths: months,
    householdIncome: standing.householdIncome,
    povertyPercent: standing.povertyPercent,
    credit: standing.credit,
    netPremiumMonthly: months > 0 ? standing.netPremium / months : 0,
  }
}

const rowTimes = (row: CoverYearRow, factor: number): CoverYearRow => ({
  ...row,
  people: row.people.map((person) => ({ ...person, premiumMonthly: person.premiumMonthly * factor })),
  premiumMonthly: row.premiumMonthly * factor,
  benchmarkMonthly: row.benchmarkMonthly * factor,
  householdIncome: row.householdIncome * factor,
  credit: row.credit * factor,
  netPremiumMonthly: row.netPremiumMonthly * factor,
})

/** In a year sent to Medicaid the marketplace's prices are still asked for, so that the room beyond the line can be told. */
const coveredHousehold = (plan: Plan, law: LawYear, cover: CoverYear): HouseholdYear => {
  const household = householdOfYear(plan, law, cover)
  return cover.onMedicaid ? { ...household, coverMonths: 12, deductibleMonths: 12 } : household
}

const sightOf = (plan: Plan, rules: RunwayRules, cover: CoverYear, typed: number | null): YearInSight => {
  const law = rules.lawFor(cover.year)
  const planned = coveredHousehold(plan, law, cover)
  const plannedIncome = standAt(law, planned, 'otherIncome', 0).householdIncome
  const household = typed === null ? planned : withHouseholdIncome(law, planned, typed)
  const kind: ExtraIncome = household.farmProfit.some((profit) => profit !== 0) ? 'farmProfit' : 'otherIncome'
  const room = incomeRoom(law, household, kind)
  const size = household.people + household.childrenUnder17 + household.otherDependants
  const terms = coverTerms(law, household, size)
  const kept = keptCurve(law, household, kind, spanOf(household, kind))
  return {
    query: `year=${cover.year}${typed === null ? '' : `&income=${typed.toFixed(2)}`}`,
    year: cover.year,
    isProjectedLaw: law.basis === 'projected',
    projectedRules: law.projected.length,
    householdSize: size,
    povertyLine: terms.povertyLine / 100,
    plannedIncome,
    lookedAtIncome: room.now.householdIncome,
    months: household.coverMonths,
    premiumMonthly: household.premiumMonthly,
    benchmarkMonthly: household.benchmarkMonthly,
    applicablePercent: applicableHundredths(law, room.now.povertyPercent) / 100,
    method: coverMethods[room.now.method]!,
    room,
    extraIs: kind === 'farmProfit' ? 'farm profit' : 'other income',
    credit: creditCurve(law, terms, Math.max(450, Math.ceil(room.now.povertyPercent / 50) * 50)),
    kept,
    costly: costlySpans(kept).filter((span) => span.loses >= 5),
    careMonthly: plan.health.careBefore65 * household.people,
    medicaidExpansion: plan.health.medicaidExpansion,
    sources: {
      percentage: marketplace.applicablePercentage.source,
      poverty: marketplace.povertyFirst.source,
      costSharing: marketplace.costSharing.source,
      medicaid: marketplace.medicaidPercent.source,
    },
  }
}

const coverTerms = (law: LawYear, household: HouseholdYear, size: number): Cover => ({
  povertyLine: povertyLineCents(law, household.region, size),
  medicaidLine: household.medicaidExpansion === 1 ? medicaidLineCents(law, household.region, size) : 0,
  months: household.coverMonths,
  premium: wholeCents(household.premiumMonthly) * household.coverMonths,
  benchmark: wholeCents(household.benchmarkMonthly) * household.coverMonths,
  advance: 0,
  creditAllowed:
    household.status === single || household.status === marriedJoint || household.people === 1 ? 1 : 0,
  repaymentSingle: household.status === single ? 1 : 0,
})

/** The household with so much other income, more or less, that its household income is what was typed. */
const withHouseholdIncome = (law: LawYear, household: HouseholdYear, income: number): HouseholdYear => {
  let changed = household
  for (let pass = 0; pass < 12; pass += 1) {
    const off = income - standAt(law, changed, 'otherIncome', 0).householdIncome
    if (Math.abs(off) < 0.5) break
    changed = { ...changed, otherIncome: changed.otherIncome + off }
  }
  return changed
}

/** From half the profit less to as far as a household of this size may think of, by steps of 250 dollars. */
const spanOf = (household: HouseholdYear, kind: ExtraIncome): { from: number; to: number; step: number } => {
  const profit = kind === 'farmProfit' ? household.farmProfit[0]! + household.farmProfit[1]! : 0
  const from = -Math.max(0, Math.min(20_000, Math.floor(profit / 2 / 1000) * 1000))
  return { from, to: 100_000, step: 250 }
}

const premiumsByAge = (plan: Plan, rules: RunwayRules, yearsOn: number) => {
  const level = (1 + plan.assumptions.premiumGrowth) ** yearsOn
  const { planAt21, benchmarkAt21, ageRating } = plan.health.marketplace
  const factorAt = (age: number) => rules.memberFactors(ageRating, [{ age, isDependant: age < 21 }])[0]!
  if (planAt21 <= 0 && benchmarkAt21 <= 0) return []
  return Array.from({ length: 65 }, (_, age) => ({
    age,
    plan: planAt21 * factorAt(age) * level,
    benchmark: benchmarkAt21 * factorAt(age) * level,
  }))
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
