// Before an import is taken back: what it added, what becomes of it, and the one button that does it.
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId } from '../parts/field.tsx'

export interface TakeBackFigures {
  id: string
  account: string
  fileName: string
  lines: number
  entries: number
  /** Why it cannot be taken back; `''` when it can. */
  refusal: string
  /** Where what stands in its way is mended. */
  way: { href: string; says: string } | null
}

export const TakeBackPage = ({
  figures,
  formId,
  errors,
}: {
  figures: TakeBackFigures
  formId: string
  errors: FieldErrors
}) => (
  <>
    <PageTitle purpose="For a file that was read into the wrong account, or with the wrong columns. Afterwards it can be read in again.">
      Undo {figures.fileName || 'the statement'}
    </PageTitle>
    {figures.refusal === '' ? (
      <form method="post" action={`/books/statements/${figures.id}/take-back`}>
        <ErrorSummary errors={errors} title="Nothing was undone" />
        <FormId value={formId} />
        <p>
          {figures.lines} {figures.lines === 1 ? 'transaction' : 'transactions'} of {figures.account} will be
          removed, and {figures.entries} {figures.entries === 1 ? 'entry' : 'entries'} made from them
          reversed. Entries that were in the books without the file stay.
        </p>
        <ButtonRow>
          <Button>Undo</Button>
          <LinkButton quiet href="/books/statements">
            Cancel
          </LinkButton>
        </ButtonRow>
      </form>
    ) : (
      <>
        <p class="field-error">{figures.refusal}.</p>
        {figures.way === null ? null : (
          <p>
            <a href={figures.way.href}>{figures.way.says}</a>
          </p>
        )}
        <p>
          <a href="/books/statements">Back to the statements</a>
        </p>
      </>
    )}
  </>
)
