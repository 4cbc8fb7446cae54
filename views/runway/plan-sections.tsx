// The parts of the plan, each a step away: what it is called and what stands in it.
import type { PlanSection } from '#plan/form-fields.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, MonthField, PlanFormIds } from '../parts/field.tsx'

export const sectionNames: Record<PlanSection, { title: string; purpose: string }> = {
  household: {
    title: 'Household',
    purpose: 'Who you are, what living costs, pay, side ventures and the floor.',
  },
  health: { title: 'Health', purpose: 'Premiums, the marketplace, Medicare, and care you pay yourselves.' },
  savings: {
    title: 'Savings',
    purpose: 'Accounts, in what order they are spent and filled, and the reserve.',
  },
  draw: { title: 'Draws', purpose: 'How much of the farm’s money the household takes, and when.' },
  tax: { title: 'Tax', purpose: 'How tax is worked out, and what the first year begins with.' },
  assumptions: {
    title: 'Growth and returns',
    purpose: 'What the plan expects of prices, premiums, wages and markets.',
  },
  chance: {
    title: 'Chance',
    purpose: 'How far markets, seasons, premiums, care and lives stray in drawn courses, and how sure to be.',
  },
}

export const PlanSectionsPage = (props: {
  planName: string
  revisionNo: number
  startMonth: string
  formId: string
  planId: string
  errors: FieldErrors
  typed: { name: string; startMonth: string }
}) => (
  <>
    <PageTitle purpose="Every part of the plan, section by section. Each save is a revision that can be undone.">
      Edit the plan
    </PageTitle>
    <form method="post" action="/runway/plan">
      <ErrorSummary errors={props.errors} />
      <PlanFormIds formId={props.formId} planId={props.planId} basedOn={props.revisionNo} />
      <div class="field-row">
        <Field name="name" label="Name of the plan" value={props.typed.name} error={props.errors.name} />
        <MonthField
          name="startMonth"
          label="First month"
          hint="Balances are those at its start, and all amounts in its prices"
          value={props.typed.startMonth}
          error={props.errors.startMonth}
        />
        <Button>Save</Button>
      </div>
    </form>
    <ul class="sections">
      {Object.entries(sectionNames).map(([section, { title, purpose }]) => (
        <li>
          <a href={`/runway/plan/${section}`}>{title}</a>: {purpose}
        </li>
      ))}
      <li>
        <a href="/farm">Farm</a>: Lines of work, markets, stock, purchases and slower years are edited on
        their own page.
      </li>
      <li>
        <a href="/runway/storms/new">A storm of your own</a>
      </li>
      <li>
        <a href="/runway/plan.json">The whole document as JSON</a>
      </li>
    </ul>
  </>
)
