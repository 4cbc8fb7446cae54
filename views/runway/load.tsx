// Loading a plan document: where it comes from, then what it would change before anything is saved.

import type { Difference } from '#plan/difference.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  type FieldErrors,
  FileField,
  Hidden,
  PlanFormIds,
  type PlanFormIdsProps,
  TextArea,
} from '../parts/field.tsx'
import { SureBox } from '../parts/sure-box.tsx'
import { Differences } from './revisions.tsx'

interface LoadProps {
  document: string
  errors: FieldErrors
  ids: PlanFormIdsProps
}

export const LoadPage = ({ document, errors, ids }: LoadProps) => (
  <>
    <PageTitle purpose="A plan as JSON, as this program writes it: what it would change is shown before anything is saved.">
      Load a plan
    </PageTitle>
    <form method="post" action="/runway/load" enctype="multipart/form-data" class="plan-rows">
      <ErrorSummary errors={errors} />
      <PlanFormIds {...ids} />
      <FileField name="file" label="File" hint="The plan’s JSON" accept=".json,application/json" />
      <TextArea
        name="document"
        label="Or the document itself"
        value={document}
        error={errors.document}
        rows={12}
      />
      <ButtonRow>
        <Button>Show what it changes</Button>
        <LinkButton href="/runway/plan" quiet>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
    <p>
      <a href="/runway/plan.json">The plan in use as JSON</a>
    </p>
  </>
)

interface PreviewProps extends LoadProps {
  rows: readonly Difference[]
  /** What becomes of the ties of loans to accounts of the books, in sentences. */
  ties: readonly string[]
}

export const LoadPreview = ({ rows, ties, document, errors, ids }: PreviewProps) => (
  <>
    <PageTitle purpose="Nothing is saved yet. The revision before it stays and can be gone back to.">
      What loading it changes
    </PageTitle>
    <ErrorSummary errors={errors} />
    <Differences
      caption="Where it differs from the plan in use"
      rows={rows}
      first="Now"
      second="Loaded"
      none="It says what the plan says: nothing would change."
    />
    {ties.length > 0 ? (
      <section aria-labelledby="ties-title">
        <h2 id="ties-title">Loans and the books</h2>
        <ul>
          {ties.map((says) => (
            <li>{says}</li>
          ))}
        </ul>
      </section>
    ) : null}
    <form method="post" action="/runway/load" class="plan-rows">
      <PlanFormIds {...ids} />
      <Hidden name="document" value={document} />
      <Hidden name="confirm" value="yes" />
      <SureBox errors={errors} />
      <ButtonRow>
        <Button>Save it as the plan in use</Button>
        <LinkButton href="/runway/load" quiet>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
  </>
)
