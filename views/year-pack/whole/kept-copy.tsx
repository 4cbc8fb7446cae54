// A kept pack as it was: every sheet a table of the texts that were kept, and its digest.
import { PageTitle } from '../../layout.tsx'
import { PrintButton } from '../../parts/button.tsx'
import { frameFor } from '../../parts/table.tsx'
import { type ChangedLine, ChangedLines, NewSheets } from './closed-year.tsx'
import { isNumber, shownValue, unitColumn } from './kept-value.ts'
import { plainAmounts } from './plain-amounts.ts'

interface KeptCopyProps {
  year: number
  copyNo: number
  /** When it was kept, by the computer's own clock. */
  when: string
  digest: string
  note: string
  chainEnd: string
  /** Against the copy before; null of the first. */
  changes: readonly ChangedLine[] | null
  newSheets: readonly string[]
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

export const KeptCopy = ({
  year,
  copyNo,
  when,
  digest,
  note,
  chainEnd,
  changes,
  newSheets,
  shown,
}: KeptCopyProps) => (
  <>
    <p class="no-print">
      <a href={`/year-pack?year=${year}`}>Back to the year pack</a> ·{' '}
      <a href={`/year-pack/kept/${year}/${copyNo}?basis=${shown.basis === 'cash' ? 'accrual' : 'cash'}`}>
        The same on the {shown.basis === 'cash' ? 'accrual-adjusted' : 'cash'} basis
      </a>
    </p>
    <PageTitle purpose={`Kept on ${when}, as the books read then. Nothing here changes.`}>
      Year pack {year}, {copyNo === 1 ? 'as it was closed' : `amended copy ${copyNo}`}
    </PageTitle>
    <PrintButton />
    {note === '' ? null : <p>{note}.</p>}
    <p>
      {shown.basis === 'cash' ? 'Cash basis' : 'Cash basis with accrual adjustments'}, {shown.days}. Digest
      (SHA-256) <code class="digest">{digest}</code>. The chain of changes then ended at{' '}
      <code class="digest">{chainEnd}</code>.
    </p>
    {changes === null ? null : <Changes copyNo={copyNo} lines={changes} />}
    <NewSheets copyNo={copyNo - 1} sheets={newSheets} />
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
      <KeptSheet sheet={sheet} />
    ))}
  </>
)

const Changes = ({ copyNo, lines }: { copyNo: number; lines: readonly ChangedLine[] }) => (
  <>
    <h2>What changed since copy {copyNo - 1}</h2>
    {lines.length === 0 ? (
      <p>No amount and no answer.</p>
    ) : (
      <ChangedLines lines={lines} before={`Copy ${copyNo - 1}`} now={`Copy ${copyNo}`} />
    )}
  </>
)

/** Open from the start: paper and a reader without script have all of it. */
const KeptSheet = ({ sheet }: { sheet: KeptCopyProps['shown']['sheets'][number] }) => (
  <details class="kept-sheet" id={sheet.id} open>
    <summary>
      {sheet.title}
      {sheet.of === '' ? '' : `, ${sheet.of}`}: {plainAmounts(sheet.total) || `${sheet.rows.length} lines`}
    </summary>
    {columnsOf(sheet).map((columns) => (
      <div class="table-frame" {...frameFor(sheet.title)}>
        <table class="pack-table">
          <thead>
            <tr>
              {columns.map((i) => (
                <th scope="col" class={isNumbers(sheet.rows, i) ? 'number' : undefined}>
                  {sheet.header[i]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {sheet.rows.map((row) => (
              <tr>
                {columns.map((i) => (
                  <td class={isNumber(row[i]!) ? 'number' : undefined}>{shownValue(sheet.header, row, i)}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    ))}
  </details>
)

/** As many columns as a sheet of paper holds beside the first. */
const besideFirst = 8

/** Columns with something in them; of a wide table some at a time, each time with the first. */
const columnsOf = ({ header, rows }: KeptCopyProps['shown']['sheets'][number]): number[][] => {
  const filled = header.flatMap((name, i) =>
    name !== unitColumn && rows.some((row) => row[i] !== '') ? [i] : [],
  )
  const [first, ...others] = filled
  if (first === undefined) return []
  const parts = Math.max(1, Math.ceil(others.length / besideFirst))
  const each = Math.ceil(others.length / parts)
  return Array.from({ length: parts }, (_, k) => [first, ...others.slice(k * each, (k + 1) * each)])
}

const isNumbers = (rows: readonly (readonly string[])[], i: number): boolean =>
  rows.some((row) => isNumber(row[i]!)) && rows.every((row) => row[i] === '' || isNumber(row[i]!))
