// Entries of one side or of all, newest first, with the search that finds them.
import { dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { formatCents } from '#money/format.ts'
import type { DeskRow } from '../books-sorting/line-facts.tsx'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  DayField,
  Field,
  type FieldErrors,
  fieldOf,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { type Column, DataTable } from '../parts/table.tsx'
import type { SideFigures } from './books.tsx'

interface NamedSide {
  id: string
  kind: SideKind
  name: string
}

type EntryRow = SideFigures['latest'][number] & {
  side: NamedSide
  memo: string
  accounts: readonly { id: number; name: string }[]
  receipts: number
}

export interface EntriesFigures {
  /** Null when all books are searched. */
  side: NamedSide | null
  isFiltered: boolean
  entries: readonly EntryRow[]
  /** What waits to be sorted and is like what is looked for. */
  waiting: readonly DeskRow[]
}

export interface EntriesProps {
  figures: EntriesFigures
  typed: { value(name: string): string }
  errors: FieldErrors
  sides: readonly Option[]
  accounts: readonly Option[]
  csv: string
  earlier: string | undefined
}

export const EntriesPage = (props: EntriesProps) => {
  const { figures } = props
  const { side } = figures
  return (
    <>
      <PageTitle purpose="Every entry, newest first. Nothing is ever deleted: what was wrong is reversed by an entry of its own.">
        {side ? (
          <>
            Entries of <SideWord kind={side.kind}>{side.name}</SideWord>
          </>
        ) : (
          'Search all books'
        )}
      </PageTitle>
      <ErrorSummary errors={props.errors} />
      <SearchForm {...props} />
      <Waiting rows={figures.waiting} />
      {figures.entries.length === 0 ? (
        <EmptyState href={side ? `/books/entry?side=${side.id}` : '/books/entry'} action="Record an entry">
          {figures.isFiltered
            ? `${figures.waiting.length > 0 ? 'No entry' : 'Nothing'} matches. Try a wider search.`
            : 'Nothing is recorded here yet.'}
        </EmptyState>
      ) : (
        <DataTable
          caption="Entries"
          hideCaption
          cards
          rows={figures.entries}
          csv={props.csv}
          pager={{
            says: figures.entries.length === 1 ? '1 entry' : `${figures.entries.length} entries`,
            earlier: props.earlier,
          }}
          rowClass={(entry) => (entry.isTakenBack ? 'void' : undefined)}
          columns={columnsOf(side === null)}
        />
      )}
    </>
  )
}

const mostWaiting = 20

/** In no entry yet: each leads to where it is said what it was for. */
const Waiting = ({ rows }: { rows: readonly DeskRow[] }) =>
  rows.length === 0 ? null : (
    <>
      <DataTable
        caption={
          rows.length === 1
            ? '1 transaction waits to be sorted'
            : `${rows.length} transactions not yet sorted`
        }
        cards
        rows={rows.slice(0, mostWaiting)}
        columns={[
          { title: 'Day', cell: (row) => <span class="day">{dayName(row.day)}</span> },
          {
            title: 'What',
            isHeader: true,
            cell: (row) => (
              <>
                <a href={`/books/sorting/lines/${row.id}`}>{row.payee || row.memo || 'No text'}</a>
                {row.payee && row.memo ? <span class="hint"> {row.memo}</span> : null}
                {row.doubt === '' ? '' : ' (doubtful)'}
              </>
            ),
          },
          { title: 'Account', cell: (row) => <SideWord kind={row.side.kind}>{row.account}</SideWord> },
          { title: 'Amount', isNumber: true, onCard: 'end', cell: (row) => formatCents(row.amount) },
        ]}
      />
      {rows.length > mostWaiting ? (
        <p>
          and {rows.length - mostWaiting} more under <a href="/books/sorting">Sort transactions</a>
        </p>
      ) : null}
    </>
  )

const SearchForm = ({ typed, errors, sides, accounts }: EntriesProps) => (
  <form method="get" action="/books/entries">
    <div class="field-row">
      <Field name="text" type="search" label="Search" hint="Payee or note" value={typed.value('text')} />
      <Field name="payee" type="search" label="Payee" value={typed.value('payee')} />
      <Select
        name="account"
        label="Account"
        options={accounts}
        empty="Any account"
        value={typed.value('account')}
      />
      <Select name="side" label="Books" options={sides} empty="All books" value={typed.value('side')} />
    </div>
    <div class="field-row">
      <MoneyField {...fieldOf({ typed, errors }, 'least')} label="At least" />
      <MoneyField {...fieldOf({ typed, errors }, 'most')} label="At most" />
      <DayField {...fieldOf({ typed, errors }, 'from')} label="From" />
      <DayField {...fieldOf({ typed, errors }, 'to')} label="Until" />
      <Button quiet>Find</Button>
    </div>
    <Checkbox name="living" label="Hide reversed entries" value={typed.value('living')} />
    <Checkbox name="receipt" label="Only with a receipt" value={typed.value('receipt')} />
  </form>
)

const columnsOf = (isOverAll: boolean): Column<EntryRow>[] => [
  { title: 'Day', cell: (entry) => <span class="day">{dayName(entry.day)}</span> },
  {
    title: 'What',
    isHeader: true,
    cell: (entry) => (
      <>
        <a href={`/books/entries/${entry.no}`}>{entry.says}</a>
        {entry.memo ? <span class="hint"> {entry.memo}</span> : null}
        {entry.isTakenBack ? ' (reversed)' : ''}
      </>
    ),
  },
  ...(isOverAll
    ? [
        {
          title: 'Books',
          cell: (entry: EntryRow) => <SideWord kind={entry.side.kind}>{entry.side.name}</SideWord>,
        },
      ]
    : []),
  { title: 'Accounts', cell: (entry) => <AccountsOf entry={entry} /> },
  {
    title: 'Receipts',
    cell: (entry) =>
      entry.receipts === 0 ? (
        ''
      ) : (
        <a href={`/books/receipts/${entry.no}`}>
          {entry.receipts === 1 ? '1 receipt' : `${entry.receipts} receipts`}
          <span class="hidden-text"> of {entry.says}</span>
        </a>
      ),
  },
  { title: 'Amount', isNumber: true, onCard: 'end', cell: (entry) => formatCents(entry.amountCents) },
]

const mostNamed = 3

const AccountsOf = ({ entry: { accounts } }: { entry: EntryRow }) => (
  <>
    {accounts.slice(0, mostNamed).map(({ id, name }, index) => (
      <>
        {index > 0 ? ', ' : ''}
        <a href={`/books/accounts/${id}`}>{name}</a>
      </>
    ))}
    {accounts.length > mostNamed ? ` and ${accounts.length - mostNamed} more` : ''}
  </>
)
