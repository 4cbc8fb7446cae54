// Where the household lives: the county's benchmark premium year by year beside the growth assumed, and the limits of the state's programs.
import { formatDollars, formatPercent } from '#money/format.ts'
import type { PlaceFigures } from '#today/cover/figures.ts'
import { LineChart } from '../charts/line-chart.tsx'
import { LinkButton } from '../parts/button.tsx'
import { DataTable } from '../parts/table.tsx'

export const PlaceOfCover = ({ place }: { place: PlaceFigures | null }) => (
  <section aria-labelledby="place-title">
    <h2 id="place-title" class="hidden-text">
      Where you live
    </h2>
    {place === null ? (
      <p>
        No state is chosen. With state and county you see your county’s premiums and the limits of your
        state’s programs here. <a href="/settings/people">Choose them</a>
      </p>
    ) : (
      <Place place={place} />
    )}
  </section>
)

const Place = ({ place }: { place: PlaceFigures }) => (
  <>
    {place.history.length > 1 && place.historyGrowth !== null ? (
      <p class="answer">
        A benchmark plan where you live cost{' '}
        <strong>{formatPercent(place.historyGrowth, 1)} more each year</strong>, {place.history[0]!.year} to{' '}
        {place.history.at(-1)!.year}.
      </p>
    ) : null}
    <p>
      {place.name}
      {place.ratingArea === null
        ? '. Choose the county for its premiums.'
        : `, rating area ${place.ratingArea}.`}{' '}
      {place.premiumsTyped ? 'The plan uses the premiums you typed.' : ''}{' '}
      <a href="/settings/people">Change state or county</a>
    </p>
    {place.history.length > 1 ? <History place={place} /> : null}
    {place.ratingArea !== null && place.history.length === 0 ? (
      <p>
        No premium of this rating area is in the published table.{' '}
        <a href="/cover/marketplace">Enter what your marketplace shows</a>
      </p>
    ) : null}
    <DataTable
      caption={`Income limits of your state’s programs, January 1, ${place.year}`}
      rows={place.limits}
      stack
      columns={[
        { title: 'Who', isHeader: true, cell: (one) => one.who },
        {
          title: 'Percent of the federal poverty level (FPL)',
          isNumber: true,
          cell: (one) => `${one.percent}%`,
        },
        { title: 'Known from', cell: (one) => (one.typed ? 'typed by you' : 'the published table') },
      ]}
    />
    {place.basicLevel === null ? null : <BasicLevel level={place.basicLevel} year={place.year} />}
    <p class="figure-note">
      <cite>{place.sources.limits}.</cite>
    </p>
    <LinkButton quiet href="/runway/plan/health">
      Type other limits or premiums
    </LinkButton>
  </>
)

const BasicLevel = ({ level, year }: { level: NonNullable<PlaceFigures['basicLevel']>; year: number }) => (
  <>
    <p>
      The basic health program goes by the FPL of {level.ofYearBefore ? year - 1 : year}
      {level.checked ? '.' : ' here. That was not checked: ask the program.'}
    </p>
    <p class="figure-note">
      <cite>{level.source}.</cite>
    </p>
  </>
)

const History = ({ place }: { place: PlaceFigures }) => {
  const [first, last] = [place.history[0]!, place.history.at(-1)!]
  return (
    <>
      <LineChart
        id="county-premiums"
        dollars={{ of: 'published' }}
        title={`Benchmark plan of the rating area at age ${place.age}, a month`}
        summary={`From ${formatDollars(first.monthly)} in ${first.year} to ${formatDollars(last.monthly)} in ${last.year}.`}
        series={[
          {
            name: 'Benchmark plan',
            tone: 1,
            points: place.history.map((one) => ({ x: one.year, y: one.monthly })),
          },
        ]}
        x={{ title: 'Year', format: String }}
        y={{ format: formatDollars, formatShort: formatDollars }}
        tableEvery={1}
      />
      <p>
        The plan assumes {formatPercent(place.growth.rate, 1)} a year
        {place.growth.until === null ? ', for the whole plan' : `, to ${place.growth.until}, then as prices`}.
        Our reading of published projections is {formatPercent(place.suggested, 1)}.{' '}
        <a href="/runway/plan/assumptions">Change the growth</a>
      </p>
      {place.bronze ? (
        <p>
          The lowest-cost bronze plan is {formatDollars(place.bronze.monthly)} a month at {place.age} in{' '}
          {place.bronze.year}
          {place.bronze.isDearer
            ? ', by the published tables more than the benchmark plan, a silver one. Compare what your marketplace shows.'
            : '.'}
        </p>
      ) : null}
      <p class="figure-note">
        <cite>
          {place.sources.premiums} Growth: {place.growthSource}.
        </cite>
      </p>
    </>
  )
}
