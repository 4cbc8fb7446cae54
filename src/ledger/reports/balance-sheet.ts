// The balance sheet with two columns: what the books hold (cost), and market value with the tax that selling would bring.
import { isCash } from '#ledger/account.ts'
import { type Cents, cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import type { Account } from '../account.ts'
import { type AccrualItem, isOwned } from './accrual.ts'
import { type AccountYear, type BookYear, closingOf } from './book-year.ts'

export interface BalanceLine {
  label: string
  costCents: Cents
  marketCents: Cents
  accountId: number | null
  note?: string
}

export interface BalanceSection {
  title: string
  lines: readonly BalanceLine[]
  costCents: Cents
  marketCents: Cents
}

export interface BalanceSheet {
  name: string
  year: number
  at: 'begin' | 'end'
  currentAssets: BalanceSection
  otherAssets: BalanceSection
  currentLiabilities: BalanceSection
  otherLiabilities: BalanceSection
  totalAssets: { costCents: Cents; marketCents: Cents }
  totalLiabilities: { costCents: Cents; marketCents: Cents }
  equity: { costCents: Cents; marketCents: Cents }
  /** Market less cost before tax, the rate and the tax that is counted as owed in the market column. */
  deferredTax: { gainCents: Cents; rate: number | null; taxCents: Cents }
}

/** What the accounts themselves do not hold, for one end of the year. Amounts are as a person reads them. */
export interface BalanceExtras {
  /** Market value by account, where one was recorded. */
  marketByAccount: ReadonlyMap<number, Cents>
  /** Things with a market value and no account of their own: raised breeding stock and the like. */
  unbooked: readonly { name: string; costCents: Cents; marketCents: Cents; current: boolean }[]
  /** Empty on the cash basis. */
  accruals: readonly AccrualItem[]
  /** What falls due within twelve months, by account; cards are always due. */
  dueWithinYear: ReadonlyMap<number, Cents>
  /** Tax on gains not yet taken, as a fraction; null leaves the tax out and says so. */
  deferredTaxRate: number | null
}

/** The side's position at the year's beginning or end. */
export const balanceSheet = (books: BookYear, at: 'begin' | 'end', extras: BalanceExtras): BalanceSheet => {
  const balanceOf = (row: AccountYear) => (at === 'end' ? closingOf(row) : row.openingCents)
  const assets = books.accounts.filter(({ account }) => account.kind === 'asset')
  const debts = books.accounts.filter(({ account }) => account.kind === 'liability')
  const assetLine = (row: AccountYear) => marketLine(row, balanceOf(row), extras)
  const currentAssets = total('Current assets', [
    ...assets.filter(({ account }) => isCurrent(account)).map(assetLine),
    ...extras.accruals.filter((item) => isOwned(item.kind)).map(accrualLine),
    ...unbookedLines(extras, true),
  ])
  const otherAssets = total('Other assets', [
    ...assets.filter(({ account }) => !isCurrent(account)).map(assetLine),
    ...unbookedLines(extras, false),
  ])
  const currentLiabilities = total('Current liabilities', [
    ...debts.map((row) =>
      debtLine(row.account, dueSoon(row, balanceOf(row), extras), 'due within 12 months'),
    ),
    ...extras.accruals.filter((item) => !isOwned(item.kind)).map(accrualLine),
  ])
  const later = debts.map((row) =>
    debtLine(row.account, cents(-balanceOf(row) - dueSoon(row, balanceOf(row), extras)), 'due later'),
  )
  const gainCents = cents(
    currentAssets.marketCents + otherAssets.marketCents - currentAssets.costCents - otherAssets.costCents,
  )
  const deferredTax = deferredTaxOf(gainCents, extras.deferredTaxRate)
  const otherLiabilities = total('Other liabilities', [
    ...later,
    ...(deferredTax.taxCents === 0
      ? []
      : [
          {
            label: 'Deferred tax on gains not yet taken',
            costCents: zeroCents,
            marketCents: deferredTax.taxCents,
            accountId: null,
          },
        ]),
  ])
  const totalAssets = plus(currentAssets, otherAssets)
  const totalLiabilities = plus(currentLiabilities, otherLiabilities)
  return {
    name: books.name,
    year: books.year,
    at,
    currentAssets,
    otherAssets,
    currentLiabilities,
    otherLiabilities,
    totalAssets,
    totalLiabilities,
    equity: {
      costCents: cents(totalAssets.costCents - totalLiabilities.costCents),
      marketCents: cents(totalAssets.marketCents - totalLiabilities.marketCents),
    },
    deferredTax,
  }
}

/** Money and what another side owes are current; land, buildings, equipment, stock and retirement money are not. */
const isCurrent = (account: Account): boolean => isCash(account) || account.crossingRole === 'lent'

/**
 * Depreciation taken (an asset account below zero) counts nothing at market once any lasting asset has a market value:
 * that value is already what the thing would fetch.
 */
const marketLine = (row: AccountYear, balance: Cents, extras: BalanceExtras): BalanceLine => {
  const recorded = extras.marketByAccount.get(row.account.id)
  const isContra = balance < 0 && !isCash(row.account)
  const market = recorded ?? (isContra && extras.marketByAccount.size > 0 ? zeroCents : balance)
  return { label: row.account.name, costCents: balance, marketCents: market, accountId: row.account.id }
}

const unbookedLines = (extras: BalanceExtras, current: boolean): BalanceLine[] =>
  extras.unbooked
    .filter((thing) => thing.current === current)
    .map((thing) => ({
      label: thing.name,
      costCents: thing.costCents,
      marketCents: thing.marketCents,
      accountId: null,
      note: 'raised or not in an account',
    }))

const accrualLine = (item: AccrualItem): BalanceLine => ({
  label: item.name,
  costCents: item.amountCents,
  marketCents: item.amountCents,
  accountId: null,
  note: 'not in the cash books',
})

const debtLine = (account: Account, owed: Cents, note: string): BalanceLine => ({
  label: account.name,
  costCents: owed,
  marketCents: owed,
  accountId: account.id,
  note,
})

/** Cards, what is owed to another side and taxes owed are due; of a loan, what was said to fall due, at most what is owed. */
const dueSoon = (row: AccountYear, balance: Cents, extras: BalanceExtras): Cents => {
  const owed = negateCents(balance)
  const { crossingRole, taxKind } = row.account
  if (isCash(row.account) || crossingRole === 'borrowed' || taxKind !== null) return owed
  const due = extras.dueWithinYear.get(row.account.id) ?? zeroCents
  return cents(Math.max(0, Math.min(due, owed)))
}

const deferredTaxOf = (gainCents: Cents, rate: number | null): BalanceSheet['deferredTax'] => {
  const taxCents =
    rate === null || gainCents <= 0
      ? zeroCents
      : cents(new Decimal(String(rate)).times(gainCents).toDecimalPlaces(0).toNumber())
  return { gainCents, rate, taxCents }
}

const total = (title: string, lines: readonly BalanceLine[]): BalanceSection => {
  const shown = lines.filter((line) => line.costCents !== 0 || line.marketCents !== 0)
  return {
    title,
    lines: shown,
    costCents: sumCents(shown.map((line) => line.costCents)),
    marketCents: sumCents(shown.map((line) => line.marketCents)),
  }
}

const plus = (a: BalanceSection, b: BalanceSection) => ({
  costCents: cents(a.costCents + b.costCents),
  marketCents: cents(a.marketCents + b.marketCents),
})
