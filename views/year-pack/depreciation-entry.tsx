// One entry that makes the statements take the depreciation of the schedule.
import { dayName, lastDayOfYear } from '#calendar/day.ts'
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { FormId, fieldOf, Hidden, type Option, Select } from '../parts/field.tsx'
import type { InputForm } from './inputs-shape.ts'

interface DepreciationEntryProps {
  year: number
  side: { id: string; name: string }
  differenceCents: Cents
  form: InputForm
  costs: readonly Option[]
  assets: readonly Option[]
}

export const DepreciationEntryPage = (props: DepreciationEntryProps) => {
  const { year, side, differenceCents, form, costs, assets } = props
  return (
    <>
      <PageTitle purpose="The form takes the depreciation schedule, the statements what is booked. One entry brings them together.">
        Depreciation of {year}, {side.name}
      </PageTitle>
      <ErrorSummary errors={form.errors} />
      <p>
        {differenceCents > 0 ? 'The form has' : 'The books have'}{' '}
        {formatCents(cents(Math.abs(differenceCents)))} more. The entry is booked on{' '}
        {dayName(lastDayOfYear(year))}, once the year’s things are on the inventory and their days are right.
      </p>
      {costs.length === 0 ? (
        <p>
          No account of {side.name} has the form’s line for depreciation:{' '}
          <a href={`/settings/accounts/new?side=${side.id}`}>add one</a> first.
        </p>
      ) : (
        <form method="post" class="pack-form" action={`/year-pack/depreciation?year=${year}&side=${side.id}`}>
          <FormId value={form.typed.value('formId')} />
          <Hidden name="difference" value={form.typed.value('difference')} />
          <Select {...fieldOf(form, 'cost')} label="Cost" options={costs} />
          <Select
            {...fieldOf(form, 'asset')}
            label="Written off on"
            hint="An account that holds what was written off before, or the account of the things themselves"
            options={assets}
          />
          <ButtonRow>
            <Button>Book the difference</Button>
            <LinkButton href={`/year-pack?year=${year}`} quiet>
              Leave it
            </LinkButton>
          </ButtonRow>
        </form>
      )}
    </>
  )
}
