// What a batch is made of: what was noted about it, and the lines of the books that belong to it, each with a way out.
import { dayName } from '#calendar/day.ts'
import { goodsSays, markSays } from '#farm/notebook/words.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { BatchFigures } from '#today/farm/batch-figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'
import type { BatchFormsProps } from './batch-forms.tsx'

export const BatchNotes = ({ figures, newFormId }: BatchFormsProps) => {
  const noted = notesOf(figures)
  return noted.length > 0 ? (
    <DataTable
      caption="What was noted"
      rows={noted}
      stack
      columns={[
        { title: 'Day', cell: ({ day }) => dayName(day), isHeader: true },
        { title: 'What', cell: ({ says }) => says },
        {
          title: <span class="hidden-text">Remove</span>,
          isControl: true,
          cell: ({ id, kind, says, day }) => (
            <form method="post" action={`/farm/notebook/${kind}/${id}/remove`}>
              <FormId value={newFormId()} />
              <Hidden name="back" value={`/farm/batches/${figures.batch.id}`} />
              <Button quiet small label={`Remove: ${says}, ${dayName(day)}`}>
                Remove
              </Button>
            </form>
          ),
        },
      ]}
    />
  ) : null
}

const notesOf = ({ marks, goods }: BatchFigures) =>
  [
    ...marks.map((one) => ({ id: one.id, day: one.day, kind: 'mark' as const, says: markSays(one) })),
    ...goods.map((one) => ({ id: one.id, day: one.day, kind: 'goods' as const, says: goodsSays(one) })),
  ].sort((a, b) => (a.day < b.day ? 1 : -1))

export const BatchLines = ({ figures: { batch, lines }, newFormId }: BatchFormsProps) =>
  lines.length > 0 ? (
    <DataTable
      caption="Lines of the books"
      rows={lines}
      stack
      csv={`/farm/batches/${batch.id}.csv`}
      columns={[
        { title: 'Day', cell: ({ day }) => dayName(day), isHeader: true },
        {
          title: 'What',
          cell: ({ entryNo, payee, memo, accountName }) => (
            <>
              <a href={`/books/entries/${entryNo}`}>{payee || memo || `Entry ${entryNo}`}</a>, {accountName}
            </>
          ),
        },
        {
          title: 'Amount',
          cell: ({ amountCents }) => formatCents((0 - amountCents) as Cents),
          isNumber: true,
        },
        {
          title: <span class="hidden-text">Untie</span>,
          isControl: true,
          cell: ({ postingId, payee, day }) => (
            <form method="post" action={`/farm/batches/${batch.id}/untie`}>
              <FormId value={newFormId()} />
              <Hidden name="posting" value={String(postingId)} />
              <Button quiet small label={`Untie: ${payee}, ${dayName(day)}`}>
                Untie
              </Button>
            </form>
          ),
        },
      ]}
    />
  ) : null
