// The four statements of a side: income, balance sheet with its market column, owner's equity, cash flow.
import { monthNames } from '#calendar/month.ts'
import type { BalanceLine, BalanceSection, BalanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { ReportLine, ReportSection } from '#ledger/reports/book-year.ts'
import type { CashFlow } from '#ledger/reports/cash-flow.ts'
import type { IncomeStatement } from '#ledger/reports/income-statement.ts'
import type { OwnerEquity } from '#ledger/reports/owner-equity.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents, formatPercent } from '#money/format.ts'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'

interface PartProps {
  id: string
  csv: string
}

export const IncomePart = ({ statement, ...part }: PartProps & { statement: IncomeStatement }) => (
  <PackPart
    {...part}
    title="Income statement"
    beginsSheet
    of={statement.name}
    says={`${statement.year}, ${statement.basis === 'cash' ? 'cash basis' : 'cash basis with accrual adjustments'}.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Income statement of {statement.name}, {statement.year}
      </caption>
      <tbody>
        <SectionRows section={statement.revenue} />
        <SectionRows section={statement.expenses} />
        <SectionRows section={statement.interest} />
        <SectionRows section={statement.depreciation} />
        <SectionRows section={statement.capital} />
      </tbody>
      <tfoot>
        <TotalRow label="Net income" amounts={[statement.netIncomeCents]} />
        {statement.basis === 'cash' ? null : (
          <TotalRow label="Of that, on the cash basis" amounts={[statement.cashNetIncomeCents]} quiet />
        )}
      </tfoot>
    </table>
  </PackPart>
)

const SectionRows = ({ section }: { section: ReportSection }) =>
  section.lines.length === 0 ? null : (
    <>
      <tr class="pack-heading">
        <th scope="colgroup" colspan={2}>
          {section.title}
        </th>
      </tr>
      {section.lines.map((line) => (
        <LineRow line={line} />
      ))}
      <TotalRow label={section.totalLabel} amounts={[section.totalCents]} quiet />
    </>
  )

const LineRow = ({ line }: { line: ReportLine }) => {
  const [only] = line.accounts
  const href = line.accounts.length === 1 && only ? `/books/accounts/${only.id}` : undefined
  return <AmountRow label={line.label} href={href} note={line.note} amounts={[line.amountCents]} />
}

export const BalancePart = ({
  begin,
  end,
  ...part
}: PartProps & { begin: BalanceSheet; end: BalanceSheet }) => (
  <PackPart
    {...part}
    title="Balance sheet"
    of={end.name}
    says={`At the end of ${end.year}, what the books hold and, beside it, market values; the first column is the year’s beginning.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Balance sheet of {end.name}, {end.year}
      </caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="hidden-text">Line</span>
          </th>
          <th scope="col" class="number">
            Begin, books
          </th>
          <th scope="col" class="number">
            End, books
          </th>
          <th scope="col" class="number">
            End, market
          </th>
        </tr>
      </thead>
      <tbody>
        <BalanceRows begin={begin.currentAssets} end={end.currentAssets} />
        <BalanceRows begin={begin.otherAssets} end={end.otherAssets} />
        <TotalRow label="Total assets" amounts={threeOf(begin.totalAssets, end.totalAssets)} />
        <BalanceRows begin={begin.currentLiabilities} end={end.currentLiabilities} />
        <BalanceRows begin={begin.otherLiabilities} end={end.otherLiabilities} />
        <TotalRow label="Total liabilities" amounts={threeOf(begin.totalLiabilities, end.totalLiabilities)} />
      </tbody>
      <tfoot>
        <TotalRow label="Owner’s equity" amounts={threeOf(begin.equity, end.equity)} />
      </tfoot>
    </table>
    <p class="source">{deferredTaxNote(end)}</p>
  </PackPart>
)

const BalanceRows = ({ begin, end }: { begin: BalanceSection; end: BalanceSection }) => {
  const labels = [...new Set([...end.lines, ...begin.lines].map((line) => line.label))]
  if (labels.length === 0) return null
  const find = (section: BalanceSection, label: string): BalanceLine | undefined =>
    section.lines.find((line) => line.label === label)
  return (
    <>
      <tr class="pack-heading">
        <th scope="colgroup" colspan={4}>
          {end.title}
        </th>
      </tr>
      {labels.map((label) => {
        const [first, last] = [find(begin, label), find(end, label)]
        const id = (last ?? first)?.accountId ?? null
        return (
          <AmountRow
            label={label}
            href={id === null ? undefined : `/books/accounts/${id}`}
            note={(last ?? first)?.note}
            amounts={[first?.costCents ?? null, last?.costCents ?? null, last?.marketCents ?? null]}
          />
        )
      })}
      <TotalRow label={end.title} amounts={threeOf(begin, end)} quiet />
    </>
  )
}

const threeOf = (
  begin: { costCents: Cents },
  end: { costCents: Cents; marketCents: Cents },
): readonly (Cents | null)[] => [begin.costCents, end.costCents, end.marketCents]

const deferredTaxNote = ({ deferredTax }: BalanceSheet): string => {
  const { gainCents, rate, taxCents } = deferredTax
  if (gainCents <= 0) return 'Market values are not above the books: no deferred tax.'
  if (rate === null)
    return `Market values are ${formatCents(gainCents)} above the books. No tax on that gain is counted, because no rate was entered: the market column shows more than selling would leave.`
  return `Market values are ${formatCents(gainCents)} above the books. Selling would bring tax on that; at the ${formatPercent(rate)} you entered it is ${formatCents(taxCents)}, counted as owed in the market column. A rough figure: the true tax depends on what is sold and when.`
}

export const EquityPart = ({ equity, ...part }: PartProps & { equity: OwnerEquity }) => (
  <PackPart
    {...part}
    title="Statement of owner’s equity"
    of={equity.name}
    says={`How what the owners have in these books came about in ${equity.year}, at the values of the books.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Statement of owner’s equity of {equity.name}, {equity.year}
      </caption>
      <tbody>
        <AmountRow label="Equity at the beginning" amounts={[equity.beginCents]} />
        <AmountRow label="Net income of the year" amounts={[equity.netIncomeCents]} />
        {[...equity.crossings, ...equity.other].map((line) => (
          <LineRow line={line} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Equity at the end" amounts={[equity.endCents]} />
      </tfoot>
    </table>
  </PackPart>
)

export const CashPart = ({ cash, ...part }: PartProps & { cash: CashFlow }) => (
  <PackPart
    {...part}
    title="Cash flow"
    of={cash.name}
    says={`Every change of the money accounts in ${cash.year}, cards included. Depreciation and goods used at home move no money and are not in it.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Cash flow of {cash.name}, {cash.year}
      </caption>
      <tbody>
        <AmountRow label="Money at the beginning" amounts={[cash.beginCents]} />
        {[cash.operations, cash.investing, cash.financing, cash.crossings, cash.openings].map((section) => (
          <SectionRows section={section} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Change in money" amounts={[cash.changeCents]} quiet />
        <TotalRow label="Money at the end" amounts={[cash.endCents]} />
      </tfoot>
    </table>
    <details class="no-print">
      <summary>Change in money by month</summary>
      <ul class="pack-months">
        {cash.byMonth.map((change, i) => (
          <li>
            <span>{monthNames[i]}</span> <span>{formatCents(change)}</span>
          </li>
        ))}
      </ul>
    </details>
  </PackPart>
)
