// Markets with what they take and cost, and the in-step check of stock, places, land, feed, markets and hours by season.
import { nameOfMonth } from '#calendar/month.ts'
import { spell } from '#calendar/spell.ts'
import { usualGrowthYears } from '#farm/selling/market-months.ts'
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import type { FarmFigures, MarketFigures } from '#today/farm/figures.ts'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'
import { NewMarket } from './new-market.tsx'
import { UnsoldMarkets } from './unsold-markets.tsx'

export const MarketSection = ({ figures, formId }: { figures: FarmFigures; formId: string }) => (
  <section id="markets" aria-label="Markets">
    <UnsoldMarkets figures={figures} />
    {figures.markets.length === 0 ? (
      <p>The plan has no market: everything is sold without one, and no capacity limits it.</p>
    ) : (
      <DataTable<MarketFigures>
        caption={`Markets in ${figures.year}`}
        ofPlan
        csv={`/farm.csv?table=markets&year=${figures.year}`}
        stack
        rows={figures.markets}
        columns={[
          {
            title: 'Market',
            isHeader: true,
            cell: (one) => <a href={`/farm/markets/${one.id}`}>{one.name}</a>,
          },
          { title: 'Trips', isNumber: true, cell: (one) => String(Math.round(one.trips)) },
          { title: 'Capacity', isNumber: true, cell: (one) => formatDollars(one.capacity) },
          { title: 'Sells', isNumber: true, cell: (one) => formatDollars(one.sold) },
          {
            title: 'Used',
            isNumber: true,
            cell: (one) => (one.capacity > 0 ? formatPercent(one.sold / one.capacity, 0) : '–'),
          },
          { title: 'Fees and miles', isNumber: true, cell: (one) => formatDollars(one.costs) },
          { title: 'Hours', isNumber: true, cell: (one) => String(Math.round(one.hours)) },
          {
            title: 'Sales less fees and miles, per hour at market',
            isNumber: true,
            cell: (one) => (one.perHour === null ? '–' : formatDollarsAndCents(one.perHour)),
          },
          {
            title: 'Net lost, if dropped',
            isNumber: true,
            cell: (one) => formatDollars(one.netLostIfDropped),
          },
        ]}
      />
    )}
    <Assumes markets={figures.markets} />
    <NewMarket ids={{ formId, planId: figures.planId, basedOn: figures.revisionNo }} />
    <p class="no-print">
      <a href="/farm/markets/new">Add one with all its fields</a>
    </p>
  </section>
)

/** What the table takes for granted of customers, seats and dropped markets. */
const Assumes = ({ markets }: Pick<FarmFigures, 'markets'>) => {
  const said = markets.flatMap(assumptionsOf)
  return said.length === 0 ? null : (
    <details>
      <summary>What this assumes of customers</summary>
      <ul>
        {said.map((words) => (
          <li>{words}</li>
        ))}
        <li>
          Net lost, if dropped: sales that no other market makes up, less the fees, miles and paid hours that
          end with it. The hours beside it are yours again. Below zero, dropping it brings money.
        </li>
      </ul>
    </details>
  )
}

const assumptionsOf = ({
  name,
  followShare,
  growth,
  seat,
  seatIsByChance,
  thenSoldElsewhere,
}: MarketFigures): string[] => [
  ...(growth ? [`${name}: ${growthWords(growth)}`] : []),
  ...(seat
    ? [
        `${name}: a seat from ${nameOfMonth(seat.from)} with a chance of ${formatPercent(seat.chance, 0)}, so that the plan counts that part of its sales, costs and hours from then on, and nothing before. ${
          seatIsByChance
            ? 'Simulations do so too: they draw only the first four uncertain seats, in the order of the markets.'
            : 'In simulations it is had in so many of them, or not at all.'
        }`,
      ]
    : []),
  (followShare > 0
    ? `${name}: if it is dropped, customers of ${formatPercent(followShare, 0)} of what it sold buy at the markets that stay, by what each of those can take. One that runs fewer trips takes that much less of them, and what it has no goods for is lost.`
    : `${name}: if it is dropped, none of its customers buy at another market.`) +
    elsewhere(thenSoldElsewhere, followShare > 0),
]

/** Compounded month by month: what it comes to in the end is not the years times the rate. */
const growthWords = ({
  from,
  perYear,
  years = usualGrowthYears,
}: NonNullable<MarketFigures['growth']>): string => {
  const rate = formatPercent(Math.abs(perYear), 0)
  const times = Math.round((1 + perYear) ** years * 100) / 100
  return `from ${nameOfMonth(from)} a trip sells ${rate} ${perYear < 0 ? 'less' : 'more'} each year for ${spell(Math.round(years * 12))}, on top of prices. It ${perYear < 0 ? 'falls' : 'rises'} a little each month, each year on the one before: after that time a trip sells ${times} times what it sold at first.`
}

/** Goods left over fill room that other markets have and cannot fill now, whoever comes. */
const elsewhere = (dollars: number, hasFollowers: boolean): string =>
  dollars < 0.5
    ? ''
    : ` The markets that stay then sell ${formatDollars(dollars)} more, ${hasFollowers ? 'to those customers and in' : 'in'} room that they have and lack the goods for: so much of what it sold is not lost.`

export const StepSection = ({ figures }: { figures: FarmFigures }) => {
  const out = figures.inStep.filter((one) => one.isOut)
  return (
    <section id="in-step" aria-labelledby="in-step-title">
      <h2 id="in-step-title">Season by season</h2>
      {out.length === 0 ? (
        <p>Stock, markets, land, feed and hours fit together in every season of {figures.year}.</p>
      ) : (
        <ul>
          {out.map((one) => (
            <li>{one.says}.</li>
          ))}
        </ul>
      )}
      <Fold
        name={`In figures, season by season of ${figures.year}`}
        holds={`${figures.inStep.length} measures`}
      >
        <DataTable
          caption={`Needed against what there is, by season of ${figures.year}`}
          ofPlan
          csv={`/farm.csv?table=in-step&year=${figures.year}`}
          stack
          rows={figures.inStep}
          columns={[
            { title: 'Measure', isHeader: true, cell: (one) => one.name },
            { title: 'In', cell: (one) => one.unit },
            ...([0, 1, 2, 3] as const).map((s) => ({
              title: capital(figures.inStep[0]?.seasons[s]?.season ?? ''),
              isNumber: true,
              cell: (one: FarmFigures['inStep'][number]) => {
                const season = one.seasons[s]!
                const told = one.unit === 'dollars' ? wholeDollars : whole
                const words = `${told(season.needed)} of ${told(season.room)}`
                return season.over > 0.005 * Math.max(1, season.room) ? (
                  <strong>{`${words}, short by ${told(season.over)}`}</strong>
                ) : (
                  words
                )
              },
            })),
          ]}
        />
      </Fold>
    </section>
  )
}

/** The column says that it is dollars. */
const wholeDollars = (value: number) => Math.round(value).toLocaleString('en-US')

const capital = (word: string) => word.replace(/^./, (letter) => letter.toUpperCase())

const whole = (value: number) =>
  Number.isFinite(value)
    ? Math.abs(value) >= 100
      ? Math.round(value).toLocaleString('en-US')
      : String(Math.round(value * 10) / 10)
    : 'no limit'
