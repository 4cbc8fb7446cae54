// What is still to be set up, each step with what stays unknown until then, and a way to say that it is not for this house.
import type { FirstStep } from '#today/now/figures.ts'
import { Button, LinkButton } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'

interface FirstStepsProps {
  steps: readonly FirstStep[]
  formId: string
  /** Nothing is due that could be done by one press: then the first of these is what comes next. */
  isNext: boolean
}

export const FirstSteps = ({ steps, formId, isNext }: FirstStepsProps) =>
  steps.length === 0 ? null : (
    <section aria-labelledby="first-title">
      <h2 id="first-title">First steps</h2>
      <ol class="due">
        {steps.map((step, place) => (
          <li>
            <div>
              <a href={step.href}>{step.says}</a>
              <p class="hint">{step.why}</p>
            </div>
            {/* The next thing due is the page's one filled button, where nothing else of it is. */}
            {place === 0 && isNext ? (
              <LinkButton small href={step.href}>
                Do it<span class="hidden-text">: {step.says}</span>
              </LinkButton>
            ) : null}
            <form method="post" action="/now/first-step">
              <FormId value={formId} />
              <Hidden name="step" value={step.id} />
              {step.of === undefined ? null : <Hidden name="of" value={String(step.of)} />}
              <Button quiet small label={`Not for us: ${step.says}`}>
                Not for us
              </Button>
            </form>
          </li>
        ))}
      </ol>
    </section>
  )
