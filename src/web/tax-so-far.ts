// The tax set-aside: tax on what the year has brought so far by the books' Schedule F lines, and the days it falls due.
import { type Day, dayName } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { bookYears } from '#db/report-store.ts'
import { type AccountYear, type BookYear, changeOf } from '#ledger/reports/book-year.ts'
import { scheduleF } from '#ledger/reports/schedule-f.ts'
import { centsToDollars, sumCents, zeroCents } from '#money/cents.ts'
import type { Plan } from '#plan/plan.ts'
import { steadyIndexing } from '#rules/dated.ts'
import {
  farmerFilingDue,
  farmerInstalmentDue,
  isFarmerYear,
  quarterlyInstalmentsDue,
  returnDue,
} from '#rules/estimated-tax.ts'
import { firstLawYear, lawFor } from '#rules/law.ts'
import { taxSoFar, type YearSoFar } from '#rules/tax-so-far.ts'
import { farmShareOfFirst, peopleOfYear } from '#runway/cover-household.ts'
import type { TaxSoFarFigures } from '#views/cover/figures.ts'

/** Null before the books hold anything of a year the law is known for. Needs the plan to know who files. */
export const taxSoFarFigures = (books: Books, plan: Plan, today: Day): TaxSoFarFigures | null => {
  const year = Number.parseInt(today.slice(0, 4), 10)
  if (year < firstLawYear) return null
  const sides = bookYears(books, year)
  const farm = sides.find((side) => side.kind === 'farm')
  if (!farm || !sides.some(hasMoved)) return null
  const law = lawFor(year, steadyIndexing(plan.assumptions.inflation, plan.assumptions.wageGrowth))
  const form = scheduleF(farm)
  const soFar = yearSoFar(sides, centsToDollars(form.netProfitCents), centsToDollars(form.grossIncomeCents))
  const tax = taxSoFar(law, peopleOfYear(plan, year), soFar, farmShareOfFirst(plan))
  const isFarmer = isFarmerYear({ farm: soFar.farmGross, total: grossOf(soFar) })
  return {
    year,
    through: dayName(today),
    farmGross: soFar.farmGross,
    farmExpenses: centsToDollars(form.totalExpensesCents),
    farmProfit: soFar.farmProfit,
    otherSelfEmployment: soFar.otherSelfEmployment,
    wages: soFar.wages,
    interest: soFar.interest + soFar.otherIncome,
    paid: tax.paid,
    selfEmploymentTax: tax.selfEmploymentTax,
    incomeTax: tax.incomeTax,
    total: tax.total,
    setAside: tax.setAside,
    mayComeBack: tax.mayComeBack,
    isFarmer,
    dates: datesOf(year, isFarmer),
    basis: law.basis,
  }
}

const hasMoved = (side: BookYear): boolean =>
  side.accounts.some(
    ({ account, monthsCents }) =>
      (account.kind === 'income' || account.kind === 'expense') && monthsCents.some((sum) => sum !== 0),
  )

const yearSoFar = (sides: readonly BookYear[], farmProfit: number, farmGross: number): YearSoFar => {
  const rows = sides.find((side) => side.kind === 'household')?.accounts ?? []
  const ventures = sides
    .filter((side) => side.kind === 'venture')
    .map(
      (side) =>
        -sumOf(
          side.accounts.filter(({ account }) => account.kind === 'income' || account.kind === 'expense'),
        ),
    )
  return {
    farmProfit,
    farmGross,
    otherSelfEmployment: ventures.reduce((sum, profit) => sum + profit, 0),
    wages: -sumOf(rows.filter(({ account }) => account.purpose === 'pay')),
    interest: -sumOf(rows.filter(isInterest)),
    otherIncome: 0,
    paid: sumOf(rows.filter(isFederalTax).map(paidForThisYear)),
  }
}

/** A change in what investments are worth is not income until they are sold. */
const isInterest = ({ account }: AccountYear): boolean =>
  account.purpose === 'interest' && !/change in value/i.test(account.name)

const isFederalTax = ({ account }: AccountYear): boolean =>
  account.purpose === 'tax' && !/state|local/i.test(account.name)

/** What is paid to the end of April settles the year before; from May on it counts for this one. */
const paidForThisYear = (row: AccountYear): AccountYear => ({
  ...row,
  monthsCents: row.monthsCents.map((sum, index) => (index < firstMonthOfThisYear ? zeroCents : sum)),
})

const firstMonthOfThisYear = 4

/** Dollars in the ledger's sign: income is negative. */
const sumOf = (rows: readonly AccountYear[]): number => centsToDollars(sumCents(rows.map(changeOf)))

const grossOf = (soFar: YearSoFar): number =>
  soFar.farmGross + Math.max(0, soFar.otherSelfEmployment) + soFar.wages + soFar.interest + soFar.otherIncome

const datesOf = (year: number, isFarmer: boolean): TaxSoFarFigures['dates'] =>
  isFarmer
    ? [
        { day: farmerInstalmentDue(year), says: 'A farmer’s one instalment of estimated tax' },
        { day: farmerFilingDue(year), says: 'File and pay by then and no instalment is needed' },
        { day: returnDue(year), says: 'Tax return' },
      ]
    : [
        ...quarterlyInstalmentsDue(year).map((due) => ({
          day: due as string,
          says: 'Estimated tax, a quarter',
        })),
        { day: returnDue(year), says: 'Tax return' },
      ]
