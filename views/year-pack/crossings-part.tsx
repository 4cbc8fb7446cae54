// What moved between the sides, month by month, a table a pair.
import { monthNames } from '#calendar/month.ts'
import type { CrossingMonths } from '#ledger/reports/crossings-by-month.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import { PackPart } from './parts.tsx'

interface CrossingsProps {
  id: string
  csv: string
  year: number
  crossings: readonly CrossingMonths[]
}

export const CrossingsPart = ({ crossings, year, ...part }: CrossingsProps) => (
  <PackPart
    {...part}
    title="Crossings by month"
    scrolls
    of={String(year)}
    says="What moved between the sides, month by month."
  >
    {crossings.map((pair) => (
      <PairTable pair={pair} />
    ))}
  </PackPart>
)

const crossingColumns = [
  ['draws', 'Draws'],
  ['contributions', 'Contributions'],
  ['reimbursements', 'Reimbursed'],
  ['goods', 'Goods used at home'],
  ['borrowed', 'Borrowed, net'],
] as const

const PairTable = ({ pair }: { pair: CrossingMonths }) => (
  <table class="pack-table">
    <caption>
      {pair.side} and {pair.other}
    </caption>
    <thead>
      <tr>
        <th scope="col">Month</th>
        {crossingColumns.map(([, title]) => (
          <th scope="col" class="number">
            {title}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {monthNames.map((name, i) => (
        <tr>
          <th scope="row">{name}</th>
          {crossingColumns.map(([key]) => (
            <td class="number">{amountOrBlank(pair[key][i]!)}</td>
          ))}
        </tr>
      ))}
    </tbody>
    <tfoot>
      <tr class="pack-total">
        <th scope="row">Year</th>
        {crossingColumns.map(([key]) => (
          <td class="number">{formatCentsPlain(sumCents(pair[key]))}</td>
        ))}
      </tr>
    </tfoot>
  </table>
)

const amountOrBlank = (amount: Cents): string => (amount === 0 ? '' : formatCentsPlain(amount))
