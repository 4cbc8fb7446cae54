// A look at a bank file before it is read in: what its columns mean, then which lines are new, seen or doubtful.
import { type Day, dayName } from '#calendar/day.ts'
import { numberShown } from '#ledger/statements/bank-number.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { Checkbox, type FieldErrors, FormId, Hidden, type Option, Select } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { LeftOutList, remarksCounted } from './left-out.tsx'
import { MappingFields, type MappingShown } from './mapping.tsx'

export interface LookLine {
  fileLine: number
  day: Day
  payee: string
  memo: string
  amount: Cents
  verdict: 'new' | 'seen' | 'doubtful' | 'replaces'
  why: string
}

export interface LookFigures {
  fileName: string
  key: string
  /** Accounts in the file; the list of files has each. */
  parts: number
  part: number
  bankAccount: string
  currency: string
  account: { id: number; name: string } | null
  closing: { balance: Cents; asOf: Day } | null
  counts: { new: number; seen: number; doubtful: number; replaces: number } | null
  /** First lines of each kind; the counts are of all. */
  lines: readonly LookLine[]
  remarks: readonly { fileLine: number; message: string; isRead?: true }[]
  /** Why a CSV cannot be read with these columns. */
  broken: string | null
  /** Each needs a yes before the file is read in. */
  questions: readonly { key: string; says: string }[]
}

export interface LookProps {
  figures: LookFigures
  accountOptions: readonly Option[]
  mapping: MappingShown | null
  errors: FieldErrors
  formId: string
  isSure: (key: string) => boolean
  /** Fields that go along with the confirmation. */
  carried: Readonly<Record<string, string>>
}

export const LookPage = (props: LookProps) => (
  <>
    <PageTitle
      help="statementLook"
      purpose="Nothing is stored yet. Check that this is the right account, then read the new transactions in."
    >
      Look at {props.figures.fileName || 'the file'}
    </PageTitle>
    <Look {...props} />
  </>
)

/** The part that changes as columns and account are chosen. */
export const Look = (props: LookProps) => {
  const { figures } = props
  const address = `/books/statements/read/${figures.key}`
  return (
    <div id="look" class="look">
      {props.carried.several ? (
        <p>
          {figures.parts > 1 ? `Account ${figures.part + 1} of ${figures.parts} in this file. ` : ''}
          <a href={`/books/statements/several/${props.carried.several}`}>Back to the list</a>
        </p>
      ) : null}
      <form method="get" action={address} {...refreshes('look', { get: address }, 'change, submit')}>
        <Hidden name="part" value={String(figures.part)} />
        <Hidden name="several" value={props.carried.several ?? ''} />
        <Select
          name="account"
          label="This is the statement of"
          hint={
            figures.bankAccount === ''
              ? undefined
              : `The bank calls the account ${numberShown(figures.bankAccount)}.`
          }
          options={props.accountOptions}
          empty="Choose the account"
          value={figures.account ? String(figures.account.id) : ''}
          error={props.errors.account}
        />
        {props.mapping ? <MappingFields shown={props.mapping} errors={props.errors} /> : null}
        <ButtonRow>
          <Button quiet>Preview again</Button>
        </ButtonRow>
      </form>
      {figures.broken ? (
        <p class="field-error" role="alert">
          {figures.broken}
        </p>
      ) : null}
      {figures.counts && figures.account ? <Confirm {...props} address={address} /> : null}
      {figures.counts && !figures.account ? (
        <p>Choose the account to see which transactions are new.</p>
      ) : null}
      <Lines figures={figures} />
    </div>
  )
}

const Confirm = (props: LookProps & { address: string }) => {
  const { figures, formId, carried, address } = props
  const { counts } = figures
  const adds = (counts?.new ?? 0) + (counts?.doubtful ?? 0) + (counts?.replaces ?? 0)
  return (
    <form method="post" action={address}>
      <FormId value={formId} />
      {Object.entries(carried).map(([name, value]) => (
        <Hidden name={name} value={value} />
      ))}
      <p>
        <strong>
          {counts?.new} new, {counts?.seen} seen before, {counts?.doubtful} doubtful
          {counts?.replaces ? `, ${counts.replaces} in place of earlier ones` : ''}.
        </strong>{' '}
        {figures.closing
          ? `The bank says the balance is ${formatCents(figures.closing.balance)} on ${dayName(figures.closing.asOf)}.`
          : ''}
      </p>
      {adds === 0 ? (
        <EmptyState href="/books/statements" action="Choose another file">
          {(counts?.seen ?? 0) === 0
            ? 'There is nothing to read in: this statement holds no transaction.'
            : `There is nothing to read in: the books of ${figures.account?.name} have every transaction of it already.`}
        </EmptyState>
      ) : (
        <>
          <Questions {...props} />
          <ButtonRow>
            <Button>
              Read in {adds} {adds === 1 ? 'transaction' : 'transactions'}
            </Button>
            <LinkButton quiet href="/books/statements">
              Cancel
            </LinkButton>
          </ButtonRow>
        </>
      )}
    </form>
  )
}

const Questions = ({ figures, errors, isSure }: LookProps) =>
  figures.questions.length === 0 ? null : (
    <fieldset class="group">
      <legend>Before it is read in</legend>
      {figures.questions.map(({ key, says }) => (
        <Checkbox
          name={`sure.${key}`}
          label={<>{says} Read it in all the same</>}
          checked={isSure(key)}
          error={errors[`sure.${key}`]}
        />
      ))}
    </fieldset>
  )

const verdictNames = { new: 'New', seen: 'Seen', doubtful: 'Doubtful', replaces: 'Later form' } as const

const Lines = ({ figures }: { figures: LookFigures }) => (
  <>
    {figures.remarks.length > 0 ? (
      <details>
        <summary>{remarksCounted(figures.remarks)}</summary>
        <LeftOutList remarks={figures.remarks} />
      </details>
    ) : null}
    {figures.lines.length === 0 ? null : (
      <DataTable
        caption={
          figures.account
            ? 'Doubtful transactions first, then new ones, then those seen'
            : 'The first transactions as they are read'
        }
        stack
        rows={figures.lines}
        columns={[
          { title: 'Day', cell: (line) => dayName(line.day) },
          {
            title: 'Payee',
            isHeader: true,
            cell: (line) => (
              <>
                {line.payee || line.memo}
                {line.payee && line.memo ? <span class="hint"> {line.memo}</span> : null}
              </>
            ),
          },
          { title: 'Amount', isNumber: true, cell: (line) => formatCents(line.amount) },
          {
            title: 'State',
            cell: (line) => (
              <>
                {figures.account ? verdictNames[line.verdict] : '–'}
                {line.verdict === 'doubtful' || line.verdict === 'replaces' ? (
                  <span class="hint"> {line.why}</span>
                ) : null}
              </>
            ),
          },
          { title: 'Line', isNumber: true, cell: (line) => line.fileLine },
        ]}
      />
    )}
  </>
)
