// A thing that is gone, all of it or a part: the day, what was got for it, and what came for it in trade.
import { type Holding, holdingKindNames, holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { assetClasses } from '#rules/depreciation/recovery.ts'
import { PageTitle } from '../../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../../parts/button.tsx'
import { ErrorSummary } from '../../parts/error-summary.tsx'
import {
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  MoneyField,
  type Option,
  QuantityField,
  Select,
} from '../../parts/field.tsx'
import { Caution } from '../../parts/message.tsx'
import { OverClosed } from '../../parts/over-closed.tsx'

interface HoldingGoneProps {
  holding: Holding
  left: number
  year: number
  typed: { value(name: string): string }
  errors: FieldErrors
  accounts: readonly Option[]
  paidFrom: readonly Option[]
}

export const HoldingGonePage = (props: HoldingGoneProps) => {
  const { holding, left, year, typed, errors } = props
  const field = (name: string) => fieldOf({ typed, errors }, name)
  const isBack = typed.value('back') !== ''
  return (
    <>
      <PageTitle purpose="Its cost and what was written off of it go with it, by how much of it went. The rest stays.">
        Sold, lost or traded in: {holding.name}
      </PageTitle>
      <ErrorSummary errors={errors} />
      <Caution askWhom="a licensed tax preparer">
        What was got above the cost that is left is income of the year (Form 4797), also for a thing given in
        trade.
      </Caution>
      <form method="post" class="pack-form" action={`/year-pack/holdings/${holding.id}/gone?year=${year}`}>
        <FormId value={typed.value('formId')} />
        <div class="field-row">
          <QuantityField
            {...field('quantity')}
            label={`How many${holding.unit === '' ? '' : `, ${holding.unit}`}`}
            hint={`${left} left. Of a thing that is one, a part is like 0.5`}
          />
          <DayField {...field('disposedDay')} label="On" />
          <MoneyField
            {...field('disposedFor')}
            label="For"
            hint="After selling costs; in trade what was allowed for it. Empty: lost or given away"
          />
        </div>
        <TradeFields {...props} />
        {isBack ? null : <OverClosed typed={typed} errors={errors} />}
        <ButtonRow>
          <Button>Save</Button>
          <LinkButton href={`/year-pack/holdings/${holding.id}?year=${year}`} quiet>
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

const TradeFields = ({ typed, errors, accounts, paidFrom }: HoldingGoneProps) => {
  const field = (name: string) => fieldOf({ typed, errors }, name)
  const isOpen = ['newName', 'newClass', 'newAccount', 'paid', 'received', 'paidFrom'].some(
    (name) => errors[name],
  )
  return (
    <details open={isOpen || typed.value('newName') !== ''}>
      <summary>It was given in trade for a new one</summary>
      <p>
        The new one goes on the inventory at what was allowed for the old one and what was paid beside it, or
        less what was received. The allowance is booked as a sale for the new thing.
      </p>
      <Field {...field('newName')} label="What came for it" hint="Like: walking tractor" />
      <div class="field-row">
        <Select
          {...field('newKind')}
          label="Kind"
          options={holdingKinds.map((kind) => ({ value: kind, label: holdingKindNames[kind] }))}
        />
        <Select
          {...field('newClass')}
          label="Class"
          empty="None"
          options={Object.entries(assetClasses).map(([value, { label }]) => ({ value, label }))}
        />
      </div>
      <Select {...field('newAccount')} label="Account that holds its cost" options={accounts} empty="None" />
      <div class="field-row">
        <MoneyField {...field('paid')} label="Paid beside it" hint="Cash, or a loan of the dealer" />
        <MoneyField
          {...field('received')}
          label="Or received beside it"
          hint="Where the old one was allowed more than the new one costs"
        />
        <Select
          {...field('paidFrom')}
          label="Paid from, or received in"
          options={paidFrom}
          empty="It is booked, or comes with the bank’s file"
        />
      </div>
    </details>
  )
}
