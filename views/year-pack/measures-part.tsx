// The farm finance measures with their formulas and what publications call the values.
import { measureAreas } from '#ledger/measures/finance-measures.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { MeasureRow } from './figures.ts'
import { PackPart } from './parts.tsx'

interface MeasuresProps {
  id: string
  csv: string
  of: string
  rows: readonly MeasureRow[]
  basis: string
}

export const MeasuresPart = ({ rows, basis, ...part }: MeasuresProps) => {
  const sources = [...new Set(rows.flatMap((row) => row.bands.map((band) => band.source)))]
  return (
    <PackPart
      {...part}
      title="Farm finance measures"
      beginsSheet
      says={`By the formulas of the Farm Financial Standards, on the ${basis === 'cash' ? 'cash basis' : 'accrual-adjusted basis'}, with published bands.`}
    >
      <table class="pack-table pack-measures">
        <caption class="hidden-text">Farm finance measures</caption>
        <thead>
          <tr>
            <th scope="col">Measure</th>
            <th scope="col" class="number">
              At cost
            </th>
            <th scope="col" class="number">
              At market
            </th>
            <th scope="col">How publications call the value at cost</th>
          </tr>
        </thead>
        <tbody>
          {measureAreas.map((area) => (
            <>
              <tr class="pack-heading">
                <th scope="colgroup" colspan={4}>
                  {capitalised(area)}
                </th>
              </tr>
              {rows
                .filter((row) => row.area === area)
                .map((row) => (
                  <MeasureTableRow row={row} sources={sources} />
                ))}
            </>
          ))}
        </tbody>
      </table>
      <p class="source">
        Bands differ between publications and kinds of farm, and few were drawn from small direct-market
        farms. They are not rules. On the cash basis the measures of income swing with when money comes in.
      </p>
      <ol class="pack-sources">
        {sources.map((source) => (
          <li>{source}</li>
        ))}
      </ol>
    </PackPart>
  )
}

const MeasureTableRow = ({ row, sources }: { row: MeasureRow; sources: readonly string[] }) => (
  <tr>
    <th scope="row">
      {row.name}
      <span class="pack-note">
        {' '}
        {row.formula}
        {row.obtained === 'memory' ? ' (formula recalled)' : ''}
      </span>
    </th>
    <td class="number">{row.value === null ? '—' : measureText(row, row.value)}</td>
    <td class="number">{row.marketValue === null ? '' : measureText(row, row.marketValue)}</td>
    <td>
      {row.value === null ? <span class="pack-note">{row.missing}</span> : null}
      {row.bands.map((band, i) => (
        <>
          {i > 0 ? '; ' : ''}
          {band.label}
          <span class="pack-note">
            {' '}
            ({band.limits}) [{sources.indexOf(band.source) + 1}]
            {band.obtained === 'memory' ? ' recalled' : ''}
          </span>
        </>
      ))}
    </td>
  </tr>
)

export const measureText = (row: Pick<MeasureRow, 'unit'>, value: number): string => {
  if (row.unit === 'cents') return formatDollars(value / 100)
  return row.unit === 'fraction' ? formatPercent(value, 1) : value.toFixed(2)
}

const capitalised = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1)
