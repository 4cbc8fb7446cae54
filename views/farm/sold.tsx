// What became of all that each line of work raised: a bar of where it sells and what is lost, and what was noted beside it.
import { formatCents, formatDollars } from '#money/format.ts'
import type { FarmFigures, SoldFigures } from '#today/farm/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarAxis } from '../charts/chart-frame.tsx'
import { DataTable } from '../parts/table.tsx'

export const SoldSection = ({ figures }: { figures: FarmFigures }) => {
  const rows = figures.soldWhere.filter((one) => sumOf(one) > 0.5)
  if (rows.length === 0) return null
  const isUndone = rows.some(({ undone }) => undone > 0.5)
  return (
    <section id="sold" aria-labelledby="sold-title">
      <h2 id="sold-title">What becomes of it</h2>
      <BarChart
        id="sold-chart"
        title={`Sold and lost in ${figures.year}`}
        summary={summaryOf(rows)}
        categoryTitle="Enterprise"
        categories={rows.map(({ name }) => name)}
        isStacked
        y={dollarAxis}
        series={[
          { name: 'Sold, auction with it', tone: 1, values: rows.map(soldOf) },
          {
            name: 'Used at home or bartered, as noted in the last twelve months',
            tone: 2,
            values: rows.map(({ noted }) => noted.usedCents / 100),
          },
          { name: 'Grown and not sold', tone: 4, values: rows.map((one) => one.lost) },
          ...(isUndone
            ? [
                {
                  name: 'Not grown: nobody does the work',
                  tone: 3 as const,
                  values: rows.map((one) => one.undone),
                },
              ]
            : []),
        ]}
      />
      <Where rows={rows} figures={figures} />
      <Noted rows={figures.soldWhere} />
    </section>
  )
}

const atAllMarkets = (one: SoldFigures): number => one.atMarkets.reduce((a, b) => a + b, 0)

const soldOf = (one: SoldFigures): number => atAllMarkets(one) + one.withoutMarket + one.atAuction

const sumOf = (one: SoldFigures): number => soldOf(one) + one.lost

const summaryOf = (rows: readonly SoldFigures[]): string => {
  const most = rows.reduce((a, b) => (b.lost > a.lost ? b : a))
  return most.lost > 0.5
    ? `Most is lost of ${most.name}: ${formatDollars(most.lost)} of ${formatDollars(sumOf(most))} find no buyer.`
    : 'All that is grown is sold.'
}

const Where = ({ rows, figures }: { rows: readonly SoldFigures[]; figures: FarmFigures }) => (
  <DataTable<SoldFigures>
    caption={`Where each sells in ${figures.year}`}
    ofPlan
    stack
    csv={`/farm.csv?table=sold&year=${figures.year}`}
    rows={rows}
    columns={[
      { title: 'Enterprise', isHeader: true, cell: ({ name }) => name },
      ...figures.markets.map(({ name }, k) => ({
        title: name,
        isNumber: true,
        cell: (one: SoldFigures) => formatDollars(one.atMarkets[k] ?? 0),
      })),
      { title: 'Without a market', isNumber: true, cell: (one) => formatDollars(one.withoutMarket) },
      { title: 'To auction', isNumber: true, cell: (one) => formatDollars(one.atAuction) },
      { title: 'Not sold', isNumber: true, cell: (one) => formatDollars(one.lost) },
      ...(rows.some(({ undone }) => undone > 0.5)
        ? [{ title: 'Not grown', isNumber: true, cell: (one: SoldFigures) => formatDollars(one.undone) }]
        : []),
    ]}
  />
)

const Noted = ({ rows }: { rows: readonly SoldFigures[] }) => {
  const noted = rows.filter(
    ({ noted: { atMarketsCents, usedCents, unpriced, batches } }) =>
      atMarketsCents > 0 || usedCents > 0 || unpriced > 0 || batches.length > 0,
  )
  return noted.length === 0 ? null : (
    <DataTable<SoldFigures>
      caption="The last twelve months in the notebook"
      stack
      rows={noted}
      columns={[
        { title: 'Enterprise', isHeader: true, cell: ({ name }) => name },
        {
          title: 'Taken at markets, as far as noted by enterprise',
          isNumber: true,
          cell: (one) => formatCents(one.noted.atMarketsCents),
        },
        { title: 'Used at home or bartered', isNumber: true, cell: usedWords },
        { title: 'Batches', cell: batchWords },
      ]}
    />
  )
}

const usedWords = ({ noted: { usedCents, unpriced } }: SoldFigures): string =>
  `${formatCents(usedCents)}${unpriced > 0 ? `, ${unpriced} without a price yet` : ''}`

/** What became of some of them; what became of none is left out. */
const fatesOf = (counts: Readonly<Record<string, number>>): string =>
  Object.entries(counts)
    .filter(([, count]) => count > 0)
    .map(([fate, count]) => `${count} ${fate}`)
    .join(', ')

const batchWords = ({ noted }: SoldFigures): string =>
  noted.batches
    .map(
      ({ unit, raised, sold, used, lost, kept, left, untold }) =>
        `of ${raised} ${unit}: ${fatesOf({ sold, 'used at home or bartered': used, lost, kept, left, 'not known': untold })}`,
    )
    .join('; ') || '–'
