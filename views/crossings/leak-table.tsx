// House money in the farm month by month, as a table: a year open, the months before it a step away.
import { monthNameShort, monthText } from '#calendar/month.ts'
import type { LeakMonth } from '#ledger/leak.ts'
import { formatCents } from '#money/format.ts'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'

const monthsInTable = 60

/** Months of a year stand open; the others are a step away. */
const monthsOpen = 12

export const LeakTable = ({ months }: { months: readonly LeakMonth[] }) => {
  const rows = months.slice(-monthsInTable).reverse()
  const earlier = rows.slice(monthsOpen)
  const all = months.length > monthsInTable ? ', as far as they are listed; all are in the CSV' : ''
  return (
    <>
      <LeakRows caption="House money in the farm by month" rows={rows.slice(0, monthsOpen)} />
      {earlier.length === 0 ? null : (
        <Fold name={`The months before${all}`} holds={`${earlier.length} months`}>
          <LeakRows caption="House money in the farm by month, earlier" rows={earlier} hideCaption />
        </Fold>
      )}
    </>
  )
}

const LeakRows = (props: { caption: string; rows: readonly LeakMonth[]; hideCaption?: boolean }) => (
  <DataTable
    caption={props.caption}
    hideCaption={props.hideCaption ?? false}
    stack
    rows={props.rows}
    csv="/crossings.csv?table=leak"
    columns={[
      {
        title: 'Month',
        isHeader: true,
        cell: (one) => <span id={`leak-${monthText(one.month)}`}>{monthNameShort(one.month)}</span>,
      },
      { title: 'Contributions', isNumber: true, cell: (one) => formatCents(one.contributionCents) },
      { title: 'Draws', isNumber: true, cell: (one) => formatCents(one.drawCents) },
      { title: 'Reimbursements', isNumber: true, cell: (one) => formatCents(one.reimbursementCents) },
      { title: 'Change', isNumber: true, cell: (one) => formatCents(one.leakCents) },
      { title: 'To date', isNumber: true, cell: (one) => formatCents(one.runningCents) },
    ]}
  />
)
