// The sorting desk: waiting lines with what is proposed for each; ticked ones are booked together, nothing by itself.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, fieldId, Hidden, type Option } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { Doubtful } from './doubtful.tsx'
import { type DeskRow, LineFacts } from './line-facts.tsx'

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
  /** What is ticked and chosen, and what it was when it was proposed. */
  choice: (row: DeskRow) => { take: boolean; to: string }
  was: (row: DeskRow) => string
  /** Choices for lines on other pages, which go along; how many of them are ticked. */
  kept: readonly string[]
  keptToBook: number
  errors: FieldErrors
  pages: { says: string; earlier: number | null; later: number | null }
  /** Keeps the place when the form is sent. */
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
        purpose="Say what each transaction was for. Proposals come from the books, from the other account of a transfer and from your earlier choices; only what you tick is booked."
      >
        Sort transactions
      </PageTitle>
      <ButtonRow>
        <LinkButton quiet href="/books/statements">
          Read in a statement
        </LinkButton>
        <LinkButton quiet href="/books/sorting/rules">
          Sorting rules
        </LinkButton>
        <LinkButton quiet href="/books/sorting/set-aside">
          Skipped transactions
        </LinkButton>
      </ButtonRow>
      <AccountFilter figures={figures} hasForm={figures.rows.length > 0} />
      {figures.rows.length === 0 ? (
        <EmptyState href="/books/statements" action="Read in a statement">
          No transaction is waiting. When you read in the next statement, its new ones come here.
        </EmptyState>
      ) : null}
      {figures.rows.length > 0 ? (
        <form method="post" action={props.address} class="sorting-form" id="desk" data-ticks="">
          <ErrorSummary errors={props.errors} title="Nothing is booked yet. Please look at this again" />
          <FormId value={props.formId} />
          <Hidden name="ticks" value="" />
          {props.kept.map((text) => (
            <Hidden name="keep[]" value={text} />
          ))}
          {doubtful.length > 0 ? <Doubtful rows={doubtful} /> : null}
          {open.length > 0 ? <OpenLines {...props} rows={open} /> : null}
        </form>
      ) : null}
    </>
  )
}

/** Buttons of the desk's form, so that what is chosen goes along; plain links where no line waits. */
const AccountFilter = ({ figures, hasForm }: { figures: DeskFigures; hasForm: boolean }) => {
  if (figures.accounts.length < 2) return null
  const all = { id: null, name: 'All', waiting: null }
  return (
    <nav aria-label="Account">
      <ul class="sorting-accounts">
        {[all, ...figures.accounts].map(({ id, name, waiting }) => {
          const current = figures.account === id ? 'true' : undefined
          const says = waiting === null ? name : `${name} (${waiting})`
          return (
            <li>
              {hasForm ? (
                <button
                  type="submit"
                  class="link-like"
                  form="desk"
                  name="go"
                  value={`account:${id ?? ''}`}
                  aria-current={current}
                >
                  {says}
                </button>
              ) : (
                <a
                  href={id === null ? '/books/sorting' : `/books/sorting?account=${id}`}
                  aria-current={current}
                >
                  {says}
                </a>
              )}
            </li>
          )
        })}
      </ul>
    </nav>
  )
}

const OpenLines = (props: DeskProps & { rows: readonly DeskRow[] }) => (
  <>
    <h2>Waiting transactions</h2>
    <ul class="sorting-lines">
      {props.rows.map((row, index) => (
        <OpenLine {...props} row={row} index={index} />
      ))}
    </ul>
    {props.keptToBook > 0 ? (
      <p>
        {props.keptToBook} {props.keptToBook === 1 ? 'transaction' : 'transactions'} ticked on other pages{' '}
        {props.keptToBook === 1 ? 'is' : 'are'} booked with these.
      </p>
    ) : null}
    <ButtonRow>
      <Button>Book the ticked transactions</Button>
    </ButtonRow>
    <FormPager {...props.pages} />
  </>
)

/** Pages are turned by buttons, so that choices on this one go along. */
const FormPager = ({ says, earlier, later }: DeskProps['pages']) => (
  <div class="pager">
    <span>{says}</span>
    {later === null ? null : (
      <Button quiet small name="go" value={`page:${later}`}>
        Later
      </Button>
    )}
    {earlier === null ? null : (
      <Button quiet small name="go" value={`page:${earlier}`}>
        Earlier
      </Button>
    )}
  </div>
)

const OpenLine = (props: DeskProps & { row: DeskRow; index: number }) => {
  const { row, index } = props
  const at = `lines.${index}`
  const what = row.payee || row.memo || 'this transaction'
  const { take, to: chosen } = props.choice(row)
  const error = props.errors[`${at}.to`]
  return (
    <li class="sorting-line">
      <Hidden name={`${at}.id`} value={String(row.id)} />
      <Hidden name={`${at}.was`} value={props.was(row)} />
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
          <input type="checkbox" id={fieldId(`${at}.take`)} name={`${at}.take`} value="yes" checked={take} />
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
        {row.alike.length > 0 ? <AlikeTick row={row} name={`${at}.alike`} /> : null}
        <button type="submit" class="link-like" name="go" value={`line:${row.id}`}>
          Split or more<span class="hidden-text"> for {what}</span>
        </button>
      </div>
    </li>
  )
}

/** The first line of a payee stands for all of them. */
const AlikeTick = ({ row, name }: { row: DeskRow; name: string }) => (
  <div class="choice">
    <input type="checkbox" id={fieldId(name)} name={name} value={row.alike.join(' ')} />
    <label for={fieldId(name)}>
      and {row.alike.length} more like it<span class="hidden-text">: {row.payee || row.memo}</span>
    </label>
  </div>
)

const GroupedOptions = ({ options, chosen }: { options: readonly Option[]; chosen: string }) => {
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
