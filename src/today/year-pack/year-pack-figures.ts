// Puts the year pack together: each side's statements, the farm's form, measures and inventory, crossings, and the tax worksheet.
import { type Day, firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { chainEnd, endInWords } from '#db/chain/chain.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import { waitingMarketDays } from '#db/notebook/settle-market.ts'
import type { Books } from '#db/open.ts'
import { byPart, lazily } from '#kept/by-part.ts'
import { farmSide } from '#ledger/account.ts'
import { crossingsByMonth } from '#ledger/reports/crossings-by-month.ts'
import { incomePlaces } from '#ledger/tax/income-places.ts'
import { currentPlan } from '#today/current-plan.ts'
import { preparerFigures } from '#today/farm/preparer-figures.ts'
import { loanBook } from '#today/loan-terms.ts'
import { salesOfYear } from '#today/tax/books-year.ts'
import { paidEach } from '#today/tax/paid-each.ts'
import { type PaidUntil, paidToOtherStates } from '#today/tax/paid-for.ts'
import { worksheetAfterPayments } from '#today/tax/tax-payments.ts'
import { booksGaps } from './books-gaps.ts'
import { brokerGaps } from './broker-gaps.ts'
import { farmFormOf, ventureForms } from './business-forms.ts'
import type { PackBasis, YearPackFigures } from './figures.ts'
import { formGaps } from './form-gaps.ts'
import { incomeGaps } from './income-gaps.ts'
import { feeGaps, isEmpty, marketGaps, notebookGaps } from './notebook-gaps.ts'
import { type PackGround, packGround } from './pack-ground.ts'
import { payGaps } from './pay-gaps.ts'
import { hasPeople, type PeopleFigures, peopleFigures } from './people-figures.ts'
import { peopleGaps } from './people-gaps.ts'
import { replacedGaps } from './replaced-gaps.ts'
import { measureRows, statementsOf, togetherOf } from './side-statements.ts'
import { startUpGaps } from './start-up-gaps.ts'
import { statementGaps } from './statement-gaps.ts'
import { packGaps } from './year-pack-gaps.ts'

/** Everything in the pack of a year. `paid`: only payments of its tax that count then. */
export const yearPackFigures = (
  books: Books,
  year: number,
  basis: PackBasis,
  today: Day,
  paid?: PaidUntil,
): YearPackFigures => {
  const ground = packGround(books, year)
  const sides = lazily(() => ground.sides.map((side) => statementsOf(ground, side, basis)))
  const notes = lazily(() => preparerFigures(books, year, today))
  const people = lazily(() => peopleFigures(books, year, currentPlan(books)))
  const tax = lazily(() => worksheetOf(books, year, paid))
  const { farm } = ground.read
  return byPart<YearPackFigures>({
    year: () => year,
    years: () => yearsOfBooks(books),
    basis: () => basis,
    through: () => (today < lastDayOfYear(year) ? today : null),
    from: () => beginsWithin(books, year),
    payroll: () => (hasPeople(people()) ? people() : null),
    people: () => peopleOf(books),
    sides,
    together: () => (ground.sides.length > 1 ? togetherOf(ground, basis) : null),
    scheduleF: () => farm?.form ?? null,
    farmForm: () => farmFormOf(farm, currentPlan(books), people().owes1099.get(farmSide) ?? null),
    ventures: () => ventureForms(ground.read, currentPlan(books), people().owes1099),
    places: () => incomePlaces(ground.sides),
    sales: () => salesOfYear(ground.read),
    depreciation: () => farm?.depreciation ?? null,
    measures: () =>
      farm
        ? measureRows(
            ground,
            farm.books,
            sides().find(({ id }) => id === farm.books.sideId),
          )
        : [],
    inventory: () => farm?.inventory ?? null,
    crossings: () => crossingsByMonth(ground.sides),
    notebook: () => (isEmpty(notes()) ? null : notes()),
    tax,
    chainEnd: () => {
      const end = chainEnd(books.sqlite)
      return end && endInWords(end)
    },
    gaps: () =>
      gapsOf(books, ground, { sides: sides(), people: people(), notes: notes(), tax: tax(), today }),
  })
}

interface GapGround {
  sides: YearPackFigures['sides']
  people: PeopleFigures
  notes: ReturnType<typeof preparerFigures>
  tax: YearPackFigures['tax']
  today: Day
}

const gapsOf = (
  books: Books,
  ground: PackGround,
  { sides, people, notes, tax, today }: GapGround,
): YearPackFigures['gaps'] => {
  const { year, read } = ground
  const { farm } = read
  return [
    ...booksGaps(books, year, currentPlan(books)),
    ...incomeGaps(read, year),
    ...payGaps(read, currentPlan(books), year),
    ...brokerGaps(books, year),
    ...statementGaps(ground, sides, yearsOfBooks(books).includes(year - 1)),
    ...formGaps(read, currentPlan(books), year, people.owes1099),
    ...startUpGaps(read, year),
    ...replacedGaps(books, year),
    ...peopleGaps(people),
    ...(tax.status === 'worked' ? tax.worksheet.tooMuchSaved : []).map((says) => ({
      says,
      href: `/year-pack/contributions?year=${year}`,
    })),
    ...notebookGaps(notes, farm?.inventory ?? null, year),
    ...marketGaps(waitingMarketDays(books), year),
    ...feeGaps(books, year, today),
    ...packGaps(
      ground.sides,
      ground.said,
      farm?.inventory ?? null,
      farm?.form ?? null,
      year,
      loanBook(books),
    ),
  ]
}

const beginsWithin = (books: Books, year: number): Day | null => {
  const first = openingDay(books)
  return first !== null && first > firstDayOfYear(year) && first <= lastDayOfYear(year) ? first : null
}

const peopleOf = (books: Books): string[] => {
  const current = currentPlan(books)
  return current.status === 'read' ? current.plan.household.people.map(({ name }) => name) : []
}

const worksheetOf = (books: Books, year: number, paid: PaidUntil | undefined): YearPackFigures['tax'] => {
  const current = currentPlan(books)
  const plan = current.status === 'read' ? current.plan : null
  const { worked, payments, statePayments, localPayments } = worksheetAfterPayments(books, plan, year, paid)
  if (worked.status === 'cannot') return worked
  const { figures, trace, cautions, state } = worked.tax.return
  return {
    status: 'worked',
    worksheet: {
      ...worked.tax,
      figures,
      trace,
      cautions,
      state,
      payments,
      statePayments,
      localPayments,
      otherStates: paidToOtherStates(books, plan, year, paid),
      paidEach: paidEach(books, plan, year, paid),
    },
  }
}
