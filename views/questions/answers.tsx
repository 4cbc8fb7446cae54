// The chart and the numbers behind each answer.
import { type Month, monthName, monthNameShort } from '#calendar/month.ts'
import { ageInWords } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { type Claim, claimAgeOf } from '#solve/claim.ts'
import type { Draw } from '#solve/draw-answer.ts'
import type { Frontier } from '#solve/frontier.ts'
import type { CurvePoint } from '#solve/question.ts'
import type { ChanceAnswer } from '#solve/questions.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { Fold } from '../parts/fold.tsx'
import { FrontierChart, SharesChart } from './frontier-chart.tsx'
import { Needs } from './insurance-needs.tsx'
import { MarketsShown } from './markets-shown.tsx'
import { againstPlan, FoldedStandings } from './standings.tsx'
import { Slower, WaysShown } from './ways-shown.tsx'

export const AnswerShown = ({ answer, firstMonth }: { answer: ChanceAnswer; firstMonth: number }) => {
  switch (answer.question) {
    case 'start-with':
      return (
        <Curve
          points={answer.curve}
          confidence={answer.confidence}
          at={answer.answer.kind === 'reached' ? answer.answer.value : null}
          title="Share of simulations that hold, by savings at the start"
          along="Savings at the start"
        />
      )
    case 'cushion':
      return (
        <Curve
          points={answer.curve}
          confidence={answer.confidence}
          at={answer.answer.kind === 'reached' ? answer.answer.value : null}
          title="Share of simulations that last, by the cushion at the first slower year"
          along="Cushion"
        />
      )
    case 'draw':
      return <Draws answer={answer} firstMonth={firstMonth} />
    case 'plow-back':
      return <Shares answer={answer} firstMonth={firstMonth} />
    case 'claim':
      return <Ages answer={answer} />
    case 'slow-down':
      return <Slower answer={answer} firstMonth={firstMonth} />
    case 'insurance':
      return <Needs answer={answer} firstMonth={firstMonth} />
    case 'account-order':
    case 'losses':
      return <WaysShown answer={answer} firstMonth={firstMonth} />
    case 'drop-market':
      return <MarketsShown answer={answer} firstMonth={firstMonth} />
  }
}

const percent = (share: number) => formatPercent(share, 0)
const share = { format: (value: number) => formatPercent(value, 1), formatShort: percent }

export const Curve = (props: {
  points: readonly CurvePoint[]
  confidence: number
  at: number | null
  title: string
  along: string
}) => {
  const { points, at } = props
  if (points.length === 0) return null
  const last = points.at(-1)!
  const reaches =
    at === null
      ? `Even ${formatDollars(last.at)} holds in only ${percent(last.held.share)}.`
      : `It reaches ${percent(props.confidence)} at ${formatDollars(at)}.`
  return (
    <LineChart
      id="answer-curve"
      title={props.title}
      summary={`From ${percent(points[0]!.held.share)} at ${formatDollars(points[0]!.at)} to ${percent(last.held.share)} at ${formatDollars(last.at)}. ${reaches}`}
      x={{ title: props.along, format: formatDollars, formatShort: dollarsShort }}
      y={share}
      series={[
        {
          name: 'Share of simulations',
          tone: 1,
          points: points.map((point) => ({ x: point.at, y: point.held.share })),
          band: {
            name: 'Margin of error',
            points: points.map((point) => ({ x: point.at, low: point.held.low, high: point.held.high })),
          },
        },
      ]}
      marks={
        at === null
          ? [{ atY: props.confidence, says: `${percent(props.confidence)} asked for` }]
          : [{ atX: at, says: `${percent(props.confidence)} at ${formatDollars(at)}` }]
      }
      tableEvery={2}
    />
  )
}

const Draws = ({ answer, firstMonth }: { answer: Draw; firstMonth: number }) => {
  if (answer.starts.length === 0) return null
  const name = (month: number) => monthNameShort((firstMonth + month) as Month)
  const few = answer.starts.find((start) => start.paths < answer.paths)
  return (
    <>
      <BarChart
        id="answer-draws"
        title="What the farm can pay a month, by when draws begin"
        summary={`Each until ${monthName((firstMonth + answer.untilMonth) as Month)}; as draws begin, rising with prices, in ${percent(answer.confidence)} of simulations.${few ? ` All but the answer’s own from ${few.paths} of them.` : ''}`}
        categories={answer.starts.map((start) => name(start.fromMonth))}
        categoryTitle="Draws begin"
        series={[
          {
            name: 'Draw a month',
            tone: 1,
            values: answer.starts.map((start) => Math.max(0, start.level.value)),
          },
        ]}
        y={{ format: formatDollars, formatShort: dollarsShort }}
      />
      <FoldedStandings
        caption="Today’s plan and these draws in the same simulations"
        holds={`${answer.compared.length} ways`}
        title="Draws"
        rows={answer.compared.map((one) => ({
          name: { plan: 'As planned', level: 'One level', steps: 'By steps' }[one.as],
          standing: one.standing,
          ...(one.as === 'plan' ? {} : { note: againstPlan(one) }),
        }))}
        firstMonth={firstMonth}
        confidence={answer.confidence}
      />
      <Fold name="How surely the farm can pay each level" holds={borneSurely(answer)}>
        <Curve
          points={answer.curve}
          confidence={answer.confidence}
          at={answer.answer.kind === 'reached' ? answer.answer.level.value : null}
          title="Share of simulations in which the farm can pay a draw"
          along="Draw a month"
        />
      </Fold>
    </>
  )
}

const borneSurely = ({ answer, confidence }: Draw): string =>
  answer.kind === 'reached' ? `${formatDollars(answer.level.value)} in ${percent(confidence)}` : 'none'

const Shares = ({ answer, firstMonth }: { answer: Frontier; firstMonth: number }) => {
  return (
    <>
      {answer.points.length === 0 ? null : (
        <>
          <FrontierChart answer={answer} firstMonth={firstMonth} />
          <Fold name="How often each share holds" holds={`${answer.points.length} shares`}>
            <SharesChart answer={answer} />
          </Fold>
        </>
      )}
      <FoldedStandings
        caption="Every share in the same simulations"
        holds={`${answer.points.length + 1} ways`}
        title="Left in the farm"
        rows={[answer.today, ...answer.points].map((point) => ({
          name:
            point.plowedBack === null
              ? 'As planned'
              : `${percent(point.plowedBack)}${point.paths < answer.paths ? `, of ${point.paths} simulations` : ''}`,
          standing: point,
          ...(point.plowedBack === null ? {} : { note: againstPlan(point) }),
        }))}
        firstMonth={firstMonth}
        confidence={answer.confidence}
      />
    </>
  )
}

const inWords = (age: number): string => ageInWords(claimAgeOf(age))

const Ages = ({ answer }: { answer: Claim }) => {
  if (answer.answer.kind !== 'reached') return null
  const { strongest } = answer.answer
  const [first, second] = answer.people
  const firstAges = [...new Set(answer.tried.map((tried) => tried.ages[0]!))]
  const seconds = second
    ? [...new Set([62, 67, 70, strongest.ages[1]!])].filter((age) =>
        answer.tried.some((tried) => tried.ages[1] === age),
      )
    : [null]
  const heldAt = (age: number, other: number | null) =>
    answer.tried.find((tried) => tried.ages[0] === age && (other === null || tried.ages[1] === other))
  return (
    <LineChart
      id="answer-ages"
      title="Left at the end in the middle run, by claim ages"
      summary={`Strongest: ${answer.people.map((person, place) => `${person.name} at ${inWords(strongest.ages[place]!)}`).join(', ')}, ${formatDollars(strongest.medianAtEnd)}.`}
      x={{ title: `${first!.name} claims at`, format: inWords }}
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={seconds.slice(0, 4).map((other, place) => ({
        name: other === null ? first!.name : `${second!.name} at ${inWords(other)}`,
        tone: ([1, 2, 3, 4] as const)[place]!,
        points: firstAges.flatMap((age) => {
          const tried = heldAt(age, other)
          return tried ? [{ x: age, y: tried.medianAtEnd }] : []
        }),
      }))}
      tableEvery={1}
    />
  )
}
