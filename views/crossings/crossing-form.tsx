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
    says: 'Money the household puts into the farm or a venture, for good. This is what leaks.',
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
    <form method="post" action="/crossings/new">
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="kind" value={props.kind} />
      <DayField name="day" label="Day" value={props.typed.value('day')} error={props.errors.day} />
      {props.kind === 'goods_used_at_home' ? <GoodsFields {...props} /> : <Amount {...props} />}
      <Ends {...props} />
      <Field
        name="memo"
        label={props.kind === 'goods_used_at_home' ? 'What it was' : 'Note'}
        value={props.typed.value('memo')}
        error={props.errors.memo}
      />
      <ButtonRow>
        <Button>Record it on both sides</Button>
        <LinkButton quiet href="/crossings">
          Leave it
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
    <PageTitle purpose="A crossing that comes back every month on the same day. Missed months are caught up, and no month is posted twice.">
      Standing transfer
    </PageTitle>
    <form method="post" action="/crossings/standing/new">
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      <Hidden name="replaces" value={props.typed.value('replaces')} />
      <Field
        name="name"
        label="Name"
        hint="Like “monthly draw”"
        value={props.typed.value('name')}
        error={props.errors.name}
      />
      <Select name="kind" label="Kind" options={props.kinds} value={props.kind} error={props.errors.kind} />
      <Amount {...props} />
      <Ends {...props} />
      <div class="field-row">
        <QuantityField
          name="dayOfMonth"
          label="Day of the month"
          hint="The 31st means the last day of a shorter month."
          value={props.typed.value('dayOfMonth')}
          error={props.errors.dayOfMonth}
        />
        <MonthField
          name="firstMonth"
          label="First month"
          hint="Like 2026-03"
          value={props.typed.value('firstMonth')}
          error={props.errors.firstMonth}
        />
        <MonthField
          name="lastMonth"
          label="Last month"
          hint="Leave empty if it has no end"
          value={props.typed.value('lastMonth')}
          error={props.errors.lastMonth}
        />
      </div>
      <RadioGroup
        name="posting"
        label="When it is due"
        value={props.typed.value('posting') || 'confirm'}
        error={props.errors.posting}
        options={[
          { value: 'confirm', label: 'wait for a yes', hint: 'Now reminds you' },
          { value: 'automatic', label: 'post it by itself', hint: 'for transfers the bank makes anyway' },
        ]}
      />
      <ButtonRow>
        <Button>Set it up</Button>
        <LinkButton quiet href="/crossings">
          Leave it
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

const Amount = ({ typed, errors }: CrossingFormProps) => (
  <>
    <MoneyField name="amount" label="Amount" value={typed.value('amount')} error={errors.amount} />
    <OverdrawBox typed={typed} error={errors.amount} />
  </>
)

const GoodsFields = ({ typed, errors }: CrossingFormProps): Child => (
  <div class="field-row">
    <QuantityField
      name="quantity"
      label="How much"
      hint="Like 12 or 1.5"
      value={typed.value('quantity')}
      error={errors.quantity}
    />
    <Field
      name="unit"
      label="Unit"
      hint="Like lb, dozen or share"
      class="short-field"
      value={typed.value('unit')}
      error={errors.unit}
    />
    <MoneyField
      name="unitPrice"
      label="Price of one"
      hint="What it would have sold for"
      value={typed.value('unitPrice')}
      error={errors.unitPrice}
    />
  </div>
)

const Ends = ({ kind, typed, errors, fromOptions, toOptions }: CrossingFormProps) => (
  <div class="field-row">
    <Select
      name="fromAccount"
      label={kind === 'goods_used_at_home' ? 'Out of' : 'From'}
      options={fromOptions}
      empty="Choose"
      value={typed.value('fromAccount')}
      error={errors.fromAccount}
    />
    <Select
      name="toAccount"
      label={kind === 'goods_used_at_home' ? 'Used for' : 'To'}
      options={toOptions}
      empty="Choose"
      value={typed.value('toAccount')}
      error={errors.toAccount}
    />
  </div>
)
