// The page of a form that changes a part of the plan.
import type { Child } from 'hono/jsx'
import type { FormNode } from '#plan/form/nodes.ts'
import type { FormSum } from '#plan/form/sums.ts'
import type { UsualChoice } from '#plan/form/usual.ts'
import type { HelpKey } from '../../help-texts.ts'
import { PageTitle } from '../../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../button.tsx'
import { ErrorSummary } from '../error-summary.tsx'
import { type FieldErrors, PlanFormIds, type PlanFormIdsProps } from '../field.tsx'
import { PlanFields, SentTo } from './plan-fields.tsx'
import { UsualChoiceFields } from './usual.tsx'

export const planFormId = 'plan-form'

export interface PlanFormProps {
  title: string
  purpose: string
  help?: HelpKey | undefined
  action: string
  back: string
  nodes: readonly FormNode[]
  errors: FieldErrors
  ids: PlanFormIdsProps
  save?: string
  above?: Child
  /** Published figures that can be shown below its fields; left out where there are none. */
  usual?: UsualChoice | null
  sums?: readonly FormSum[]
  /** Above the buttons: what the fields come to. */
  below?: Child
  /** Takes the whole part out, booked under an id of its own; left out where it must stay. */
  remove?: { formId: string; label: string }
  caution?: Child
}

export const PlanFormPage = (props: PlanFormProps) => (
  <>
    <PageTitle purpose={props.purpose} help={props.help}>
      {props.title}
    </PageTitle>
    {props.above}
    <form method="post" action={props.action} class="plan-rows" id={planFormId}>
      <ErrorSummary errors={props.errors} />
      <PlanFormIds {...props.ids} />
      {/* Return in a field must save, not press the first row's button. */}
      <button type="submit" class="hidden-text" tabindex={-1}>
        Save
      </button>
      {props.usual ? <UsualChoiceFields {...props.usual} /> : null}
      <SentTo.Provider value={props.action}>
        <PlanFields nodes={props.nodes} errors={props.errors} sums={props.sums} />
      </SentTo.Provider>
      {props.below}
      <ButtonRow>
        <Button>{props.save ?? 'Save'}</Button>
        <LinkButton href={props.back} quiet>
          Cancel
        </LinkButton>
      </ButtonRow>
    </form>
    {props.remove === undefined ? null : (
      <details>
        <summary>Remove it from the plan</summary>
        <form method="post" action={`${props.action}/remove`} class="farm-remove short">
          <PlanFormIds {...props.ids} formId={props.remove.formId} />
          <p>Removing it from the plan changes nothing in the books. The plan keeps its earlier revisions.</p>
          <Button quiet>{props.remove.label}</Button>
        </form>
      </details>
    )}
    {props.caution}
  </>
)
