// The first run: look around in the sample farm, or set up your own books in three short steps.
import type { Child } from 'hono/jsx'
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
  QuantityField,
  Select,
} from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'

interface TypedValues {
  value(name: string): string
}

export const Welcome = ({ hasOwn }: { hasOwn: boolean }) => (
  <>
    <PageTitle purpose="Keeps the farm’s money and the household’s apart, says every month how many months of savings are left, and in which month the farm will carry the house.">
      Welcome to Dooryard
    </PageTitle>
    <div class="columns">
      <section class="side-box side-house">
        <h2>Your own books</h2>
        <p>
          Three short steps: who you are, what your accounts hold, what a month costs. It takes about ten
          minutes; have your bank balances at hand.
        </p>
        <LinkButton href="/start/who">{hasOwn ? 'Go on setting up' : 'Begin'}</LinkButton>
      </section>
      <section class="side-box side-farm">
        <h2>The sample farm</h2>
        <p>
          An invented farm with three years of books, to look around in. It lies in a file of its own; nothing
          of it gets into yours.
        </p>
        <form method="post" action="/sample/open">
          <Button quiet>Open the sample farm</Button>
        </form>
      </section>
    </div>
    <p>Everything stays in one file on this computer. Nothing is sent anywhere.</p>
  </>
)

const steps = [
  { path: '/start/who', name: 'Who' },
  { path: '/start/accounts', name: 'Accounts and balances' },
  { path: '/start/costs', name: 'Monthly costs' },
] as const

const StepFrame = (props: { at: 0 | 1 | 2; purpose: string; children: Child }) => (
  <>
    <PageTitle purpose={props.purpose}>{steps[props.at].name}</PageTitle>
    <ol class="steps" aria-label="Steps">
      {steps.map((step, index) => (
        <li aria-current={index === props.at ? 'step' : undefined}>
          {index + 1}. {step.name}
        </li>
      ))}
    </ol>
    {props.children}
  </>
)

interface StepProps {
  typed: TypedValues
  errors: FieldErrors
}

export const WhoStep = (props: StepProps & { childRows: number }) => (
  <StepFrame
    at={0}
    purpose="Ages decide when Medicare and Social Security begin, and how long the plan runs."
  >
    <WhoForm {...props} action="/start/who">
      <Button>Next: accounts and balances</Button>
    </WhoForm>
  </StepFrame>
)

/** The same form in Settings, once the books are set up. */
export const PeoplePage = (props: StepProps & { childRows: number }) => (
  <>
    <PageTitle purpose="Ages decide when Medicare and Social Security begin, and how long the plan runs.">
      People and place
    </PageTitle>
    <WhoForm {...props} action="/settings/people">
      <Button>Save</Button>
      <LinkButton quiet href="/settings">
        Leave it
      </LinkButton>
    </WhoForm>
  </>
)

const WhoForm = (props: StepProps & { childRows: number; action: string; children: Child }) => (
  <form method="post" action={props.action}>
    <ErrorSummary errors={props.errors} />
    <FormId value={props.typed.value('formId')} />
    <div class="field-row">
      <Field
        name="farmName"
        label="Name of the farm"
        value={props.typed.value('farmName')}
        error={props.errors.farmName}
      />
      <Select
        name="region"
        label="Where you live"
        hint="Alaska and Hawaii have poverty lines of their own."
        value={props.typed.value('region')}
        options={[
          { value: 'contiguous', label: 'One of the 48 states or D.C.' },
          { value: 'alaska', label: 'Alaska' },
          { value: 'hawaii', label: 'Hawaii' },
        ]}
      />
    </div>
    <Adult {...props} index={0} legend="One of you" />
    <Adult {...props} index={1} legend="The other one, if you are two" />
    <fieldset class="group">
      <legend>Children at home, if there are any</legend>
      {Array.from({ length: props.childRows }, (_, index) => (
        <NameAndBirth {...props} at={`children.${index}`} />
      ))}
    </fieldset>
    <ButtonRow>{props.children}</ButtonRow>
  </form>
)

const Adult = (props: StepProps & { index: number; legend: string }) => (
  <fieldset class="group">
    <legend>{props.legend}</legend>
    <NameAndBirth {...props} at={`people.${props.index}`} />
  </fieldset>
)

const NameAndBirth = ({ typed, errors, at }: StepProps & { at: string }) => (
  <div class="field-row">
    <Field
      name={`${at}.name`}
      label="Name"
      value={typed.value(`${at}.name`)}
      error={errors[`${at}.name`] ?? errors[at]}
    />
    <DayField
      name={`${at}.born`}
      label="Born"
      value={typed.value(`${at}.born`)}
      error={errors[`${at}.born`]}
    />
  </div>
)

export interface BalanceRow {
  accountId: number
  name: string
  isOwed: boolean
  hint: string
}

interface AccountsStepProps extends StepProps {
  sides: readonly { name: string; kind: 'household' | 'farm' | 'venture'; rows: readonly BalanceRow[] }[]
}

export const AccountsStep = (props: AccountsStepProps) => {
  let index = -1
  return (
    <StepFrame
      at={1}
      purpose="What is there, and what is owed, on the first day. Leave empty what you do not have."
    >
      <form method="post" action="/start/accounts">
        <ErrorSummary errors={props.errors} />
        <FormId value={props.typed.value('formId')} />
        <DayField
          name="day"
          label="First day of the books"
          hint="Balances at the beginning of this day"
          value={props.typed.value('day')}
          error={props.errors.day}
        />
        {props.sides.map((side) => (
          <fieldset class="group">
            <legend>
              <SideWord kind={side.kind}>{side.name}</SideWord>
            </legend>
            <div class="field-row">
              {side.rows.map((row) => {
                index += 1
                const name = `balances.${index}.amount`
                return (
                  <>
                    <Hidden name={`balances.${index}.account`} value={String(row.accountId)} />
                    <MoneyField
                      name={name}
                      label={row.isOwed ? `${row.name}, owed` : row.name}
                      hint={row.hint}
                      value={props.typed.value(name)}
                      error={props.errors[name]}
                    />
                  </>
                )
              })}
            </div>
          </fieldset>
        ))}
        <p class="hint">
          Retirement accounts are not counted in months left, and are taken to hold 60% stocks and 40% bonds
          until the plan says otherwise.
        </p>
        <ButtonRow>
          <Button>Next: monthly costs</Button>
          <LinkButton quiet href="/start/who">
            Back
          </LinkButton>
        </ButtonRow>
      </form>
    </StepFrame>
  )
}

export const AccountsDone = () => (
  <StepFrame at={1} purpose="What is there, and what is owed, on the first day.">
    <p>
      The balances are in the books already. To change one, take back the entry of opening balances on{' '}
      <a href="/books">Books</a> and record it anew.
    </p>
    <LinkButton href="/start/costs">Next: monthly costs</LinkButton>
  </StepFrame>
)

export const CostsStep = ({ typed, errors }: StepProps) => {
  const field = (name: string) => ({ name, value: typed.value(name), error: errors[name] })
  return (
    <StepFrame
      at={2}
      purpose="Round figures will do. The books will tell you better ones, and the plan can be changed any time on Runway."
    >
      <form method="post" action="/start/costs">
        <ErrorSummary errors={errors} />
        <FormId value={typed.value('formId')} />
        <fieldset class="group">
          <legend>
            <SideWord kind="household">The household</SideWord>
          </legend>
          <div class="field-row">
            <MoneyField {...field('living')} label="Living, a month" hint="All but premiums and income tax" />
            <MoneyField {...field('premium')} label="Health premiums, a month" hint="After any credit" />
            <QuantityField
              {...field('floorMonths')}
              label="Floor, in months of costs"
              hint="Savings that are not to be spent"
            />
          </div>
        </fieldset>
        <fieldset class="group">
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
          <LinkButton quiet href="/start/accounts">
            Back
          </LinkButton>
        </ButtonRow>
      </form>
    </StepFrame>
  )
}
