// The four statements of a side: income, balance sheet with its market column, owner's equity, cash flow.
import { dayName } from '#calendar/day.ts'
import { monthNames } from '#calendar/month.ts'
import type { AccrualYear } from '#ledger/reports/accrual.ts'
import type { BalanceSection, BalanceSheet } from '#ledger/reports/balance-sheet.ts'
import type { ReportLine, ReportSection } from '#ledger/reports/book-year.ts'
import type { CashFlow } from '#ledger/reports/cash-flow.ts'
import type { IncomeStatement } from '#ledger/reports/income-statement.ts'
import type { OwnerEquity } from '#ledger/reports/owner-equity.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents, formatPercent } from '#money/format.ts'
import type { StatedDepreciation } from '#today/year-pack/figures.ts'
import { DepreciationLacking, DepreciationTaken } from './depreciation-part.tsx'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'
import {
  balanceRows,
  cashSections,
  equityAtMarket,
  incomeSections,
  itemRows,
  marketEquity,
} from './statement-rows.ts'

interface PartProps {
  id: string
  csv: string
}

export const IncomePart = ({
  statement,
  items,
  depreciation,
  ...part
}: PartProps & {
  statement: IncomeStatement
  items: AccrualYear | null
  depreciation: readonly StatedDepreciation[]
}) => (
  <PackPart
    {...part}
    title="Income statement"
    of={statement.name}
    says={`${statement.year}, ${statement.basis === 'cash' ? 'cash basis' : 'cash basis with accrual adjustments'}.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Income statement of {statement.name}, {statement.year}
      </caption>
      <YearHead year={statement.year} />
      <tbody>
        {incomeSections(statement).map((section) => (
          <SectionRows section={section} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Net income" amounts={[statement.netIncomeCents]} />
        {statement.basis === 'cash' ? null : (
          <TotalRow label="Of that, on the cash basis" amounts={[statement.cashNetIncomeCents]} quiet />
        )}
      </tfoot>
    </table>
    {depreciation.map((of) => (
      <DepreciationTaken of={of} />
    ))}
    {items && items.begin.length + items.end.length > 0 ? <ItemsTable items={items} /> : null}
  </PackPart>
)

/** Both ends of what the cash books do not show, so that each change above can be followed. */
const ItemsTable = ({ items }: { items: AccrualYear }) => (
  <table class="pack-table">
    <caption>What the cash books do not show</caption>
    <thead>
      <tr>
        <th scope="col">What</th>
        <th scope="col" class="number">
          Begin
        </th>
        <th scope="col" class="number">
          End
        </th>
        <th scope="col" class="number">
          Change
        </th>
      </tr>
    </thead>
    <tbody>
      {itemRows(items).map(({ name, kind, amounts }) => (
        <AmountRow label={name} note={kind} amounts={amounts} />
      ))}
    </tbody>
  </table>
)

/** Repeated by the printer where a statement runs over a sheet. */
const YearHead = ({ year }: { year: number }) => (
  <thead>
    <tr>
      <th scope="col">Account</th>
      <th scope="col" class="number">
        {year}
      </th>
    </tr>
  </thead>
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
  depreciation,
  ...part
}: PartProps & {
  begin: BalanceSheet
  end: BalanceSheet
  depreciation: readonly StatedDepreciation[]
}) => (
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
    {depreciation.map((of) => (
      <DepreciationLacking of={of} />
    ))}
    <p class="source">{deferredTaxNote(end)}</p>
  </PackPart>
)

const BalanceRows = ({ begin, end }: { begin: BalanceSection; end: BalanceSection }) => {
  const rows = balanceRows(begin, end)
  if (rows.length === 0) return null
  return (
    <>
      <tr class="pack-heading">
        <th scope="colgroup" colspan={4}>
          {end.title}
        </th>
      </tr>
      {rows.map(({ line, amounts }) => (
        <AmountRow
          label={line.label}
          href={line.accountId === null ? undefined : `/books/accounts/${line.accountId}`}
          note={[line.note, line.valuedOn ? `valued ${dayName(line.valuedOn)}` : '']
            .filter(Boolean)
            .join(', ')}
          amounts={amounts}
        />
      ))}
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
  if (gainCents <= 0) return 'Nothing in the market values would be taxed: no deferred tax.'
  if (rate === null)
    return `${formatCents(gainCents)} of the market values would be taxed as it is sold or taken out. No tax on that is counted, because no rate was entered: the market column shows more than selling would leave.${notTaxed}`
  return `${formatCents(gainCents)} of the market values would be taxed as it is sold or taken out; at the ${formatPercent(rate)} you entered that is ${formatCents(taxCents)}, counted as owed in the market column. A rough figure: the true tax depends on what is sold and when.${notTaxed}`
}

const notTaxed =
  ' It is what things are worth above the books, and all of traditional retirement accounts; Roth and health accounts, the home and other things of the house are left out. Gains on land or a second home may be taxed: ask a licensed tax preparer.'

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
        <TotalRow label="Equity at the end" amounts={[equity.endCents]} />
        {equityAtMarket(equity).map(([label, amount]) => (
          <AmountRow label={label} amounts={[amount]} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Equity at the end, at market" amounts={[marketEquity(equity)]} />
      </tfoot>
    </table>
  </PackPart>
)

export const CashPart = ({ cash, ...part }: PartProps & { cash: CashFlow }) => (
  <PackPart
    {...part}
    title="Cash flow"
    of={cash.name}
    says={`Every change of the money accounts in ${cash.year}, cards included. Depreciation, goods used at home and goods bartered move no money and are not in it. What investments gained in value has a line of its own: nothing was sold.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">
        Cash flow of {cash.name}, {cash.year}
      </caption>
      <YearHead year={cash.year} />
      <tbody>
        <AmountRow label="Money at the beginning" amounts={[cash.beginCents]} />
        {cashSections(cash).map((section) => (
          <SectionRows section={section} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow label="Change in money" amounts={[cash.changeCents]} quiet />
        <TotalRow label="Money at the end" amounts={[cash.endCents]} />
      </tfoot>
    </table>
    <InTrade cash={cash} />
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

const InTrade = ({ cash: { inTrade } }: { cash: CashFlow }) =>
  inTrade.lines.length === 0 ? null : (
    <table class="pack-table">
      <caption>{inTrade.title}</caption>
      <tbody>
        {inTrade.lines.map((line) => (
          <AmountRow label={line.label} amounts={[line.amountCents]} />
        ))}
      </tbody>
    </table>
  )
