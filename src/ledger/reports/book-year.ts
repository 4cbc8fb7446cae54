// One side's books for a calendar year as sums by account and month: what every report is made from.
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import type { Account, SideId, SideKind } from '../account.ts'
import { sellsAssets } from '../schedule-lines.ts'

/** Ledger signs: debits positive. `monthsCents` has twelve sums, January first. */
export interface AccountYear {
  account: Account
  openingCents: Cents
  monthsCents: readonly Cents[]
  /** Of a loan: principal paid in the year, whatever was lent in it besides; what opened the books is none. 0 of all else. */
  paidDownCents: Cents
  /** Of an account for interest: what was booked together with a payment on a term loan. 0 of all else. */
  termInterestCents: Cents
  /** Of retirement savings, where any was: what was taken out, twelve sums, positive. */
  takenOutCents?: readonly Cents[]
  /** The same less what went into Roth savings at once. */
  paidOutCents?: readonly Cents[]
  /** Of pay, where any was: what was taken off it before tax, twelve sums of each, positive (`pay-before-tax.ts`). */
  beforeTaxCents?: Readonly<Record<'premium' | 'deferred', readonly Cents[]>>
  /** Of a cost of premiums, where any was: what of it was taken off pay, twelve sums. */
  fromPayCents?: readonly Cents[]
  /** Of the employer's part of payroll taxes, where any was owed: what of it was booked and not paid when the year began and ended. */
  unpaidCents?: { begin: Cents; end: Cents }
  /** Of an account of what lasts (`isOfAssets`): what was booked in entries that touch only such accounts, and so move no money. 0 of all else. */
  withoutMoneyCents: Cents
  /** Of income, costs and goods used at home, where any was: what was booked as income and cost at once, as goods bartered are, and so moved no money. */
  inTradeCents?: Cents
  /** Of an account that has sales of what lasts, where any was: what was taken in kind, positive (`sold-in-kind.ts`). Part of `withoutMoneyCents`. */
  inKindCents?: Cents
}

export interface BookYear {
  sideId: SideId
  /** `together` is all sides as one, crossings taken out (together.ts). */
  kind: SideKind | 'together'
  name: string
  year: number
  accounts: readonly AccountYear[]
}

export const changeOf = (row: AccountYear): Cents => sumCents(row.monthsCents)
/** The change that came with money, or against an account that money comes and goes with. */
export const movedOf = (row: AccountYear): Cents => cents(changeOf(row) - row.withoutMoneyCents)
/** What an account of income took in, positive; of sales of what lasts in money and in kind, without the cost of the sold thing that is taken off it. */
export const takenIn = (row: AccountYear): Cents =>
  sellsAssets(row.account) ? cents((row.inKindCents ?? 0) - movedOf(row)) : negateCents(changeOf(row))
/** What was taken off the pay of an account before tax, all of it or of one kind; 0 of any other account. */
export const takenOffPay = (
  { beforeTaxCents }: AccountYear,
  ...kinds: readonly ('premium' | 'deferred')[]
): Cents =>
  sumCents(
    (kinds.length > 0 ? kinds : (['premium', 'deferred'] as const)).flatMap(
      (kind) => beforeTaxCents?.[kind] ?? [],
    ),
  )
export const closingOf = (row: AccountYear): Cents => cents(row.openingCents + changeOf(row))

/** A line of a report; `accounts` says what it is made of, `amountCents` is positive in the direction of its label. */
export interface ReportLine {
  label: string
  amountCents: Cents
  accounts: readonly { id: number; name: string; amountCents: Cents }[]
  note?: string
}

export interface ReportSection {
  title: string
  lines: readonly ReportLine[]
  totalLabel: string
  totalCents: Cents
}

export const section = (title: string, totalLabel: string, lines: readonly ReportLine[]): ReportSection => ({
  title,
  lines,
  totalLabel,
  totalCents: sumCents(lines.map((line) => line.amountCents)),
})

/** A line for one account, as a person reads it: `sign` −1 turns credits positive. */
export const accountLine = (row: AccountYear, amount: Cents, sign: 1 | -1 = 1): ReportLine => {
  const shown = sign === 1 ? amount : negateCents(amount)
  return {
    label: row.account.name,
    amountCents: shown,
    accounts: [{ id: row.account.id, name: row.account.name, amountCents: shown }],
  }
}

/** Adds a line only where there is something to say. */
export const filled = (lines: readonly ReportLine[]): ReportLine[] =>
  lines.filter((line) => line.amountCents !== 0)

export const plainLine = (label: string, amountCents: Cents, note?: string): ReportLine => ({
  label,
  amountCents,
  accounts: [],
  ...(note ? { note } : {}),
})

/** Net income in the ledger: credits of income less debits of costs. Throws when the year's postings do not sum to zero. */
export const netIncomeOf = (books: BookYear): Cents => {
  const off = sumCents(books.accounts.map(changeOf))
  if (off !== 0) throw new Error(`${books.name} ${books.year}: postings do not balance, off by ${off} cents`)
  return negateCents(sumCents(books.accounts.filter(isResult).map(changeOf)))
}

export const isResult = ({ account }: AccountYear): boolean =>
  account.kind === 'income' || account.kind === 'expense'
