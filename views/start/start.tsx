// The first run: look around in the sample farm, or set up your own books in short steps.
import type { Child } from 'hono/jsx'
import { type Day, dayName } from '#calendar/day.ts'
import { relativeToAge } from '#plan/life/dependent-plan.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  DayField,
  Field,
  FormId,
  fieldOf,
  Hidden,
  MoneyField,
  PercentField,
  QuantityField,
} from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import { SureBox } from '../parts/sure-box.tsx'
import { StepForm, StepFrame, type StepProps } from './frame.tsx'
import { StartPicture } from './picture.tsx'
import { type PlaceChoices, PlaceFields } from './place.tsx'

export const Welcome = ({ hasOwn }: { hasOwn: boolean }) => (
  <>
    <PageTitle purpose="Keeps the farm’s money and the household’s apart, says every month how many months of savings are left, and in which month the farm will carry the house.">
      Welcome to Dooryard
    </PageTitle>
    <div class="columns">
      <section>
        <h2>Your own books</h2>
        <p>
          Short steps: who you are, what your accounts hold and owe, what a month costs. What you own and what
          this year brought so far can wait; loans too, but until their payments are entered, months left are
          too many. It takes about ten minutes; have your bank balances, and rate and payment of each loan, at
          hand.
        </p>
        <LinkButton href="/start/who">{hasOwn ? 'Go on setting up' : 'Begin'}</LinkButton>
      </section>
      <section>
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
    <StartPicture />
    <p>Nothing is sent anywhere.</p>
  </>
)

interface Rows {
  childRows: number
  relativeRows: number
}

export const WhoStep = (props: StepProps & Rows & { place: PlaceChoices }) => (
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
export const PeoplePage = (props: StepProps & Rows & { place: PlaceChoices }) => (
  <>
    <PageTitle purpose="Ages decide when Medicare and Social Security begin, and how long the plan runs.">
      People and place
    </PageTitle>
    <WhoForm {...props} action="/settings/people">
      <Button>Save people and place</Button>
      <LinkButton quiet href="/settings">
        Cancel
      </LinkButton>
    </WhoForm>
  </>
)

const WhoForm = ({
  children,
  ...props
}: StepProps & Rows & { place: PlaceChoices; action: string; children: Child }) => (
  <form method="post" action={props.action}>
    <ErrorSummary errors={props.errors} />
    <FormId value={props.typed.value('formId')} />
    <Hidden name="basedOn" value={props.typed.value('basedOn')} />
    <div class="field-row">
      <Field {...fieldOf(props, 'farmName')} label="Name of the farm" />
    </div>
    <PlaceFields {...props} />
    <Adult {...props} index={0} legend="One of you" />
    <Adult {...props} index={1} legend="The other one, if you are two" />
    <fieldset class="group">
      <legend>Children at home, if there are any</legend>
      <p class="hint">
        One adult with a child at home is taxed as head of household; Tax in the plan changes that.
      </p>
      {Array.from({ length: props.childRows }, (_, index) => (
        <NameAndBirth {...props} at={`children.${index}`}>
          <Checkbox
            {...fieldOf(props, `children.${index}.student`)}
            label="Full-time student from 19 on"
            hint="Counts until 24 then, if you support her or him"
          />
        </NameAndBirth>
      ))}
    </fieldset>
    <Relatives {...props} />
    <SureBox errors={props.errors} />
    <ButtonRow>{children}</ButtonRow>
  </form>
)

const Relatives = (props: StepProps & Rows) => (
  <fieldset class="group">
    <legend>An adult relative whom you support, if there is one</legend>
    <p class="hint">
      A parent, say, whom you may claim as a dependent: you pay more than half of the support, and income of
      her or his own that is taxed stays under a yearly limit of little more than $5,000 (IRS Publication
      501). Counts in the size of your household, for the credit for other dependents and, from 65, as on
      Medicare. Ask your tax preparer whether it is so.
    </p>
    {Array.from({ length: props.relativeRows }, (_, index) => (
      <NameAndBirth {...props} at={`relatives.${index}`}>
        <QuantityField
          {...fieldOf(props, `relatives.${index}.planToAge`)}
          label="Plan to age"
          hint={`Empty: ${relativeToAge}`}
        />
        <MoneyField
          {...fieldOf(props, `relatives.${index}.ownMoney`)}
          label="Own benefits for the household, a month"
          hint="Of Social Security or a pension of her or his own, what comes to your accounts. Not your income for tax"
        />
      </NameAndBirth>
    ))}
  </fieldset>
)

const Adult = (props: StepProps & { index: number; legend: string }) => (
  <fieldset class="group">
    <legend>{props.legend}</legend>
    <NameAndBirth {...props} at={`people.${props.index}`}>
      <QuantityField
        {...fieldOf(props, `people.${props.index}.hours`)}
        label="Farm work, hours a week"
        hint="At most, in a usual week. Empty: not known yet"
      />
    </NameAndBirth>
  </fieldset>
)

const NameAndBirth = ({ typed, errors, at, children }: StepProps & { at: string; children?: Child }) => (
  <div class="field-row">
    <Field
      name={`${at}.name`}
      label="Name"
      value={typed.value(`${at}.name`)}
      error={errors[`${at}.name`] ?? errors[at]}
    />
    <DayField {...fieldOf({ typed, errors }, `${at}.born`)} label="Born" />
    {children}
  </div>
)

export interface BalanceRow {
  accountId: number
  name: string
  isOwed: boolean
  /** Money of the house that may earn interest: asked what it earns. */
  mayEarn: boolean
  /** The name of the box that says its bank owes the household; null where that cannot be. */
  overpaidBox: string | null
  hint: string
}

interface AccountsStepProps extends StepProps {
  sides: readonly { name: string; kind: 'household' | 'farm' | 'venture'; rows: readonly BalanceRow[] }[]
  /** The day of the balances that are in the books already; null before. */
  opened: Day | null
}

export const AccountsStep = (props: AccountsStepProps) => {
  let index = -1
  return (
    <StepForm
      at={1}
      purpose="What is there, and what is owed, on the first day. Leave empty what you do not have."
      action={props.opened === null ? '/start/accounts' : '/start/accounts/change'}
      {...props}
    >
      <FirstDay {...props} />
      {props.sides.map((side) => (
        <fieldset class="group">
          <legend>
            <SideWord kind={side.kind}>{side.name}</SideWord>
          </legend>
          <div class="field-row">
            {side.rows.map((row) => {
              index += 1
              return <Balance {...props} row={row} index={index} />
            })}
          </div>
        </fieldset>
      ))}
      <p class="hint">
        Retirement accounts are not counted in months left. They and taxable investments are taken to hold 60%
        stocks and 40% bonds until the plan says otherwise; cash earns what you say here. One that you
        inherited can come later, under Runway, Edit the plan, Savings: have ready whose it was, when they
        were born and died, and what it holds.
      </p>
      <ButtonRow>
        <Button name="next" value="owned">
          Next: loans, and what you own
        </Button>
        {props.opened === null ? null : <Button quiet>Save changed balances</Button>}
        <LinkButton quiet href="/start/who">
          Back
        </LinkButton>
      </ButtonRow>
    </StepForm>
  )
}

/** The name of an account's field says which it is to whoever hears the form read out. */
const Balance = ({ row, index, ...props }: StepProps & { row: BalanceRow; index: number }) => {
  const name = `balances.${index}.amount`
  return (
    <>
      <Hidden name={`balances.${index}.account`} value={String(row.accountId)} />
      <MoneyField
        {...fieldOf(props, name)}
        label={row.isOwed && !row.name.endsWith(' owed') ? `${row.name}, owed` : row.name}
        hint={row.hint}
      />
      {row.mayEarn ? (
        <PercentField
          {...fieldOf(props, `balances.${index}.earns`)}
          label={`${row.name} earns, percent a year`}
          hint="Empty: nothing"
        />
      ) : null}
      {row.overpaidBox !== null && (props.errors[name] || isMinus(props.typed.value(name))) ? (
        <Checkbox
          name={row.overpaidBox}
          label={`${row.name} is overpaid: its bank owes us this`}
          value={props.typed.value(row.overpaidBox) || (props.errors[name] ? '' : 'yes')}
        />
      ) : null}
    </>
  )
}

const isMinus = (text: string): boolean => /^\s*[-\u2212(]/.test(text)

const FirstDay = (props: AccountsStepProps) =>
  props.opened === null ? (
    <DayField
      {...fieldOf(props, 'day')}
      label="First day of the books"
      hint="Balances at the beginning of this day. Any day from 2000 on; choose January 1 to have the whole year in the books"
    />
  ) : (
    <p>
      These balances of {dayName(props.opened)} are in the books. Change one here, and its entry is corrected;
      what was booked since stays. To begin on another day, first reverse the opening balances on{' '}
      <a href="/books">Books</a>.
    </p>
  )
