// The bands of spendable savings by month: the first years near, the whole plan behind a fold.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import type { BandPoint, ChanceOutcomeFigures } from './figures.ts'

const nearMonths = 180

export const BandCharts = ({ figures, isBrief }: { figures: ChanceOutcomeFigures; isBrief: boolean }) => (
  <>
    <Bands
      id="chance-bands"
      title="Spendable savings, as far as chance spreads them"
      figures={figures}
      points={figures.bands.slice(0, nearMonths)}
      every={12}
    />
    {figures.bands.length > nearMonths && !isBrief ? (
      <details>
        <summary>The bands to the end of the plan</summary>
        <Bands
          id="chance-bands-whole"
          title="Spendable savings to the end of the plan"
          figures={figures}
          points={figures.bands.filter((_, place) => place % 6 === 0)}
          every={4}
        />
      </details>
    ) : null}
  </>
)

interface BandsProps {
  id: string
  title: string
  figures: ChanceOutcomeFigures
  points: readonly BandPoint[]
  every: number
}

const Bands = ({ id, title, figures, points, every }: BandsProps) => {
  const last = points.at(-1)
  if (last === undefined || points.length < 2) return null
  const { firstMonth, expected } = figures
  return (
    <LineChart
      id={id}
      title={title}
      summary={`In ${monthName(last.month as Month)}, among the ${last.running} runs that still go on, ${hadThen(last)}.`}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        {
          name: 'Middle run',
          tone: 1,
          points: points.map((point) => ({ x: point.month, y: point.p50 })),
          band: {
            name: 'Eight of ten runs',
            points: points.map((point) => ({ x: point.month, low: point.p10, high: point.p90 })),
          },
        },
        {
          name: 'As planned',
          tone: 2,
          points: points.flatMap((point) => {
            const y = expected[point.month - firstMonth]
            return y === undefined ? [] : [{ x: point.month, y }]
          }),
        },
      ]}
      tableEvery={every}
    />
  )
}

/** What tenths have, and how many have nothing: none has less than that. */
export function hadThen({ p10, p50, p90 }: { p10: number; p50: number; p90: number }): string {
  const isNothing = (amount: number) => Math.abs(amount) < 0.5
  const more = `one in ten more than ${formatDollars(p90)}`
  if (isNothing(p90) && isNothing(p10)) return 'nine in ten have nothing left'
  if (isNothing(p50) && isNothing(p10)) return `half have nothing left, ${more}`
  const tenth = isNothing(p10)
    ? 'one in ten has nothing left'
    : `one in ten has less than ${formatDollars(p10)}`
  return `${tenth}, half less than ${formatDollars(p50)}, ${more}`
}
