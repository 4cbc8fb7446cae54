// Up to four plans side by side: their milestones, their savings in one chart, and where their documents differ.
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { Difference } from '#plan/difference.ts'
import type { Milestones } from '#runway/project.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { Differences } from './revisions.tsx'

export interface ComparedPlan {
  id: string
  name: string
  isCurrent: boolean
  milestones: Milestones
  spendable: readonly { month: string; dollars: number }[]
  /** Against the first plan chosen; empty for the first itself. */
  differences: readonly Difference[]
}

export interface PlanChoice {
  id: string
  name: string
  revisionNo: number
  isCurrent: boolean
  isChosen: boolean
}

interface CompareProps {
  choices: readonly PlanChoice[]
  /** Put away: they are in no list until they are taken up again. */
  away: readonly { id: string; name: string }[]
  plans: readonly ComparedPlan[]
  unreadable: readonly string[]
  formId: string
  errors: FieldErrors
  typedName: string
}

const named = (month: string | null, none: string): string => (month === null ? none : nameOfMonth(month))

export const ComparePage = (props: CompareProps) => (
  <>
    <PageTitle purpose="Up to four plans side by side: what each comes to, and in what they differ.">
      Compare plans
    </PageTitle>
    <PlanList {...props} />
    {props.unreadable.length > 0 ? (
      <p>These cannot be read and are left out: {props.unreadable.join(', ')}.</p>
    ) : null}
    {props.plans.length > 0 ? <MilestoneTable plans={props.plans} /> : null}
    {props.plans.length > 1 ? <SavingsOf plans={props.plans} /> : null}
    {props.plans.slice(1).map((plan) => (
      <Differences
        caption={`“${plan.name}” against “${props.plans[0]!.name}”`}
        rows={plan.differences}
        first={props.plans[0]!.name}
        second={plan.name}
        none={`“${plan.name}” says the same as “${props.plans[0]!.name}”.`}
      />
    ))}
    <NewPlan {...props} />
    <PutAway {...props} />
    <Caution>Plans are compared by their expected courses; chance moves each of them.</Caution>
  </>
)

const PlanList = ({ choices, formId }: CompareProps) => (
  <section aria-labelledby="plans-title">
    <h2 id="plans-title">Your plans</h2>
    <form method="get" action="/runway/compare">
      <fieldset class="group">
        <legend>Put side by side</legend>
        {choices.map((choice) => (
          <div class="choice">
            <input
              type="checkbox"
              id={`plan-${choice.id}`}
              name="plan"
              value={choice.id}
              checked={choice.isChosen}
            />
            <label for={`plan-${choice.id}`}>
              {choice.name}{' '}
              <span class="hint">
                revision {String(choice.revisionNo)}
                {choice.isCurrent ? ', the one in use' : ''}
              </span>
            </label>
          </div>
        ))}
      </fieldset>
      <ButtonRow>
        <Button>Compare</Button>
      </ButtonRow>
    </form>
    {choices
      .filter((choice) => !choice.isCurrent)
      .map((choice) => (
        <form method="post" action="/runway/compare/use" class="keep">
          <FormId value={formId} />
          <input type="hidden" name="planId" value={choice.id} />
          <p>{choice.name}</p>
          <Button quiet small formaction="/runway/compare/open" label={`Open ${choice.name} to change it`}>
            Open to change it
          </Button>
          <Button quiet small label={`Use ${choice.name} from now on`}>
            Use this plan
          </Button>
          <Button quiet small name="putAway" value="yes" label={`Put ${choice.name} away`}>
            Put it away
          </Button>
        </form>
      ))}
  </section>
)

const PutAway = ({ away, formId }: CompareProps) =>
  away.length === 0 ? null : (
    <section aria-labelledby="away-title">
      <h2 id="away-title">Put away</h2>
      {away.map(({ id, name }) => (
        <form method="post" action="/runway/compare/use" class="keep">
          <FormId value={formId} />
          <input type="hidden" name="planId" value={id} />
          <p>{name}</p>
          <Button quiet small name="putAway" value="no" label={`Take ${name} up again`}>
            Take it up again
          </Button>
        </form>
      ))}
    </section>
  )

const MilestoneTable = ({ plans }: { plans: readonly ComparedPlan[] }) => {
  const rows: { title: string; of: (one: Milestones) => string }[] = [
    { title: 'Months left', of: (one) => (one.monthsLeft === null ? 'to the end' : String(one.monthsLeft)) },
    { title: 'Floor crossed', of: (one) => named(one.floorMonth, 'never') },
    {
      title: 'Lowest savings',
      of: (one) => `${formatDollars(one.lowestSpendable)}, ${named(one.lowestMonth, '')}`,
    },
    { title: 'First draw', of: (one) => named(one.firstDraw, 'none') },
    { title: 'Carry month', of: (one) => named(one.carryMonth, 'none') },
    {
      title: 'Farm stands alone from',
      of: (one) => (one.farmStandsAloneFrom === null ? 'not in the plan' : String(one.farmStandsAloneFrom)),
    },
    { title: 'First slower year', of: (one) => named(one.firstSlowerMonth, 'none') },
    {
      title: 'Savings then',
      of: (one) => (one.savingsAtFirstSlower === null ? '' : formatDollars(one.savingsAtFirstSlower)),
    },
    { title: 'Runs short', of: (one) => named(one.runsShort, 'never') },
    { title: 'Unmet costs', of: (one) => (one.runsShort === null ? 'none' : formatDollars(one.unmetNeed)) },
  ]
  return (
    <DataTable
      caption="Milestones"
      ofPlan
      rows={rows}
      csv={`/runway/compare.csv?${plans.map((plan) => `plan=${plan.id}`).join('&')}`}
      columns={[
        { title: 'Milestone', isHeader: true, cell: (row) => row.title },
        ...plans.map((plan) => ({
          title: plan.name,
          isNumber: true,
          cell: (row: (typeof rows)[number]) => row.of(plan.milestones),
        })),
      ]}
    />
  )
}

const tones = [1, 2, 3, 4] as const

const SavingsOf = ({ plans }: { plans: readonly ComparedPlan[] }) => (
  <LineChart
    id="compared-savings"
    title="Spendable savings of each plan"
    summary={plans
      .map((plan) => `${plan.name}: lowest ${formatDollars(plan.milestones.lowestSpendable)}`)
      .join('; ')}
    x="month"
    y={{ format: formatDollars, formatShort: dollarsShort }}
    series={plans.map((plan, place) => ({
      name: plan.name,
      tone: tones[place]!,
      points: plan.spendable.map(({ month, dollars }) => ({ x: parseMonth(month)!, y: dollars })),
    }))}
    tableEvery={12}
  />
)

const NewPlan = ({ formId, errors, typedName }: CompareProps) => (
  <form method="post" action="/runway/compare/copy">
    <h2>Another plan</h2>
    <ErrorSummary errors={errors} />
    <FormId value={formId} />
    <div class="field-row">
      <Field
        name="name"
        label="Name"
        hint="It begins as a copy of the plan in use"
        value={typedName}
        error={errors.name}
      />
      <Button>Make the copy</Button>
    </div>
  </form>
)
