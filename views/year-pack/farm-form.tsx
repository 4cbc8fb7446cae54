// The questions of Schedule F, with what stands in the books beside each.
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import { partlyUntaxedLines, prepaidLines } from '#ledger/tax/form-said.ts'
import type { PropertySale } from '#ledger/tax/property-sales.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, Field, fieldOf, Hidden, MoneyField, QuantityField, Select } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { OverClosed } from '../parts/over-closed.tsx'
import { Beginning } from './beginning.tsx'
import {
  BusinessFields,
  HomeField,
  type LineNames,
  PaperFields,
  ShareField,
  VehicleFields,
  yesNoOptions,
} from './business-fields.tsx'
import type { InputForm } from './inputs-shape.ts'
import { profitInWords } from './tax/profit-in-words.ts'

interface FarmFormProps {
  year: number
  form: InputForm
  booked: ScheduleF
  people: readonly { id: string; name: string }[]
  /** Sales of the year that brought a gain. */
  sales: readonly PropertySale[]
  weatherRows: number
  isOwn: boolean
}

const lines: LineNames = {
  product: 'Line A',
  code: 'Line B',
  employerId: 'Line D',
  takesPart: 'Line E',
  owes1099: 'Line F',
  files1099: 'Line G',
  atRisk: 'Line 36',
  vehicle: 'line 10',
}

export const FarmFormPage = ({ year, form, booked, people, sales, weatherRows, isOwn }: FarmFormProps) => (
  <>
    <PageTitle purpose="What the farm’s form asks and the books do not know. Leave empty what does not touch you.">
      Schedule F of {year}
    </PageTitle>
    <ErrorSummary errors={form.errors} />
    <p class="answer">{profitInWords('the farm', booked, isOwn)}</p>
    <p>
      <a href={`/year-pack?year=${year}#schedule-f`}>Back to the form’s summary</a>
      {isOwn ? null : '. What goes on from an earlier year is filled in.'}
    </p>
    <Caution askWhom="a licensed tax preparer">
      Putting income off, a joint venture and what is not taxed are elections with conditions that are not all
      asked here.
    </Caution>
    <form method="post" class="pack-form" action={`/year-pack/schedule-f?year=${year}`}>
      <Hidden name="basedOn" value={form.typed.value('basedOn')} />
      {people.length > 1 ? <Owners form={form} people={people} /> : null}
      <BusinessFields form={form} lines={lines} />
      <Beginning
        form={form}
        what="the farm"
        not="land, stock and machines"
        like="the first planting or stock for sale"
      />
      <PaperFields form={form} lines={lines} year={year} />
      <Untaxed form={form} booked={booked} />
      <PutOff form={form} booked={booked} year={year} rows={weatherRows} sales={sales} />
      <PaidAhead form={form} booked={booked} />
      <FuelTax form={form} />
      <VehicleFields form={form} line={lines.vehicle} />
      <HomeField form={form} />
      <OverClosed typed={form.typed} errors={form.errors} />
      <ButtonRow>
        <Button>Save</Button>
      </ButtonRow>
    </form>
  </>
)

const Owners = ({ form, people }: { form: InputForm; people: FarmFormProps['people'] }) => (
  <fieldset class="group">
    <legend>Whose farm it is</legend>
    <Select
      {...fieldOf(form, 'ownership')}
      label="The farm is"
      hint="Two married people who own it, both take a material part and file together may elect a joint venture: a form for each, and self-employment tax and Social Security for each. A farm in an LLC or a partnership cannot, but for some in community property states; without the election two owners file Form 1065."
      options={[
        { value: 'one', label: 'one person’s' },
        { value: 'joint', label: 'both people’s, as a qualified joint venture' },
        { value: 'partnership', label: 'a partnership’s, on Form 1065' },
      ]}
      empty="Not entered: split as the plan splits it"
    />
    <div class="field-row">
      <Select
        {...fieldOf(form, 'owner')}
        label="With one owner: whose"
        options={people.map(({ id, name }) => ({ value: id, label: name }))}
        empty={`${people[0]!.name}’s`}
      />
      <ShareField form={form} first={people[0]!.name} />
    </div>
  </fieldset>
)

const untaxedWords: Record<(typeof partlyUntaxedLines)[number], [string, string]> = {
  '3a': ['Line 3b: of cooperative distributions, not taxed', 'Like patronage on things bought for the home'],
  '4a': ['Line 4b: of program payments, not taxed', 'Like cost sharing that section 126 leaves out'],
  '5b': ['Line 5c: of forfeited loans, taxed when they were received', ''],
  '6a': ['Line 6b: of insurance payments, not taxed', 'Like what replaces a thing and not a crop'],
}

const Untaxed = ({ form, booked }: { form: InputForm; booked: ScheduleF }) => (
  <details open={partlyUntaxedLines.some((line) => form.typed.value(`untaxed.line${line}`) !== '')}>
    <summary>Came in and is not taxed in full; commodity loans</summary>
    {partlyUntaxedLines.map((line) => (
      <MoneyField
        {...fieldOf(form, `untaxed.line${line}`)}
        label={untaxedWords[line][0]}
        hint={`${inBooks(booked.income, line)}${untaxedWords[line][1]}`}
      />
    ))}
    <Select
      {...fieldOf(form, 'loansAsIncome')}
      label="Line 5a: commodity loans count as income when they are received"
      hint="An election for all such loans, this year and on (26 USC 77)"
      options={yesNoOptions}
      empty="Not entered: they are loans"
    />
    <MoneyField
      {...fieldOf(form, 'loansReceived')}
      label="Such loans received in the year and booked as owed"
    />
  </details>
)

const PutOff = ({
  form,
  booked,
  year,
  rows,
  sales,
}: {
  form: InputForm
  booked: ScheduleF
  year: number
  rows: number
  sales: FarmFormProps['sales']
}) => (
  <details open={isAnyTyped(form, rows, sales)}>
    <summary>Put off to {year + 1}: crop insurance, stock sold because of weather</summary>
    <MoneyField
      {...fieldOf(form, 'cropPutOff')}
      label="Lines 6c and 6d: crop insurance and disaster payments put off"
      hint={`${inBooks(booked.income, '6a')}All that qualify, where over half of the crop’s income would have come in ${year + 1} (26 USC 451(f)).`}
    />
    <Select
      {...fieldOf(form, 'weatherArea')}
      label="Stock sold because of weather: was the area declared eligible for federal help because of it?"
      hint="Only then can income of stock for sale be put off (26 USC 451(g)); and for breeding stock there are four years from the end of this one to buy other in its place, else two. The IRS may allow more for a drought that goes on."
      options={[
        { value: 'yes', label: 'Yes' },
        { value: 'no', label: 'No' },
      ]}
      empty="Not entered"
    />
    {Array.from({ length: rows }, (_, i) => (
      <fieldset class="group">
        <legend>Animals sold beyond the usual because of weather, {i + 1}</legend>
        <div class="field-row">
          <Field {...fieldOf(form, `weather.${i}.what`)} label="Which" hint="Like: cattle" maxlength={40} />
          <Select
            {...fieldOf(form, `weather.${i}.origin`)}
            label="They were"
            options={[
              { value: 'raised', label: 'raised here' },
              { value: 'bought', label: 'bought' },
            ]}
          />
        </div>
        <div class="field-row">
          <QuantityField {...fieldOf(form, `weather.${i}.sold`)} label="Sold in the year" />
          <QuantityField {...fieldOf(form, `weather.${i}.usual`)} label="Sold in a usual year" />
          <MoneyField {...fieldOf(form, `weather.${i}.income`)} label="Income from all of them" />
        </div>
      </fieldset>
    ))}
    <p class="hint">Where farming is the main business. A statement goes with the return.</p>
    <Button name="more" value="weather" quiet>
      Another kind of animal
    </Button>
    <SoldStock form={form} sales={sales} />
  </details>
)

/** Breeding stock sold because of weather, and bought again. */
const SoldStock = ({ form, sales }: Pick<FarmFormProps, 'form' | 'sales'>) => (
  <>
    {sales.map((sale) => (
      <MoneyField
        {...fieldOf(form, `replaced.${sale.holdingId}`)}
        label={`${sale.name}, sold because of weather: what stock in its place costs`}
        hint={`Sold for ${formatCents(sale.priceCents)} with a gain of ${formatCents(sale.gainCents)}. Once bought, choose on the inventory whose place it takes: the gain put off lowers its cost.`}
      />
    ))}
    {sales.length === 0 ? null : (
      <p class="hint">
        Only what is beyond the number sold in a usual year, held for draft, breeding or dairy, and no
        poultry; new stock must serve the same use (26 USC 1033(e); IRS Pub. 225). A statement goes with the
        return, and what is not replaced in time is taxed by an amended one: a preparer should see it.
      </p>
    )}
  </>
)

const isAnyTyped = (form: InputForm, rows: number, sales: FarmFormProps['sales']): boolean =>
  [
    'cropPutOff',
    'weatherArea',
    ...Array.from({ length: rows }, (_, i) => `weather.${i}.sold`),
    ...sales.map(({ holdingId }) => `replaced.${holdingId}`),
  ].some((name) => form.typed.value(name) !== '') || rows > 1

const prepaidWords: Record<(typeof prepaidLines)[number], string> = {
  '11': 'Chemicals',
  '16': 'Feed',
  '17': 'Fertilizer and lime',
  '26': 'Seeds and plants',
  '28': 'Supplies',
}

const PaidAhead = ({ form, booked }: { form: InputForm; booked: ScheduleF }) => (
  <details open={prepaidLines.some((line) => form.typed.value(`prepaid.line${line}`) !== '')}>
    <summary>Paid ahead for next year; conservation work</summary>
    {prepaidLines.map((line) => (
      <MoneyField
        {...fieldOf(form, `prepaid.line${line}`)}
        label={`${prepaidWords[line]}, line ${line}: paid in the year, not used by its end`}
        hint={inBooks(booked.expenses, line)}
      />
    ))}
    <Checkbox
      {...fieldOf(form, 'prepaidExempt')}
      label="The limit does not hold"
      hint="You live on the farm or live from it, and over the three years before less than half of other costs was paid ahead, or this year is unusual."
    />
    <MoneyField
      {...fieldOf(form, 'conservationBefore')}
      label="Line 12: conservation work of years before these books, not deducted yet"
    />
  </details>
)

const FuelTax = ({ form }: { form: InputForm }) => (
  <details
    open={['gasolineGallons', 'dieselGallons'].some(
      (name) => form.typed.value(name) !== '' || form.errors[name] !== undefined,
    )}
  >
    <summary>Tax on fuel that was burned on the farm</summary>
    <p>
      Fuel bought at a pump bears a tax for roads. What machines burned on the farm for farming brings it back
      on Form 4136, and counts as income of line 8 in the next year. Fuel of cars and trucks on roads does
      not. Keep the bills.
    </p>
    <div class="field-row">
      <QuantityField {...fieldOf(form, 'gasolineGallons')} label="Gasoline, gallons" />
      <QuantityField
        {...fieldOf(form, 'dieselGallons')}
        label="Undyed diesel, gallons"
        hint="Dyed diesel was sold without the tax"
      />
    </div>
  </details>
)

/** What the accounts of a line hold. */
const inBooks = (form: ScheduleF['income'], line: string): string => {
  const held = form.find((one) => one.line === line)
  const amount: Cents = sumCents(held?.accounts.map(({ amountCents }) => amountCents) ?? [])
  return amount === 0 ? '' : `In the books: ${formatCents(amount)}. `
}
