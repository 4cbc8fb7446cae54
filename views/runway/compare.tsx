// Up to four plans side by side: their milestones, their savings in one chart, and where their documents differ.
import { nameOfMonth, parseMonth } from '#calendar/month.ts'
import { longSpell } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { Difference } from '#plan/difference.ts'
import type { Milestones } from '#runway/project.ts'
import { BelowZero } from '../charts/below-zero.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { Field, type FieldErrors, FormId } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import { Caution, EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { lastInWords } from './last-in-words.ts'
import { Differences } from './revisions.tsx'

export interface ComparedPlan {
  id: string
  name: string
  isCurrent: boolean
  milestones: Milestones
  savingsAtEnd: number
  /** What is not drawn stays there. */
  farmCashAtEnd: number
  /** The bad years are run a moment after the page where they were not yet. */
  stormsRun: boolean
  /** The worst of them; null where the plan has none, or they were not run. */
  badYear: { name: string; monthsLeft: number | null; lowestSpendable: number } | null
  /** Months left one time in ten, null where savings last; undefined where simulations were not run. */
  oneInTen: number | null | undefined
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
    <PageTitle
      help="compare"
      purpose="Up to four plans side by side: what each comes to, and in what they differ."
    >
      Compare plans
    </PageTitle>
    {props.plans.length > 1 ? <p class="answer">{lastInWords(props.plans)}</p> : null}
    <PlanList {...props} />
    {props.unreadable.length > 0 ? (
      <p>These cannot be read and are left out: {props.unreadable.join(', ')}.</p>
    ) : null}
    {props.plans.length > 0 ? <MilestoneTable plans={props.plans} /> : null}
    {props.plans.length > 0 ? <SavingsOf plans={props.plans} /> : null}
    {props.plans.slice(1).map((plan) => (
      <Differences
        caption={`“${plan.name}” against “${props.plans[0]!.name}”`}
        rows={plan.differences}
        first={props.plans[0]!.name}
        second={plan.name}
        none={`“${plan.name}” is identical to “${props.plans[0]!.name}”.`}
      />
    ))}
    {props.choices.length > 0 ? <NewPlan {...props} /> : null}
    <PutAway {...props} />
    <Caution>Plans are compared as planned; chance moves each of them.</Caution>
  </>
)

const PlanList = ({ choices, formId }: CompareProps) => (
  <section aria-labelledby="plans-title">
    <h2 id="plans-title">Your plans</h2>
    {choices.length === 0 ? (
      <EmptyState href="/start/costs" action="Enter monthly costs">
        There is no plan yet. What a month costs and what the farm gives are enough to begin one.
      </EmptyState>
    ) : choices.length === 1 ? (
      <>
        <p class="answer">There is one plan so far, {choices[0]!.name}.</p>
        <p>
          <a href="#another-plan">Make a copy of it</a> and change that one: then both are here side by side.
        </p>
      </>
    ) : (
      <ChooseSome choices={choices} />
    )}
    {choices
      .filter((choice) => !choice.isCurrent)
      .map((choice) => (
        <form method="post" action="/runway/compare/use" class="keep">
          <FormId value={formId} />
          <input type="hidden" name="planId" value={choice.id} />
          <p>{choice.name}</p>
          <Button quiet small formaction="/runway/compare/open" label={`Open to change it: ${choice.name}`}>
            Open to change it
          </Button>
          <Button quiet small label={`Use this plan: ${choice.name}`}>
            Use this plan
          </Button>
          <Button quiet small name="putAway" value="yes" label={`Archive it: ${choice.name}`}>
            Archive it
          </Button>
        </form>
      ))}
  </section>
)

const ChooseSome = ({ choices }: Pick<CompareProps, 'choices'>) => (
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
)

const PutAway = ({ away, formId }: CompareProps) =>
  away.length === 0 ? null : (
    <section aria-labelledby="away-title">
      <h2 id="away-title">Archive</h2>
      {away.map(({ id, name }) => (
        <form method="post" action="/runway/compare/use" class="keep">
          <FormId value={formId} />
          <input type="hidden" name="planId" value={id} />
          <p>{name}</p>
          <Button quiet small name="putAway" value="no" label={`Bring it back: ${name}`}>
            Bring it back
          </Button>
        </form>
      ))}
    </section>
  )

const left = (months: number | null): string => (months === null ? 'savings last' : longSpell(months))

/** Each row of milestones as a person asks for it; the last ones are what else can come. */
const rowsOf: { title: string; of: (plan: ComparedPlan) => string }[] = [
  {
    title: 'Months left',
    of: ({ milestones }) => (milestones.monthsLeft === null ? 'to the end' : String(milestones.monthsLeft)),
  },
  { title: 'Floor crossed', of: ({ milestones }) => named(milestones.floorMonth, 'never') },
  { title: 'Carry month', of: ({ milestones }) => named(milestones.carryMonth, 'none') },
  {
    title: 'Lowest savings',
    of: ({ milestones }) =>
      `${formatDollars(milestones.lowestSpendable)}, ${named(milestones.lowestMonth, '')}`,
  },
  { title: 'First draw of the plan', of: ({ milestones }) => named(milestones.firstDraw, 'none') },
  {
    title: 'Farm pays its own way from',
    of: ({ milestones }) =>
      milestones.farmStandsAloneFrom === null ? 'not in the plan' : String(milestones.farmStandsAloneFrom),
  },
  { title: 'First slower year', of: ({ milestones }) => named(milestones.firstSlowerMonth, 'none') },
  {
    title: 'Savings then',
    of: ({ milestones }) =>
      milestones.savingsAtFirstSlower === null ? '' : formatDollars(milestones.savingsAtFirstSlower),
  },
  { title: 'Runs short', of: ({ milestones }) => named(milestones.runsShort, 'never') },
  {
    title: 'Unmet costs',
    of: ({ milestones }) => (milestones.runsShort === null ? 'none' : formatDollars(milestones.unmetNeed)),
  },
  { title: 'Savings at the end', of: (plan) => formatDollars(plan.savingsAtEnd) },
  { title: 'Farm cash at the end', of: (plan) => formatDollars(plan.farmCashAtEnd) },
  {
    title: 'In a bad year',
    of: ({ badYear, stormsRun }) =>
      badYear === null
        ? stormsRun
          ? 'none in the plan'
          : 'not run yet'
        : `${left(badYear.monthsLeft)}: ${badYear.name}, lowest ${formatDollars(badYear.lowestSpendable)}`,
  },
  {
    title: 'One time in ten',
    of: ({ oneInTen }) =>
      oneInTen === undefined ? 'not run' : oneInTen === null ? 'savings last' : `${left(oneInTen)} or fewer`,
  },
]

/** Comes at once with what is known; the bad years follow by themselves, or by the link when there is no script. */
export const MilestoneTable = ({ plans }: { plans: readonly ComparedPlan[] }) => {
  const query = plans.map((plan) => `plan=${plan.id}`).join('&')
  const waits = plans.some((plan) => !plan.stormsRun)
  const withStorms = `/runway/compare?${query}&storms=yes`
  return (
    <div id="milestones" {...(waits ? refreshes('milestones', { get: withStorms }, 'load') : {})}>
      <DataTable
        caption="What each comes to"
        ofPlan
        stack={plans.length === 1}
        rows={rowsOf.filter(({ of }) => plans.some((plan) => of(plan) !== ''))}
        csv={`/runway/compare.csv?${query}`}
        columns={[
          { title: 'Milestone', isHeader: true, cell: (row) => row.title },
          ...plans.map((plan) => ({
            title: plan.name,
            isNumber: true,
            cell: (row: (typeof rowsOf)[number]) => row.of(plan),
          })),
        ]}
      />
      {waits ? (
        <p class="hint">
          <a href={withStorms}>Run their bad years</a>
        </p>
      ) : null}
      <p class="hint">
        One time in ten shows for plans whose simulations were run: open a plan and run them under{' '}
        <a href="/runway/chance">How sure</a>.
      </p>
    </div>
  )
}

const tones = [1, 2, 3, 4] as const

const SavingsOf = ({ plans }: { plans: readonly ComparedPlan[] }) => (
  <>
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
    <BelowZero savings={plans.flatMap(({ spendable }) => spendable.map(({ dollars }) => dollars))} />
  </>
)

const NewPlan = ({ choices, formId, errors, typedName }: CompareProps) => (
  <form method="post" action="/runway/compare/copy">
    <h2 id="another-plan">Another plan</h2>
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
      <Button quiet={choices.length > 1}>Make the copy</Button>
    </div>
  </form>
)
