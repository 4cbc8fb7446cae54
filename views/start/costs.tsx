// The last step of the first run: what a month costs, what the farm gives, and what is drawn from it.
import type { LivingSuggestion } from '#farm/usual/usual-living.ts'
import { formatDollars } from '#money/format.ts'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import {
  fieldOf,
  Hidden,
  MoneyField,
  MonthField,
  type Option,
  PercentField,
  QuantityField,
  Select,
} from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { StepForm, type StepProps } from './frame.tsx'

interface CostsProps extends StepProps {
  /** The adults of the plan, each with a row for pay. */
  people: readonly { id: string; name: string }[]
  /** What farm families spent, as published. */
  usual: readonly LivingSuggestion[]
  /** What published figures are there for, that a farm may sell. */
  sells: readonly Option[]
}

type FieldOf = (name: string) => ReturnType<typeof fieldOf>

export const CostsStep = ({ typed, errors, people, usual, sells }: CostsProps) => {
  const field = (name: string) => fieldOf({ typed, errors }, name)
  return (
    <StepForm
      at={4}
      purpose="Round figures will do. The books will give better ones later, and you can change the plan any time on Runway."
      action="/start/costs"
      typed={typed}
      errors={errors}
    >
      <fieldset class="group">
        <HouseholdFields field={field} />
        <LivingUsual usual={usual} />
      </fieldset>
      {people.length === 0 ? null : (
        <fieldset class="group">
          <legend>Pay from other work, or a pension, that goes on</legend>
          {people.map(({ id, name }, row) => (
            <PayRow field={field} at={`pay.${row}`} person={id} name={name} />
          ))}
          <p class="hint">
            One line each. What comes besides, and which share of a pension goes on to the other of you after
            a death, is entered under Runway, Edit the plan, Household. Do not enter Social Security here.
          </p>
        </fieldset>
      )}
      <fieldset class="group">
        <FarmFields field={field} sells={sells} />
      </fieldset>
      <fieldset class="group">
        <legend>Draws: what the household takes out of the farm</legend>
        <div class="field-row">
          <MoneyField {...field('drawNow')} label="Now, a month" hint="0 if there are none yet" />
          <MoneyField {...field('drawLater')} label="Later, a month" hint="If you have a step in mind" />
          <MonthField {...field('drawLaterFrom')} label="From" hint="Like 2028-01" />
        </div>
        <p class="hint">
          A draw stays the same number of dollars while prices rise, unless you let it rise with them: Runway,
          Edit the plan, Draws.
        </p>
      </fieldset>
      <ButtonRow>
        <Button>See where you stand</Button>
        <LinkButton quiet href="/start/year">
          Back
        </LinkButton>
      </ButtonRow>
    </StepForm>
  )
}

/** Published figures that fill only when one of them is pressed. Nothing else is saved by it. */
const LivingUsual = ({ usual }: Pick<CostsProps, 'usual'>) => (
  <details class="usual">
    <summary>What farm families spent, as published</summary>
    <p>
      Of other places and years, and no measure of yours. They may hold health premiums: take yours off. Your
      own books will be a better guide within a few months.
    </p>
    <ul>
      {usual.map((one) => (
        <li>
          <p>
            {formatDollars(one.perMonth)} a month, {livingSays(one)}.{' '}
            {one.year === one.figure.dollarsYear ? <LivingSource one={one} /> : null}
          </p>
          <Button small quiet name="take" value={one.taken} label={`Take it: ${formatDollars(one.perMonth)}`}>
            Take it
          </Button>
        </li>
      ))}
    </ul>
  </details>
)

const livingSays = ({ figure, year, people }: LivingSuggestion): string => {
  const { place, dollarsYear, people: family } = figure
  if (year === dollarsYear)
    return `${place}, in dollars of ${dollarsYear}${family === undefined ? '' : `, families of ${family} people`}`
  const size =
    people === null ? '' : ` and to ${people} people by the square root of their number (from memory)`
  return `the same brought to prices of ${year} by consumer prices${size}`
}

const LivingSource = ({ one: { figure, source } }: { one: LivingSuggestion }) => (
  <span class="source">
    {figure.note ? `${figure.note}. ` : ''}
    {figure.obtained === 'secondHand'
      ? 'Second hand'
      : 'Read in the beginning of the text: look it up there before you rely on it'}
    : {[source.author, source.title, source.publisher, source.number, source.year].filter(Boolean).join(', ')}
    {source.address ? (
      <>
        , <span class="address">{source.address}</span>
      </>
    ) : null}
    .
  </span>
)

const payKinds: readonly Option[] = [
  { value: 'wages', label: 'Wages' },
  { value: 'pension', label: 'Pension that rises with prices' },
  { value: 'fixedPension', label: 'Pension that stays the same' },
]

const PayRow = (props: { field: FieldOf; at: string; person: string; name: string }) => (
  <div class="field-row">
    <Hidden name={`${props.at}.person`} value={props.person} />
    <Select {...props.field(`${props.at}.kind`)} label={`${props.name}: what it is`} options={payKinds} />
    <MoneyField
      {...props.field(`${props.at}.perMonth`)}
      label={`${props.name}: gross, a month`}
      hint="Without health premiums that are taken off before tax. Empty: none. Of work in some months only, like a school year, say which later, under Household in the plan"
    />
    <MonthField
      {...props.field(`${props.at}.until`)}
      label={`${props.name}: last month of it`}
      hint="Empty: it goes on to the end of the plan"
    />
    <PercentField
      {...props.field(`${props.at}.withheld`)}
      label={`${props.name}: income tax withheld`}
      hint="Federal and state together, as a share of the gross, like 12%; not Social Security or Medicare. The state’s part is entered later, under Tax in the plan"
    />
  </div>
)

const HouseholdFields = ({ field }: { field: FieldOf }) => (
  <>
    <legend>
      <SideWord kind="household">The household</SideWord>
    </legend>
    <div class="field-row">
      <MoneyField
        {...field('living')}
        label="Living, a month"
        hint="Without premiums, income tax and loan payments. Count property tax and insurance, also where they are paid with a mortgage"
      />
      <MoneyField
        {...field('premium')}
        label="Health premiums, a month"
        hint="After any credit; until the younger of you is 65. Medicare is worked out by itself"
      />
      <QuantityField
        {...field('floorMonths')}
        label="Floor, in months of costs"
        hint="Savings that are not to be spent"
      />
    </div>
  </>
)

const FarmFields = ({ field, sells }: { field: FieldOf; sells: readonly Option[] }) => (
  <>
    <legend>
      <SideWord kind="farm">The farm</SideWord>
    </legend>
    <div class="field-row">
      <MoneyField {...field('farmSales')} label="Sales, a year" />
      <MoneyField
        {...field('farmCosts')}
        label="Costs, a year"
        hint="Without what you buy to keep for years"
      />
      <MoneyField {...field('farmReserve')} label="Reserve" hint="Cash the farm keeps back" />
      <Select
        {...field('sells')}
        label="Or begin with one thing it sells"
        hint="Then leave its sales and costs empty: the next page shows published figures for it"
        options={sells}
        empty="Not now"
      />
    </div>
  </>
)
