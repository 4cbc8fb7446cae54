// People and payees of a year: who gets a form, each worker's pay, papers to come, premiums by person, contributions.
import type { Books } from '#db/open.ts'
import { listPayees, paidInYear, paidToNobody } from '#db/tax/payees.ts'
import type { SideId } from '#ledger/account.ts'
import { type AccountYear, type BookYear, changeOf } from '#ledger/reports/book-year.ts'
import { paysForWork } from '#ledger/schedule-lines.ts'
import type { YesNo } from '#ledger/tax/form-said.ts'
import { type PapersExpected, papersExpected } from '#ledger/tax/papers-expected.ts'
import { ownPremiums, premiumRows } from '#ledger/tax/pay-before-tax.ts'
import {
  formsOf,
  isBanksWord,
  isLabor,
  type PaidOn,
  type PayeeSaid,
  type PayeeTotal,
  paidFor,
  payeeTotals,
  sidesOf,
} from '#ledger/tax/payee-totals.ts'
import { type Form940, type Form943, form940, form943 } from '#ledger/tax/payroll-forms.ts'
import { keptBackFrom, type WorkerPay, workersPaid } from '#ledger/tax/wages.ts'
import { type Cents, cents, dollarsToCents, sumCents } from '#money/cents.ts'
import { informationReturnLine } from '#rules/data/business-deductions.ts'
import { lookUp, steadyIndexing, yearsOf } from '#rules/dated.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { papersReceived } from './papers-received.ts'

export interface PeopleFigures {
  year: number
  /** Null in years before it is kept here. */
  lineCents: Cents | null
  payees: readonly (PayeeTotal & { forms: readonly ('1099-NEC' | '1099-MISC')[] })[]
  /** Paid for work or rent where the books name nobody; null where all is named. */
  unnamed: { names: readonly string[]; paidCents: Cents; laborCents: Cents } | null
  /** Of hired labor, custom hire and rent, paid by entries that name nobody; and of it hired labor alone. */
  namelessCents: Cents
  namelessLaborCents: Cents
  /** Whether a side owes a Form 1099 to somebody; null while it hangs on payees of whom nobody said who they are. */
  owes1099: ReadonlyMap<SideId, YesNo>
  workers: readonly WorkerPay[]
  /** Payees of whose pay tax was kept back. */
  onPayroll: readonly string[]
  farmPayroll: Form943
  /** Federal unemployment tax of the farm. */
  unemployment: Form940
  /** Owed to tax offices on payroll at the year's end, by account. */
  payrollOwed: readonly { id: number; name: string; side: string; owedCents: Cents }[]
  /** Whether the farm's books have the accounts that payroll needs. */
  hasPayrollAccounts: boolean
  papers: readonly (PapersExpected & { person: string | null; paperCents: Cents | null })[]
  papersRevision: number
  premiums: readonly { id: number; name: string; person: string | null; monthsCents: readonly Cents[] }[]
}

export const peopleFigures = (books: Books, year: number, current: CurrentPlan): PeopleFigures => {
  const { sides } = booksYear(books, year)
  const all = paidInYear(books, year)
  const paid = all.filter(({ payee }) => !isBanksWord(payee))
  const said = listPayees(books)
  const workers = workersPaid(paid, said, year)
  const lineCents = lineOf(year, current)
  const people = current.status === 'read' ? current.plan.household.people : []
  const nameOf = (id: string | null) => people.find((one) => one.id === id)?.name ?? null
  const received = papersReceived(books, year)
  const nameless = paidToNobody(books, year).filter(
    ({ account }) => paysForWork(account) || paidFor(account) === 'rent',
  )
  const home = sides.find(({ kind }) => kind === 'household')
  return {
    year,
    lineCents,
    payees: payeeTotals(paid, said).map((total) => ({ ...total, forms: formsOf(total, lineCents) })),
    unnamed: unnamedOf(all),
    namelessCents: sumOf(nameless),
    namelessLaborCents: sumOf(nameless.filter(({ account }) => isLabor(account))),
    owes1099: new Map(sidesOf(paid).map((side) => [side, owesForms(paid, said, side, lineCents)])),
    workers,
    onPayroll: keptBackFrom(paid),
    farmPayroll: form943(workers, year),
    unemployment: form940(
      workers,
      workersPaid(paidInYear(books, year - 1), said, year - 1),
      { paid, said },
      year,
    ),
    payrollOwed: sides.flatMap(owedOf),
    hasPayrollAccounts: sides.some((side) => side.kind === 'farm' && hasPayroll(side)),
    papers: papersExpected(sides).map((paper) => ({
      ...paper,
      person: nameOf(paper.personId),
      paperCents: received.amounts[paper.key] ?? null,
    })),
    papersRevision: received.revision,
    premiums: (home ? premiumRows(home) : [])
      .map((row) => ({ account: row.account, monthsCents: ownPremiums(row) }))
      .filter(({ monthsCents }) => monthsCents.some((sum) => sum !== 0))
      .map(({ account, monthsCents }) => ({
        id: account.id,
        name: account.name,
        person: nameOf(account.personId),
        monthsCents,
      })),
  }
}

const unnamedOf = (paid: readonly PaidOn[]): PeopleFigures['unnamed'] => {
  const bank = paid.filter(({ payee }) => isBanksWord(payee))
  const totals = payeeTotals(bank, [])
  return totals.length === 0
    ? null
    : {
        names: totals.map(({ name }) => name),
        paidCents: sumCents(totals.map(({ workCents, rentCents }) => cents(workCents + rentCents))),
        laborCents: sumOf(bank.filter(({ account, isByCard }) => !isByCard && isLabor(account))),
      }
}

const sumOf = (paid: readonly { amountCents: Cents }[]): Cents =>
  sumCents(paid.map(({ amountCents }) => amountCents))

/** Whether there is anything to put on a sheet. */
export const hasPeople = ({ payees, workers, papers, premiums, unnamed }: PeopleFigures): boolean =>
  unnamed !== null || payees.length + workers.length + papers.length + premiums.length > 0

/**
 * Whether somebody gets a form for what the year paid them: a worker, a payee above the year's line, or somebody whom the books do not
 * name. True where no line is known.
 */
export const sendsForms = (
  books: Books,
  year: number,
  what: 'work' | 'rent',
  current: CurrentPlan,
): boolean => {
  const lineCents = lineOf(year, current)
  if (lineCents === null) return true
  const all = paidInYear(books, year)
  const said = listPayees(books)
  const named = all.filter(({ payee }) => !isBanksWord(payee))
  if (what === 'work' && workersPaid(named, said, year).length > 0) return true
  const form = what === 'work' ? '1099-NEC' : '1099-MISC'
  if (payeeTotals(named, said).some((total) => formsOf(total, lineCents).includes(form))) return true
  const unnamed = [...all.filter(({ payee }) => isBanksWord(payee)), ...paidToNobody(books, year)].filter(
    ({ account, isByCard }) => !isByCard && paidFor(account) === what,
  )
  // Wages have no line below which no form is due.
  const mayBeWages = what === 'work' && unnamed.some(({ account }) => paysForWork(account))
  return mayBeWages || sumCents(unnamed.map(({ amountCents }) => amountCents)) >= lineCents
}

const owesForms = (
  paid: readonly PaidOn[],
  said: readonly PayeeSaid[],
  side: SideId,
  lineCents: Cents | null,
): YesNo => {
  const mine = paid.filter(({ account }) => account.sideId === side)
  const due = payeeTotals(mine, said).filter((total) => formsOf(total, lineCents).length > 0)
  if (due.some(({ kind }) => kind !== null)) return 'yes'
  return due.length > 0 || lineCents === null ? null : 'no'
}

/** Null before the law's figures begin, and so far ahead that prices have no end. */
const lineOf = (year: number, current: CurrentPlan): Cents | null => {
  if (year < yearsOf(informationReturnLine).first) return null
  const inflation = current.status === 'read' ? current.plan.assumptions.inflation : 0
  const dollars = lookUp(informationReturnLine, year, steadyIndexing(inflation)).value
  return dollars < farAheadDollars ? dollarsToCents(dollars) : null
}

const farAheadDollars = 1_000_000_000

const isPayroll = ({ account }: AccountYear): boolean =>
  account.kind === 'liability' &&
  (account.taxKind === 'payroll' || account.taxKind === 'federal' || account.taxKind === 'state')

const owedOf = (side: BookYear): PeopleFigures['payrollOwed'][number][] =>
  side.kind === 'household'
    ? []
    : side.accounts.filter(isPayroll).flatMap((row) => {
        const owedCents = cents(-(row.openingCents + changeOf(row)))
        const moved = row.monthsCents.some((sum) => sum !== 0)
        return owedCents === 0 && !moved
          ? []
          : [{ id: row.account.id, name: row.account.name, side: side.name, owedCents }]
      })

const hasPayroll = ({ accounts }: BookYear): boolean =>
  (['federal', 'payroll'] as const).every((kind) =>
    accounts.some(({ account }) => account.kind === 'liability' && account.taxKind === kind),
  ) && accounts.some(({ account }) => account.kind === 'expense' && account.taxKind === 'payroll')
