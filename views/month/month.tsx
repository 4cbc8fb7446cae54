// This month: one path, each step with what is left of it, and the form for what one press can do.
import type { Child } from 'hono/jsx'
import { dayName } from '#calendar/day.ts'
import { type Month, monthName, monthText } from '#calendar/month.ts'
import { notesWait } from '#farm/notebook/words.ts'
import { formatCents } from '#money/format.ts'
import type { DeskRow } from '../books-sorting/line-facts.tsx'
import { BankFilesField } from '../books-statements/files-field.tsx'
import { PageTitle } from '../layout.tsx'
import { SinceLastMonth } from '../now/since-last-month.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { FormId, Hidden, neverRestored } from '../parts/field.tsx'
import { DueButtons, DueTogether, dueRemark } from '../parts/occurrence-form.tsx'
import { SideWord } from '../parts/side.tsx'
import { AgainstYear } from './against.tsx'
import { CloseTogether } from './close.tsx'
import type { MonthPageFigures, MonthPageProps } from './figures.ts'
import { ReconcileTogether } from './reconcile.tsx'
import { answerOf, isUntouched, stepsOf, waitingIn } from './steps.ts'

export const MonthPage = (props: MonthPageProps) => {
  const { figures, errors } = props
  const steps = stepsOf(figures)
  const here = steps.find((step) => !step.isDone)?.id
  return (
    <>
      <PageTitle help="month">This month</PageTitle>
      <p class="answer">{answerOf(figures)}</p>
      <OtherMonths figures={figures} />
      <NotesOfFarm count={figures.notes} />
      <ErrorSummary errors={errors} title="Not done. Please fix the following" />
      <div class={figures.against ? 'month-columns' : undefined}>
        <ol class="path">
          {steps.map(({ id, name, isDone, left }) => (
            <li
              class={isDone ? 'is-done' : id === here ? 'is-here' : undefined}
              aria-current={id === here ? 'step' : undefined}
            >
              <section aria-labelledby={`step-${id}`}>
                <h2 id={`step-${id}`}>
                  {name}
                  <span class="hidden-text">{isDone ? ', done' : ''}</span>
                </h2>
                <p class="path-left">{left}</p>
                {bodies[id](props)}
              </section>
            </li>
          ))}
        </ol>
        {figures.against ? (
          <AgainstYear month={figures.month} against={figures.against} waiting={waitingIn(figures)} />
        ) : null}
      </div>
    </>
  )
}

const NotesOfFarm = ({ count }: { count: number }) =>
  count === 0 ? null : (
    <p class="hint">
      <a href="/farm/notebook/table">{notesWait(count)}</a>: goods and cash that are in no books yet.
    </p>
  )

const OtherMonths = ({ figures: { month, openBefore } }: { figures: MonthPageFigures }) => {
  const [first, last] = [openBefore[0], openBefore.at(-1)]
  if (first === undefined || last === undefined) return null
  return (
    <p class="hint">
      {openBefore.length === 1 ? 'Open too: ' : `${openBefore.length} earlier months are open: `}
      <MonthLink month={first} />
      {first === last ? null : (
        <>
          {' '}
          to <MonthLink month={last} />
        </>
      )}
      . Closing {monthName(month)} closes {openBefore.length === 1 ? 'it' : 'them'} too.
    </p>
  )
}

const MonthLink = ({ month }: { month: Month }) => (
  <a href={`/month?month=${monthText(month)}`}>{monthName(month)}</a>
)

const bodies: Record<ReturnType<typeof stepsOf>[number]['id'], (props: MonthPageProps) => Child> = {
  files: ({ figures }) => (
    <form method="post" action="/books/statements/read" enctype="multipart/form-data" class="path-form">
      <BankFilesField />
      <Button quiet={!isUntouched(figures) || figures.transfers.length > 0}>Look at what is new</Button>
      {figures.files.length === 0 ? (
        <p class="hint">
          Without files, <a href="/books/entry">record each entry</a>; the other steps are the same.
        </p>
      ) : null}
    </form>
  ),
  sort: (props) => <Sort {...props} />,
  transfers: (props) => <Transfers {...props} />,
  reconcile: (props) => <ReconcileTogether {...props} />,
  close: (props) => <CloseTogether {...props} />,
  look: ({ review, figures: { month, lastOverMonth } }) =>
    month < lastOverMonth ? (
      <p class="hint">
        It shows for the last month that is over: <MonthLink month={lastOverMonth} />.
      </p>
    ) : (
      <SinceLastMonth figures={review} page={`/month?month=${monthText(month)}`} />
    ),
}

const Sort = ({ figures: { month, sort }, formId, isTicked }: MonthPageProps) => (
  <>
    {sort.sure.length === 0 ? null : (
      <form method="post" action="/month/sort" class="path-form" {...neverRestored}>
        <FormId value={formId} />
        <Hidden name="month" value={monthText(month)} />
        <details>
          <summary>
            {sort.inShown} with a place already
            {sort.inShown === sort.sure.length ? '' : ', both halves of a transfer in one row'}
          </summary>
          <ul class="path-rows">
            {sort.sure.map((row) => (
              <SureRow row={row} isTicked={isTicked} />
            ))}
          </ul>
        </details>
        <Button>
          Book {sort.moreSure > 0 ? 'the first ' : ''}
          {sort.inShown} {sort.inShown === 1 ? 'transaction' : 'transactions'}
        </Button>
        {sort.moreSure > 0 ? <p class="hint">{sort.moreSure} more come after these.</p> : null}
      </form>
    )}
    {sort.left === 0 ? null : (
      <p>
        <a href="/books/sorting">
          Say what {sort.left === 1 ? 'the other one was' : `the other ${sort.left} were`} for
        </a>
        {sort.doubtful > 0 ? `; ${sort.doubtful} may be in the books already` : ''}
      </p>
    )}
  </>
)

const SureRow = ({ row, isTicked }: { row: DeskRow } & Pick<MonthPageProps, 'isTicked'>) => {
  const id = `sure-${row.id}`
  const value = `${row.id}=${row.proposal!.value}`
  const what = row.payee || row.memo || 'No text'
  return (
    <li>
      <span class="choice">
        <input type="checkbox" id={id} name="sure[]" value={value} checked={isTicked('sure[]', value)} />
        <label for={id}>{what}</label>
      </span>
      <span>
        <SideWord kind={row.side.kind}>{row.account}</SideWord>, {dayName(row.day)}
      </span>
      <span>
        {row.proposal!.says}
        <span class="hint"> {row.proposal!.why}</span>
      </span>
      <span class="amount">{formatCents(row.amount)}</span>
    </li>
  )
}

const Transfers = ({ figures: { transfers }, formId }: MonthPageProps) =>
  transfers.length === 0 ? null : (
    <>
      <ul class="due">
        {transfers.map((due) => (
          <li>
            <span>
              {due.name} for {monthName(due.month)}, {formatCents(due.amountCents)}
              {dueRemark(due)}
            </span>
            <DueButtons due={due} formId={formId} back="month" quiet>
              Record it
            </DueButtons>
          </li>
        ))}
      </ul>
      <DueTogether due={transfers} formId={formId} back="month" quiet>
        Record all
      </DueTogether>
    </>
  )
