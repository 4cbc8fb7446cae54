// Bank and card accounts with the statement each was last held against, and the form that starts the next one.
import { dayName } from '#calendar/day.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import type { ReconcileListFigures } from '#today/reconcile/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'

export interface ReconcileListProps {
  figures: ReconcileListFigures
  typed: { value(name: string): string }
  errors: FieldErrors
  options: readonly Option[]
}

export const ReconcileList = (props: ReconcileListProps) => (
  <>
    <PageTitle
      help="reconcile"
      purpose="Compare an account with the bank statement until the difference is zero."
    >
      Reconcile
    </PageTitle>
    <ErrorSummary errors={props.errors} />
    {props.figures.accounts.length === 0 ? (
      <EmptyState href="/start" action="Set up the books">
        There is no bank or card account yet.
      </EmptyState>
    ) : (
      <>
        <p class="answer">{answerOf(props.figures)}</p>
        <Accounts {...props} />
        <StartForm {...props} />
      </>
    )}
  </>
)

/** What is next: a statement under way, one that no longer meets the books, balances of files, then what was never held against any. */
export function answerOf({ accounts }: ReconcileListFigures): string {
  const named = (of: typeof accounts) => allOf(of.map(({ name }) => name))
  const changed = accounts.filter((one) => one.changed)
  const open = accounts.filter((one) => one.openId)
  const waiting = accounts.filter((one) => one.fileSays)
  const never = accounts.filter((one) => one.reconciledThrough === null)
  if (changed.length > 0) return `The books no longer meet the statement of ${named(changed)}.`
  if (open.length > 0) return `The statement of ${named(open)} is under way.`
  if (waiting.length > 0)
    return `${named(waiting)} can be reconciled next, by ${waiting.length === 1 ? 'the balance of its file' : 'the balances of their files'}.`
  if (never.length > 0)
    return `${named(never)} ${never.length === 1 ? 'has' : 'have'} not been reconciled yet.`
  return 'The books meet the last statement of every account.'
}

const Accounts = ({ figures }: ReconcileListProps) => (
  <DataTable
    caption="Accounts and their last statement"
    rows={figures.accounts}
    stack
    csv="/books/reconcile.csv"
    columns={[
      {
        title: 'Account',
        isHeader: true,
        cell: (account) => <a href={`/books/accounts/${account.id}`}>{account.name}</a>,
      },
      {
        title: 'Books',
        cell: (account) => <SideWord kind={account.side.kind}>{account.side.name}</SideWord>,
      },
      { title: 'Balance', isNumber: true, cell: (account) => formatCents(account.balanceCents) },
      {
        title: 'Reconciled through',
        cell: (account) =>
          account.reconciledThrough === null ? (
            'not yet'
          ) : account.changed ? (
            <a href={`/books/reconcile/${account.changed.id}`}>
              No longer: changed since {dayName(account.reconciledThrough)} was reconciled, the books have{' '}
              {formatCents(cents(Math.abs(account.changed.cents)))}{' '}
              {account.changed.cents > 0 ? 'more' : 'less'}
            </a>
          ) : (
            dayName(account.reconciledThrough)
          ),
      },
      {
        title: 'Next',
        cell: (account) =>
          account.openId ? (
            <a href={`/books/reconcile/${account.openId}`}>Go on with {account.name}</a>
          ) : account.fileSays ? (
            <a href={`/books/reconcile?account=${account.id}#start-title`}>
              The file says {formatCents(account.fileSays.balanceCents)} on {dayName(account.fileSays.day)}
              <span class="hidden-text">: start with {account.name}</span>
            </a>
          ) : (
            ''
          ),
      },
    ]}
  />
)

const StartForm = ({ typed, errors, options }: ReconcileListProps) => (
  <section aria-labelledby="start-title">
    <h2 id="start-title">Start with a statement</h2>
    <form method="post" action="/books/reconcile">
      <FormId value={typed.value('formId')} />
      <Select
        {...fieldOf({ typed, errors }, 'account')}
        label="Account"
        options={options}
        empty="Choose an account"
      />
      <DayField {...fieldOf({ typed, errors }, 'statementDay')} label="Last day on the statement" />
      <MoneyField
        {...fieldOf({ typed, errors }, 'balance')}
        label="Balance on that day"
        hint="As the statement prints it. On a card, what is owed; put a minus before it when the bank owes you"
      />
      <Field
        {...fieldOf({ typed, errors }, 'note')}
        label="Note"
        hint="For example, where the paper statement is"
      />
      <Button>Start reconciling</Button>
    </form>
  </section>
)
