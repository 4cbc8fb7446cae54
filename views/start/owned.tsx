// The step for loans and for what is owned besides money: all of it can be left for later, and says what stays unknown until then.
import { holdingKindNames, holdingKinds } from '#ledger/reports/stock-inventory.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import {
  Checkbox,
  DayField,
  Field,
  fieldOf,
  Hidden,
  MoneyField,
  type Option,
  Select,
} from '../parts/field.tsx'
import { LoanTermFields } from '../parts/loan-terms.tsx'
import { StepForm, type StepProps } from './frame.tsx'

export interface OwedLoan {
  accountId: number
  name: string
  side: string
  owedCents: Cents
}

interface OwnedStepProps extends StepProps {
  loans: readonly OwedLoan[]
  /** Those whose own page asks whether living costs hold their payments already. */
  elsewhere: readonly OwedLoan[]
  /** What the books hold already. */
  held: readonly { name: string; side: string; cents: Cents }[]
  accounts: readonly Option[]
  rows: number
}

export const OwnedStep = (props: OwnedStepProps) => (
  <StepForm
    at={2}
    purpose="What the loans cost, and what you own besides money, so that debts are shown with what they paid for. All of it can wait."
    action="/start/owned"
    {...props}
  >
    {props.loans.map((loan, index) => (
      <LoanFields {...props} loan={loan} index={index} />
    ))}
    {props.elsewhere.map((loan) => (
      <p>
        {loan.name}, {loan.side}: {formatCents(loan.owedCents)} owed.{' '}
        <a href={`/books/accounts/${loan.accountId}/loan`}>Say its rate and payment</a>; there it is asked
        whether living costs hold them already.
      </p>
    ))}
    {props.held.length > 0 ? <Held held={props.held} /> : null}
    {Array.from({ length: props.rows }, (_, index) => (
      <ThingFields {...props} index={index} />
    ))}
    <p class="hint">
      Left empty: loan payments are in no cost of the plan and are not split into interest and principal, and
      the balance sheet shows debts without what they paid for. Now keeps asking.
    </p>
    <ButtonRow>
      <Button>Next: this year so far</Button>
      <Button quiet name="more" value="yes">
        More rows
      </Button>
      <LinkButton quiet href="/start/year">
        Leave it for later
      </LinkButton>
      <LinkButton quiet href="/start/accounts">
        Back
      </LinkButton>
    </ButtonRow>
  </StepForm>
)

const LoanFields = ({ typed, errors, loan, index }: StepProps & { loan: OwedLoan; index: number }) => {
  const field = (name: string) => fieldOf({ typed, errors }, `loans.${index}.${name}`)
  return (
    <fieldset class="group">
      <legend>
        {loan.name}, {loan.side}: {formatCents(loan.owedCents)} owed
      </legend>
      <Hidden name={`loans.${index}.account`} value={String(loan.accountId)} />
      <div class="field-row">
        <LoanTermFields field={field} />
        <Checkbox
          name={`loans.${index}.realEstate`}
          label="Secured by land, buildings or the home"
          checked={typed.value(`loans.${index}.realEstate`) === 'yes'}
        />
      </div>
    </fieldset>
  )
}

const Held = ({ held }: { held: OwnedStepProps['held'] }) => (
  <>
    <h2>In the books already</h2>
    <ul>
      {held.map((one) => (
        <li>
          {one.name}, {one.side}: {formatCents(one.cents)}
        </li>
      ))}
    </ul>
  </>
)

const ThingFields = (props: OwnedStepProps & { index: number }) => {
  const { typed, errors, index } = props
  const field = (name: string) => fieldOf({ typed, errors }, `things.${index}.${name}`)
  return (
    <fieldset class="group">
      <legend>{index === 0 ? 'Something you own: land, a tractor, a home' : 'Something else'}</legend>
      <div class="field-row">
        <Field {...field('name')} label="What it is" />
        <Select {...field('account')} label="Kind" empty="Choose" options={props.accounts} />
        <MoneyField
          {...field('cost')}
          label="What it cost"
          hint="The books hold the cost. 0 for stock raised here"
        />
        <DayField {...field('bought')} label="Bought on" hint="If you know it" />
        <MoneyField
          {...field('deducted')}
          label="Written off before the first day"
          hint="Farm or venture: depreciation by your last return"
        />
        <MoneyField
          {...field('worth')}
          label="Worth on the first day"
          hint="What it would sell for. Changes no cost and no tax"
        />
        <Select
          {...field('kind')}
          label="On the inventory as"
          hint="Of the farm or a venture: the year’s papers then ask how it is written off"
          empty="Not on it"
          options={holdingKinds.map((kind) => ({ value: kind, label: holdingKindNames[kind] }))}
        />
        {props.loans.length > 0 ? (
          <Select
            {...field('loan')}
            label="A loan paid for it"
            empty="None"
            options={props.loans.map((loan) => ({ value: String(loan.accountId), label: loan.name }))}
          />
        ) : null}
      </div>
    </fieldset>
  )
}
