// What the money in an account earns a year, asked where the account stands: the plan lets it grow by that.
import { formatDollarsAndCents, formatPercent } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  type FieldErrors,
  fieldOf,
  PercentField,
  PlanFormIds,
  type PlanFormIdsProps,
} from '../parts/field.tsx'

interface MoneyEarnsProps {
  account: { id: number; name: string; side: string; dollars: number }
  /** Accounts of the plan that it is counted with; none where the plan has it by itself. */
  among: readonly { name: string; earns: number }[]
  typed: { value(name: string): string }
  errors: FieldErrors
  ids: PlanFormIdsProps
}

export const MoneyEarnsPage = ({ account, among, typed, errors, ids }: MoneyEarnsProps) => (
  <>
    <PageTitle purpose="The plan lets the money in this account grow by it, month by month, and counts it as interest for tax.">
      {account.name}: what it earns
    </PageTitle>
    <p>
      {account.side}; {formatDollarsAndCents(account.dollars)} in the books today. {amongWords(among)}
    </p>
    <form method="post" action={`/books/accounts/${account.id}/earns`}>
      <ErrorSummary errors={errors} />
      <PlanFormIds {...ids} />
      <div class="field-row">
        <PercentField
          {...fieldOf({ typed, errors }, 'earns')}
          label="It earns, percent a year"
          hint="As your bank states it, 0 where it pays nothing; empty: not known"
        />
      </div>
      <p class="hint">
        What other accounts earn stays as it is. Simulations let savings rates rise and fall around it.
      </p>
      <ButtonRow>
        <Button>Save</Button>
        <LinkButton quiet href={`/books/accounts/${account.id}`}>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)

const amongWords = (among: MoneyEarnsProps['among']): string => {
  if (among.length === 0) return ''
  const each = among.map(
    ({ name, earns }) =>
      `“${name}”, which earns ${earns === 0 ? 'nothing' : `${formatPercent(earns)} a year`}`,
  )
  return `The plan counts it with ${each.join(', and ')}.`
}
