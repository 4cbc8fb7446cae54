// The form for who is on marketplace cover and what the marketplace asks for it.
import { allOf } from '#money/lists.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  fieldId,
  fieldOf,
  MoneyField,
  MonthField,
  PlanFormIds,
  type PlanFormIdsProps,
  Select,
} from '../parts/field.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { ageRatingNames } from './age-rating.ts'

export interface MarketplacePageProps {
  people: readonly { id: string; name: string; isListed: boolean }[]
  /** Names of those who are on Medicare as the plan begins. */
  onMedicare: readonly string[]
  /** The state whose rules count; null while none is chosen. */
  state: string | null
  /** The plan's first month in words. */
  beginsIn: string
  /** One month until which an employer's plan covered all can be asked: the plan tells no more of it. */
  asksEmployer: boolean
  typed: { value(name: string): string; values(name: string): readonly string[] }
  errors: Readonly<Record<string, string>>
  ids: PlanFormIdsProps
}

export const MarketplacePage = (props: MarketplacePageProps) => (
  <>
    <PageTitle purpose="Two premiums, as your marketplace shows them, are enough to estimate later years.">
      Premiums
    </PageTitle>
    {props.people.length + props.onMedicare.length === 0 ? (
      <EmptyState href="/start/who" action="Enter who you are">
        The plan has no people yet.
      </EmptyState>
    ) : (
      <MarketplaceFormView {...props} />
    )}
  </>
)

const MarketplaceFormView = (props: MarketplacePageProps) => {
  const { people, state, typed, errors, ids } = props
  return (
    <form method="post" action="/cover/marketplace">
      <ErrorSummary errors={errors} />
      <PlanFormIds {...ids} />
      <Members people={people} typed={typed} error={errors.members} />
      {props.onMedicare.length === 0 ? null : (
        <p class="hint">
          On Medicare as the plan begins: {allOf(props.onMedicare)}. It counts for them before any plan of the
          marketplace or an employer.
        </p>
      )}
      <CoveredFrom {...props} />
      {state === null ? <AgeRating typed={typed} errors={errors} /> : null}
      <MoneyField
        {...fieldOf({ typed, errors }, 'plan')}
        label="Premium of your plan, a month"
        hint="For all who are checked, in one sum, before any credit, at this year’s prices"
      />
      <MoneyField
        {...fieldOf({ typed, errors }, 'benchmark')}
        label="Premium of the benchmark plan, a month"
        hint="The second-lowest-cost silver plan for the same people; your marketplace and Form 1095-A show it"
      />
      <MoneyField
        {...fieldOf({ typed, errors }, 'care')}
        label="Care you pay yourself, each adult, a month"
        hint="Out-of-pocket medical, dental and drug costs in a usual year"
      />
      <Checkbox
        name="advance"
        label="Take the credit in advance, month by month"
        value={typed.value('advance')}
      />
      {state === null ? <Expansion typed={typed} /> : <RulesOf state={state} />}
      <ButtonRow>
        <Button>Save</Button>
        <LinkButton quiet href="/cover">
          Cancel
        </LinkButton>
      </ButtonRow>
      <Caution askWhom="a marketplace navigator">
        Whether someone may have the credit also depends on offers of an employer and on immigration status.
      </Caution>
    </form>
  )
}

const CoveredFrom = ({ people, onMedicare, beginsIn, asksEmployer, typed, errors }: MarketplacePageProps) => (
  <>
    <fieldset class="group">
      <legend>On it from which month</legend>
      <p class="hint">
        For those who are checked. Empty: from {beginsIn} on, the plan’s first month. A plan there mostly
        begins on the first of the month after another plan ends.
      </p>
      {people.map((person) => (
        <MonthField {...fieldOf({ typed, errors }, `from.${person.id}`)} label={`${person.name}, from`} />
      ))}
    </fieldset>
    {asksEmployer ? (
      <MonthField
        {...fieldOf({ typed, errors }, 'employerUntil')}
        label={`Last month in which an employer’s plan covered all of you${onMedicare.length > 0 ? ' who are not on Medicare' : ''}`}
        hint={`Empty: none did in ${beginsIn} or later. Where it was not all of you, enter it by person in the plan, under Health`}
      />
    ) : (
      <p class="hint">
        An employer’s plan is entered by person <a href="/runway/plan/health">in the plan, under Health</a>.
      </p>
    )}
  </>
)

const AgeRating = (props: Pick<MarketplacePageProps, 'typed' | 'errors'>) => (
  <Select
    {...fieldOf(props, 'ageRating')}
    label="How premiums rise with age"
    hint="Choose your state if it is listed; everywhere else the federal curve holds"
    options={Object.entries(ageRatingNames).map(([value, label]) => ({ value, label }))}
  />
)

const Expansion = ({ typed }: Pick<MarketplacePageProps, 'typed'>) => (
  <Checkbox
    name="expansion"
    label="Our state expanded Medicaid (138% of the federal poverty level, FPL)"
    hint="Ten states did not in 2026: AL, FL, GA, KS, MS, SC, TN, TX, WI, WY"
    value={typed.value('expansion')}
  />
)

const RulesOf = ({ state }: { state: string }) => (
  <p class="hint">
    How premiums rise with age, and whom programs cover, is as in {state}. A premium left empty is the
    published one of your county.
  </p>
)

/** What was ticked last is kept when the form comes back with a mistake. */
const Members = (props: Pick<MarketplacePageProps, 'people' | 'typed'> & { error: string | undefined }) => {
  const ticked = props.typed.values('members[]')
  const isAgain = props.typed.value('plan') !== '' || ticked.length > 0 ? ticked.length > 0 : false
  return (
    <fieldset class="choices" id={fieldId('members')} tabindex={-1}>
      <legend>On a marketplace plan</legend>
      {props.error ? <p class="field-error">{props.error}</p> : null}
      {props.people.map((person, index) => (
        <div class="choice">
          <input
            type="checkbox"
            id={`${fieldId('members')}-${index}`}
            name="members[]"
            value={person.id}
            checked={isAgain ? ticked.includes(person.id) : person.isListed}
          />
          <label for={`${fieldId('members')}-${index}`}>{person.name}</label>
        </div>
      ))}
    </fieldset>
  )
}
