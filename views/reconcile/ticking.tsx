// One statement being ticked: three figures that must meet, and the lines that may still be on it.
import { dayName } from '#calendar/day.ts'
import { cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { ReconcileFigures, ReconcileLineFigures } from '#today/reconcile/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId, Hidden, neverRestored } from '../parts/field.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState, NoticeSection } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'
import { ChangeStatement } from './change.tsx'
import { Explained } from './explained.tsx'

export interface TickingProps {
  figures: ReconcileFigures
  errors: FieldErrors
  formId: string
  dropFormId: string
  changeFormId: string
  /** What was typed to put the statement right, when that form comes back. */
  changeTyped: { value(name: string): string } | null
  reason: string
}

export const TickingPage = (props: TickingProps) => {
  const { figures, errors } = props
  return (
    <>
      <PageTitle
        purpose={`${figures.changed.length > 0 ? 'Was reconciled with' : figures.state === 'finished' ? 'Reconciled with' : 'Compared with'} the statement of ${dayName(figures.statementDay)}.`}
      >
        {figures.account.name}, <SideWord kind={figures.side.kind}>{figures.side.name}</SideWord>
      </PageTitle>
      <ErrorSummary errors={errors} title="Not finished. Please fix the following" />
      <Meeting figures={figures} />
      {figures.changed.length > 0 ? <Changed figures={figures} /> : null}
      {figures.note ? <p>{figures.note}</p> : null}
      <Apart figures={figures} />
      {figures.state === 'open' ? <TickForm {...props} /> : <Finished {...props} />}
    </>
  )
}

/** What is held against the statement: what was before, what is ticked, and what came since. */
const comesTo = (figures: ReconcileFigures) => cents(figures.statementBalanceCents - figures.differenceCents)

const Meeting = ({ figures }: { figures: ReconcileFigures }) => (
  <Figures>
    <Figure label="Statement says" value={formatCents(figures.statementBalanceCents)} />
    <Figure
      label={figures.changed.length > 0 ? 'Checked, and come since' : 'Before, plus what is checked'}
      value={
        <output id="ticked-sum" data-cents={comesTo(figures)}>
          {formatCents(comesTo(figures))}
        </output>
      }
      note={`${formatCents(figures.previousBalanceCents)} before`}
    />
    <Figure
      id="f-difference"
      label="Left over"
      value={
        <output id="left-over" data-cents={figures.differenceCents}>
          {formatCents(figures.differenceCents)}
        </output>
      }
      note={
        figures.differenceCents === 0 ? (
          'Balanced.'
        ) : figures.state === 'finished' ? (
          'It balanced when it was finished, and no longer does.'
        ) : (
          <>
            Check what the statement shows, or{' '}
            <a href={`/books/entry?account=${figures.account.id}&side=${figures.account.sideId}`}>
              record what is missing
            </a>
            .
          </>
        )
      }
    />
  </Figures>
)

/** Follows the ticks, before they are saved. */
export const Apart = ({ figures }: { figures: ReconcileFigures }) => (
  <div id="apart" aria-live="polite">
    <Explained accountId={figures.account.id} explanations={figures.explanations} />
  </div>
)

const Changed = ({ figures }: { figures: ReconcileFigures }) => (
  <NoticeSection titleId="changed-title">
    <h2 id="changed-title">Changed since it was reconciled</h2>
    <p>
      What was checked and what came since come to {formatCents(comesTo(figures))}, where the statement says{' '}
      {formatCents(figures.statementBalanceCents)}. These came into the books afterwards, dated{' '}
      {dayName(figures.statementDay)} or before, and are on no statement:
    </p>
    <ul>
      {figures.changed.map((line) => (
        <li>
          <a href={`/books/entries/${line.entryNo}`}>
            {dayName(line.day)}, {line.payee || `entry ${line.entryNo}`}, {formatCents(line.amountCents)}
          </a>
          {line.reversesNo === null ? null : (
            <>
              , which reverses <a href={`/books/entries/${line.reversesNo}`}>entry {line.reversesNo}</a>
            </>
          )}
        </li>
      ))}
    </ul>
    <p>
      Correct what is wrong, or open this statement again and check what is on it. What comes on a later
      statement is settled when that one is finished.
    </p>
  </NoticeSection>
)

const TickForm = ({ figures, formId, dropFormId, ...change }: TickingProps) => (
  <>
    <ChangeStatement
      figures={figures}
      formId={change.changeFormId}
      typed={change.changeTyped}
      errors={change.errors}
    />
    <form
      method="post"
      action={`/books/reconcile/${figures.id}/ticks`}
      {...refreshes('apart', { post: `/books/reconcile/${figures.id}/apart` }, 'change delay:300ms')}
      {...neverRestored}
    >
      <FormId value={formId} />
      {figures.lines.map((line) => (
        <Hidden name="shown[]" value={`${line.postingId}.${line.ticked ? 1 : 0}`} />
      ))}
      {figures.lines.length === 0 ? (
        <EmptyState href={`/books/accounts/${figures.account.id}`} action="Open the register">
          No transaction is left to check up to this day. Record what the statement shows.
        </EmptyState>
      ) : (
        <Lines figures={figures} />
      )}
      <ButtonRow>
        <Button name="next" value="stay">
          Save what is checked
        </Button>
        <Button name="next" value="finish" quiet>
          Save and finish
        </Button>
        <LinkButton quiet href={`/books/accounts/${figures.account.id}`}>
          Open the register
        </LinkButton>
      </ButtonRow>
    </form>
    <form method="post" action={`/books/reconcile/${figures.id}/drop`}>
      <FormId value={dropFormId} />
      <Button quiet small>
        Discard this statement
      </Button>
    </form>
  </>
)

const Lines = ({ figures }: { figures: ReconcileFigures }) => (
  <DataTable
    caption="Lines up to the statement’s day"
    rows={figures.lines}
    cards
    csv={`/books/reconcile/${figures.id}.csv`}
    columns={[
      {
        title: 'On the statement',
        onCard: 'start',
        cell: (line) =>
          figures.state === 'open' ? <Tick line={line} /> : <span>{line.ticked ? 'yes' : ''}</span>,
      },
      {
        title: 'Day',
        isHeader: true,
        cell: (line) => <a href={`/books/entries/${line.entryNo}`}>{dayName(line.day)}</a>,
      },
      {
        title: 'With whom',
        onCard: 'line',
        cell: (line) => (
          <>
            {line.payee || line.memo}
            {line.isReversed ? ' (reversed)' : ''}
            {line.reversesNo === null ? '' : ` (reverses entry ${line.reversesNo})`}{' '}
            {line.isExplaining ? <strong>look here</strong> : null}
          </>
        ),
      },
      { title: 'Amount', isNumber: true, onCard: 'end', cell: (line) => formatCents(line.amountCents) },
    ]}
  />
)

const Tick = ({ line }: { line: ReconcileLineFigures }) => (
  <input
    type="checkbox"
    name="ticked[]"
    value={String(line.postingId)}
    checked={line.ticked}
    data-cents={line.amountCents}
    aria-label={`${line.payee || line.memo || 'Entry'}, ${dayName(line.day)}, ${formatCents(line.amountCents)}`}
  />
)

const Finished = ({ figures, formId, errors, reason }: TickingProps) => (
  <>
    <Lines figures={figures} />
    {figures.mayReopen ? (
      <form method="post" action={`/books/reconcile/${figures.id}/reopen`}>
        <FormId value={formId} />
        <Field
          name="reason"
          label="Open it again, because"
          hint="Saved with the change"
          value={reason}
          error={errors.reason}
        />
        <Button quiet>Open it again</Button>
      </form>
    ) : null}
    <ButtonRow>
      <LinkButton quiet href="/books/reconcile">
        All accounts
      </LinkButton>
    </ButtonRow>
  </>
)
