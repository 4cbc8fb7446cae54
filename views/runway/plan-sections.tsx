// The parts of the plan, each a step away: what it is called and what stands in it.
import type { FormNode } from '#plan/form/nodes.ts'
import type { PlanSection } from '#plan/sections.ts'
import type { HelpKey } from '../help-texts.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, PlanFormIds, type PlanFormIdsProps } from '../parts/field.tsx'
import { PlanFields } from '../parts/plan-form/plan-fields.tsx'

export const sectionNames: Record<PlanSection, { title: string; purpose: string; help: HelpKey }> = {
  household: {
    help: 'planHousehold',
    title: 'Household',
    purpose: 'Who you are, what living costs, pay, side ventures and the floor.',
  },
  health: {
    help: 'planHealth',
    title: 'Health',
    purpose: 'Premiums, the marketplace, Medicare, and care you pay for.',
  },
  savings: {
    help: 'planSavings',
    title: 'Savings',
    purpose: 'Accounts, in what order they are spent and filled, and the emergency fund.',
  },
  draw: {
    help: 'planDraw',
    title: 'Draws',
    purpose: 'How much of the farm’s money the household takes, and when.',
  },
  tax: {
    help: 'planTax',
    title: 'Tax',
    purpose: 'How tax is worked out, and what the first year begins with.',
  },
  assumptions: {
    help: 'planGrowth',
    title: 'Growth and returns',
    purpose: 'What the plan expects of prices, premiums, wages and markets.',
  },
  chance: {
    help: 'planChance',
    title: 'Chance',
    purpose:
      'How far investments, seasons, premiums, care and lives vary in simulations, and how sure to be.',
  },
}

export const PlanSectionsPage = (props: {
  nodes: readonly FormNode[]
  errors: FieldErrors
  /** The plan's life events in words, in its order. */
  events: readonly string[]
  ids: PlanFormIdsProps
}) => (
  <>
    <PageTitle purpose="Every part of the plan, section by section. Each save is a revision that can be undone.">
      Edit the plan
    </PageTitle>
    <form method="post" action="/runway/plan" class="plan-rows">
      <ErrorSummary errors={props.errors} />
      <PlanFormIds {...props.ids} />
      <PlanFields nodes={props.nodes} errors={props.errors} />
      <Button>Save</Button>
    </form>
    <section aria-labelledby="events">
      <h2 id="events">Life events</h2>
      <ul class="sections">
        {props.events.map((says, place) => (
          <li>
            <a href={`/runway/events/${place}`}>{says}</a>
          </li>
        ))}
        <li>
          <a href="/runway/events/new">A death, a separation, a birth, a child who leaves home</a>
        </li>
      </ul>
    </section>
    <h2>Sections</h2>
    <ul class="sections">
      {Object.entries(sectionNames).map(([section, { title, purpose }]) => (
        <li>
          <a href={`/runway/plan/${section}`}>{title}</a>: {purpose}
        </li>
      ))}
      <li>
        <a href="/farm">Farm</a>: Enterprises, markets, stock, purchases and slower years, each edited on its
        own page.
      </li>
      <li>
        <a href="/runway/storms/new">A bad year of your own</a>
      </li>
      <li>
        <a href="/runway/plan.json">The whole document as JSON</a>
      </li>
      <li>
        <a href="/runway/load">Load a plan from JSON</a>
      </li>
    </ul>
  </>
)
