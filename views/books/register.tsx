// An account's register: newest first, with the running balance, found by words, days and amounts.
import type { Child } from 'hono/jsx'
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { DayField, Field, type FieldErrors, MoneyField } from '../parts/field.tsx'
import { Figure } from '../parts/figure.tsx'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable, type PagerProps } from '../parts/table.tsx'

export interface RegisterRowFigures {
  entryNo: number
  day: Day
  payee: string
  memo: string
  others: readonly { accountId: number; name: string }[]
  /** In the sign a person reads for this kind of account. */
  amountCents: Cents
  balanceCents: Cents
  isCrossing: boolean
  isReversed: boolean
  reversesNo: number | null
  reconciled: 'no' | 'ticked' | 'finished'
}

export interface RegisterFigures {
  account: { id: number; number: number; name: string; kindSays: string; isMoney: boolean }
  side: { id: string; kind: SideKind; name: string }
  balanceCents: Cents
  rows: readonly RegisterRowFigures[]
  isFiltered: boolean
}

export interface RegisterPageProps {
  figures: RegisterFigures
  typed: { value(name: string): string }
  errors: FieldErrors
  pager: PagerProps
  csv: string
  /** Further doors for this account, such as reconciling it. */
  doors: readonly { href: string; name: string }[]
}

export const RegisterPage = (props: RegisterPageProps) => {
  const { account, side, balanceCents } = props.figures
  return (
    <>
      <PageTitle purpose={`${account.kindSays} in the books of ${side.name}.`}>
        {account.name}, <SideWord kind={side.kind}>{side.name}</SideWord>
      </PageTitle>
      <Figure label="Balance" value={formatCents(balanceCents)} />
      <ButtonRow>
        {account.isMoney ? (
          <>
            <LinkButton href={`/books/entry?side=${side.id}&kind=out&account=${account.id}`}>
              Money out
            </LinkButton>
            <LinkButton quiet href={`/books/entry?side=${side.id}&kind=in&account=${account.id}`}>
              Money in
            </LinkButton>
          </>
        ) : null}
        {props.doors.map((door) => (
          <LinkButton quiet href={door.href}>
            {door.name}
          </LinkButton>
        ))}
      </ButtonRow>
      <SearchForm {...props} />
      <RegisterRows {...props} />
    </>
  )
}

/** The part that a search replaces. */
export const RegisterRows = ({ figures, pager, csv }: RegisterPageProps) =>
  figures.rows.length === 0 ? (
    <div id="register">
      <EmptyState>
        {figures.isFiltered
          ? 'Nothing matches. Take something out of the search.'
          : 'Nothing is posted here yet. Record an entry, or read in a bank statement.'}
      </EmptyState>
    </div>
  ) : (
    <DataTable
      id="register"
      caption="Register"
      rows={figures.rows}
      stack
      csv={csv}
      pager={pager}
      rowClass={(row) => (row.isReversed || row.reversesNo !== null ? 'void' : undefined)}
      columns={[
        {
          title: 'Day',
          isHeader: true,
          cell: (row) => (
            <a class="day" href={`/books/entries/${row.entryNo}`}>
              {dayName(row.day)}
            </a>
          ),
        },
        { title: 'With whom', cell: whom },
        { title: 'Other account', cell: otherAccounts },
        { title: 'Amount', isNumber: true, cell: (row) => formatCents(row.amountCents) },
        { title: 'Balance', isNumber: true, cell: (row) => formatCents(row.balanceCents) },
        { title: 'Statement', cell: (row) => reconciledWords[row.reconciled] },
      ]}
    />
  )

const SearchForm = ({ figures, typed, errors }: RegisterPageProps) => (
  <form
    method="get"
    action={`/books/accounts/${figures.account.id}`}
    {...refreshes('register', { get: `/books/accounts/${figures.account.id}` })}
  >
    <div class="field-row">
      <Field name="text" type="search" label="Words" hint="Payee or note" value={typed.value('text')} />
      <DayField name="from" label="From" value={typed.value('from')} error={errors.from} />
      <DayField name="to" label="Until" value={typed.value('to')} error={errors.to} />
      <MoneyField name="least" label="At least" value={typed.value('least')} error={errors.least} />
      <MoneyField name="most" label="At most" value={typed.value('most')} error={errors.most} />
      <Button quiet>Find</Button>
    </div>
  </form>
)

const whom = (row: RegisterRowFigures): Child => (
  <>
    {row.payee || row.memo}
    {row.payee && row.memo ? <span class="hint"> {row.memo}</span> : null}
    {row.isReversed ? ' (taken back)' : ''}
    {row.reversesNo === null ? '' : ` (takes back entry ${row.reversesNo})`}
  </>
)

const otherAccounts = (row: RegisterRowFigures): Child => (
  <>
    {row.others.slice(0, 2).map((other, index) => (
      <>
        {index > 0 ? ', ' : ''}
        <a href={`/books/accounts/${other.accountId}`}>{other.name}</a>
      </>
    ))}
    {row.others.length > 2 ? ` and ${row.others.length - 2} more` : ''}
    {row.isCrossing ? <span class="hint"> crosses the line</span> : null}
  </>
)

const reconciledWords = { no: '', ticked: 'ticked', finished: 'reconciled' } as const
