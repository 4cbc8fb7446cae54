// The frontier of plowing back: lowest savings against the month from which the farm carries the household, today's plan marked.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Frontier, FrontierPoint } from '#solve/frontier.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'

/** Where the farm carries in the asked share of courses that month is used; where it nowhere does, the month of half of them. */
export const FrontierChart = ({ answer, firstMonth }: { answer: Frontier; firstMonth: number }) => {
  const isSure = answer.points.some((point) => Number.isFinite(point.carryMonth.value))
  const carry = (point: FrontierPoint) => (isSure ? point.carryMonth.value : point.medianCarryMonth)
  const at = (point: FrontierPoint) => ({ x: firstMonth + carry(point), y: point.lowestSavings.value })
  const shown = answer.points.filter((point) => Number.isFinite(carry(point)))
  const isMarked = Number.isFinite(carry(answer.today))
  const inShare = isSure ? formatPercent(answer.confidence, 0) : 'half'
  if (shown.length + (isMarked ? 1 : 0) < 2)
    return (
      <p>
        There is no frontier to draw: with {shown.length === 0 ? 'no share' : 'one share only'} left in the
        farm does it carry the household in {inShare} of simulations.
      </p>
    )
  const points = shown.map(at).sort((a, b) => a.x - b.x)
  const names = shown
    .map(
      (point) => `${formatPercent(point.plowedBack!, 0)}: ${monthName((firstMonth + carry(point)) as Month)}`,
    )
    .join('; ')
  const mark = isMarked ? [{ atX: at(answer.today).x, says: 'as planned' }] : []
  return (
    <LineChart
      id="answer-frontier"
      title="Lowest savings against the month from which the farm carries"
      summary={`Month from which the farm carries in ${inShare} of simulations, by share left in it: ${names}. Lowest savings are those not undercut in ${formatPercent(answer.confidence, 0)} of simulations.${isMarked ? ` As planned: ${monthName(at(answer.today).x as Month)}, ${formatDollars(answer.today.lowestSavings.value)}.` : ''}`}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        { name: 'Shares left in the farm', tone: 1, points },
        ...(isMarked
          ? [
              {
                name: 'As planned',
                tone: 2 as const,
                points: [at(answer.today), { ...at(answer.today), x: at(answer.today).x + 1 }],
              },
            ]
          : []),
      ]}
      marks={mark}
    />
  )
}

/** How often the farm carries and how often the plan holds, by share left in the farm. */
export const SharesChart = ({ answer }: { answer: Frontier }) => {
  const percent = (share: number) => formatPercent(share, 0)
  const best = answer.points.reduce((most, point) => (point.held.share > most.held.share ? point : most))
  const series = (pick: (point: FrontierPoint) => number) =>
    answer.points.map((point) => ({ x: point.plowedBack!, y: pick(point) }))
  return (
    <LineChart
      id="answer-shares"
      title="How often the farm carries and the plan holds, by share left in the farm"
      summary={`The plan holds most often, in ${percent(best.held.share)} of simulations, with ${percent(best.plowedBack!)} left in the farm. As planned it holds in ${percent(answer.today.held.share)} and the farm comes to carry in ${percent(answer.today.carries.share)}.`}
      x={{ title: 'Left in the farm', format: percent }}
      y={{ format: percent, formatShort: percent }}
      series={[
        { name: 'Plan holds', tone: 1, points: series((point) => point.held.share) },
        { name: 'Farm comes to carry', tone: 2, points: series((point) => point.carries.share) },
      ]}
      tableEvery={1}
    />
  )
}
