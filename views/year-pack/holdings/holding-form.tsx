// One thing of the inventory: what it is, what it cost, how it is written off, and what became of it.
import { dayName } from '#calendar/day.ts'
import { type Holding, holdingKindNames, holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { formatCents } from '#money/format.ts'
import { assetClasses } from '#rules/depreciation/recovery.ts'
import { PageTitle } from '../../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../../parts/button.tsx'
import { ErrorSummary } from '../../parts/error-summary.tsx'
import {
  Checkbox,
  DayField,
  Field,
  type FieldErrors,
  FormId,
  fieldOf,
  Hidden,
  MoneyField,
  type Option,
  PercentField,
  QuantityField,
  Select,
} from '../../parts/field.tsx'
import { Caution } from '../../parts/message.tsx'
import { OverClosed } from '../../parts/over-closed.tsx'

interface HoldingFormProps {
  id: string | null
  /** As it is kept; null for a new one. */
  sold: Holding | null
  /** Of the pack it was opened from. */
  year: number
  typed: { value(name: string): string }
  errors: FieldErrors
  formId: string
  /** Whose it may be; empty where that is settled. */
  sides: readonly Option[]
  accounts: readonly Option[]
  /** Stock that was sold and that this may stand in the place of. */
  soldStock: readonly Option[]
  /** Years whose business use can be said. */
  useYears: readonly number[]
}

export const HoldingForm = (props: HoldingFormProps) => {
  const { id, sold, year, typed, errors, formId, sides, accounts, soldStock, useYears } = props
  const field = (name: string) => fieldOf({ typed, errors }, name)
  return (
    <>
      <PageTitle
        help="holding"
        purpose="Listed here, a thing is in the inventory, and what it cost is written off over its years."
      >
        {sold === null ? 'Add stock or equipment' : sold.name}
      </PageTitle>
      <ErrorSummary errors={errors} />
      <Caution askWhom="a licensed tax preparer">
        Class, section 179 and bonus depreciation have conditions that are not all asked here.
      </Caution>
      {sold === null ? null : <Gone sold={sold} year={year} {...{ typed, errors, formId }} />}
      <form method="post" class="pack-form" action={`/year-pack/holdings/${id ?? 'new'}?year=${year}`}>
        <FormId value={typed.value('formId') || formId} />
        {id === null ? null : <Hidden name="basedOn" value={typed.value('basedOn')} />}
        {sides.length > 1 ? <Select {...field('side')} label="Whose" options={sides} /> : null}
        <Field {...field('name')} label="What" hint="Like: walking tractor, 12 ewes, deer fence" />
        <Select
          {...field('kind')}
          label="Kind"
          options={holdingKinds.map((kind) => ({ value: kind, label: holdingKindNames[kind] }))}
        />
        <div class="field-row">
          <QuantityField
            {...field('quantity')}
            label="How many"
            hint={sold?.parts ? 'With the parts that were sold' : undefined}
          />
          <Field {...field('unit')} label="Of what" hint="Optional: head, feet" class="short-field" />
        </div>
        <Checkbox
          {...field('raised')}
          label="Raised on this farm"
          hint="Raised animals have no cost basis: their costs were deducted when paid."
        />
        <MoneyField {...field('cost')} label="What it cost" hint="The farm’s part only, land not included" />
        <div class="field-row">
          <DayField {...field('acquiredDay')} label="Bought or born" />
          <DayField {...field('inServiceDay')} label="In use since" hint="Empty: the same day" />
        </div>
        <Select {...field('account')} label="Account that holds its cost" options={accounts} empty="None" />
        <DepreciationFields field={field} useYears={useYears} />
        <PlaceField field={field} soldStock={soldStock} isSaid={typed.value('takesPlaceOf') !== ''} />
        <WorthAndEnd field={field} />
        {typed.value('removing') === 'yes' ? null : <OverClosed typed={typed} errors={errors} />}
        <ButtonRow>
          <Button>{id === null ? 'Add it' : 'Save'}</Button>
          <LinkButton href={`/year-pack/inputs?year=${year}#holdings`} quiet>
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
      {id === null ? null : <NeverThere id={id} year={year} formId={formId} typed={typed} errors={errors} />}
    </>
  )
}

const WorthAndEnd = ({ field }: Pick<PlaceFieldProps, 'field'>) => (
  <>
    <div class="field-row">
      <MoneyField {...field('marketValue')} label="Market value" hint="Empty: not valued" />
      <DayField {...field('valuedDay')} label="On that day" hint="Earlier years keep their own value" />
    </div>
    <div class="field-row">
      <DayField {...field('disposedDay')} label="Sold, lost or given away on" />
      <MoneyField {...field('disposedFor')} label="For" hint="After selling costs" />
    </div>
  </>
)

/** What of it is gone, and the way to say so. */
const Gone = ({
  sold,
  year,
  typed,
  errors,
  formId,
}: Pick<HoldingFormProps, 'year' | 'typed' | 'errors' | 'formId'> & { sold: Holding }) => (
  <>
    {sold.parts ? (
      <ul>
        {sold.parts.map((part) => (
          <li>
            {part.quantity} of {sold.quantity}
            {sold.unit === '' ? '' : ` ${sold.unit}`} gone on {dayName(part.disposedDay)}
            {part.disposedForCents === null ? '' : `, for ${formatCents(part.disposedForCents)}`}
            <form method="post" action={`/year-pack/holdings/${sold.id}/parts/${part.id}/back?year=${year}`}>
              <FormId value={`${formId}.${part.id}`} />
              {typed.value('back') === part.id ? <OverClosed typed={typed} errors={errors} /> : null}
              <Button quiet>Undo this</Button>
            </form>
          </li>
        ))}
      </ul>
    ) : null}
    {sold.disposedDay === null ? (
      <p>
        <a href={`/year-pack/holdings/${sold.id}/gone?year=${year}`}>
          Sold, lost or traded in, or a part of it
        </a>
      </p>
    ) : null}
  </>
)

interface PlaceFieldProps {
  field: (name: string) => ReturnType<typeof fieldOf>
  soldStock: readonly Option[]
  isSaid: boolean
}

const PlaceField = ({ field, soldStock, isSaid }: PlaceFieldProps) =>
  soldStock.length === 0 && !isSaid ? null : (
    <Select
      {...field('takesPlaceOf')}
      label="In the place of stock sold because of weather"
      hint="The gain put off on that sale lowers its cost (26 USC 1033(e)). It must serve the same use, draft, breeding or dairy."
      options={soldStock}
      empty="None"
    />
  )

interface DepreciationFieldsProps {
  field: (name: string) => ReturnType<typeof fieldOf>
  useYears: readonly number[]
}

const DepreciationFields = ({ field, useYears }: DepreciationFieldsProps) => (
  <fieldset class="group">
    <legend>Depreciation</legend>
    <Select
      {...field('assetClass')}
      label="Class"
      hint="For breeding stock it also says how long it must be held. None for land, stock for sale, produce, supplies."
      empty="None"
      options={Object.entries(assetClasses).map(([value, { label }]) => ({ value, label }))}
    />
    <MoneyField
      {...field('section179')}
      label="Deducted at once under section 179"
      hint="Within the year’s business income"
    />
    <Checkbox {...field('bonus')} label="Take bonus depreciation" />
    <div class="field-row">
      <MoneyField
        {...field('returned')}
        label="Written off by returns before these books"
        hint="In all. Later years go on from it"
      />
      <Field
        {...field('returnedThrough')}
        label="Up to the return of"
        hint="Year, like 2024"
        class="short-field"
      />
    </div>
    <details open={useYears.some((year) => field(`use.y${year}`).value !== '')}>
      <summary>A car, van or pickup that is also driven privately</summary>
      <p>
        Then enter its whole cost above, and what part of each year’s miles was for the business. At half or
        less it is written off by the straight line alone. A year left empty is as the one before.
      </p>
      <div class="field-row">
        {useYears.map((year) => (
          <PercentField {...field(`use.y${year}`)} label={`Business use ${year}, percent`} />
        ))}
      </div>
    </details>
  </fieldset>
)

const NeverThere = ({
  id,
  year,
  formId,
  typed,
  errors,
}: Pick<HoldingFormProps, 'year' | 'formId' | 'typed' | 'errors'> & { id: string }) => (
  <form method="post" action={`/year-pack/holdings/${id}/remove?year=${year}`}>
    <FormId value={formId} />
    <details>
      <summary>It was entered by mistake</summary>
      <p>
        What was sold or lost keeps its place: enter the day above. Only what never was there is taken off,
        while no closed month has it.
      </p>
      {typed.value('removing') === 'yes' ? <OverClosed typed={typed} errors={errors} /> : null}
      <ButtonRow>
        <Button quiet>Remove it from the inventory</Button>
      </ButtonRow>
    </details>
  </form>
)
