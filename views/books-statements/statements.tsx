// Statements: choose a bank file to read in, and what was read in so far.

import { type Day, dayName } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import type { FieldErrors } from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'
import { BankFilesField } from './files-field.tsx'

export interface StatementsFigures {
  statements: readonly {
    id: string
    account: string
    side: string
    fileName: string
    firstDay: Day | null
    lastDay: Day | null
    lines: number
    newLines: number
    closingBalance: Cents | null
    readOn: string
  }[]
  waiting: number
  doubtful: number
}

export const StatementsPage = ({ figures, errors }: { figures: StatementsFigures; errors: FieldErrors }) => (
  <>
    <PageTitle
      help="statements"
      purpose="Read in what the bank has: first you see which transactions are new, then you sort them. Reading the same file twice adds nothing."
    >
      Bank statements
    </PageTitle>
    <form method="post" action="/books/statements/read" enctype="multipart/form-data">
      <ErrorSummary errors={errors} title="The file was not read in" />
      <BankFilesField error={errors.file} />
      <ButtonRow>
        <Button>Preview</Button>
        {figures.waiting > 0 ? (
          <LinkButton quiet href="/books/sorting">
            Sort {figures.waiting} waiting {figures.waiting === 1 ? 'transaction' : 'transactions'}
          </LinkButton>
        ) : null}
      </ButtonRow>
    </form>
    {figures.statements.length === 0 ? null : (
      <DataTable
        caption="Read in so far, newest first"
        stack
        rows={figures.statements}
        csv="/books/statements.csv"
        columns={[
          { title: 'Account', cell: (row) => `${row.account}, ${row.side}`, isHeader: true },
          {
            title: 'Days',
            cell: (row) =>
              row.firstDay && row.lastDay ? fromTo(dayName(row.firstDay), dayName(row.lastDay)) : '–',
          },
          { title: 'Transactions', cell: (row) => row.lines, isNumber: true },
          { title: 'New', cell: (row) => row.newLines, isNumber: true },
          {
            title: 'Balance at its end',
            cell: (row) => (row.closingBalance === null ? 'not entered' : formatCents(row.closingBalance)),
            isNumber: true,
          },
          { title: 'File', cell: (row) => row.fileName },
          {
            title: 'Undo',
            cell: (row) => (
              <a href={`/books/statements/${encodeURIComponent(row.id)}/take-back`}>
                Undo<span class="hidden-text"> {row.fileName}</span>
              </a>
            ),
          },
        ]}
      />
    )}
  </>
)
