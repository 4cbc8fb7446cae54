// A kept pack as it was: every sheet a table of the texts that were kept, and its digest.
import { instantName } from '#calendar/day.ts'
import { PageTitle } from '../../layout.tsx'
import { PrintButton } from '../../parts/button.tsx'

interface KeptCopyProps {
  year: number
  copyNo: number
  at: string
  digest: string
  note: string
  chainEnd: string
  shown: {
    basis: 'cash' | 'accrual'
    days: string
    open: readonly string[]
    sheets: readonly {
      id: string
      of: string
      title: string
      total: string
      header: readonly string[]
      rows: readonly (readonly string[])[]
    }[]
  }
}

export const KeptCopy = ({ year, copyNo, at, digest, note, chainEnd, shown }: KeptCopyProps) => (
  <>
    <p class="no-print">
      <a href={`/year-pack?year=${year}`}>Back to the year pack</a> ·{' '}
      <a href={`/year-pack/kept/${year}/${copyNo}?basis=${shown.basis === 'cash' ? 'accrual' : 'cash'}`}>
        The same on the {shown.basis === 'cash' ? 'accrual-adjusted' : 'cash'} basis
      </a>
    </p>
    <PageTitle purpose={`Kept on ${instantName(at)}, as the books read then. Nothing here changes.`}>
      Year pack {year}, {copyNo === 1 ? 'as it was closed' : `amended copy ${copyNo}`}
    </PageTitle>
    <PrintButton />
    {note === '' ? null : <p>{note}.</p>}
    <p>
      {shown.basis === 'cash' ? 'Cash basis' : 'Cash basis with accrual adjustments'}, {shown.days}. Digest
      (SHA-256) <code class="digest">{digest}</code>. The chain of changes then ended at{' '}
      <code class="digest">{chainEnd}</code>.
    </p>
    <h2>Open points</h2>
    {shown.open.length === 0 ? (
      <p>None.</p>
    ) : (
      <ol class="pack-list">
        {shown.open.map((says) => (
          <li>{says}</li>
        ))}
      </ol>
    )}
    {shown.sheets.map((sheet) => (
      <details class="kept-sheet" id={sheet.id}>
        <summary>
          {sheet.title}
          {sheet.of === '' ? '' : `, ${sheet.of}`}: {sheet.total || `${sheet.rows.length} lines`}
        </summary>
        <table class="pack-table">
          <thead>
            <tr>
              {sheet.header.map((name) => (
                <th scope="col">{name}</th>
              ))}
            </tr>
          </thead>
          <tbody>
            {sheet.rows.map((row) => (
              <tr>
                {row.map((cell) => (
                  <td class={/^-?\d+\.\d+$/.test(cell) ? 'number' : undefined}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    ))}
  </>
)
