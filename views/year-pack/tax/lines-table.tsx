// Lines of a form as a table: number, words, amount.

interface LinesTableProps {
  /** Heard, not seen: the sheet's heading says it. */
  caption: string
  rows: readonly { line: string; says: string; shown: string }[]
  /** Lines that sum others up. */
  totals: readonly string[]
}

export const LinesTable = ({ caption, rows, totals }: LinesTableProps) => (
  <table class="pack-table">
    <caption class="hidden-text">{caption}</caption>
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
      {rows.map(({ line, says, shown }) => (
        <tr class={totals.includes(line) ? 'pack-subtotal' : undefined}>
          <td>{line}</td>
          <th scope="row">{says}</th>
          <td class="number">{shown}</td>
        </tr>
      ))}
    </tbody>
  </table>
)
