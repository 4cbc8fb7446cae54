// Skipped transactions, each with why and the way back.
import { dayName } from '#calendar/day.ts'
import type { SetAsideLine } from '#ledger/statements/statement.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { FormId } from '../parts/field.tsx'
import { EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

export const SetAsidePage = ({
  lines,
  formIdOf,
}: {
  lines: readonly SetAsideLine[]
  formIdOf: (line: SetAsideLine) => string
}) => (
  <>
    <PageTitle purpose="Transactions that you skipped; they book nothing. Bring one back if that was a mistake.">
      Skipped transactions
    </PageTitle>
    {lines.length === 0 ? (
      <EmptyState href="/books/sorting" action="Back to the transactions">
        No transaction is skipped.
      </EmptyState>
    ) : (
      <DataTable
        caption="Newest first"
        stack
        csv="/books/sorting/set-aside.csv"
        rows={lines}
        columns={[
          { title: 'Day', cell: (line) => dayName(line.day) },
          { title: 'Payee', isHeader: true, cell: (line) => line.payee || line.memo },
          { title: 'Account', cell: (line) => line.account },
          { title: 'Amount', isNumber: true, cell: (line) => formatCents(line.amount) },
          { title: 'Why', cell: (line) => line.note || 'not entered' },
          {
            title: 'Again',
            cell: (line) => (
              <form method="post" action={`/books/sorting/set-aside/${line.id}`}>
                <FormId value={formIdOf(line)} />
                <Button quiet small label={`Bring back: ${line.payee || line.memo}`}>
                  Bring back
                </Button>
              </form>
            ),
          },
        ]}
      />
    )}
  </>
)
