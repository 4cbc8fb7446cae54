// An account's register: newest first, with the running balance, found by words, days and amounts.
import type { Child } from 'hono/jsx'
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import {
  Checkbox,
  DayField,
  Field,
  type FieldErrors,
  fieldOf,
  Hidden,
  MoneyField,
  neverRestored,
} from '../parts/field.tsx'
import { Figure } from '../parts/figure.tsx'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable, type PagerProps } from '../parts/table.tsx'
import { entryDay } from './entry-day.tsx'
import { TickLine } from './tick-line.tsx'

export interface RegisterRowFigures {
  postingId: number
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
  /** The day the bank's file has it on, where it is another one. */
  bankDay: Day | null
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
  choosing: Choosing
  csv: string
  /** Further doors for this account, such as reconciling it. */
  doors: readonly { href: string; name: string }[]
}

/** Ticking lines to change several entries at once. */
export interface Choosing {
  /** All of the page are ticked. */
  isAll: boolean
  /** The search and the page, to come back to. */
  back: string
  allAddress: string
  noneAddress: string
  /** Takes all that the search finds; left out when nothing is searched for. */
  foundAddress: string | undefined
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
export const RegisterRows = (props: RegisterPageProps) => {
  const { figures, choosing } = props
  return (
    <div id="register">
      {figures.rows.length === 0 ? (
        <EmptyState>
          {figures.isFiltered
            ? 'Nothing matches. Try a wider search.'
            : 'Nothing is recorded here yet. Record an entry, or read in a bank statement.'}
        </EmptyState>
      ) : (
        <form method="get" action={`/books/accounts/${figures.account.id}/change`} {...neverRestored}>
          <Hidden name="back" value={choosing.back} />
          <Rows {...props} />
          <div class="button-row no-print">
            <Button quiet>Change the checked entries</Button>
            <a href={choosing.isAll ? choosing.noneAddress : choosing.allAddress}>
              {choosing.isAll ? 'Uncheck all' : 'Check all on this page'}
            </a>
            {choosing.foundAddress ? (
              <a href={choosing.foundAddress}>Change all that the search finds</a>
            ) : null}
          </div>
        </form>
      )}
    </div>
  )
}

const Rows = ({ figures, pager, csv, choosing }: RegisterPageProps) => (
  <DataTable
    caption="Register"
    rows={figures.rows}
    cards
    csv={csv}
    pager={pager}
    rowClass={(row) => (isTakenBack(row) ? 'void' : undefined)}
    columns={[
      {
        title: 'Check',
        isControl: true,
        onCard: 'start',
        cell: (row) => (isTakenBack(row) ? '' : <TickLine row={row} isTicked={choosing.isAll} />),
      },
      entryDay,
      { title: 'With whom', onCard: 'line', cell: whom },
      { title: 'Other account', cell: otherAccounts },
      { title: 'Amount', isNumber: true, onCard: 'end', cell: (row) => formatCents(row.amountCents) },
      { title: 'Balance', isNumber: true, cell: (row) => formatCents(row.balanceCents) },
      { title: 'Statement', cell: onStatement },
    ]}
  />
)

/** The bank may have a transfer on another day than the account it came from. */
const onStatement = ({ reconciled, bankDay }: RegisterRowFigures): string =>
  [reconciledWords[reconciled], bankDay === null ? '' : `bank: ${dayName(bankDay)}`]
    .filter(Boolean)
    .join(', ')

const isTakenBack = (row: RegisterRowFigures): boolean => row.isReversed || row.reversesNo !== null

const SearchForm = ({ figures, typed, errors }: RegisterPageProps) => (
  <form
    method="get"
    action={`/books/accounts/${figures.account.id}`}
    {...refreshes('register', { get: `/books/accounts/${figures.account.id}` })}
  >
    <div class="field-row">
      <Field name="text" type="search" label="Search" hint="Payee or note" value={typed.value('text')} />
      <DayField {...fieldOf({ typed, errors }, 'from')} label="From" />
      <DayField {...fieldOf({ typed, errors }, 'to')} label="Until" />
      <MoneyField {...fieldOf({ typed, errors }, 'least')} label="At least" />
      <MoneyField {...fieldOf({ typed, errors }, 'most')} label="At most" />
      <Button quiet>Find</Button>
    </div>
    <Checkbox name="living" label="Hide reversed entries" value={typed.value('living')} />
  </form>
)

const whom = (row: RegisterRowFigures): Child => (
  <>
    {row.payee || row.memo}
    {row.payee && row.memo ? <span class="hint"> {row.memo}</span> : null}
    {row.isReversed ? ' (reversed)' : ''}
    {row.reversesNo === null ? '' : ` (reverses entry ${row.reversesNo})`}
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
    {row.isCrossing ? <span class="hint"> crosses the yard</span> : null}
  </>
)

const reconciledWords = { no: '', ticked: 'ticked', finished: 'reconciled' } as const
