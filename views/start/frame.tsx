// The frame of the first run: which step this is, and which come after.
import type { Child } from 'hono/jsx'
import { PageTitle } from '../layout.tsx'
import type { FieldErrors } from '../parts/field.tsx'

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

export const StepFrame = (props: { at: 0 | 1 | 2 | 3 | 4; purpose: string; children: Child }) => (
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
