// Every crossing, newest first, with both ends.
import { dayName } from '#calendar/day.ts'
import { formatCents } from '#money/format.ts'
import type { CrossingRow } from '#today/crossings/figures.ts'
import { Button } from '../parts/button.tsx'
import { type Option, Select } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable, type PagerProps } from '../parts/table.tsx'

export interface HistoryProps {
  rows: readonly CrossingRow[]
  kind: string
  kinds: readonly Option[]
  pager: PagerProps
  csv: string
}

export const CrossingHistory = ({ rows, kind, kinds, pager, csv }: HistoryProps) => (
  <>
    <form method="get" action="/crossings/history">
      <div class="field-row">
        <Select name="kind" label="Kind" options={kinds} empty="All kinds" value={kind} />
        <Button quiet>Show</Button>
      </div>
    </form>
    <DataTable
      id="history"
      caption="Crossings"
      hideCaption
      stack
      rows={rows}
      csv={csv}
      pager={pager}
      rowClass={(row) => (row.isTakenBack || row.takesBack ? 'void' : undefined)}
      columns={[
        {
          title: 'Day',
          isHeader: true,
          cell: (row) => (
            <a class="day" href={`/crossings/${row.id}`}>
              {dayName(row.day)}
            </a>
          ),
        },
        { title: 'Kind', cell: (row) => (row.takesBack ? `${row.kindName}, reversing` : row.kindName) },
        { title: 'From', cell: (row) => <End {...row.from} /> },
        { title: 'To', cell: (row) => <End {...row.to} /> },
        { title: 'Note', cell: (row) => [row.goodsSay, row.memo].filter(Boolean).join(' · ') },
        { title: 'Amount', isNumber: true, cell: (row) => formatCents(row.amountCents) },
      ]}
    />
  </>
)

const End = (end: CrossingRow['from']) => (
  <span>
    <SideWord kind={end.kind}>{end.name}</SideWord>
    {end.account ? <span class="hint"> {end.account}</span> : null}
  </span>
)
