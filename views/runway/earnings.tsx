// The form of a Social Security record: a field of lines, a way to have missing years estimated, and what the record comes to.
import { formatDollars, formatRange } from '#money/format.ts'
import { hasEstimate, lacksRecord } from '#plan/earnings-record.ts'
import type { Person } from '#plan/household-plan.ts'
import { alive, yearsAveraged } from '#rules/social-security/primary-amount.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, PlanFormIds, type PlanFormIdsProps, TextArea } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'

export const EarningsPage = (props: {
  person: Person
  text: string
  errors: FieldErrors
  ids: PlanFormIdsProps
}) => (
  <>
    <PageTitle purpose="What the benefit is worked out from: earnings on which Social Security tax was paid, year by year.">
      {`Earnings of ${props.person.name}`}
    </PageTitle>
    <p>{saysOf(props.person)}</p>
    <form method="post" action={`/runway/plan/earnings/${props.person.id}`} class="plan-rows">
      <ErrorSummary errors={props.errors} />
      <PlanFormIds {...props.ids} />
      <TextArea
        name="earnings"
        label="Years and earnings"
        hint="A year and its earnings a line, in dollars of that year, like 2019 41250. You can paste the table of the agency’s statement: a third column is left out. A year without work is 0; leave the amount of a year you do not know empty."
        value={props.text}
        error={props.errors.earnings}
        rows={20}
      />
      <ButtonRow>
        <Button>Save the record</Button>
        <Button quiet name="estimate" value="yes">
          Estimate the years without an amount
        </Button>
        <LinkButton href="/runway/plan/household" quiet>
          Cancel
        </LinkButton>
      </ButtonRow>
      <p class="hint">
        An estimate takes what you earned in the nearest known years as a part of the nation’s average wage,
        and is marked as one. Nothing is saved by it.
      </p>
    </form>
    <Caution askWhom="the Social Security Administration">
      A year that is missing or wrong changes the benefit for life. Compare with the agency’s own statement.
    </Caution>
  </>
)

const countedYears = yearsAveraged(0, alive)

const estimateWords = ({ statementBenefit, statementAt, earnings }: Person): string => {
  const at = statementAt === 'full' ? 'full retirement age' : statementAt
  const begins = `The benefit goes by the estimate of the agency’s statement: ${formatDollars(statementBenefit!)} a month for a claim at ${at}, in today’s dollars.`
  const unused =
    earnings.length === 0 ? 'A record entered here' : `The record of ${earnings.length} years here`
  return `${begins} ${unused} counts once that estimate is taken out of the household’s form.`
}

const saysOf = (person: Person): string => {
  const { earnings } = person
  if (hasEstimate(person)) return estimateWords(person)
  if (lacksRecord(person))
    return 'The plan has no earnings yet: the benefit counts only what is earned from the plan’s first year on.'
  const years = earnings.map(({ year }) => year)
  const span = `${earnings.length} years, ${formatRange(Math.min(...years), Math.max(...years))}`
  const estimates = earnings.filter(({ estimated }) => estimated).length
  const worked = earnings.filter(({ amount }) => amount > 0).length
  const counts = `The benefit counts the ${countedYears} highest years: ${Math.min(worked, countedYears)} have earnings so far.`
  return `In the plan: ${span}${estimates > 0 ? `, ${estimates} of them estimates` : ''}. ${counts}`
}
