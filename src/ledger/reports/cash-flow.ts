// The cash flow statement: every change of the money accounts. A business tells it as its trade does, as operating, investing and financing activities
// (ASC 230; Farm Financial Standards Council, Financial Guidelines for Agriculture: what owners put in and withdraw is financing; both from memory); a
// household, and all sides as one, in plain words.
import { isCash, isLoan } from '#ledger/account.ts'
import { type Cents, cents, sumCents, zeroCents } from '#money/cents.ts'
import type { Account } from '../account.ts'
import { lineRole, sellsAssets } from '../schedule-lines.ts'
import {
  type AccountYear,
  accountLine,
  type BookYear,
  changeOf,
  filled,
  movedOf,
  type ReportSection,
  section,
} from './book-year.ts'

export interface CashFlow {
  name: string
  year: number
  beginCents: Cents
  operations: ReportSection
  investing: ReportSection
  /** Of a business also what owners put in and take out, and gifts: none of it stands below. */
  financing: ReportSection
  crossings: ReportSection
  openings: ReportSection
  /** What investments that count as money gained or lost in value: nothing was paid or sold. */
  valuation: ReportSection
  /** Gifts and inheritances, and whatever else was booked to equity. */
  other: ReportSection
  /** Income and costs that were booked against each other, as goods bartered are: on the income statement, and no money. Part of nothing above. */
  inTrade: ReportSection
  changeCents: Cents
  endCents: Cents
  /** The change of money in each month, January first. */
  byMonth: readonly Cents[]
}

type Flow = 'operations' | 'investing' | 'financing' | 'crossings' | 'openings' | 'valuation' | 'other'

/**
 * Money is every account with a cash role of spendable or cash, cards included. What moves no money is left out: booked
 * depreciation, the cost of what was sold, what retirement savings gained in value, and goods bartered, which are told below it
 * (noncash activities are disclosed beside the statement: IAS 7.43; ASC 230-10-50-3, both from memory). Goods used at home cancel against the crossing
 * they are, and are left out with it. What investments among the money gained stands by itself, for it was not earned in money, as what currency gains does in a
 * published statement (IAS 7.28; ASC 830-230-45-1, both from memory).
 */
export const cashFlow = (books: BookYear): CashFlow => {
  const money = books.accounts.filter(({ account }) => isCash(account))
  const goods = books.accounts.filter(({ account }) => isOfGoods(account))
  // Goods that were used at home are a value on both sides and no money: what comes to nothing together is not told.
  const isSettled = sumCents(goods.map(paidOf)) === 0
  const rest = books.accounts.filter(({ account }) => !isCash(account) && !(isSettled && isOfGoods(account)))
  const isBusiness = books.kind === 'farm' || books.kind === 'venture'
  const of = (flow: Flow): ReportSection => {
    const isTold = ({ account }: AccountYear) =>
      (isBusiness ? ofBusiness(flowOf(account)) : flowOf(account)) === flow
    const [title, totalLabel] = (isBusiness ? tradeTitles[flow] : undefined) ?? titles[flow]
    return section(title, totalLabel, filled(rest.filter(isTold).sort(loansFirst).map(flowLine)))
  }
  const sections = {
    operations: of('operations'),
    investing: of('investing'),
    financing: of('financing'),
    crossings: of('crossings'),
    openings: of('openings'),
    valuation: of('valuation'),
    other: of('other'),
  }
  const beginCents = sumCents(money.map((row) => row.openingCents))
  const changeCents = sumCents(money.map(changeOf))
  const told = sumCents(Object.values(sections).map((part) => part.totalCents))
  if (told !== changeCents)
    throw new Error(
      `Cash flow of ${books.name} ${books.year} tells ${told}, but money changed by ${changeCents}`,
    )
  return {
    name: books.name,
    year: books.year,
    beginCents,
    ...sections,
    inTrade: section(
      'Income and costs without money, as goods bartered',
      'Without money',
      filled(
        books.accounts
          .filter(({ account }) => isOfTrade(account) && !isOfGoods(account))
          .map((row) => accountLine(row, row.inTradeCents ?? zeroCents, -1)),
      ),
    ),
    changeCents,
    endCents: cents(beginCents + changeCents),
    byMonth: Array.from({ length: 12 }, (_, i) => sumCents(money.map((row) => row.monthsCents[i]!))),
  }
}

const titles: Readonly<Record<Flow, readonly [title: string, totalLabel: string]>> = {
  operations: ['Earning and spending', 'From earning and spending'],
  investing: ['Land, buildings, equipment, stock and money set aside', 'From buying and selling what lasts'],
  financing: ['Loans', 'From loans'],
  crossings: ['Crossings', 'From crossings'],
  openings: ['Opening balances entered', 'Opening balances entered'],
  valuation: ['Change in value, not sold', 'From changes in value'],
  other: ['Gifts and other equity', 'From gifts and other equity'],
}

const tradeTitles: Partial<typeof titles> = {
  operations: ['Operating activities', 'Cash from operating activities'],
  investing: ['Investing activities', 'Cash from investing activities'],
  financing: ['Financing activities', 'Cash from financing activities'],
}

const ofBusiness = (flow: Flow): Flow => (flow === 'crossings' || flow === 'other' ? 'financing' : flow)

/** Among what finances a business, what owners put in and take out comes after its loans. */
const loansFirst = (one: AccountYear, other: AccountYear): number =>
  Number(!isLoan(one.account)) - Number(!isLoan(other.account))

const flowLine = (row: AccountYear) => accountLine(row, paidOf(row), -1)

/** The change that came with money. */
const paidOf = (row: AccountYear): Cents => cents(movedOf(row) - (row.inTradeCents ?? 0))

/** Income and costs of the year's work, and goods used at home with the crossing they are: an entry of such accounts alone moves no money. */
export const isOfTrade = (account: Account): boolean =>
  isOfGoods(account) ||
  ((account.kind === 'income' || account.kind === 'expense') && flowOf(account) === 'operations')

/** Of what lasts: the things themselves, what was written off of them, their sales, and what they gained in value. */
export const isOfAssets = (account: Account): boolean =>
  !isCash(account) && (flowOf(account) === 'investing' || flowOf(account) === 'valuation')

/** Goods used at home as the crossing they are, and their value beside it. */
const isOfGoods = ({ crossingRole, systemRole }: Account): boolean =>
  crossingRole === 'goods' || systemRole === 'goods_value' || systemRole === 'goods_cost'

const flowOf = (account: Account): Flow => {
  if (account.crossingRole !== null || isOfGoods(account)) return 'crossings'
  if (account.kind === 'equity') return account.systemRole === 'opening_balances' ? 'openings' : 'other'
  if (isLoan(account)) return 'financing'
  // Bills, taxes that are owed and customers' money come and go with sales and costs, as do goods on hand and what is owed to us.
  if (account.kind === 'liability' || account.currentKind !== null) return 'operations'
  if (account.kind === 'asset' || lineRole(account) === 'depreciation' || sellsAssets(account))
    return 'investing'
  return account.kind === 'income' && account.taxKind === 'unrealized' ? 'valuation' : 'operations'
}
