// The form for an account's opening balance, filled in from its bank files.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { DayField, type FieldErrors, FormId, fieldOf, MoneyField } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'

export interface OpeningBalanceProps {
  figures: {
    account: { id: number; name: string }
    side: { kind: SideKind; name: string }
    /** Of its files; null when the books say already what was there, or no file does. */
    firstLine: Day | null
  }
  typed: { value(name: string): string }
  errors: FieldErrors
}

export const OpeningBalancePage = ({
  figures: { account, side, firstLine },
  typed,
  errors,
}: OpeningBalanceProps) => (
  <>
    <PageTitle purpose="What the account held before the first transaction of its files, so that books and bank can meet.">
      Opening balance of {account.name}, <SideWord kind={side.kind}>{side.name}</SideWord>
    </PageTitle>
    <ErrorSummary errors={errors} />
    {firstLine === null ? (
      <EmptyState href={`/books/reconcile?account=${account.id}`} action={`Reconcile ${account.name}`}>
        Nothing is to be entered: the books have an opening balance or a finished statement of this account,
        or no file of it states a balance.
      </EmptyState>
    ) : (
      <form method="post" action={`/books/reconcile/opening/${account.id}`}>
        <FormId value={typed.value('formId')} />
        <div class="field-row">
          <DayField {...fieldOf({ typed, errors }, 'day')} label="On" />
          <MoneyField {...fieldOf({ typed, errors }, 'balance')} label="It held" />
        </div>
        <p class="hint">
          The balance that the newest file states, less all transactions since {dayName(firstLine)}, its first
          one.
        </p>
        <ButtonRow>
          <Button>Enter the opening balance</Button>
          <LinkButton quiet href={`/books/accounts/${account.id}`}>
            Open the register
          </LinkButton>
        </ButtonRow>
      </form>
    )}
  </>
)
