// All entries of one side, newest first, found by words.
import { dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { Field, Hidden } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'
import type { SideFigures } from './books.tsx'

export interface EntriesFigures {
  side: { id: string; kind: SideKind; name: string }
  text: string
  entries: SideFigures['latest']
}

export const EntriesPage = (props: { figures: EntriesFigures; csv: string; earlier: string | undefined }) => {
  const { figures } = props
  return (
    <>
      <PageTitle purpose="Every entry, newest first. Nothing is ever deleted: what was wrong is taken back by an entry of its own.">
        Entries of <SideWord kind={figures.side.kind}>{figures.side.name}</SideWord>
      </PageTitle>
      <form method="get" action="/books/entries">
        <Hidden name="side" value={figures.side.id} />
        <div class="field-row">
          <Field name="text" type="search" label="Words" hint="Payee or note" value={figures.text} />
          <Button quiet>Find</Button>
        </div>
      </form>
      {figures.entries.length === 0 ? (
        <EmptyState href={`/books/entry?side=${figures.side.id}`} action="Record an entry">
          {figures.text ? 'Nothing matches these words.' : 'Nothing is recorded here yet.'}
        </EmptyState>
      ) : (
        <DataTable
          caption="Entries"
          hideCaption
          stack
          rows={figures.entries}
          csv={props.csv}
          pager={{
            says: figures.entries.length === 1 ? '1 entry' : `${figures.entries.length} entries`,
            earlier: props.earlier,
          }}
          rowClass={(entry) => (entry.isTakenBack ? 'void' : undefined)}
          columns={[
            { title: 'Day', cell: (entry) => <span class="day">{dayName(entry.day)}</span> },
            {
              title: 'What',
              isHeader: true,
              cell: (entry) => <a href={`/books/entries/${entry.no}`}>{entry.says}</a>,
            },
            { title: 'Amount', isNumber: true, cell: (entry) => formatCents(entry.amountCents) },
          ]}
        />
      )}
    </>
  )
}
