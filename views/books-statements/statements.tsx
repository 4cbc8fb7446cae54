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

/** How far the files of the bank go, and what of them waits. */
const Reach = ({ figures: { statements, waiting } }: { figures: StatementsFigures }) => {
  const last = statements.reduce<Day | null>(
    (found, { lastDay }) => (lastDay !== null && (found === null || lastDay > found) ? lastDay : found),
    null,
  )
  return last === null ? null : (
    <p class="answer">
      The bank’s files reach {dayName(last)};{' '}
      {waiting === 0
        ? 'all of it is sorted'
        : `${waiting} ${waiting === 1 ? 'transaction waits' : 'transactions wait'} to be sorted`}
      .
    </p>
  )
}

export const StatementsPage = ({ figures, errors }: { figures: StatementsFigures; errors: FieldErrors }) => (
  <>
    <PageTitle
      help="statements"
      purpose="Read in what the bank has: first you see which transactions are new, then you sort them. Reading the same file twice adds nothing."
    >
      Bank statements
    </PageTitle>
    <Reach figures={figures} />
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
