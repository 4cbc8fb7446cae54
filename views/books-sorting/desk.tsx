// The sorting desk: waiting lines with what is proposed for each; ticked ones are booked together, nothing by itself.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, fieldId, Hidden, type Option } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { Pager, type PagerProps } from '../parts/table.tsx'

export interface DeskRow {
  id: number
  accountId: number
  account: string
  side: { name: string; kind: SideKind }
  day: Day
  amount: Cents
  payee: string
  memo: string
  checkNumber: string
  /** Why it is doubtful; `''` for the others. */
  doubt: string
  proposal: { value: string; says: string; why: string; isSure: boolean } | null
}

export interface DeskFigures {
  waiting: number
  doubtful: number
  accounts: readonly { id: number; name: string; waiting: number }[]
  account: number | null
  rows: readonly DeskRow[]
}

export interface DeskProps {
  figures: DeskFigures
  formId: string
  optionsFor: (row: DeskRow) => readonly Option[]
  /** What was ticked and chosen, when the form comes back. */
  ticked: (index: number, row: DeskRow) => boolean
  chosen: (index: number, row: DeskRow) => string
  errors: FieldErrors
  pager: PagerProps
  /** Keeps the filter when the form is sent. */
  address: string
}

export const DeskPage = (props: DeskProps) => {
  const { figures } = props
  const doubtful = figures.rows.filter((row) => row.doubt !== '')
  const open = figures.rows.filter((row) => row.doubt === '')
  return (
    <>
      <PageTitle
        help="sorting"
        purpose="Say what each line of a statement was for. Proposals come from the books, from the other account of a transfer and from your earlier choices; only what you tick is booked."
      >
        Sort statement lines
      </PageTitle>
      <ButtonRow>
        <LinkButton quiet href="/books/statements">
          Read in a statement
        </LinkButton>
        <LinkButton quiet href="/books/sorting/rules">
          Sorting rules
        </LinkButton>
        <LinkButton quiet href="/books/sorting/set-aside">
          Lines set aside
        </LinkButton>
      </ButtonRow>
      <AccountFilter figures={figures} />
      {figures.rows.length === 0 ? (
        <EmptyState href="/books/statements" action="Read in a statement">
          No line is waiting. When you read in the next statement, its new lines come here.
        </EmptyState>
      ) : null}
      {doubtful.length > 0 ? <Doubtful rows={doubtful} /> : null}
      {open.length > 0 ? <OpenLines {...props} rows={open} /> : null}
    </>
  )
}

const AccountFilter = ({ figures }: { figures: DeskFigures }) =>
  figures.accounts.length < 2 ? null : (
    <nav aria-label="Account">
      <ul class="sorting-accounts">
        <li>
          <a href="/books/sorting" aria-current={figures.account === null ? 'true' : undefined}>
            All
          </a>
        </li>
        {figures.accounts.map((account) => (
          <li>
            <a
              href={`/books/sorting?account=${account.id}`}
              aria-current={figures.account === account.id ? 'true' : undefined}
            >
              {account.name} ({account.waiting})
            </a>
          </li>
        ))}
      </ul>
    </nav>
  )

const Doubtful = ({ rows }: { rows: readonly DeskRow[] }) => (
  <section aria-labelledby="doubtful-title">
    <h2 id="doubtful-title">Doubtful lines</h2>
    <p>These may be movements that the books have already. They are not in the books until you say so.</p>
    <ul class="sorting-lines">
      {rows.map((row) => (
        <li class="sorting-line">
          <LineFacts row={row} />
          <p class="hint">{row.doubt}</p>
          <p>
            <a href={`/books/sorting/lines/${row.id}`}>
              Decide<span class="hidden-text"> on {row.payee || row.memo}</span>
            </a>
          </p>
        </li>
      ))}
    </ul>
  </section>
)

const OpenLines = (props: DeskProps & { rows: readonly DeskRow[] }) => (
  <form method="post" action={props.address} class="sorting-form">
    <ErrorSummary errors={props.errors} title="Nothing is booked yet. Please look at this again" />
    <FormId value={props.formId} />
    <h2>Waiting lines</h2>
    <ul class="sorting-lines">
      {props.rows.map((row, index) => (
        <OpenLine {...props} row={row} index={index} />
      ))}
    </ul>
    <Pager {...props.pager} />
    <ButtonRow>
      <Button>Book the ticked lines</Button>
    </ButtonRow>
  </form>
)

const OpenLine = (props: DeskProps & { row: DeskRow; index: number }) => {
  const { row, index } = props
  const at = `lines.${index}`
  const what = row.payee || row.memo || 'this line'
  const chosen = props.chosen(index, row)
  const error = props.errors[`${at}.to`]
  return (
    <li class="sorting-line">
      <Hidden name={`${at}.id`} value={String(row.id)} />
      <LineFacts row={row} />
      {row.proposal ? <p class="hint">{row.proposal.why}</p> : null}
      {error ? (
        <p class="field-error" id={`${fieldId(`${at}.to`)}-error`}>
          <span class="hidden-text">Error: </span>
          {error}
        </p>
      ) : null}
      <div class="sorting-choice">
        <div class="choice">
          <input
            type="checkbox"
            id={fieldId(`${at}.take`)}
            name={`${at}.take`}
            value="yes"
            checked={props.ticked(index, row)}
          />
          <label for={fieldId(`${at}.take`)}>
            Book<span class="hidden-text"> {what}</span>
          </label>
        </div>
        <label class="hidden-text" for={fieldId(`${at}.to`)}>
          Where {what} goes
        </label>
        <select
          id={fieldId(`${at}.to`)}
          name={`${at}.to`}
          {...(error ? { 'aria-invalid': 'true', 'aria-describedby': `${fieldId(`${at}.to`)}-error` } : {})}
        >
          <option value="">Choose what it was for</option>
          {row.proposal && !props.optionsFor(row).some((option) => option.value === row.proposal?.value) ? (
            <option value={row.proposal.value} selected={chosen === row.proposal.value}>
              {row.proposal.says}
            </option>
          ) : null}
          <GroupedOptions options={props.optionsFor(row)} chosen={chosen} />
        </select>
        <a href={`/books/sorting/lines/${row.id}`}>
          Split or more<span class="hidden-text"> for {what}</span>
        </a>
      </div>
    </li>
  )
}

export const GroupedOptions = ({ options, chosen }: { options: readonly Option[]; chosen: string }) => {
  const groups = [...new Set(options.map((option) => option.group ?? ''))]
  return (
    <>
      {groups.map((group) => (
        <optgroup label={group}>
          {options
            .filter((option) => (option.group ?? '') === group)
            .map((option) => (
              <option value={option.value} selected={option.value === chosen}>
                {option.label}
              </option>
            ))}
        </optgroup>
      ))}
    </>
  )
}

export const LineFacts = ({ row }: { row: DeskRow }) => (
  <p class="sorting-facts">
    <span class="sorting-day">{dayName(row.day)}</span>
    <span class="sorting-payee">
      <strong>{row.payee || row.memo || 'No text'}</strong>
      {row.payee && row.memo ? <span class="hint"> {row.memo}</span> : null}
      {row.checkNumber ? <span class="hint"> check {row.checkNumber}</span> : null}
    </span>
    <span class="sorting-account">
      <SideWord kind={row.side.kind}>{row.account}</SideWord>
    </span>
    <span class="amount">
      <span class="hidden-text">{row.amount < 0 ? 'Out: ' : 'In: '}</span>
      {formatCents(row.amount)}
    </span>
  </p>
)
