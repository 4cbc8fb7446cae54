// What each storm does to the plan, and the form for a storm of the couple's own.
import type { Child } from 'hono/jsx'
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { StormLine } from '#today/runway/figures.ts'
import { PageTitle } from '../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import {
  Field,
  type FieldErrors,
  MoneyField,
  MonthField,
  PercentField,
  PlanFormIds,
  QuantityField,
  Select,
} from '../parts/field.tsx'
import { DataTable } from '../parts/table.tsx'

/** Put in place of the storms while they are still to be worked out: fetched as soon as it stands on the page. */
export const StormsToCome = ({ query }: { query: string }) => (
  <section id="storms" hx-get={`/runway/storms?${query}`} hx-trigger="load" hx-swap="outerHTML">
    <h2>Storms</h2>
    <p>
      <a href={`/runway/storms?${query}`}>Run the storms on this course</a>
    </p>
  </section>
)

export const Storms = ({ storms, query }: { storms: readonly StormLine[]; query: string }) => (
  <section id="storms" aria-labelledby="storms-title">
    <h2 id="storms-title">Storms</h2>
    <p class="hint">
      Named bad years that the plan must survive. Each is run by itself over the same months. Spendable
      savings are less the tax owed so far and can fall below zero while retirement accounts still pay; money
      runs short from the month in which nothing pays any more.
    </p>
    <DataTable
      caption="What each storm does"
      hideCaption
      stack
      rows={storms}
      csv={`/runway/storms.csv${query === '' ? '' : `?${query}`}`}
      columns={[
        { title: 'Storm', isHeader: true, cell: (storm) => storm.name },
        {
          title: 'Months left',
          isNumber: true,
          cell: (storm) => (storm.monthsLeft === null ? 'to the end' : String(storm.monthsLeft)),
        },
        {
          title: 'Carry month',
          isNumber: true,
          cell: (storm) => (storm.carryMonth === null ? 'none' : nameOfMonth(storm.carryMonth)),
        },
        {
          title: 'Lowest spendable savings',
          isNumber: true,
          cell: (storm) => `${formatDollars(storm.lowestSpendable)}, ${nameOfMonth(storm.lowestMonth)}`,
        },
        {
          title: 'Money runs short',
          cell: (storm) => (storm.runsShort === null ? 'never' : nameOfMonth(storm.runsShort)),
        },
        {
          title: '',
          cell: (storm) =>
            storm.own ? <a href={`/runway/storms/${storm.id}`}>Change</a> : <span class="hint">usual</span>,
        },
      ]}
    />
    <p class="no-print">
      <LinkButton href="/runway/storms/new" quiet small>
        Add a storm of your own
      </LinkButton>
    </p>
  </section>
)

export interface StormFormProps {
  /** Null for a new storm. */
  id: string | null
  value: (name: string) => string
  errors: FieldErrors
  formId: string
  basedOn: number
  planId: string
  markets: readonly { id: string; name: string }[]
  people: readonly { id: string; name: string }[]
}

export const StormFormPage = (props: StormFormProps) => {
  const field = (name: string) => ({ name, value: props.value(name), error: props.errors[name] })
  return (
    <>
      <PageTitle purpose="A bad year that you think of yourselves, run over the plan beside the usual ones. What you leave empty does nothing.">
        {props.id === null ? 'A storm of your own' : 'Change a storm'}
      </PageTitle>
      <form method="post" action={`/runway/storms/${props.id ?? 'new'}`}>
        <ErrorSummary errors={props.errors} />
        <PlanFormIds {...props} />
        <Row>
          <Field {...field('name')} label="Name" required />
          <MonthField {...field('from')} label="Begins" required />
          <QuantityField {...field('months')} label="Lasts, months" required />
        </Row>
        <fieldset class="group">
          <legend>On the farm</legend>
          <Row>
            <PercentField {...field('salesShare')} label="Sales, percent of the expected" />
            <Select
              {...field('lostMarket')}
              label="Market lost"
              empty="None"
              options={props.markets.map((one) => ({ value: one.id, label: one.name }))}
            />
            <QuantityField
              {...field('hoursLostPerWeek')}
              label="Hours a week lost"
              hint="Made up by hired labour"
            />
            <Select
              {...field('person')}
              label="Whose work is lost"
              empty="No one’s"
              options={props.people.map((one) => ({ value: one.id, label: one.name }))}
            />
            <QuantityField {...field('drawsLateMonths')} label="Draws later by, months" />
          </Row>
        </fieldset>
        <fieldset class="group">
          <legend>In the house and the markets</legend>
          <Row>
            <PercentField {...field('premiumJump')} label="Premiums jump by, percent" hint="They stay up" />
            <PercentField {...field('livingShare')} label="Living costs, percent of the expected" />
            <MoneyField {...field('oneOffCost')} label="Costs once" />
            <PercentField {...field('stockFall')} label="Stocks fall by, percent" />
            <PercentField {...field('bondFall')} label="Bonds fall by, percent" />
          </Row>
        </fieldset>
        <ButtonRow>
          <Button>Save the storm</Button>
          {props.id === null ? null : (
            <Button quiet name="remove" value="yes">
              Take it out of the plan
            </Button>
          )}
          <LinkButton href="/runway#storms" quiet>
            Leave it
          </LinkButton>
        </ButtonRow>
      </form>
    </>
  )
}

const Row = ({ children }: { children: Child }) => <div class="field-row">{children}</div>
