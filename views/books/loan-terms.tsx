// The terms of a loan, asked where its account stands: by them its payments are split and planned.
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Checkbox,
  type FieldErrors,
  fieldOf,
  type Option,
  PlanFormIds,
  type PlanFormIdsProps,
  Select,
} from '../parts/field.tsx'
import { LoanTermFields } from '../parts/loan-terms.tsx'

interface LoanTermsProps {
  account: { id: number; name: string; side: string; owedCents: Cents }
  /** Loans of the plan that no account holds yet; none when one holds this account already. */
  unheld: readonly Option[]
  typed: { value(name: string): string }
  errors: FieldErrors
  ids: PlanFormIdsProps
}

export const LoanTermsPage = ({ account, unheld, typed, errors, ids }: LoanTermsProps) => {
  const field = (name: string) => fieldOf({ typed, errors }, name)
  return (
    <>
      <PageTitle purpose="By these its payments are split into interest and principal as they are sorted or entered, and count in the plan’s costs.">
        {account.name}: rate and payment
      </PageTitle>
      <p>
        {account.side}; {formatCents(account.owedCents)} owed in the books today.
      </p>
      <form method="post" action={`/books/accounts/${account.id}/loan`}>
        <ErrorSummary errors={errors} />
        <PlanFormIds {...ids} />
        <div class="field-row">
          <LoanTermFields field={field} />
        </div>
        {unheld.length > 0 ? (
          <Select
            {...field('planLoan')}
            label="Is it one of the plan’s loans already?"
            hint="So that it is not planned twice"
            empty="No, it is not in the plan"
            options={unheld}
          />
        ) : null}
        <Checkbox
          name="realEstate"
          label="Secured by land, buildings or the home"
          checked={typed.value('realEstate') === 'yes'}
        />
        <ButtonRow>
          <Button>Save</Button>
          <LinkButton quiet href={`/books/accounts/${account.id}`}>
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}
