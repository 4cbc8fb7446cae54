// Closing months, side by side: a checklist, the lock, and the list of what was closed and why it was opened again.
import { dayName, firstDayOf } from '#calendar/day.ts'
import { type Month, monthName, monthText } from '#calendar/month.ts'
import type { ChecklistItem } from '#ledger/close-checklist.ts'
import { allOf } from '#money/lists.ts'
import type { CloseFigures, SideClosingFigures } from '#today/close/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Field,
  type FieldErrors,
  FormId,
  Hidden,
  MonthField,
  neverRestored,
  Select,
} from '../parts/field.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { SideRoof, SideWord, sideClass } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'
import { OverBegun } from './over-begun.tsx'

export interface ClosePageProps {
  figures: CloseFigures
  errors: FieldErrors
  /** Which side the errors and the typed values belong to. */
  typedSide: string
  typed: { value(name: string): string; values(name: string): readonly string[] }
  formIds: Readonly<Record<string, string>>
}

export const ClosePage = (props: ClosePageProps) => (
  <>
    <PageTitle
      help="close"
      purpose="A closed month stays as it is. Later corrections go in a later month; reopening is logged."
    >
      Close a month
    </PageTitle>
    <ErrorSummary errors={props.errors} title="Not closed. Please fix the following" />
    <p class="answer">{nextToClose(props.figures)}</p>
    <div class="columns">
      {props.figures.sides.map((side, index) => (
        <SideClosing {...props} of={side} at={String(index)} />
      ))}
    </div>
    {props.figures.sides.some((side) => side.closings.length > 0) ? <Trace figures={props.figures} /> : null}
  </>
)

const monthBehind = ({ sides }: Pick<CloseFigures, 'sides'>): number =>
  Math.min(...sides.map(({ month }) => month))

/** Whose button is filled: the first of those that the sentence above names. */
const toCloseFirst = (figures: CloseFigures): SideClosingFigures | undefined =>
  figures.sides.find(({ month }) => month === monthBehind(figures))

/** The month that is furthest behind, and whose it is. */
export function nextToClose({ sides }: Pick<CloseFigures, 'sides'>): string {
  const next = monthBehind({ sides })
  const whose = sides.filter(({ month }) => month === next).map(({ side }) => side.name)
  const of = whose.length < sides.length ? `, of ${allOf(whose)}` : sides.length > 1 ? ', in all books' : ''
  const isOver = sides.every((side) => side.month !== next || !stillRuns(side))
  return isOver
    ? `Next to close is ${monthName(next as Month)}${of}.`
    : `Every month that is over is closed. ${monthName(next as Month)} can be closed from ${dayName(firstDayOf((next + 1) as Month))} on.`
}

const stillRuns = ({ checklist }: Pick<SideClosingFigures, 'checklist'>): boolean =>
  checklist.some(({ id, state }) => id === 'over' && state === 'stops')

/** Each side's fields carry its place in their names, so that labels and errors find their own. */
const SideClosing = (props: ClosePageProps & { of: SideClosingFigures; at: string }) => {
  const { of, at, errors, typedSide, typed } = props
  const own = typedSide === of.side.id ? errors : {}
  return (
    <section class={`side-box ${sideClass(of.side.kind)}`} aria-label={of.side.name}>
      <SideRoof kind={of.side.kind} />
      <h2>{of.side.name}</h2>
      <p>
        {of.closedThrough === null
          ? 'No month is closed yet.'
          : `Closed through ${monthName(of.closedThrough)}.`}
      </p>
      <h3>Before {monthName(of.month)} is closed</h3>
      <Checklist of={of} />
      <form method="post" action="/books/close" {...neverRestored}>
        <FormId value={props.formIds[of.side.id] ?? ''} />
        <Hidden name="side" value={of.side.id} />
        <Hidden name="at" value={at} />
        <MonthField
          name={`month_${at}`}
          label={`Close ${of.side.name} through`}
          value={monthText(of.month)}
          error={own[`month_${at}`]}
        />
        <Field
          name={`note_${at}`}
          label="Note"
          value={typedSide === of.side.id ? typed.value(`note_${at}`) : ''}
          error={own[`note_${at}`]}
        />
        {of.begun.map((account) => (
          <OverBegun
            account={account}
            name={`begun_${at}[]`}
            isTicked={typed.values(`begun_${at}[]`).includes(String(account.id))}
          />
        ))}
        <Button quiet={of !== toCloseFirst(props.figures) || stillRuns(of)}>
          {of.mayClose ? 'Close the month' : 'Check again and close'}
        </Button>
      </form>
      {of.reopenId === null ? null : <OpenAgain {...props} own={own} />}
    </section>
  )
}

const stateWords = { done: 'Done.', look: 'To check:', stops: 'First:' } as const

const doors: Partial<Record<ChecklistItem['id'], { href: string; name: string }>> = {
  lines: { href: '/books/sorting', name: 'Sort transactions' },
  unread: { href: '/books/statements', name: 'Read a statement in' },
  transfers: { href: '/crossings', name: 'Standing transfers' },
  begun: { href: '/books/reconcile', name: 'Finish it' },
  reconciled: { href: '/books/reconcile', name: 'Reconcile' },
  changed: { href: '/books/reconcile', name: 'See what changed' },
  unsorted: { href: '/books', name: 'Books' },
}

const OpenAgain = (props: ClosePageProps & { of: SideClosingFigures; at: string; own: FieldErrors }) => {
  const { of, at, own, typed, typedSide } = props
  const asked = (name: string) => (typedSide === of.side.id ? typed.value(`${name}_${at}`) : '')
  const months = of.reopens.toReversed()
  return (
    <details open={own[`reason_${at}`] !== undefined || own.overClosed !== undefined}>
      <summary>Open {monthName(of.closedThrough!)} again</summary>
      <form method="post" action={`/books/close/${of.reopenId}/reopen`}>
        <FormId value={props.formIds[`${of.side.id}-reopen`] ?? ''} />
        <Hidden name="side" value={of.side.id} />
        <Hidden name="at" value={at} />
        {months.length < 2 ? null : (
          <Select
            name={`from_${at}`}
            label="From which month on"
            hint="They were closed together. Those before it stay closed"
            options={months.map((one) => ({ value: monthText(one), label: monthName(one) }))}
            value={asked('from') || monthText(months[0]!)}
            error={own[`from_${at}`]}
          />
        )}
        <Field
          name={`reason_${at}`}
          label="Because"
          hint="Saved with the closing"
          value={asked('reason')}
          error={own[`reason_${at}`]}
        />
        {typedSide === of.side.id ? <OverClosed typed={typed} errors={own} /> : null}
        <Button quiet>Open it again</Button>
      </form>
    </details>
  )
}

const Trace = ({ figures }: { figures: CloseFigures }) => (
  <DataTable
    caption="What was closed and opened again"
    rows={figures.sides.flatMap((side) => side.closings.map((closing) => ({ ...closing, side: side.side })))}
    stack
    csv="/books/close.csv"
    columns={[
      { title: 'Month', isHeader: true, cell: (row) => monthName(row.month) },
      { title: 'Books', cell: (row) => <SideWord kind={row.side.kind}>{row.side.name}</SideWord> },
      { title: 'Closed', cell: (row) => dayName(row.closedOn) },
      {
        title: 'Note',
        cell: (row) =>
          [row.note, row.openItems > 0 ? `${row.openItems} left open on the checklist` : '']
            .filter(Boolean)
            .join('; '),
      },
      { title: 'Opened again', cell: (row) => (row.reopenedOn === null ? '' : dayName(row.reopenedOn)) },
      { title: 'Because', cell: (row) => row.reopenReason ?? '' },
    ]}
  />
)

const Checklist = ({ of }: { of: SideClosingFigures }) => (
  <ul class="due">
    {of.checklist.map((item) => (
      <li>
        <span>
          <strong>{stateWords[item.state]}</strong> {item.text}
          {doors[item.id] && item.state !== 'done' ? (
            <>
              {' '}
              <a href={doors[item.id]!.href}>{doors[item.id]!.name}</a>
            </>
          ) : null}
        </span>
      </li>
    ))}
  </ul>
)
