// What each storm does to the plan, and those that are still to come.

import { nameOfMonth } from '#calendar/month.ts'
import { longSpell } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { StormLine } from '#today/runway/figures.ts'
import { DotScale } from '../charts/dot-scale.tsx'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { MadeOfDetails } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'
import { withQuery } from '../parts/with-query.ts'
import { WithLevers } from './levers.tsx'

/** Takes the place of the bad years beside a course just run (htmx: out of band), and fetches them as soon as it stands there. */
export const StormsToCome = ({ query }: { query: string }) => (
  <section
    id="storms"
    hx-swap-oob="true"
    hx-get={`/runway/storms?${query}`}
    hx-trigger="load"
    hx-swap="outerHTML"
  >
    <h2>Bad years</h2>
    <p>
      <a href={`/runway/storms?${query}`}>Run the bad years</a>
    </p>
  </section>
)

interface StormsProps {
  storms: readonly StormLine[]
  /** As planned; null: to the end. */
  monthsLeft: number | null
  query: string
}

export const StormsPage = (props: StormsProps) => (
  <>
    <PageTitle purpose="What the plan must survive: each by itself over the same months, the hardest first.">
      Bad years
    </PageTitle>
    <p class="answer">{hardestInWords(props.storms)}</p>
    <StormScale {...props} />
    <WithLevers query={props.query} />
    <StormDetails {...props} />
  </>
)

const hardestInWords = (storms: readonly StormLine[]): string => {
  const hardest = hardestFirst(storms)[0]
  return hardest === undefined || hardest.monthsLeft === null
    ? 'Savings last to the end of the plan in each of them.'
    : `In the hardest, “${hardest.name}”, savings last ${longSpell(hardest.monthsLeft)}.`
}

/** On Runway: the picture, and the way to what each is made of. */
export const Storms = (props: StormsProps) => (
  <section id="storms" aria-labelledby="storms-title">
    <h2 id="storms-title">Bad years</h2>
    <StormScale {...props} />
    <NoWorse {...props} />
    <p>
      <a href={withQuery('/runway/storms', props.query)}>
        What each bad year is made of, and one of your own
      </a>
    </p>
  </section>
)

/** In a list by months left, one that takes none of them asks for its reason. */
const NoWorse = ({ storms, monthsLeft }: StormsProps) => {
  const left = (months: number | null) => months ?? Number.POSITIVE_INFINITY
  const rows = hardestFirst(storms).filter(
    (storm) => left(storm.monthsLeft) >= left(monthsLeft) && (storm.says !== null || storm.lacks !== null),
  )
  return rows.length === 0 ? null : (
    <details>
      <summary>Why {rows.length === 1 ? 'one is' : `${rows.length} are`} no worse than the plan</summary>
      <ul>
        {rows.map((storm) => (
          <li>
            {storm.name}: <Reason storm={storm} />
          </li>
        ))}
      </ul>
    </details>
  )
}

const Reason = ({ storm: { says, lacks } }: { storm: StormLine }) => (
  <>
    {says}{' '}
    {lacks === null ? null : (
      <>
        {lacks.says} <a href={lacks.href}>{lacks.asks}</a>
      </>
    )}
  </>
)

const hardestFirst = (storms: readonly StormLine[]): StormLine[] =>
  storms.toSorted(
    (one, other) =>
      (one.monthsLeft ?? Number.POSITIVE_INFINITY) - (other.monthsLeft ?? Number.POSITIVE_INFINITY) ||
      one.lowestSpendable - other.lowestSpendable,
  )

const leftWords = (months: number | null): string => (months === null ? 'to the end' : longSpell(months))

const StormScale = ({ storms, monthsLeft }: StormsProps) => {
  const rows = hardestFirst(storms)
  const short = rows.filter((storm) => storm.monthsLeft !== null)
  const hardest = short[0]
  return (
    <DotScale
      id="storm-scale"
      title="Months of savings left in each bad year"
      summary={
        hardest
          ? `The hardest is “${hardest.name}”: ${leftWords(hardest.monthsLeft)}. In ${short.length} of ${rows.length} savings fall below the floor; as planned they last ${monthsLeft === null ? 'to the end of the plan' : leftWords(monthsLeft)}.`
          : `In none of these ${rows.length} do savings fall below the floor before the plan ends.`
      }
      rows={rows.map((storm) => ({
        name: storm.name,
        months: storm.monthsLeft,
        says: leftWords(storm.monthsLeft),
      }))}
      reference={
        monthsLeft === null ? null : { months: monthsLeft, says: `as planned: ${leftWords(monthsLeft)}` }
      }
      table={
        <DataTable
          caption="Months of savings left in each bad year"
          rows={rows}
          columns={[
            { title: 'Bad year', isHeader: true, cell: (storm) => storm.name },
            { title: 'Months left', isNumber: true, cell: (storm) => leftWords(storm.monthsLeft) },
          ]}
        />
      }
    />
  )
}

const StormDetails = ({ storms, query }: StormsProps) => (
  <section aria-labelledby="storms-title">
    <h2 id="storms-title">What each is made of</h2>
    <p class="hint">
      The built-in ones begin in the month of the next two years in which they hurt most. Spendable savings
      are shown after the tax owed so far; below zero, retirement accounts pay. Money runs short from the
      first month in which nothing is left to pay with; what is then missing stands apart as unmet costs.
    </p>
    <StormTable storms={hardestFirst(storms)} query={query} />
    <p class="no-print">
      <LinkButton href="/runway/storms/new" quiet small>
        Add a bad year of your own
      </LinkButton>
    </p>
  </section>
)

const StormTable = ({ storms, query }: Pick<StormsProps, 'storms' | 'query'>) => (
  <DataTable
    caption="What each bad year does"
    hideCaption
    stack
    ofPlan
    rows={storms}
    csv={withQuery('/runway/storms.csv', query)}
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
    {storm.lacks === null ? null : (
      <span class="below">
        {storm.lacks.says} <a href={storm.lacks.href}>{storm.lacks.asks}</a>
      </span>
    )}
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
