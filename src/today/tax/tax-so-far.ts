// The tax set-aside: tax on what the year has brought so far by the books, and the days it falls due.
import { type Day, dayName } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import type { Plan } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { StateLaw } from '#rules/states/state-year.ts'
import { taxSoFar } from '#rules/tax-so-far.ts'
import type { TaxSoFarFigures } from '#today/cover/figures.ts'
import { booksYear, hasResults, isFarmer, yearIncome } from './books-year.ts'
import { fillTaken } from './early-taken.ts'
import { paidAhead, withPaidEarlier } from './paid-for.ts'
import type { ReturnKind } from './return-kinds.ts'
import { putSavings, savedFor } from './saved-for.ts'
import { taxDays } from './tax-days.ts'
import { lastYearOf, paidAheadFor, taxPayments, worksheetAfterPayments } from './tax-payments.ts'
import { carriedInto, fillCover, householdWithIncome } from './tax-worksheet.ts'

/** Null before the books hold anything of a year the law is known for. Needs the plan to know who files. */
export const taxSoFarFigures = (books: Books, plan: Plan, today: Day): TaxSoFarFigures | null => {
  const year = Number.parseInt(today.slice(0, 4), 10)
  if (year < firstLawYear) return null
  const read = booksYear(books, year)
  const owedBefore = (to: ReturnKind) =>
    isBeforeMay(today) ? taxPayments(books, plan, year - 1, to).stillOwed : null
  const lastYear = owedBefore('federal')
  const income = yearIncome(books, plan, year)
  if (!income || !(hasResults(read) || lastYear)) return null
  const indexing = steadyIndexing(plan.assumptions.inflation, plan.assumptions.wageGrowth)
  const law = lawFor(year, indexing)
  const carried = carriedInto(plan, year, lastYearOf(books, plan, year - 1))
  const household = householdWithIncome(plan, income, paidAheadFor(books, plan, year), carried)
  // Premiums lower income as on the worksheet, and with it what of the child credit comes back.
  fillCover(household, read.sides, plan, income)
  fillTaken(household, plan, read.sides, income.earlier)
  putSavings(law, household, savedFor(books, plan, year), plan, indexing)
  const tax = taxSoFar(law, household)
  const statePaid = household.state ? paidToState(books, plan, income) : 0
  const owedBesides = besides.map((to) => (household.state ? owedBefore(to) : null))
  const stateLastYear = owedBesides.every((owed) => owed === null)
    ? null
    : owedBesides.reduce<number>((sum, owed) => sum + (owed ?? 0), 0)
  const farmer = isFarmer(books, plan, year)
  const stateOf = household.state && (household.state.state ?? plan.household.place.state ?? null)
  return {
    year,
    through: dayName(today),
    withEarlier: income.earlier !== undefined,
    farmGross: income.farmGross,
    farmExpenses: income.farmExpenses,
    farmProfit: income.farmProfit,
    otherSelfEmployment: income.ventureProfit,
    wages: income.pay,
    interest: income.interest,
    stockSold:
      income.sold.section1231 +
      income.sold.ordinary +
      income.sold.personal.longTerm +
      income.sold.personal.shortTerm,
    besides: besidesOf(income),
    paid: tax.paid,
    selfEmploymentTax: tax.selfEmploymentTax,
    incomeTax: tax.incomeTax,
    total: tax.total,
    owedForLastYear: lastYear === null ? stateLastYear : lastYear + (stateLastYear ?? 0),
    state: household.state
      ? { tax: Math.max(0, tax.stateTax), paid: statePaid, name: nameOf(household.state) }
      : null,
    setAside: tax.setAside + (lastYear ?? 0) + Math.max(0, tax.stateTax - statePaid) + (stateLastYear ?? 0),
    mayComeBack: tax.mayComeBack + Math.max(0, -tax.stateTax),
    comesBack: comesBackOf(books, plan, year),
    isFarmer: farmer,
    dates: taxDays(books, plan, year, stateOf ?? null, today)
      .filter(({ date, stillAhead }) => date.day >= today || (stillAhead ?? 0) > 0)
      .sort(({ date: a }, { date: b }) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
      .map(({ date, stillAhead }) => ({ day: date.day, says: date.title, stillAhead })),
    basis: law.basis,
  }
}

/** As the year's worksheet has it; nothing of a year that it cannot tell it of. */
const comesBackOf = (books: Books, plan: Plan, year: number): TaxSoFarFigures['comesBack'] => {
  const { payments, statePayments, localPayments } = worksheetAfterPayments(books, plan, year)
  return {
    federal: payments.comesBack ?? 0,
    state: statePayments?.comesBack ?? 0,
    local: localPayments?.comesBack ?? 0,
  }
}

const besides = ['state', 'local'] as const

/** To the state and its local offices, ahead and from pay. */
const paidToState = (books: Books, plan: Plan, { year, earlier }: YearIncome): number =>
  besides.reduce(
    (sum, to) => sum + paidAhead(withPaidEarlier(paidAheadFor(books, plan, year, to), earlier, to)),
    0,
  )

const nameOf = ({ state }: StateLaw): string => (state === null ? 'State' : stateNames[state])

/** The return is filed by then, and what it asked for is paid. */
const isBeforeMay = (today: Day): boolean => today.slice(5) < '05-01'

/** Lines of the household's return beside pay and interest; all dividends are told once. */
const besidesOf = ({ lines }: YearIncome): TaxSoFarFigures['besides'] =>
  [
    { label: 'Dividends on lines 3a and 3b', dollars: lines.ordinaryDividends },
    { label: 'Taken from retirement savings, line 4b', dollars: lines.iraDistributions },
    { label: 'Pensions, line 5b', dollars: lines.pensions },
    { label: 'Social Security benefits, line 6a', dollars: lines.socialSecurity },
    { label: 'Unemployment pay and other taxed income', dollars: lines.other },
  ].filter(({ dollars }) => dollars !== 0)
