// The frame of the first run: which step this is, and which come after.
import type { Child } from 'hono/jsx'
import { PageTitle } from '../layout.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, FormId } from '../parts/field.tsx'

export interface StepProps {
  typed: { value(name: string): string }
  errors: FieldErrors
}

const steps = [
  'Who',
  'Accounts and balances',
  'Loans, and what you own',
  'This year so far',
  'Monthly costs',
] as const

interface FrameProps {
  at: 0 | 1 | 2 | 3 | 4
  purpose: string
  children: Child
}

export const StepFrame = (props: FrameProps) => (
  <>
    <PageTitle purpose={props.purpose}>{steps[props.at]}</PageTitle>
    <ol class="steps" aria-label="Steps">
      {steps.map((step, index) => (
        <li aria-current={index === props.at ? 'step' : undefined}>
          {index + 1}. {step}
        </li>
      ))}
    </ol>
    {props.children}
  </>
)

/** A step that is a form. */
export const StepForm = (props: FrameProps & StepProps & { action: string }) => (
  <StepFrame at={props.at} purpose={props.purpose}>
    <form method="post" action={props.action}>
      <ErrorSummary errors={props.errors} />
      <FormId value={props.typed.value('formId')} />
      {/* Return in a field must save, not press the first button that fills one. */}
      <button type="submit" class="hidden-text" tabindex={-1}>
        Save
      </button>
      {props.children}
    </form>
  </StepFrame>
)
