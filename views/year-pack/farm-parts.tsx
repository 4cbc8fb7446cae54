// The inventory of the pack with its depreciation.
import { dayName } from '#calendar/day.ts'
import {
  holdingKindNames,
  holdingName,
  type InventoryRow,
  type StockInventory,
} from '#ledger/reports/stock-inventory.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import { PackPart } from './parts.tsx'

interface PartProps {
  id: string
  csv: string
  of: string
}

export const InventoryPart = ({ inventory, ...part }: PartProps & { inventory: StockInventory }) => {
  const totalOf = (column: (row: InventoryRow) => Cents) => sumCents(inventory.rows.map(column))
  return (
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
            <InventoryTableRow row={row} year={inventory.year} />
          ))}
        </tbody>
        <tfoot>
          <tr class="pack-total">
            <th scope="row" colspan={2}>
              Total; this year with section 179 and bonus
            </th>
            <td class="number">{formatCentsPlain(totalOf(({ holding }) => holding.costCents))}</td>
            <td class="number">{formatCentsPlain(totalOf((row) => row.deductedBeforeCents))}</td>
            <td class="number">{formatCentsPlain(inventory.depreciationCents)}</td>
            <td class="number">{formatCentsPlain(totalOf((row) => row.bookCents))}</td>
            <td class="number">{formatCentsPlain(inventory.marketCents)}</td>
          </tr>
        </tfoot>
      </table>
      <p class="source">
        Market: what each was worth by its newest value on or before December 31; where none was given, what
        is left of its cost. Half-year convention, or mid-quarter when more than 40 percent of a year’s
        purchases came into use in its last quarter (IRS Pub. 946). Section 179 was elected in the year of the
        purchase. It is limited by business income and by yearly limits that a preparer should check.
      </p>
    </PackPart>
  )
}

/** One rule for sheet, CSV and JSON: what is not valued counts at what is left of its cost. */
export const atCost = 'at cost, no market value given'

const InventoryTableRow = ({ row, year }: { row: InventoryRow; year: number }) => {
  const { holding } = row
  return (
    <tr>
      <th scope="row">
        <a href={`/year-pack/holdings/${holding.id}?year=${year}`}>{holdingName(holding)}</a>
        <span class="pack-note">
          {' '}
          {holding.quantity === 1 ? '' : `${holding.quantity} ${holding.unit} · `}
          {holdingKindNames[holding.kind]}
          {holding.raised ? ', raised' : ''}
          {row.writeOff ? `, ${row.writeOff.years}-year, ${row.writeOff.method}` : ''}
          {row.convention ? `, ${row.convention}` : ''}
          {row.writeOff?.section179Cents
            ? `, section 179 ${formatCentsPlain(row.writeOff.section179Cents)}`
            : ''}
          {holding.loweredCents
            ? `, cost lowered by ${formatCentsPlain(holding.loweredCents)} of gain put off (26 USC 1033(e))`
            : ''}
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
        {row.market === null ? null : formatCentsPlain(row.market.cents)}
        {row.market?.isAtCost ? <span class="pack-note"> {atCost}</span> : null}
      </td>
    </tr>
  )
}
