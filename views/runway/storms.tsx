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
    <h2>Bad years</h2>
    <p>
      <a href={`/runway/storms?${query}`}>Run the bad years</a>
    </p>
  </section>
)

export const StormsPage = (props: { storms: readonly StormLine[]; query: string }) => (
  <>
    <PageTitle purpose="What each would do to the plan.">Runway: bad years</PageTitle>
    <p>
      <a href={`/runway${props.query === '' ? '' : `?${props.query}`}`}>Back to the projection</a>
    </p>
    <Storms {...props} />
  </>
)

export const Storms = ({ storms, query }: { storms: readonly StormLine[]; query: string }) => (
  <section id="storms" aria-labelledby="storms-title">
    <h2 id="storms-title">Bad years</h2>
    <p class="hint">
      Each is run by itself over the same months. The built-in ones begin in the month of the next two years
      in which they hurt most. Spendable savings are shown after the tax owed so far; below zero, retirement
      accounts pay. Money runs short from the first month in which nothing is left to pay with; what is then
      missing stands apart as unmet costs.
    </p>
    <StormTable storms={storms} query={query} />
    <p class="no-print">
      <LinkButton href="/runway/storms/new" quiet small>
        Add a bad year of your own
      </LinkButton>
    </p>
  </section>
)

const StormTable = ({ storms, query }: { storms: readonly StormLine[]; query: string }) => (
  <DataTable
    caption="What each bad year does"
    hideCaption
    stack
    ofPlan
    rows={storms}
    csv={`/runway/storms.csv${query === '' ? '' : `?${query}`}`}
    columns={[
      {
        title: 'Bad year',
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
          storm.own ? <a href={`/runway/storms/${storm.id}`}>Change</a> : <span class="hint">built in</span>,
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
