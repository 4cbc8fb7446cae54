// How sure the plan is: the form of a chance run, its progress while it runs, and its outcome as sentences, bands and tables.
import type { Child } from 'hono/jsx'
import { formatCount, formatDollars, formatPercent } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { ErrorSummary } from '../parts/error-summary.tsx'
import { type FieldErrors, RadioGroup } from '../parts/field.tsx'
import { Fold } from '../parts/fold.tsx'
import { refreshes } from '../parts/htmx.ts'
import { Caution } from '../parts/message.tsx'
import { AskedBefore, Running, Stopped } from '../parts/running.tsx'
import { BandCharts } from './bands.tsx'
import { Distributions } from './distributions.tsx'
import { DrawsChoice } from './draws-choice.tsx'
import type { ChanceFigures, ChanceOutcomeFigures } from './figures.ts'

export interface ChanceProps {
  figures: ChanceFigures
  errors: FieldErrors
}

export const ChancePage = (props: ChanceProps) => (
  <>
    <PageTitle
      help="chance"
      purpose="The plan in many simulated futures: investments, prices, seasons, premiums, care, lengths of life."
    >
      How sure
    </PageTitle>
    <Chance {...props} />
    <Caution>
      Past years are one set of scenarios, not a forecast; spreads marked common practice have no source.
    </Caution>
  </>
)

/** Stands on its own page whole and on the Runway page in brief; every answer to its forms replaces it. */
export const Chance = ({ figures, errors, place = 'chance' }: ChanceProps & { place?: ChancePlace }) => (
  <section id={place} class="chance" aria-labelledby="chance-title">
    <h2 id="chance-title">How sure is {figures.planName}?</h2>
    <ErrorSummary errors={errors} title="The simulations were not run. Please fix the following" />
    {figures.before === null ? null : (
      <AskedBefore before={figures.before}>Run the simulations again for what holds now.</AskedBefore>
    )}
    <State figures={figures} place={place} />
    {figures.run.status === 'running' ? null : (
      <AskAgain isFolded={figures.run.status === 'done'} errors={errors}>
        <AskForm figures={figures} errors={errors} place={place} />
      </AskAgain>
    )}
  </section>
)

/** An answer stands alone: its form is a step away until something in it is wrong. */
const AskAgain = ({
  isFolded,
  errors,
  children,
}: {
  isFolded: boolean
  errors: FieldErrors
  children: Child
}) =>
  isFolded ? (
    <details open={Object.keys(errors).length > 0}>
      <summary>Run the simulations again</summary>
      {children}
    </details>
  ) : (
    <>{children}</>
  )

export type ChancePlace = 'chance' | 'chance-brief'

const State = ({ figures, place }: { figures: ChanceFigures; place: ChancePlace }) => {
  const { run } = figures
  switch (run.status) {
    case 'none':
      return (
        <p>
          Runway shows the plan as expected. Run it through many simulated futures to see how often it holds,
          and the range of months left and of the carry month. It takes a few seconds.
        </p>
      )
    case 'running':
      return (
        <Running
          job={run}
          label={`${run.done} of ${run.of} simulations`}
          address="/runway/chance"
          place={place}
        />
      )
    case 'stopped':
      return <Stopped job={run} kept="No result was kept." />
    case 'failed':
      return <p role="alert">{run.says}</p>
    case 'done':
      return (
        <Outcome
          figures={run}
          seconds={run.seconds}
          asked={figures.asked}
          isBrief={place === 'chance-brief'}
          hasTables={figures.before === null}
        />
      )
  }
}

const AskForm = ({ figures, errors, place }: ChanceProps & { place: ChancePlace }) => (
  <form
    method="post"
    action="/runway/chance"
    class="chance-form no-print"
    {...refreshes(place, { post: '/runway/chance' })}
    hx-disable="find button"
  >
    <DrawsChoice choices={figures.choices} errors={errors} mostPaths="20,000" />
    <RadioGroup
      name="from"
      label="Simulations"
      value={figures.choices.from}
      options={[
        { value: 'chance', label: 'by chance', hint: 'as the plan’s chance settings say' },
        {
          value: 'history',
          label: 'history as it happened',
          hint: 'one run from every starting year; only investments and prices differ',
        },
      ]}
    />
    <Button quiet={place === 'chance-brief'}>Run the simulations</Button>
    {figures.premiums === null ? null : <p class="hint">{figures.premiums}</p>}
    {figures.seatsByChance.length === 0 ? null : (
      <p class="hint">
        Of uncertain seats at markets only the first four are drawn. Counted by its chance in every
        simulation: {figures.seatsByChance.join(', ')}. These runs differ less than such seats would.
      </p>
    )}
    <p class="hint">
      What varies, and by how much: <a href="/runway/plan/chance">the plan’s chance settings</a>.
    </p>
  </form>
)

/** Below zero no account is: what can be spent is less than the tax that is owed by then. */
const lowestWords = (lowest: number, orMore: string): string =>
  lowest < -0.5
    ? `fall ${formatDollars(-lowest)}${orMore} short of the tax owed by then, which is not due yet`
    : `are lowest at ${formatDollars(lowest)}${orMore === '' ? '' : ' or less'}`

interface OutcomeProps {
  figures: ChanceOutcomeFigures
  seconds: number
  /** Of what it was asked, where that has not changed since. */
  asked: string | null
  isBrief: boolean
  /** Of the plan as it was there are none. */
  hasTables: boolean
}

const Outcome = ({ figures, seconds, asked, isBrief, hasTables }: OutcomeProps) => {
  const { outcome } = figures
  const percent = (share: number) => formatPercent(share, 1)
  return (
    <>
      <p role="status" class={isBrief ? undefined : 'answer'}>
        The household never goes short in <strong>{percent(outcome.held.share)}</strong> of{' '}
        {formatCount(outcome.paths)} simulations.
      </p>
      {isBrief ? (
        <Fold name="Savings in these simulations" holds={`${formatCount(outcome.paths)} runs`}>
          <BandCharts figures={figures} isBrief />
        </Fold>
      ) : (
        <BandCharts figures={figures} isBrief={false} />
      )}
      <p>
        Savings never fall below the floor in {percent(outcome.aboveFloor.share)} of them. In the middle run
        they {lowestWords(outcome.lowestSavings.p50, '')}. One time in ten they{' '}
        {lowestWords(outcome.lowestSavings.p10, ' or more')}
        {outcome.unmetNeed.p90 > 0.5
          ? `, and ${formatDollars(outcome.unmetNeed.p90)} or more of costs stay unmet`
          : ''}
        .
        {isBrief ? (
          <>
            {' '}
            <a href="/runway/chance">When the farm carries, when the floor is crossed, percentiles</a>
          </>
        ) : null}
      </p>
      {isBrief ? null : figures.worst.map((sentence) => <p>{sentence}</p>)}
      <p class="hint">
        {asked === null ? '' : `${asked} `}Another seed would say between {percent(outcome.held.low)} and{' '}
        {percent(outcome.held.high)} (standard error {percent(outcome.held.standardError)}).
      </p>
      {isBrief ? null : (
        <>
          <Distributions figures={figures} />
          <p class="hint">
            Seed {outcome.seed}, worked out in {seconds.toFixed(1)} seconds.{' '}
            <a href="/runway/chance.json">As JSON</a>
            {hasTables ? (
              <>
                , <a href="/runway/chance.csv?table=bands">bands as CSV</a>,{' '}
                <a href="/runway/chance.csv?table=years">carry and floor years as CSV</a>
              </>
            ) : null}
            .
          </p>
        </>
      )}
    </>
  )
}
