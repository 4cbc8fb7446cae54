// The entry form: what happened in plain words, or as debits and credits.
import type { SideKind } from '#ledger/account.ts'
import { ReceiptFields } from '../attachments/receipt-fields.tsx'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  Hidden,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'
import { OverdrawBox } from '../parts/overdraw.tsx'
import { SameEntryBox } from '../parts/same-entry.tsx'
import { SideWord } from '../parts/side.tsx'
import { Lines, type TypedValues } from './lines.tsx'

export interface EntryFormProps {
  side: { id: string; kind: SideKind; name: string }
  /** All sides, to change over to another one. */
  sides: readonly { id: string; kind: SideKind; name: string }[]
  kind: 'out' | 'in' | 'moved' | 'journal'
  typed: TypedValues
  errors: FieldErrors
  lineCount: number
  moneyOptions: readonly Option[]
  reasonOptions: readonly Option[]
  allOptions: readonly Option[]
  enterprises: readonly Option[]
  batches: readonly Option[]
  payees: readonly string[]
  /** Set while an earlier entry is being put right: its number and where the form is sent. */
  correcting?: { no: number }
  balanceSays?: string
}

export const EntryForm = (props: EntryFormProps) => (
  <>
    <PageTitle help="entry" purpose="Record it once; the books stay balanced.">
      {props.correcting ? `Correct entry ${props.correcting.no}` : kindTitles[props.kind]},{' '}
      <SideWord kind={props.side.kind}>{props.side.name}</SideWord>
    </PageTitle>
    {props.correcting ? (
      <p>
        The entry as it was stays in the books with an entry that reverses it; what you save here takes its
        place.
      </p>
    ) : (
      <>
        <SideLinks {...props} />
        <KindLinks {...props} />
      </>
    )}
    <form
      method="post"
      action={props.correcting ? `/books/entries/${props.correcting.no}/correct` : '/books/entry'}
      enctype={props.correcting ? undefined : 'multipart/form-data'}
      data-books-once
    >
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="side" value={props.side.id} />
      <Hidden name="kind" value={props.kind} />
      <Hidden name="rows" value={String(props.lineCount)} />
      <Hidden name="loanShown" value={props.typed.value('loanShown')} />
      <div class="field-row">
        <DayField {...fieldOf(props, 'day')} label="Day" />
        {props.kind === 'moved' ? null : (
          <>
            <Field {...fieldOf(props, 'payee')} label={payeeLabels[props.kind]} list="payees" />
            <datalist id="payees">
              {props.payees.map((payee) => (
                <option value={payee} />
              ))}
            </datalist>
          </>
        )}
      </div>
      <SameEntryBox typed={props.typed} error={props.errors.day} />
      {props.kind === 'moved' ? <MovedFields {...props} /> : <LineFields {...props} />}
      <Field {...fieldOf(props, 'memo')} label="Note on the whole entry" hint="Optional" />
      {props.correcting ? null : <ReceiptFields error={props.errors.receipt} />}
      <ButtonRow>
        <Button>{props.correcting ? 'Save the correction' : 'Record it'}</Button>
        <LinkButton quiet href={props.correcting ? `/books/entries/${props.correcting.no}` : '/books'}>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

const SideLinks = ({ kind, side, sides }: EntryFormProps) => (
  <nav aria-label="Whose books">
    <ul class="pages">
      {sides.map((one) => (
        <li>
          <a
            href={`/books/entry?side=${one.id}&kind=${kind}`}
            aria-current={one.id === side.id ? 'page' : undefined}
          >
            <SideWord kind={one.kind}>{one.name}</SideWord>
          </a>
        </li>
      ))}
    </ul>
  </nav>
)

const KindLinks = ({ kind, side }: EntryFormProps) => (
  <nav aria-label="Kind of entry">
    <ul class="pages">
      {(['out', 'in', 'moved', 'journal'] as const).map((one) => (
        <li>
          <a
            href={`/books/entry?side=${side.id}&kind=${one}`}
            aria-current={one === kind ? 'page' : undefined}
          >
            {kindTitles[one]}
          </a>
        </li>
      ))}
      <li>
        <a href="/books/receipt">Mixed receipt</a>
      </li>
      {side.kind === 'farm' ? (
        <li>
          <a href="/farm/notebook?open=goods#goods">Goods bartered</a>
        </li>
      ) : null}
      {side.kind === 'household' ? null : (
        <li>
          <a href="/year-pack/pay">Pay a worker</a>
        </li>
      )}
    </ul>
  </nav>
)

const LineFields = (props: EntryFormProps) =>
  props.kind === 'journal' ? (
    <>
      <Lines {...props} count={props.lineCount} options={props.allOptions} legend="Lines" isJournal />
      {props.balanceSays ? <p class="hint">{props.balanceSays}</p> : null}
    </>
  ) : (
    <>
      <Select
        {...fieldOf(props, 'moneyAccount')}
        label={props.kind === 'out' ? 'Paid from' : 'Received in'}
        options={props.moneyOptions}
        empty="Choose"
      />
      <Lines
        {...props}
        count={props.lineCount}
        options={props.reasonOptions}
        legend={props.kind === 'out' ? 'What it was for' : 'Where it came from'}
      />
    </>
  )

const MovedFields = ({ typed, errors, allOptions }: EntryFormProps) => (
  <>
    <div class="field-row">
      <Select
        {...fieldOf({ typed, errors }, 'fromAccount')}
        label="From"
        options={allOptions}
        empty="Choose"
      />
      <Select
        {...fieldOf({ typed, errors }, 'toAccount')}
        label="To"
        hint="On the same side. Between sides, record a crossing."
        options={allOptions}
        empty="Choose"
      />
    </div>
    <MoneyField {...fieldOf({ typed, errors }, 'amount')} label="Amount" />
    <OverdrawBox typed={typed} error={errors.amount} />
  </>
)

const kindTitles = {
  out: 'Money out',
  in: 'Money in',
  moved: 'Transfer',
  journal: 'Debits and credits',
} as const

const payeeLabels = { out: 'Paid to', in: 'Received from', journal: 'With whom' } as const
