// The balance sheet with two columns: what the books hold (cost), and market value with the tax that selling would bring.
import type { Day } from '#calendar/day.ts'
import { householdSide, isCash } from '#ledger/account.ts'
import { type Cents, cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import { Decimal } from '#money/decimal.ts'
import type { Account } from '../account.ts'
import { type AccrualItem, accrualDefinitions } from './accrual.ts'
import { type AccountYear, type BookYear, closingOf } from './book-year.ts'
import { type DatedValue, type HeldThing, marketOfAccounts } from './market-values.ts'

export interface BalanceLine {
  /** Which account, thing or year-end item it is, the same at both ends of a year; two of one name stay two. */
  key: string
  label: string
  costCents: Cents
  marketCents: Cents
  accountId: number | null
  /** Day of the market value; null where the books' own value stands. */
  valuedOn: Day | null
  note?: string
  /** What selling or taking it out would be taxed on; left out where that is what it is worth above the books. */
  taxedCents?: Cents
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
  /** What would be taxed of the market values, the rate and the tax that is counted as owed in the market column. */
  deferredTax: { gainCents: Cents; rate: number | null; taxCents: Cents }
  /** Loans of which nobody said what falls due within twelve months: all of each stands among what is due later. */
  dueUnknown: readonly string[]
}

/** What the accounts themselves do not hold, for one end of the year. Amounts are as a person reads them. */
export interface BalanceExtras {
  /** The day the sheet is of. */
  on: Day
  /** Market value by account, where one was recorded on or before that day. */
  marketByAccount: ReadonlyMap<number, DatedValue>
  /** Stock and equipment held on that day. */
  things: readonly HeldThing[]
  /** Things with a market value and no account of their own: raised breeding stock and the like. */
  unbooked: readonly UnbookedThing[]
  /** Empty on the cash basis. */
  accruals: readonly AccrualItem[]
  /** What falls due within twelve months, by loan; a loan that is missing is told as unknown. */
  dueWithinYear: ReadonlyMap<number, Cents>
  /** Tax on gains not yet taken, as a fraction; null leaves the tax out and says so. */
  deferredTaxRate: number | null
}

export interface UnbookedThing {
  id: string
  name: string
  value: DatedValue
  current: boolean
  /** Kinds of year-end items that hold the same goods: on the accrual basis these have no market value beside it. */
  standsFor: readonly AccrualItem['kind'][]
}

/** The side's position at the year's beginning or end. */
export const balanceSheet = (books: BookYear, at: 'begin' | 'end', extras: BalanceExtras): BalanceSheet => {
  const rows = books.accounts.map((row) => ({
    row,
    balanceCents: at === 'end' ? closingOf(row) : row.openingCents,
  }))
  const [currentAssets, otherAssets] = assetSections(
    rows.filter(({ row }) => row.account.kind === 'asset'),
    extras,
  )
  const debts = rows
    .filter(({ row }) => row.account.kind === 'liability')
    .map(({ row: { account }, balanceCents }): Debt => {
      const owedCents = negateCents(balanceCents)
      return { account, owedCents, dueCents: dueSoon(account, owedCents, extras) }
    })
  const taxed = [...currentAssets.lines, ...otherAssets.lines].map(
    ({ taxedCents, marketCents, costCents }) => taxedCents ?? cents(marketCents - costCents),
  )
  const deferredTax = deferredTaxOf(sumCents(taxed), extras.deferredTaxRate)
  const [currentLiabilities, otherLiabilities] = debtSections(debts, deferredTax.taxCents, extras)
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
    dueUnknown: debts
      .filter(({ owedCents, dueCents }) => dueCents === null && owedCents > 0)
      .map(({ account }) => account.name),
  }
}

/** Current, then noncurrent. */
const assetSections = (
  assets: readonly { row: AccountYear; balanceCents: Cents }[],
  extras: BalanceExtras,
): [BalanceSection, BalanceSection] => {
  const worth = marketOfAccounts(assets, extras.marketByAccount, extras.things, extras.on)
  const section = (title: string, current: boolean) =>
    total(title, [
      ...assets
        .filter(({ row }) => isCurrentAsset(row.account) === current)
        .map(({ row: { account }, balanceCents }) => {
          const valued = worth.get(account.id)!
          return { ...accountLine(account, balanceCents), ...valued, ...taxedOf(account, valued) }
        }),
      ...itemLines(extras, true, current),
      ...unbookedLines(extras, current),
    ])
  return [section('Current assets', true), section('Noncurrent assets', false)]
}

/**
 * A traditional account is taxed whole as it is taken out (26 USC 408(d)), a Roth or health account not. The gain on the home one
 * lives in is mostly left out (26 USC 121), and other things of a house seldom gain.
 */
const taxedOf = (
  account: Account,
  { marketCents }: { marketCents: Cents },
): Pick<BalanceLine, 'taxedCents'> => {
  if (account.sideId !== householdSide || isCash(account)) return {}
  if (account.savingsKind === 'traditional') return { taxedCents: marketCents }
  return account.savingsKind === 'taxable' ? {} : { taxedCents: zeroCents }
}

interface Debt {
  account: Account
  owedCents: Cents
  /** Null where nobody said. */
  dueCents: Cents | null
}

/** Due within twelve months, then the rest. */
const debtSections = (
  debts: readonly Debt[],
  deferredTaxCents: Cents,
  extras: BalanceExtras,
): [BalanceSection, BalanceSection] => [
  total('Current liabilities', [
    ...debts.map(({ account, dueCents }) => ({
      ...accountLine(account, dueCents ?? zeroCents),
      ...(isWhollyDue(account) ? {} : { note: 'due within 12 months' }),
    })),
    ...itemLines(extras, false, true),
  ]),
  total('Noncurrent liabilities', [
    ...debts.map(({ account, owedCents, dueCents }) => ({
      ...accountLine(account, cents(owedCents - (dueCents ?? 0))),
      key: `account ${account.id} later`,
      note: dueCents === null ? 'what is due within 12 months is not entered' : 'due later',
    })),
    {
      ...blankLine('deferred tax', 'Deferred tax on unrealized gains'),
      marketCents: deferredTaxCents,
    },
  ]),
]

/** By what an account holds: money, what another side owes, and what is used, sold or settled within a year. The rest lasts. */
const isCurrentAsset = (account: Account): boolean =>
  isCash(account) || account.crossingRole === 'lent' || account.currentKind !== null

/** Cards, bills, customers' money, loans for the season, taxes and what is owed to another side. */
const isWhollyDue = (account: Account): boolean =>
  isCash(account) ||
  account.crossingRole === 'borrowed' ||
  account.taxKind !== null ||
  account.currentKind !== null

/** Of a loan, what was said to fall due, at most what is owed; null where nobody said. */
const dueSoon = (account: Account, owed: Cents, extras: BalanceExtras): Cents | null => {
  if (isWhollyDue(account) || owed <= 0) return owed
  const due = extras.dueWithinYear.get(account.id)
  return due === undefined ? null : cents(Math.max(0, Math.min(due, owed)))
}

const blankLine = (key: string, label: string): BalanceLine => ({
  key,
  label,
  costCents: zeroCents,
  marketCents: zeroCents,
  accountId: null,
  valuedOn: null,
})

const accountLine = ({ id, name }: Account, amount: Cents): BalanceLine => ({
  ...blankLine(`account ${id}`, name),
  costCents: amount,
  marketCents: amount,
  accountId: id,
})

const unbookedLines = (extras: BalanceExtras, current: boolean): BalanceLine[] =>
  extras.unbooked
    .filter((thing) => thing.current === current)
    .map(({ id, name, value }) => ({
      ...blankLine(`thing ${id}`, name),
      marketCents: value.amountCents,
      valuedOn: value.day,
      note: value.day === null ? 'in no account, valued on no day' : 'in no account',
    }))

/** Goods that were valued piece by piece are not counted at market a second time. */
const itemLines = (extras: BalanceExtras, owned: boolean, current: boolean): BalanceLine[] => {
  const valued = new Set(extras.unbooked.flatMap(({ standsFor }) => standsFor))
  const lines = new Map<string, BalanceLine>()
  for (const { kind, name, amountCents } of extras.accruals) {
    const { isOwned, isCurrent } = accrualDefinitions[kind]
    if (isOwned !== owned || isCurrent !== current) continue
    const key = `item ${kind} ${name}`
    const sum = cents((lines.get(key)?.costCents ?? 0) + amountCents)
    lines.set(key, {
      ...blankLine(key, name),
      costCents: sum,
      marketCents: valued.has(kind) ? zeroCents : sum,
      note: valued.has(kind) ? 'not in the cash books; at market piece by piece' : 'not in the cash books',
    })
  }
  return [...lines.values()]
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
