// The last step of the first run: what a month costs, what the farm gives, and what is drawn from it.
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { fieldOf, Hidden, MoneyField, MonthField, PercentField, QuantityField } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { StepForm, type StepProps } from './frame.tsx'

interface CostsProps extends StepProps {
  /** The adults of the plan, each with a row for pay. */
  people: readonly { id: string; name: string }[]
}

type FieldOf = (name: string) => ReturnType<typeof fieldOf>

export const CostsStep = ({ typed, errors, people }: CostsProps) => {
  const field = (name: string) => fieldOf({ typed, errors }, name)
  return (
    <StepForm
      at={4}
      purpose="Round figures will do. The books will tell you better ones, and the plan can be changed any time on Runway."
      action="/start/costs"
      typed={typed}
      errors={errors}
    >
      <fieldset class="group">
        <HouseholdFields field={field} />
      </fieldset>
      {people.length === 0 ? null : (
        <fieldset class="group">
          <legend>Pay from other work that goes on</legend>
          {people.map(({ id, name }, row) => (
            <PayRow field={field} at={`pay.${row}`} person={id} name={name} />
          ))}
        </fieldset>
      )}
      <fieldset class="group">
        <FarmFields field={field} />
      </fieldset>
      <fieldset class="group">
        <legend>Draws: what the household takes out of the farm</legend>
        <div class="field-row">
          <MoneyField {...field('drawNow')} label="Now, a month" hint="0 if there are none yet" />
          <MoneyField {...field('drawLater')} label="Later, a month" hint="If you have a step in mind" />
          <MonthField {...field('drawLaterFrom')} label="From" hint="Like 2028-01" />
        </div>
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

const PayRow = (props: { field: FieldOf; at: string; person: string; name: string }) => (
  <div class="field-row">
    <Hidden name={`${props.at}.person`} value={props.person} />
    <MoneyField
      {...props.field(`${props.at}.perMonth`)}
      label={`${props.name}: gross, a month`}
      hint="Empty: no such work"
    />
    <MonthField
      {...props.field(`${props.at}.until`)}
      label={`${props.name}: last month of it`}
      hint="Empty: no end in sight"
    />
    <PercentField
      {...props.field(`${props.at}.withheld`)}
      label={`${props.name}: income tax withheld`}
      hint="Share of the gross, like 12%"
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
        hint="All but premiums, income tax and loan payments; with the property tax and insurance that are paid with a mortgage"
      />
      <MoneyField
        {...field('premium')}
        label="Health premiums, a month"
        hint="After any credit; until the younger of you is 65. Medicare is reckoned by itself"
      />
      <QuantityField
        {...field('floorMonths')}
        label="Floor, in months of costs"
        hint="Savings that are not to be spent"
      />
    </div>
  </>
)

const FarmFields = ({ field }: { field: FieldOf }) => (
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
    </div>
  </>
)
