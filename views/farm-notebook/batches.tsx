// The batches: what each earned an hour, what is left of those under way, and the price at which the rest pays for it.
import { dayName } from '#calendar/day.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { formatCents } from '#money/format.ts'
import type { BatchRow } from '#today/farm/batch-figures.ts'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { breakEvenSays } from './break-even.ts'

export const BatchesPage = ({ rows }: { rows: readonly BatchRow[] }) => {
  const open = rows.filter(({ batch }) => batch.endedDay === null)
  const ended = rows.filter(({ batch }) => batch.endedDay !== null)
  return (
    <>
      <PageTitle
        help="batches"
        purpose="One lot from start to last sale: what it really cost, and what an hour of it brought."
      >
        Batches
      </PageTitle>
      {rows.length === 0 ? (
        <EmptyState href="/farm/batches/new" action="Start a batch">
          A first batch whose every expense is written down shows whether to go on. Tie its costs and sales to
          it when you enter or sort them.
        </EmptyState>
      ) : (
        <p class="no-print">
          <LinkButton href="/farm/batches/new">Start a batch</LinkButton>
        </p>
      )}
      {open.length > 0 ? <UnderWay rows={open} /> : null}
      {ended.length > 0 ? <Ended rows={ended} /> : null}
    </>
  )
}

const UnderWay = ({ rows }: { rows: readonly BatchRow[] }) => (
  <DataTable
    caption="Under way"
    rows={rows}
    stack
    csv="/farm/batches.csv"
    columns={[
      nameColumn,
      { title: 'Left', cell: ({ batch, result }) => `${result.left} of ${batch.size}`, isNumber: true },
      { title: 'Cost so far', cell: ({ result }) => formatCents(result.costsCents), isNumber: true },
      { title: 'Brought in', cell: ({ result }) => broughtIn(result), isNumber: true },
      {
        title: 'Pays for itself at',
        cell: ({ result }) => breakEvenSays(result),
        isNumber: true,
      },
      hourColumn,
    ]}
  />
)

const Ended = ({ rows }: { rows: readonly BatchRow[] }) => (
  <DataTable
    caption="Ended"
    rows={rows}
    stack
    columns={[
      nameColumn,
      { title: 'Lost', cell: ({ batch, result }) => `${result.lost} of ${batch.size}`, isNumber: true },
      {
        title: 'Cost of one',
        cell: ({ result }) => (result.costPerUnitCents === null ? '–' : formatCents(result.costPerUnitCents)),
        isNumber: true,
      },
      {
        title: 'Left after costs',
        cell: ({ result }) => formatCents(result.marginCents),
        isNumber: true,
      },
      { title: 'Hours', cell: ({ result }) => hoursText(result.minutes), isNumber: true },
      hourColumn,
    ]}
  />
)

const nameColumn = {
  title: 'Batch',
  isHeader: true,
  cell: ({ batch, enterprise }: BatchRow) => (
    <>
      <a href={`/farm/batches/${batch.id}`}>{batch.name}</a>
      <br />
      <span class="hint">
        {enterprise}, since {dayName(batch.startedDay)}
      </span>
    </>
  ),
}

const hourColumn = {
  title: 'An hour',
  isNumber: true,
  cell: ({ result }: BatchRow) =>
    result.perHourCents === null
      ? result.minutes === 0
        ? 'no hours'
        : 'after the first sale'
      : formatCents(result.perHourCents),
}

const broughtIn = ({ salesCents, goodsCents }: BatchRow['result']): string =>
  formatCents((salesCents + goodsCents) as typeof salesCents)
