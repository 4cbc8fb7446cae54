// Closing a year with its pack, what changed since, and a kept copy as it was.
import { instantName } from '#calendar/day.ts'
import { Button, ButtonRow } from '../../parts/button.tsx'
import { ErrorSummary } from '../../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId, Hidden } from '../../parts/field.tsx'

export interface ClosedYearFigures {
  year: number
  /** What must be done before it can be closed; empty when it can. */
  first: readonly { says: string; href: string }[]
  /** Newest first. */
  copies: readonly { copyNo: number; at: string; digest: string; note: string }[]
  /** Lines that read otherwise than in the newest copy. */
  differences: readonly { basis: string; sheet: string; line: string; before: string; now: string }[]
}

interface ClosedYearProps {
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
        Whatever would change them later asks first, and then keeps an amended copy beside this one.
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
              {copyNo === 1 ? 'As it was closed' : `Amended copy ${copyNo}`}, {instantName(at)}
            </a>
            <span class="pack-note">
              {note === '' ? '' : ` ${note}.`} Digest <code>{digest.slice(0, 16)}</code>
            </span>
          </li>
        ))}
      </ul>
      {differences.length === 0 ? <p>The books say the same today, line by line.</p> : <Amend {...props} />}
    </>
  )
}

const shownAtMost = 30

const Amend = ({ closed: { year, copies, differences }, formId, typed, errors }: ClosedYearProps) => (
  <>
    <p>
      Since copy {copies[0]!.copyNo},{' '}
      {differences.length === 1 ? 'one line reads' : `${differences.length} lines read`} otherwise:
    </p>
    <table class="pack-table">
      <thead>
        <tr>
          <th scope="col">Line</th>
          <th scope="col" class="number">
            Kept
          </th>
          <th scope="col" class="number">
            Now
          </th>
        </tr>
      </thead>
      <tbody>
        {differences.slice(0, shownAtMost).map(({ basis, sheet, line, before, now }) => (
          <tr>
            <th scope="row">
              {line}
              <span class="pack-note">
                {' '}
                {sheet}, {basis} basis
              </span>
            </th>
            <td class="number">{before}</td>
            <td class="number">{now}</td>
          </tr>
        ))}
      </tbody>
    </table>
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
