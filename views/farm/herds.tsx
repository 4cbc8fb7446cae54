// A herd's or flock's build-up, what it has taken and given, when it has paid itself back, and how its culls are taxed.

import { dayName } from '#calendar/day.ts'
import { nameOfMonth } from '#calendar/month.ts'
import { spell } from '#calendar/spell.ts'
import { headsSay } from '#farm/herd/heads-say.ts'
import { isBird } from '#farm/herd/herd-document.ts'
import { lessKill } from '#farm/herd/meat.ts'
import { headWords, inSpecies, speciesWords } from '#farm/herd/species-words.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { FarmFigures, HerdFigures, PaybackFigures, StockTax } from '#today/farm/figures.ts'
import { dollarAxis } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { LinkButton } from '../parts/button.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'

export const HerdSection = ({ figures }: { figures: FarmFigures }) => (
  <section id="herds" aria-label="Herds and flocks">
    {figures.herds.map((herd) => (
      <Herd herd={herd} />
    ))}
    {figures.herds.length === 0 ? <p>The plan has no stock.</p> : null}
    <p class="no-print">
      <LinkButton href="/farm/herds/new" quiet small>
        Add a herd or flock
      </LinkButton>
    </p>
  </section>
)

const Herd = ({ herd }: { herd: HerdFigures }) => (
  <div class="herd">
    <h2>
      <a href={`/farm/herds/${herd.id}`}>{herd.name}</a>
    </h2>
    {herd.payback ? <PaybackFiguresRow back={herd.payback} kind={herd.kind} /> : null}
    <NotedWords herd={herd} />
    <WaitingWords herd={herd} />
    <div class="columns">
      <LineChart
        id={`herd-${herd.id}`}
        title={inSpecies('Breeding females at each year’s end', herd.kind)}
        summary={grows(herd)}
        x={{ title: 'Year', format: String }}
        y={{
          unit: 'animals',
          format: (heads) => String(Math.round(heads * 10) / 10),
          formatShort: (heads) => String(Math.round(heads)),
        }}
        series={[
          {
            name: inSpecies('Breeding females', herd.kind),
            tone: 1,
            points: herd.years.map((one) => ({ x: one.year, y: one.breedingFemales })),
          },
          {
            name: inSpecies('Young sold in the year', herd.kind),
            tone: 4,
            points: herd.years.map((one) => ({ x: one.year, y: one.sold })),
          },
        ]}
      />
      {herd.payback ? <RunningSum back={herd.payback} id={herd.id} /> : null}
    </div>
    <YearByYear herd={herd} />
    <details>
      <summary>How its breeding stock is taxed when it is sold</summary>
      <TaxLine who="One raised here" tax={herd.tax.raised} />
      <TaxLine who="One bought and written off" tax={herd.tax.bought} />
    </details>
  </div>
)

const YearByYear = ({ herd }: { herd: HerdFigures }) => (
  <details>
    <summary>Year by year</summary>
    <DataTable
      caption="Year by year"
      ofPlan
      csv="/farm.csv?table=herds"
      rows={herd.years}
      columns={[
        { title: 'Year', isHeader: true, cell: (one) => String(one.year) },
        {
          title: inSpecies('Breeding females', herd.kind),
          isNumber: true,
          cell: (one) => heads(one.breedingFemales),
        },
        {
          title: inSpecies('Young females kept to breed', herd.kind),
          isNumber: true,
          cell: (one) => heads(one.kept),
        },
        {
          title: inSpecies('Young for sale', herd.kind),
          isNumber: true,
          cell: (one) => heads(one.forSale),
        },
        { title: inSpecies('Young sold', herd.kind), isNumber: true, cell: (one) => heads(one.sold) },
        { title: 'Culled', isNumber: true, cell: (one) => heads(one.culled) },
        { title: 'Sales', isNumber: true, cell: (one) => formatDollars(one.sales) },
        { title: 'Feed, care, stock', isNumber: true, cell: (one) => formatDollars(one.costs) },
        { title: 'Stock is worth', isNumber: true, cell: (one) => formatDollars(one.stockCapital) },
        { title: 'Hours', isNumber: true, cell: (one) => String(Math.round(one.hours)) },
        { title: 'Most waiting', isNumber: true, cell: (one) => heads(one.waiting) },
        { title: 'In the freezer, pounds', isNumber: true, cell: (one) => String(Math.round(one.freezer)) },
        { title: 'To auction', isNumber: true, cell: (one) => heads(one.atAuction) },
      ]}
    />
    {herd.isMeat ? <p class="hint">{meatSales}</p> : null}
  </details>
)

const meatSales = `In sales, wholes, halves and quarters stand ${lessKill}. Cuts stand at their price, and their kill and cutting in the costs.`

/** A count of today stands here at once; in the years below it is from the month that the plan goes on in. */
const NotedWords = ({ herd: { noted, joinNext, kind } }: { herd: HerdFigures }) => (
  <>
    {noted ? (
      <p>
        By the notebook: {headsSay(kind, noted.heads)}
        {noted.countedOn ? `, last counted on ${dayName(noted.countedOn)}` : ', never counted'}.{' '}
        {noted.plansFrom !== null
          ? `The years below begin in ${nameOfMonth(noted.plansFrom)}, where the books end, with the plan’s own numbers: they take the count over once the books reach it.`
          : noted.isOfPlan
            ? 'The years below go on from them.'
            : inSpecies(
                'The years below go on from the plan’s own numbers until the breeding females are counted.',
                kind,
              )}
      </p>
    ) : null}
    {joinNext ? (
      <p>
        Next to join the {kind === 'sheep' || isBird(kind) ? 'flock' : 'herd'} by the plan, in{' '}
        {nameOfMonth(joinNext.month)}: {heads(joinNext.heads)}{' '}
        {headWords('kept', [kind], joinNext.heads === 1 ? 1 : 2)} kept to breed.
      </p>
    ) : null}
  </>
)

/** What found no market, said where it happens for the first time. */
const WaitingWords = ({ herd }: { herd: HerdFigures }) => {
  const first = herd.years.find((one) => one.waiting > 0.05 || one.atAuction > 0.05)
  if (!first) return null
  return (
    <p>
      In {String(first.year)} its markets do not take all that is ready: up to {heads(first.waiting)}{' '}
      {speciesWords[herd.kind].sold[1]} wait at their cost
      {first.atAuction > 0.05
        ? `, and ${heads(first.atAuction)} go to auction at ${formatDollars(first.auctionSales / first.atAuction)} each`
        : ''}
      .
    </p>
  )
}

const heads = (value: number) => String(Math.round(value * 10) / 10)

const grows = (herd: HerdFigures): string => {
  const most = herd.years.reduce((a, b) => (b.breedingFemales > a.breedingFemales ? b : a), herd.years[0]!)
  const [first, then] = [herd.years[0]!, heads(most.breedingFemales)]
  return heads(first.breedingFemales) === then
    ? `${then} at the end of ${first.year}, and no more in any later year.`
    : `From ${heads(first.breedingFemales)} at the end of ${first.year} to ${then} in ${most.year}.`
}

const paidBackWords = ({ isPutIn, paidBack }: PaybackFigures): string => {
  if (!isPutIn) return 'Nothing was put in'
  return paidBack ? nameOfMonth(paidBack) : 'Not within 30 years'
}

const afterWords = ({ isPutIn, monthsToPayBack }: PaybackFigures): string => {
  if (!isPutIn) return 'By this plan it pays its own way from the first month: no money has to come back'
  return monthsToPayBack
    ? `${spell(monthsToPayBack)} after the first money went in`
    : 'The money that went in does not come back by itself'
}

/** Of what was put in: heads that were there before are in it at what they would have cost. */
const returnWords = ({ isPutIn, yearlyReturn }: PaybackFigures): string => {
  if (!isPutIn) return 'Nothing was put in'
  if (yearlyReturn === null) return 'None'
  return yearlyReturn > 1 ? 'Over 100%' : formatPercent(yearlyReturn, 1)
}

const deepestWords = (back: PaybackFigures): string =>
  back.isPutIn ? `${formatDollars(back.deepest)} in ${nameOfMonth(back.deepestMonth)}` : 'Never below zero'

const runningWords = (back: PaybackFigures): string => {
  if (!back.isPutIn) return 'Never below zero: nothing was put in.'
  const after = back.paidBack
    ? `back above zero for good in ${nameOfMonth(back.paidBack)}`
    : 'not back within the years looked at'
  return `Deepest at ${deepestWords(back)}; ${after}.`
}

const PaybackFiguresRow = ({ back, kind }: { back: PaybackFigures; kind: HerdFigures['kind'] }) => (
  <Figures>
    <Figure
      label="Paid back"
      value={paidBackWords(back)}
      note={afterWords(back)}
      madeOf={{
        says: inSpecies(
          'All money in is compared with all money out, month by month, from the first purchase. Money in is stock, feed and care, and the fence, buildings and tools bought for it. The herd is paid back from the month in which the sum stays above zero. Prices are today’s. Your own hours are not paid in it. Stock that was yours already counts at what it would have cost. What the herd itself is worth stands apart. As common practice goes (no source), a breeding herd begun small takes about seven years or more.',
          kind,
        ),
        rows: [
          { label: 'Counted from', value: nameOfMonth(back.firstMonth) },
          { label: 'Deepest point', value: deepestWords(back) },
          {
            label: 'Hours it takes in the years looked at',
            value: Math.round(back.hours).toLocaleString('en-US'),
          },
        ],
      }}
    />
    <Figure
      label="Most money tied up"
      value={back.isPutIn ? formatDollars(-back.deepest) : 'None'}
      note={back.isPutIn ? nameOfMonth(back.deepestMonth) : 'The running sum is never below zero'}
    />
    <Figure
      label={inSpecies('The herd itself is worth', kind)}
      value={formatDollars(back.stockWorth)}
      note={`At what such stock costs, ${nameOfMonth(back.stockWorthMonth)}; not counted in the money above`}
    />
    <Figure
      label="Yearly return"
      value={returnWords(back)}
      note={`${back.isPutIn ? `On the ${formatDollars(-back.deepest)} put in, stock that was yours before with it. ` : ''}Worth ${formatDollars(back.presentWorth)} today at 4% a year, stock and equipment at the end counted. Your own hours are not paid in it`}
    />
  </Figures>
)

const RunningSum = ({ back, id }: { back: PaybackFigures; id: string }) => (
  <LineChart
    id={`payback-${id}`}
    title="Money in and out, running sum"
    summary={runningWords(back)}
    x="month"
    y={dollarAxis}
    dollars={back.dollars}
    series={[
      {
        name: 'Running sum',
        tone: 1,
        points: back.running.slice(0, 18).map((one) => ({ x: one.month, y: one.dollars })),
      },
    ]}
    marks={back.isPutIn ? [{ atY: 0, says: 'paid back' }] : []}
  />
)

const TaxLine = ({ who, tax }: { who: string; tax: StockTax }) => (
  <p>
    {who}, sold as a cull, brings a gain of {formatDollars(tax.gain)}. Of it {formatDollars(tax.section1231)}{' '}
    is section 1231 gain and {formatDollars(tax.ordinary)} ordinary income.{' '}
    {formatDollars(tax.selfEmploymentIncome)} bears self-employment tax ({tax.form.replaceAll('-', ' ')}).{' '}
    <cite class="source">Source: {tax.source}</cite>
  </p>
)
