// One transaction by itself: split over accounts of any side, set aside, or decide a doubtful one.

import { PartFields } from '../books/part-fields.tsx'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, Field, type FieldErrors, FormId, Hidden, type Option } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { ClosedNote, type DeskRow, LineFacts } from './line-facts.tsx'
import { type PayFields, PayForm } from './pay.tsx'

export interface LineProps {
  row: DeskRow
  /** Of this page and of the desk, with what is chosen there. */
  address: string
  deskAddress: string
  /** The line that a doubtful one may be a later form of. */
  earlier: { says: string; isDelete: boolean; becomes: string } | null
  formId: string
  value: (name: string) => string
  errors: FieldErrors
  partCount: number
  accountOptions: readonly Option[]
  enterprises: readonly Option[]
  /** Other waiting transactions of the payee, as the form names them. */
  alike: readonly string[]
  /** For a deposit that may be pay. */
  pay: PayFields | null
  /** Which of the forms was sent and comes back; `''` for a page that opens. */
  how: string
}

export const LinePage = (props: LineProps) => (
  <>
    <PageTitle purpose="For a bill that was for several things, a transaction that is booked elsewhere, or one you are not sure of.">
      One transaction
    </PageTitle>
    <LineFacts row={props.row} />
    {props.row.closed === '' ? null : (
      <p class="hint">
        <ClosedNote rows={[props.row]} />
      </p>
    )}
    {props.pay?.isFromBroker ? (
      <Caution askWhom="a licensed tax preparer">
        If something was sold for this, what it gained or lost is not in the books by this transaction, nor in
        the worksheet of the year pack: the broker’s form 1099-B has it for Schedule D. Keep that form with
        the pack.
      </Caution>
    ) : null}
    {props.row.doubt === '' && props.pay ? (
      <PayForm
        {...props}
        fields={props.pay}
        amount={props.row.amount}
        sent={props.how === 'pay' ? props.value : null}
      />
    ) : null}
    {props.row.doubt === '' ? <SplitForm {...props} /> : <DoubtForm {...props} />}
    <SetAsideForm {...props} />
    <p>
      <a href={props.deskAddress}>Back to all waiting transactions</a>
    </p>
  </>
)

const DoubtForm = ({ row, earlier, errors, formId, address }: LineProps) => (
  <form method="post" action={address}>
    <ErrorSummary errors={errors} />
    <FormId value={formId} />
    <h2>Is this a new transaction?</h2>
    <p>{row.doubt}</p>
    {earlier ? (
      <p>
        The earlier transaction: <strong>{earlier.says}</strong>. If it is the same transaction:{' '}
        {earlier.becomes}
      </p>
    ) : null}
    <ButtonRow>
      {earlier ? (
        <Button name="how" value="replace">
          {earlier.isDelete ? 'Yes, reverse the earlier one' : 'It is the same: use this one instead'}
        </Button>
      ) : null}
      {earlier?.isDelete ? null : (
        <Button quiet={earlier !== null} name="how" value="genuine">
          Yes, keep it to sort
        </Button>
      )}
    </ButtonRow>
  </form>
)

const SplitForm = (props: LineProps) => (
  <form method="post" action={props.address}>
    {props.how === 'pay' ? null : <ErrorSummary errors={props.errors} />}
    <FormId value={props.formId} />
    <Hidden name="how" value="split" />
    <h2>Split it</h2>
    <PartFields {...props} />
    <SplitMore {...props} />
    <ButtonRow>
      <Button quiet={props.pay?.isLikely ?? false}>Book the parts</Button>
      <Button quiet name="more" value="yes">
        Two more parts
      </Button>
      <LinkButton quiet href={props.deskAddress}>
        Cancel
      </LinkButton>
    </ButtonRow>
  </form>
)

/** For which others the parts hold too. */
const SplitMore = (props: LineProps) => (
  <>
    {props.alike.length > 0 ? (
      <Checkbox
        name="alsoAll"
        label={`The same for the other ${props.alike.length === 1 ? 'one' : props.alike.length} of this payee`}
        value={props.value('alsoAll')}
      />
    ) : null}
    {props.alike.length > 0 ? <Hidden name="alike" value={props.alike.join(' ')} /> : null}
    <Checkbox name="keep" label="Split the next ones of this payee so too" value={props.value('keep')} />
  </>
)

const SetAsideForm = (props: LineProps) => (
  <details>
    <summary>Set it aside</summary>
    <form method="post" action={props.address}>
      <FormId value={props.formId} />
      <Hidden name="how" value="ignore" />
      <p class="hint">
        A skipped transaction is kept but books nothing: for those entered elsewhere under another amount or
        day, and for doubtful ones that the books have already.
      </p>
      <Field name="note" label="Why" value={props.value('note')} error={props.errors.note} maxlength={200} />
      <ButtonRow>
        <Button quiet>Set it aside</Button>
      </ButtonRow>
    </form>
  </details>
)
