// Closing a year with its pack, what changed since, and a kept copy as it was.
import type { TimeName } from '#calendar/instant.ts'
import type { PaidOnce } from '#today/tax/paid-each.ts'
import { Button, ButtonRow } from '../../parts/button.tsx'
import { ErrorSummary } from '../../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId, Hidden } from '../../parts/field.tsx'
import { EachPayment } from '../../tax-paid/each-payment.tsx'

export interface ClosedYearFigures {
  year: number
  /** What must be done before it can be closed; empty when it can. */
  first: readonly { says: string; href: string }[]
  /** Newest first. */
  copies: readonly { copyNo: number; at: string; digest: string; note: string }[]
  /** Lines that read otherwise than in the newest copy. */
  differences: readonly ChangedLine[]
  /** Sheets that the newest copy does not have. */
  newSheets: readonly string[]
  /** Tax of the year paid after the newest copy was kept, and what came back of it. */
  paidSince: readonly PaidOnce[]
  /** Paid before it was kept, and booked after. */
  bookedSince: readonly PaidOnce[]
}

export interface ChangedLine {
  basis: string
  sheet: string
  line: string
  /** As people write it; empty where there is no such line. */
  shownBefore: string
  shownNow: string
}

interface ClosedYearProps {
  timeName: TimeName
  closed: ClosedYearFigures
  formId: string
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const ClosedYear = (props: ClosedYearProps) => (
  <section aria-labelledby="closed-title" id="closed">
    <h2 id="closed-title">
      {props.closed.copies.length === 0 ? `Close ${props.closed.year}` : `${props.closed.year} is closed`}
    </h2>
    <ErrorSummary errors={props.errors} />
    {props.closed.copies.length === 0 ? <ToClose {...props} /> : <Closed {...props} />}
  </section>
)

const ToClose = ({ closed: { year, first }, formId }: ClosedYearProps) =>
  first.length > 0 ? (
    <>
      <p>A closed year keeps its pack as it was printed. Before that:</p>
      <ul class="pack-open">
        {first.map(({ says, href }) => (
          <li>
            <a href={href}>{says}</a>
          </li>
        ))}
      </ul>
    </>
  ) : (
    <form method="post" action={`/year-pack/close?year=${year}`}>
      <p>
        When the papers are handed over, close the year: all sheets are kept as they are now, open points too.
        That copy never changes. A form of plan, settings or year pack that would make them read otherwise
        asks first, and then keeps an amended copy beside it. What is booked does not ask: tax paid before the
        closing and booked after it, or an entry of a month opened again, is listed here line by line, and you
        choose whether to keep an amended copy.
      </p>
      <FormId value={formId} />
      <Hidden name="over" value="0" />
      <ButtonRow>
        <Button quiet>Close {year} and keep its pack</Button>
      </ButtonRow>
    </form>
  )

const Closed = (props: ClosedYearProps) => {
  const { copies, differences, year } = props.closed
  return (
    <>
      <ul class="pack-open">
        {copies.map(({ copyNo, at, digest, note }) => (
          <li>
            <a href={`/year-pack/kept/${year}/${copyNo}`}>
              {copyNo === 1 ? 'As it was closed' : `Amended copy ${copyNo}`}, {props.timeName(at)}
            </a>
            <span class="pack-note">
              {note === '' ? '' : ` ${note}.`} Digest <code>{digest.slice(0, 16)}</code>
            </span>
          </li>
        ))}
      </ul>
      <PaidSince closed={props.closed} />
      <NewSheets copyNo={copies[0]!.copyNo} sheets={props.closed.newSheets} />
      {differences.length === 0 ? <p>The books say the same today, line by line.</p> : <Amend {...props} />}
    </>
  )
}

/** What was paid because of the return that went out: the copy stands as it is. */
const PaidSince = ({ closed: { year, copies, paidSince } }: Pick<ClosedYearProps, 'closed'>) => (
  <EachPayment
    payments={paidSince}
    caption={`Paid since copy ${copies[0]!.copyNo} was kept, for ${year}: the copy stands as it is`}
  />
)

/** No difference: the copy is of fewer sheets. */
export const NewSheets = ({ copyNo, sheets }: { copyNo: number; sheets: readonly string[] }) =>
  sheets.length === 0 ? null : (
    <p>
      {sheets.length === 1 ? 'New sheet' : 'New sheets'} since copy {copyNo} was made: {sheets.join('; ')}.
      The copy stands as it is.
    </p>
  )

/** Each line with what it was and what it is. */
export const ChangedLines = ({
  lines,
  before,
  now,
}: {
  lines: readonly ChangedLine[]
  before: string
  now: string
}) => (
  <table class="pack-table">
    <thead>
      <tr>
        <th scope="col">Line</th>
        <th scope="col" class="number">
          {before}
        </th>
        <th scope="col" class="number">
          {now}
        </th>
      </tr>
    </thead>
    <tbody>
      {lines.map((line) => (
        <tr>
          <th scope="row">
            {line.line}
            <span class="pack-note">
              {' '}
              {line.sheet}, {line.basis} basis
            </span>
          </th>
          <td class="number">{line.shownBefore || 'no such line'}</td>
          <td class="number">{line.shownNow || 'no such line'}</td>
        </tr>
      ))}
    </tbody>
  </table>
)

const shownAtMost = 30

const Amend = ({
  closed: { year, copies, differences, bookedSince },
  formId,
  typed,
  errors,
}: ClosedYearProps) => (
  <>
    <EachPayment
      payments={bookedSince}
      caption={`Paid before copy ${copies[0]!.copyNo} was kept and booked after it, for ${year}: the lines below count it`}
    />
    <p>
      Since copy {copies[0]!.copyNo},{' '}
      {differences.length === 1 ? 'one line reads' : `${differences.length} lines read`} otherwise:
    </p>
    <ChangedLines lines={differences.slice(0, shownAtMost)} before="Kept" now="Now" />
    {differences.length > shownAtMost ? <p>And {differences.length - shownAtMost} more.</p> : null}
    <form method="post" action={`/year-pack/close?year=${year}`} class="no-print">
      <FormId value={formId} />
      <Hidden name="over" value={String(copies[0]!.copyNo)} />
      <Field name="note" label="Why it changed" value={typed.value('note')} error={errors.note} />
      <ButtonRow>
        <Button quiet>Keep an amended copy</Button>
      </ButtonRow>
    </form>
  </>
)
