// One entry as it stands in the books: its lines, what it belongs to, and how to take it back or put it right.
import type { Day } from '#calendar/day.ts'
import { dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId } from '../parts/field.tsx'
import { Notice } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { DataTable } from '../parts/table.tsx'

export interface EntryFigures {
  no: number
  day: Day
  payee: string
  memo: string
  sourceSays: string
  side: { kind: SideKind; name: string }
  lines: readonly {
    accountId: number
    accountName: string
    amountCents: Cents
    memo: string
    enterprise: string | null
  }[]
  /** Entries on other sides that share a crossing with this one. */
  together: readonly { no: number; side: { kind: SideKind; name: string } }[]
  reversedByNo: number | null
  /** The entry posted in its place. */
  standInNo: number | null
  /** The bank's transaction that was skipped with its reversal, as the file has it twice. */
  skippedLine: number | null
  reversesNo: number | null
  correctsNo: number | null
  mayChange: boolean
  /** Money moved for something, which can be chosen anew. */
  canAskFor: boolean
  /** A crossing cannot be corrected in place, only taken back and recorded again. */
  isCrossing: boolean
}

export const EntryPage = (props: { figures: EntryFigures; formId: string; errors: FieldErrors }) => {
  const { figures } = props
  return (
    <>
      <PageTitle purpose={`${dayName(figures.day)}${figures.payee ? ` · ${figures.payee}` : ''}`}>
        Entry {figures.no}, <SideWord kind={figures.side.kind}>{figures.side.name}</SideWord>
      </PageTitle>
      <ErrorSummary errors={props.errors} />
      <Standing figures={figures} formId={props.formId} />
      <DataTable
        caption={figures.memo || 'Lines'}
        rows={figures.lines}
        columns={[
          {
            title: 'Account',
            isHeader: true,
            cell: (line) => <a href={`/books/accounts/${line.accountId}`}>{line.accountName}</a>,
          },
          { title: 'Note', cell: (line) => [line.memo, line.enterprise].filter(Boolean).join(' · ') },
          {
            title: 'Debit',
            isNumber: true,
            cell: (line) => amountIf(line.amountCents > 0, line.amountCents),
          },
          {
            title: 'Credit',
            isNumber: true,
            cell: (line) => amountIf(line.amountCents < 0, line.amountCents),
          },
        ]}
      />
      <p class="hint">{figures.sourceSays}</p>
      <p>
        <a href={`/books/receipts/${figures.no}`}>Receipts kept with this entry</a>
      </p>
      {figures.mayChange ? <ChangeForm figures={figures} formId={props.formId} /> : null}
    </>
  )
}

const Standing = ({ figures, formId }: { figures: EntryFigures; formId: string }) => (
  <>
    {figures.reversedByNo === null ? null : (
      <Notice>
        <p>
          Reversed by <a href={`/books/entries/${figures.reversedByNo}`}>entry {figures.reversedByNo}</a>.
          {figures.standInNo === null ? null : (
            <>
              {' '}
              <a href={`/books/entries/${figures.standInNo}`}>Entry {figures.standInNo}</a> replaces it, with
              its receipts.
            </>
          )}
        </p>
        {figures.skippedLine === null ? null : (
          <form method="post" action={`/books/sorting/set-aside/${figures.skippedLine}`}>
            <p>The file has the same transaction of this day once more, so this one is skipped.</p>
            <FormId value={formId} />
            <Button quiet>It happened twice: let the line wait</Button>
          </form>
        )}
      </Notice>
    )}
    {figures.reversesNo === null ? null : (
      <p>
        Reverses <a href={`/books/entries/${figures.reversesNo}`}>entry {figures.reversesNo}</a>.
      </p>
    )}
    {figures.correctsNo === null ? null : (
      <p>
        Replaces <a href={`/books/entries/${figures.correctsNo}`}>entry {figures.correctsNo}</a>.
      </p>
    )}
    {figures.together.length === 0 ? null : (
      <p>
        Crosses the yard together with{' '}
        {figures.together.map((other, index) => (
          <>
            {index > 0 ? ', ' : ''}
            <a href={`/books/entries/${other.no}`}>entry {other.no}</a> in the books of{' '}
            <SideWord kind={other.side.kind}>{other.side.name}</SideWord>
          </>
        ))}
        .
      </p>
    )}
  </>
)

const ChangeForm = ({ figures, formId }: { figures: EntryFigures; formId: string }) => (
  <form method="post" action={`/books/entries/${figures.no}/void`}>
    <FormId value={formId} />
    <ButtonRow>
      {figures.canAskFor ? (
        <LinkButton href={`/books/entries/${figures.no}/for`}>What was it for?</LinkButton>
      ) : null}
      {figures.isCrossing ? null : (
        <LinkButton quiet={figures.canAskFor} href={`/books/entries/${figures.no}/correct`}>
          Correct it
        </LinkButton>
      )}
      <Button quiet>{figures.isCrossing ? 'Reverse the crossing on both sides' : 'Reverse it'}</Button>
    </ButtonRow>
    <p class="hint">Nothing is deleted: reversing adds an entry with debits and credits swapped.</p>
  </form>
)

const amountIf = (shown: boolean, amount: Cents): string =>
  shown ? formatCents(cents(Math.abs(amount))) : ''
