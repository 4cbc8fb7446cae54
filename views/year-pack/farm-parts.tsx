// The farm's own parts of the pack: the Schedule F summary and the inventory with its depreciation.
import { dayName } from '#calendar/day.ts'
import type { ScheduleF, ScheduleFLine } from '#ledger/reports/schedule-f.ts'
import { holdingKindNames, type InventoryRow, type StockInventory } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents, formatCentsPlain } from '#money/format.ts'
import { AmountRow, PackPart } from './parts.tsx'

interface PartProps {
  id: string
  csv: string
  of: string
}

export const ScheduleFPart = ({ form, source, ...part }: PartProps & { form: ScheduleF; source: string }) => (
  <PackPart
    {...part}
    title="Schedule F summary"
    beginsSheet
    says={`Profit or loss from farming, ${form.year}, cash method, by line.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">Schedule F summary, {form.year}</caption>
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col">What</th>
          <th scope="col" class="number">
            Amount
          </th>
        </tr>
      </thead>
      <tbody>
        {form.income.map((line) => (
          <FormRow line={line} />
        ))}
        <FormTotal line="9" label="Gross income" amountCents={form.grossIncomeCents} />
        {form.expenses.map((line) => (
          <FormRow line={line} />
        ))}
        <FormTotal line="33" label="Total expenses" amountCents={form.totalExpensesCents} />
      </tbody>
      <tfoot>
        <FormTotal line="34" label="Net farm profit or loss" amountCents={form.netProfitCents} />
      </tfoot>
    </table>
    {form.beside.length > 0 ? (
      <>
        <h3>In the books, but not on this form</h3>
        <table class="pack-table">
          <tbody>
            {form.beside.map((line) => (
              <AmountRow label={line.label} amounts={[line.amountCents]} />
            ))}
          </tbody>
        </table>
        <p class="source">
          Sales of breeding stock and of equipment go on Form 4797. The value of goods used at home is kept
          for the books; whether the costs of growing them may be deducted is a question for a preparer.
        </p>
      </>
    ) : null}
    <p class="source">
      Lines 3a, 4a and 6a are taken as taxable in full. Source: {source}. Check each line against this year’s
      form.
    </p>
  </PackPart>
)

const FormRow = ({ line }: { line: ScheduleFLine }) => (
  <tr>
    <td>{line.line}</td>
    <th scope="row">
      {line.label}
      {line.note ? <span class="pack-note"> {line.note}</span> : null}
      {line.accounts.length > 0 ? (
        <details class="made-of no-print">
          <summary>Accounts</summary>
          <ul>
            {line.accounts.map((part) => (
              <li>
                <a href={`/books/accounts/${part.id}`}>{part.name}</a>
                <span>{formatCents(part.amountCents)}</span>
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </th>
    <td class="number">
      {formatCentsPlain(line.line === '1b' ? cents(-line.amountCents) : line.amountCents)}
    </td>
  </tr>
)

const FormTotal = ({ line, label, amountCents }: { line: string; label: string; amountCents: Cents }) => (
  <tr class="pack-subtotal">
    <td>{line}</td>
    <th scope="row">{label}</th>
    <td class="number">{formatCentsPlain(amountCents)}</td>
  </tr>
)

export const InventoryPart = ({ inventory, ...part }: PartProps & { inventory: StockInventory }) => (
  <PackPart
    {...part}
    title="Stock and equipment"
    says={`What was held in ${inventory.year}, with the year’s depreciation.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">Stock and equipment, {inventory.year}</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">Since</th>
          <th scope="col" class="number">
            Cost
          </th>
          <th scope="col" class="number">
            Deducted before
          </th>
          <th scope="col" class="number">
            This year
          </th>
          <th scope="col" class="number">
            Left
          </th>
          <th scope="col" class="number">
            Market
          </th>
        </tr>
      </thead>
      <tbody>
        {inventory.rows.map((row) => (
          <InventoryTableRow row={row} />
        ))}
      </tbody>
      <tfoot>
        <tr class="pack-total">
          <th scope="row" colspan={4}>
            Depreciation of the year, with section 179 and bonus
          </th>
          <td class="number">{formatCentsPlain(inventory.depreciationCents)}</td>
          <td />
          <td class="number">{formatCentsPlain(inventory.marketCents)}</td>
        </tr>
      </tfoot>
    </table>
    <p class="source">
      Half-year convention, or mid-quarter when more than 40 percent of a year’s purchases came into use in
      its last quarter (IRS Pub. 946). Section 179 is limited by business income and by yearly limits that a
      preparer should check.
    </p>
  </PackPart>
)

const InventoryTableRow = ({ row }: { row: InventoryRow }) => {
  const { holding } = row
  return (
    <tr>
      <th scope="row">
        <a href={`/year-pack/holdings/${holding.id}`}>{holding.name}</a>
        <span class="pack-note">
          {' '}
          {holding.quantity === 1 ? '' : `${holding.quantity} ${holding.unit} · `}
          {holdingKindNames[holding.kind]}
          {holding.raised ? ', raised' : ''}
          {row.convention ? `, ${row.convention}` : ''}
        </span>
      </th>
      <td>
        {dayName(holding.acquiredDay)}
        {holding.disposedDay ? (
          <span class="pack-note"> sold or lost {dayName(holding.disposedDay)}</span>
        ) : null}
      </td>
      <td class="number">{formatCentsPlain(holding.costCents)}</td>
      <td class="number">{formatCentsPlain(row.deductedBeforeCents)}</td>
      <td class="number">{formatCentsPlain(row.deductedThisYearCents)}</td>
      <td class="number">{formatCentsPlain(row.bookCents)}</td>
      <td class="number">
        {holding.marketValueCents === null || holding.disposedDay
          ? ''
          : formatCentsPlain(holding.marketValueCents)}
      </td>
    </tr>
  )
}
