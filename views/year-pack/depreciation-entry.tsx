// One entry that makes the statements take the depreciation of the schedule.
import { type Day, dayName, lastDayOfYear } from '#calendar/day.ts'
import { type Cents, cents, negateCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import type { StatedDepreciation } from '#today/year-pack/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Checkbox, FormId, fieldOf, Hidden, type Option, Select } from '../parts/field.tsx'
import type { InputForm } from './inputs-shape.ts'
import { AmountRow, TotalRow } from './parts.tsx'

interface DepreciationEntryProps {
  year: number
  side: { id: string; name: string }
  stated: StatedDepreciation
  /** Sold and still in the books. */
  sold: readonly { name: string; soldDay: Day; costCents: Cents; deductedCents: Cents }[]
  form: InputForm
  costs: readonly Option[]
  assets: readonly Option[]
}

const MadeOf = ({ stated }: { stated: StatedDepreciation }) => (
  <table class="pack-table">
    <caption class="hidden-text">What the entry books</caption>
    <tbody>
      <AmountRow label="By the schedule" note={stated.line} amounts={[stated.scheduleCents]} />
      {stated.takenBack.map(({ name, amountCents }) => (
        <AmountRow
          label={`${name}: income again`}
          note="on the form other income, Form 4797 Part IV; in the books less depreciation"
          amounts={[negateCents(amountCents)]}
        />
      ))}
      <AmountRow label="Booked already" amounts={[negateCents(stated.bookedCents)]} />
    </tbody>
    <tfoot>
      <TotalRow label="To be booked" amounts={[stated.differenceCents]} />
    </tfoot>
  </table>
)

const SoldThings = ({ sold, isTicked }: Pick<DepreciationEntryProps, 'sold'> & { isTicked: boolean }) =>
  sold.length === 0 ? null : (
    <>
      <Checkbox
        name="takeOut"
        label="Remove from the books, by the same entry, what was sold"
        checked={isTicked}
      />
      <ul class="pack-list">
        {sold.map(({ name, soldDay, costCents, deductedCents }) => (
          <li>
            {name}, gone on {dayName(soldDay)}: its cost of {formatCents(costCents)} and{' '}
            {formatCents(deductedCents)} written off leave the books; the rest of{' '}
            {formatCents(cents(costCents - deductedCents))} lowers what its sale brought.
          </li>
        ))}
      </ul>
    </>
  )

export const DepreciationEntryPage = (props: DepreciationEntryProps) => {
  const { year, side, stated, sold, form, costs, assets } = props
  const { differenceCents } = stated
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
      <MadeOf stated={stated} />
      {costs.length === 0 ? (
        <p>
          No account of {side.name} has the form’s line for depreciation:{' '}
          <a href={`/settings/accounts/new?side=${side.id}`}>add one</a> first.
        </p>
      ) : (
        <form method="post" class="pack-form" action={`/year-pack/depreciation?year=${year}&side=${side.id}`}>
          <FormId value={form.typed.value('formId')} />
          <Hidden name="difference" value={form.typed.value('difference')} />
          <Hidden name="sold" value={form.typed.value('sold')} />
          <Select {...fieldOf(form, 'cost')} label="Cost" options={costs} />
          <Select
            {...fieldOf(form, 'asset')}
            label="Written off on"
            hint="An account that holds what was written off before, or the account of the things themselves"
            options={assets}
          />
          <SoldThings sold={sold} isTicked={form.typed.value('takeOut') === 'yes'} />
          <ButtonRow>
            <Button>Book the difference</Button>
            <LinkButton href={`/year-pack?year=${year}`} quiet>
              Cancel
            </LinkButton>
          </ButtonRow>
        </form>
      )}
    </>
  )
}
