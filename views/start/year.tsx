// The step for what this year brought before the books begin, and for last year's return: tax and premium credit count them.
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { Checkbox, fieldOf, MoneyField, QuantityField } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'
import { StepForm, type StepProps } from './frame.tsx'

interface YearStepProps extends StepProps {
  /** The days asked for, in words; null when the books hold the whole year. */
  before: string | null
  /** Local income tax goes to an office of its own. */
  localOffice: boolean
  lastYear: number
}

type FieldOf = (name: string) => ReturnType<typeof fieldOf>

export const YearStep = (props: YearStepProps) => {
  const field = (name: string) => fieldOf(props, name)
  return (
    <StepForm
      at={3}
      purpose="Tax and premium credit look at whole years. Enter here what the books do not hold, or leave it for later."
      action="/start/year"
      {...props}
    >
      {props.before === null ? (
        <p>The books begin with the year or before it: nothing of this year is missing.</p>
      ) : (
        <ThisYear field={field} before={props.before} localOffice={props.localOffice} />
      )}
      <LastReturn field={field} year={props.lastYear} wasFarmer={props.typed.value('wasFarmer') === 'yes'} />
      {props.before === null ? null : (
        <p class="hint">
          Left for later: this year’s tax, the premium tax credit and what you may still earn are worked out
          as if those months had brought nothing.
        </p>
      )}
      <Caution />
      <ButtonRow>
        <Button>Next: monthly costs</Button>
        <LinkButton quiet href="/start/costs">
          Leave it for later
        </LinkButton>
        <LinkButton quiet href="/start/owned">
          Back
        </LinkButton>
      </ButtonRow>
    </StepForm>
  )
}

const ThisYear = ({
  field,
  before,
  localOffice,
}: Pick<YearStepProps, 'localOffice'> & { field: FieldOf; before: string }) => (
  <>
    <p>From {before}. Round figures will do; leave empty what there was none of.</p>
    <fieldset class="group">
      <legend>
        <SideWord kind="household">The household</SideWord>
      </legend>
      <div class="field-row">
        <MoneyField
          {...field('wages')}
          label="Wages, before any tax"
          hint="Of both together, as box 1 of Form W-2 has them: without what was taken off for a 401(k) or health premiums"
        />
        <TaxPaid field={field} localOffice={localOffice} />
        <MoneyField
          {...field('otherIncome')}
          label="Interest and other income"
          hint="Unemployment pay and what was taken from an IRA or 401(k) too"
        />
        <MoneyField {...field('sideProfit')} label="Side work, after its costs" />
        <MoneyField
          {...field('premiums')}
          label="Health premiums paid yourself"
          hint="Not through an employer or the marketplace"
        />
      </div>
    </fieldset>
    <OnMarketplace field={field} />
    <fieldset class="group">
      <legend>
        <SideWord kind="farm">The farm</SideWord>
      </legend>
      <div class="field-row">
        <MoneyField {...field('farmSales')} label="Sales" />
        <MoneyField {...field('farmCosts')} label="Costs" hint="As they are deducted" />
      </div>
    </fieldset>
  </>
)

const TaxPaid = ({ field, localOffice }: Pick<YearStepProps, 'localOffice'> & { field: FieldOf }) => (
  <>
    <MoneyField
      {...field('withheld')}
      label="Federal income tax withheld from it"
      hint="For this year; not Social Security"
    />
    <MoneyField
      {...field('paidAhead')}
      label="Federal income tax paid ahead"
      hint="Estimated payments for this year"
    />
    <MoneyField
      {...field('statePaid')}
      label="State income tax withheld or paid ahead"
      hint="For this year, a city’s or county’s with it"
    />
    {localOffice ? (
      <MoneyField
        {...field('localPaid')}
        label="Of that, to a local office"
        hint="A city’s or county’s, box 19 of Form W-2"
      />
    ) : null}
  </>
)

const OnMarketplace = ({ field }: { field: FieldOf }) => (
  <fieldset class="group">
    <legend>A marketplace plan, all its months together</legend>
    <div class="field-row">
      <QuantityField {...field('marketplaceMonths')} label="Months with anyone on it" />
      <MoneyField {...field('marketplacePremiums')} label="Premiums" hint="Before any credit" />
      <MoneyField
        {...field('marketplaceBenchmark')}
        label="Benchmark premiums"
        hint="Of the second lowest cost silver plan, as the marketplace shows it"
      />
      <MoneyField {...field('advanceCredit')} label="Credit taken in advance" />
    </div>
  </fieldset>
)

const LastReturn = ({ field, year, wasFarmer }: { field: FieldOf; year: number; wasFarmer: boolean }) => (
  <fieldset class="group">
    <legend>The return for {String(year)}, if it is at hand</legend>
    <div class="field-row">
      <MoneyField {...field('lastTax')} label="Total tax" hint="Form 1040, line 24" />
      <MoneyField
        {...field('lastIncome')}
        label="Adjusted gross income"
        hint="Form 1040, line 11a; line 11 before 2025"
      />
    </div>
    <Checkbox
      name="wasFarmer"
      label="Two thirds or more of that year’s gross income came from farming"
      checked={wasFarmer}
    />
  </fieldset>
)
