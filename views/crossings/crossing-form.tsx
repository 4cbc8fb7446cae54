// Records one crossing, or a standing transfer that comes back every month.
import type { Child } from 'hono/jsx'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
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
  MonthField,
  type Option,
  QuantityField,
  RadioGroup,
  Select,
} from '../parts/field.tsx'
import { OverdrawBox } from '../parts/overdraw.tsx'

interface TypedValues {
  value(name: string): string
}

export interface CrossingFormProps {
  kind: CrossingKind
  typed: TypedValues
  errors: FieldErrors
  fromOptions: readonly Option[]
  toOptions: readonly Option[]
}

/** Each kind in the words of the yard: which way it goes and when to use it. */
export const kindWords: Record<CrossingKind, { title: string; says: string }> = {
  draw: {
    title: 'Owner’s draw',
    says: 'Money the household takes out of the farm or a venture, for good.',
  },
  contribution: {
    title: 'Owner’s contribution',
    says: 'Money the household puts into the farm or a venture, for good. It becomes house money in the farm.',
  },
  reimbursement: {
    title: 'Reimbursement',
    says: 'The farm pays the household back for something it bought for the farm.',
  },
  loan: { title: 'Loan between sides', says: 'Money that is to be paid back. It changes no one’s equity.' },
  repayment: { title: 'Loan repayment', says: 'Pays back a loan between sides.' },
  goods_used_at_home: {
    title: 'Farm goods used at home',
    says: 'What the household ate or used of the farm’s own goods, at the price they would have sold for. No money moves.',
  },
}

export const CrossingForm = (props: CrossingFormProps) => (
  <>
    <PageTitle purpose={kindWords[props.kind].says}>{kindWords[props.kind].title}</PageTitle>
    <form method="post" action="/crossings/new" data-books-once>
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="kind" value={props.kind} />
      <DayField {...fieldOf(props, 'day')} label="Day" />
      {props.kind === 'goods_used_at_home' ? <GoodsFields {...props} /> : <Amount {...props} />}
      <Ends {...props} />
      <Field
        {...fieldOf(props, 'memo')}
        label={props.kind === 'goods_used_at_home' ? 'What it was' : 'Note'}
      />
      <ButtonRow>
        <Button>Record it on both sides</Button>
        <LinkButton quiet href="/crossings">
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

export interface StandingFormProps extends CrossingFormProps {
  kinds: readonly Option[]
}

export const StandingForm = (props: StandingFormProps) => (
  <>
    <PageTitle purpose="A crossing that comes back every month on the same day. Missed months are caught up, and no month is recorded twice.">
      Standing transfer
    </PageTitle>
    <form method="post" action="/crossings/standing/new">
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="replaces" value={props.typed.value('replaces')} />
      <Field {...fieldOf(props, 'name')} label="Name" hint="Like “monthly draw”" />
      <Select name="kind" label="Kind" options={props.kinds} value={props.kind} error={props.errors.kind} />
      <Amount {...props} />
      <Ends {...props} />
      <div class="field-row">
        <QuantityField
          {...fieldOf(props, 'dayOfMonth')}
          label="Day of the month"
          hint="The 31st means the last day of a shorter month."
        />
        <MonthField {...fieldOf(props, 'firstMonth')} label="First month" hint="Like 2026-03" />
        <MonthField {...fieldOf(props, 'lastMonth')} label="Last month" hint="Leave empty if it has no end" />
      </div>
      <RadioGroup
        name="posting"
        label="When it is due"
        value={props.typed.value('posting') || 'confirm'}
        error={props.errors.posting}
        options={[
          { value: 'confirm', label: 'ask me first', hint: 'Now reminds you' },
          {
            value: 'automatic',
            label: 'record it automatically',
            hint: 'for transfers the bank makes anyway',
          },
        ]}
      />
      <ButtonRow>
        <Button>Set it up</Button>
        <LinkButton quiet href="/crossings">
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

const Amount = ({ typed, errors }: CrossingFormProps) => (
  <>
    <MoneyField {...fieldOf({ typed, errors }, 'amount')} label="Amount" />
    <OverdrawBox typed={typed} error={errors.amount} />
  </>
)

const GoodsFields = ({ typed, errors }: CrossingFormProps): Child => (
  <div class="field-row">
    <QuantityField {...fieldOf({ typed, errors }, 'quantity')} label="How much" hint="Like 12 or 1.5" />
    <Field
      {...fieldOf({ typed, errors }, 'unit')}
      label="Unit"
      hint="Like lb, dozen or share"
      class="short-field words-field"
    />
    <MoneyField
      {...fieldOf({ typed, errors }, 'unitPrice')}
      label="Price of one"
      hint="What it would have sold for"
    />
  </div>
)

const Ends = ({ kind, typed, errors, fromOptions, toOptions }: CrossingFormProps) => (
  <div class="field-row">
    <Select
      {...fieldOf({ typed, errors }, 'fromAccount')}
      label={kind === 'goods_used_at_home' ? 'Out of' : 'From'}
      options={fromOptions}
      empty="Choose"
    />
    <Select
      {...fieldOf({ typed, errors }, 'toAccount')}
      label={kind === 'goods_used_at_home' ? 'Used for' : 'To'}
      options={toOptions}
      empty="Choose"
    />
  </div>
)
