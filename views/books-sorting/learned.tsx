// What the last booking taught, each with the way to forget it.
import { Button } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'

export interface LearnedRule {
  ruleId: string
  payee: string
  to: string
  /** Where the payee went before; `''` for a payee that is new. */
  before: string
  formId: string
  /** The booking that taught it. */
  change: number
}

export const Learned = ({ rules }: { rules: readonly LearnedRule[] }) =>
  rules.length === 0 ? null : (
    <details class="desk-learned">
      <summary>Learned just now: {rules.length === 1 ? '1 payee' : `${rules.length} payees`}</summary>
      <ul>
        {rules.map((rule) => (
          <li>
            <form method="post" action="/books/sorting/learned">
              <FormId value={rule.formId} />
              <Hidden name="rule" value={rule.ruleId} />
              <Hidden name="change" value={String(rule.change)} />
              <strong>{rule.payee}</strong> goes to {rule.to}
              {rule.before ? `, before to ${rule.before}` : ''}.{' '}
              <Button quiet small label={`Forget ${rule.payee}`}>
                Forget
              </Button>
            </form>
          </li>
        ))}
      </ul>
    </details>
  )
