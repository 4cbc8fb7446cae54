// What is still to be set up, each step with what stays unknown until then, and a way to say that it is not for this house.
import type { FirstStep } from '#today/now/figures.ts'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'

export const FirstSteps = ({ steps, formId }: { steps: readonly FirstStep[]; formId: string }) =>
  steps.length === 0 ? null : (
    <section aria-labelledby="first-title">
      <h2 id="first-title">First steps</h2>
      <ol class="due">
        {steps.map((step) => (
          <li>
            <div>
              <a href={step.href}>{step.says}</a>
              <p class="hint">{step.why}</p>
            </div>
            <form method="post" action="/now/first-step">
              <FormId value={formId} />
              <Hidden name="step" value={step.id} />
              <Button quiet small label={`Not for us: ${step.says}`}>
                Not for us
              </Button>
            </form>
          </li>
        ))}
      </ol>
    </section>
  )
