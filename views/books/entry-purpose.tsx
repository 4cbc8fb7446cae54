// One question about money that moved: what was it for? Any account of any side answers, or several.
import { type Day, dayName } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { FormId } from '../parts/field.tsx'
import { PartFields, type PartFieldsProps } from './part-fields.tsx'

export interface EntryPurposeFigures {
  no: number
  day: Day
  payee: string
  amount: Cents
  account: string
  was: readonly string[]
}

export const EntryPurposePage = ({
  figures,
  formId,
  ...fields
}: PartFieldsProps & { figures: EntryPurposeFigures; formId: string }) => (
  <>
    <PageTitle purpose="The money stays as it moved; what it was for is booked again. Entry and correction both stay in the books.">
      What was it for?
    </PageTitle>
    <p>
      <strong>{figures.payee || 'No text'}</strong>, {dayName(figures.day)},{' '}
      <span class="amount">{formatCents(figures.amount)}</span> in {figures.account}. Booked so far as{' '}
      {figures.was.join(', ') || 'nothing'}.
    </p>
    <form method="post" action={`/books/entries/${figures.no}/for`}>
      <ErrorSummary errors={fields.errors} />
      <FormId value={formId} />
      <PartFields {...fields} />
      <ButtonRow>
        <Button>Save</Button>
        <Button quiet name="more" value="yes">
          Two more parts
        </Button>
        <LinkButton quiet href={`/books/entries/${figures.no}`}>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)
