// The rows of the statements, for the page and for the table that a program reads: the same rows in the same order.
import { type AccrualItem, type AccrualYear, accrualDefinitions } from '#ledger/reports/accrual.ts'
import type { BalanceLine, BalanceSection } from '#ledger/reports/balance-sheet.ts'
import type { ReportSection } from '#ledger/reports/book-year.ts'
import type { CashFlow } from '#ledger/reports/cash-flow.ts'
import type { IncomeStatement } from '#ledger/reports/income-statement.ts'
import type { OwnerEquity } from '#ledger/reports/owner-equity.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'

export interface BalanceRow {
  line: BalanceLine
  /** Beginning by the books, end by the books, end at market. */
  amounts: readonly (Cents | null)[]
}

/** Row by row what is one and the same at both ends, whatever it is called. */
export const balanceRows = (begin: BalanceSection, end: BalanceSection): BalanceRow[] => {
  const first = new Map(begin.lines.map((line) => [line.key, line]))
  const last = new Map(end.lines.map((line) => [line.key, line]))
  return [...new Set([...last.keys(), ...first.keys()])].map((key) => ({
    line: (last.get(key) ?? first.get(key))!,
    amounts: [
      first.get(key)?.costCents ?? null,
      last.get(key)?.costCents ?? null,
      last.get(key)?.marketCents ?? null,
    ],
  }))
}

export const incomeSections = (income: IncomeStatement): ReportSection[] => [
  income.revenue,
  income.expenses,
  income.interest,
  income.depreciation,
  income.capital,
]

export const cashSections = (cash: CashFlow): ReportSection[] => [
  cash.operations,
  cash.investing,
  cash.financing,
  cash.crossings,
  cash.openings,
  cash.valuation,
  cash.other,
]

/** Begin, end and change of each item, in the order of their kinds. */
export const itemRows = ({
  begin,
  end,
}: AccrualYear): { kind: string; name: string; amounts: [Cents, Cents, Cents] }[] => {
  const sums = new Map<string, { item: AccrualItem; amounts: [number, number] }>()
  const add = (items: readonly AccrualItem[], at: 0 | 1) => {
    for (const item of items) {
      const key = `${item.kind} ${item.name}`
      const sum = sums.get(key) ?? { item, amounts: [0, 0] }
      sum.amounts[at] += item.amountCents
      sums.set(key, sum)
    }
  }
  add(begin, 0)
  add(end, 1)
  return [...sums.values()].map(({ item: { kind, name }, amounts: [first, last] }) => ({
    kind: accrualDefinitions[kind].says,
    name,
    amounts: [cents(first), cents(last), cents(last - first)],
  }))
}

/** From equity by the books at the end to equity at market. */
export const equityAtMarket = ({ valuation }: OwnerEquity): [string, Cents][] => [
  ['Market values above the books at the beginning, less the tax on them', valuation.beginCents],
  ['Change of that in the year', cents(valuation.endCents - valuation.beginCents)],
]

export const marketEquity = ({ endCents, valuation }: OwnerEquity): Cents =>
  sumCents([endCents, valuation.endCents])
