// What each storm does to the plan, and those that are still to come.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { StormLine } from '#today/runway/figures.ts'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { MadeOfDetails } from '../parts/figure.tsx'
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

export const StormsPage = (props: { storms: readonly StormLine[]; query: string }) => (
  <>
    <PageTitle purpose="What a bad year would do to this course.">Runway: storms</PageTitle>
    <p>
      <a href={`/runway${props.query === '' ? '' : `?${props.query}`}`}>Back to the course</a>
    </p>
    <Storms {...props} />
  </>
)

export const Storms = ({ storms, query }: { storms: readonly StormLine[]; query: string }) => (
  <section id="storms" aria-labelledby="storms-title">
    <h2 id="storms-title">Storms</h2>
    <p class="hint">
      Named bad years that the plan must survive. Each is run by itself over the same months; the usual ones
      begin in the month of the next two years in which they hurt most. Spendable savings are less the tax
      owed so far and can fall below zero while retirement accounts still pay; money runs short from the month
      in which nothing pays any more, and what is then missing stands apart as unmet costs.
    </p>
    <StormTable storms={storms} query={query} />
    <p class="no-print">
      <LinkButton href="/runway/storms/new" quiet small>
        Add a storm of your own
      </LinkButton>
    </p>
  </section>
)

const StormTable = ({ storms, query }: { storms: readonly StormLine[]; query: string }) => (
  <DataTable
    caption="What each storm does"
    hideCaption
    stack
    ofPlan
    rows={storms}
    csv={`/runway/storms.csv${query === '' ? '' : `?${query}`}`}
    columns={[
      {
        title: 'Storm',
        isHeader: true,
        cell: (storm) => (
          <>
            {storm.name}
            <span class="hint below">{`begins ${nameOfMonth(storm.from)}`}</span>
            <MadeOf storm={storm} />
          </>
        ),
      },
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
        cell: (storm) =>
          storm.runsShort === null ? (
            'never'
          ) : (
            <>
              {nameOfMonth(storm.runsShort)}
              <span class="hint below">{`${formatDollars(storm.unmetNeed)} of costs unmet`}</span>
            </>
          ),
      },
      {
        title: '',
        cell: (storm) =>
          storm.own ? <a href={`/runway/storms/${storm.id}`}>Change</a> : <span class="hint">usual</span>,
      },
    ]}
  />
)

/** The reason at once where one is due; else the parts behind a fold. */
const MadeOf = ({ storm }: { storm: StormLine }) => (
  <>
    {storm.says === null ? null : <span class="below">{storm.says}</span>}
    {storm.changes.length === 0 ? null : (
      <MadeOfDetails
        of={storm.name}
        says="What differs from the plan over the ten years after it begins, as the run counts it: what it does by itself, and what follows from that."
        rows={storm.changes.map(({ name, dollars }) => ({
          label: name,
          value: `${formatDollars(Math.abs(dollars))} ${dollars < 0 ? 'less' : 'more'}`,
        }))}
      />
    )}
  </>
)
