// Spending that looks as if it stood in the wrong books: a question each, a crossing by one click, or waved through.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId, Hidden, type Option, Select } from '../parts/field.tsx'
import { Caution, EmptyState, NoticeSection } from '../parts/message.tsx'
import { SideWord } from '../parts/side.tsx'

export interface MixedUpFind {
  postingId: number
  entryId: string
  entryNo: number
  lineNo: number
  day: Day
  payee: string
  accountName: string
  amountCents: Cents
  side: { kind: SideKind; name: string }
  looksLike: 'farm' | 'household'
  because: string
}

export interface MixedUpFigures {
  from: Day
  to: Day
  finds: readonly MixedUpFind[]
}

export interface MixedUpProps {
  figures: MixedUpFigures
  errors: FieldErrors
  /** What it may have been for, by the side it looks like. */
  options: Readonly<Record<'farm' | 'household', readonly Option[]>>
  formIds: readonly string[]
}

export const MixedUpPage = ({ figures, errors, options, formIds }: MixedUpProps) => (
  <>
    <PageTitle
      purpose={`Spending since ${dayName(figures.from)} that may be in the wrong books. Each is a question: nothing is moved by itself.`}
    >
      In the wrong books?
    </PageTitle>
    <ErrorSummary errors={errors} />
    {figures.finds.length === 0 ? (
      <EmptyState href="/books" action="Back to the books">
        Nothing looks misfiled.
      </EmptyState>
    ) : (
      figures.finds.map((find, index) => (
        <FindBox
          find={find}
          error={errors[`toAccount_${find.postingId}`]}
          options={options[find.looksLike]}
          formId={formIds[index] ?? ''}
        />
      ))
    )}
    <Caution askWhom="a licensed tax preparer">
      This check goes by earlier payees and a list of common words. It can miss items, and it can flag correct
      ones.
    </Caution>
  </>
)

const FindBox = (props: {
  find: MixedUpFind
  options: readonly Option[]
  formId: string
  error: string | undefined
}) => {
  const { find } = props
  return (
    <NoticeSection label={`${find.payee}, ${dayName(find.day)}`}>
      <p>
        <a href={`/books/entries/${find.entryNo}`}>{find.payee || find.accountName}</a>,{' '}
        {formatCents(find.amountCents)}, {dayName(find.day)}, booked to {find.accountName} of{' '}
        <SideWord kind={find.side.kind}>{find.side.name}</SideWord>. {find.because}.
      </p>
      <form method="post" action="/books/mixed-up">
        <FormId value={props.formId} />
        <Hidden name="entry" value={find.entryId} />
        <Hidden name="line" value={String(find.lineNo)} />
        <Hidden name="posting" value={String(find.postingId)} />
        <Select
          name={`toAccount_${find.postingId}`}
          label={`It was for the ${find.looksLike}, as`}
          options={props.options}
          empty="Choose what it was for"
          error={props.error}
        />
        <ButtonRow>
          <Button name="next" value="cross" label={`Make it a crossing: ${find.payee}`}>
            Make it a crossing
          </Button>
          <Button name="next" value="waive" quiet label={`It is right as it is: ${find.payee}`}>
            It is right as it is
          </Button>
        </ButtonRow>
      </form>
    </NoticeSection>
  )
}
