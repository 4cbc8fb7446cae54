// The farm finance measures with their formulas and what publications call the values.
import { measureAreas } from '#ledger/measures/measure-definitions.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { MeasureRow } from '#today/year-pack/figures.ts'
import { PackPart } from './parts.tsx'

interface MeasuresProps {
  id: string
  csv: string
  of: string
  rows: readonly MeasureRow[]
  basis: string
}

export const MeasuresPart = ({ rows, basis, ...part }: MeasuresProps) => {
  const hasMarket = rows.some((row) => row.marketValue !== null)
  const sources = [...new Set(rows.flatMap((row) => row.bands.map((band) => band.source)))]
  return (
    <PackPart
      {...part}
      title="Farm finance measures"
      says={`By the formulas of the Farm Financial Standards, on the ${basis === 'cash' ? 'cash basis' : 'accrual-adjusted basis'}, with published bands.`}
    >
      <table class="pack-table pack-measures stack-small">
        <caption class="hidden-text">Farm finance measures</caption>
        <thead>
          <tr>
            <th scope="col">Measure</th>
            <th scope="col" class="number">
              At cost
            </th>
            {hasMarket ? (
              <th scope="col" class="number">
                At market
              </th>
            ) : null}
            <th scope="col">How publications call the value at cost</th>
          </tr>
        </thead>
        <tbody>
          {measureAreas.map((area) => (
            <>
              <tr class="pack-heading">
                <th scope="colgroup" colspan={hasMarket ? 4 : 3}>
                  {capitalized(area)}
                </th>
              </tr>
              {rows
                .filter((row) => row.area === area)
                .map((row) => (
                  <MeasureTableRow row={row} sources={sources} hasMarket={hasMarket} />
                ))}
            </>
          ))}
        </tbody>
      </table>
      <p class="source">
        Bands differ between publications and kinds of farm, and few were drawn from small direct-market
        farms. They are not rules. On the cash basis the measures of income swing with when money comes in.
        Gains and losses on capital sales are in net farm income, and in no return, margin or measure of
        repayment.
      </p>
      <ol class="pack-sources">
        {sources.map((source) => (
          <li>{source}</li>
        ))}
      </ol>
    </PackPart>
  )
}

interface MeasureTableRowProps {
  row: MeasureRow
  sources: readonly string[]
  hasMarket: boolean
}

const MeasureTableRow = ({ row, sources, hasMarket }: MeasureTableRowProps) => (
  <tr>
    <th scope="row">
      {row.name}
      <span class="pack-note">
        {' '}
        {row.formula}
        {row.obtained === 'memory' ? <span class="no-print"> (formula from memory)</span> : null}
      </span>
      <span class="pack-note">: {row.parts.map(partText).join(', ')}</span>
    </th>
    <td class="number" data-title="At cost">
      {row.value === null ? '—' : measureText(row, row.value)}
    </td>
    {hasMarket ? (
      <td class="number" data-title="At market">
        {row.marketValue === null ? '' : measureText(row, row.marketValue)}
      </td>
    ) : null}
    <td class="pack-bands">
      {row.value === null ? <span class="pack-note">{row.missing}</span> : null}
      {row.bands.map((band, i) => (
        <>
          {i > 0 ? '; ' : ''}
          {band.label}
          <span class="pack-note">
            {' '}
            ({band.limits}) [{sources.indexOf(band.source) + 1}]
            {band.obtained === 'memory' ? <span class="no-print">, from memory</span> : null}
          </span>
        </>
      ))}
    </td>
  </tr>
)

const partText = ({ name, cents }: MeasureRow['parts'][number]): string =>
  `${name} ${cents === null ? 'not known' : formatDollars(cents / 100)}`

const measureText = (row: Pick<MeasureRow, 'unit'>, value: number): string => {
  if (row.unit === 'cents') return formatDollars(value / 100)
  return row.unit === 'fraction' ? formatPercent(value, 1) : value.toFixed(2)
}

const capitalized = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1)
