// The pictures of Now: savings past and to come, and cover by month.
import { type Month, monthName, monthNameShort, monthText } from '#calendar/month.ts'
import { fromTo } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { BelowZero } from '../charts/below-zero.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import type { ChartNote, LineSeries } from '../charts/line-shape.ts'
import { refreshes } from '../parts/htmx.ts'
import { EmptyState } from '../parts/message.tsx'

/** Comes at once with what is known; the storms' band follows by itself, or by the link when there is no script. */
export const SavingsPicture = ({ figures, isWhole }: { figures: NowFigures; isWhole: boolean }) => (
  <div
    id="savings-picture"
    {...(figures.stormsWait
      ? refreshes('savings-picture', { get: `/now?storms=yes${isWhole ? '&savings=all' : ''}` }, 'load')
      : {})}
  >
    <SavingsChart figures={isWhole ? figures : aroundToday(figures)} />
    {figures.plan.status === 'read' ? (
      <BelowZero
        savings={(isWhole ? figures : aroundToday(figures)).future.map((one) => one.dollars)}
        runsShort={figures.plan.runsShort === null ? null : monthText(figures.plan.runsShort)}
      />
    ) : null}
    <WholeLink figures={figures} isWhole={isWhole} />
    {figures.stormsWait ? (
      <p class="hint">
        <a href="/now?storms=yes#savings">Show what bad years would do</a>
      </p>
    ) : null}
  </div>
)

type Shown = Pick<NowFigures, 'month' | 'plan' | 'stormsWait' | 'past' | 'future' | 'baseline'>

const monthsBefore = 12
const monthsAfter = 60

/** A year back and five ahead, so that what lies between savings and floor can be seen. */
const aroundToday = ({ month, plan, stormsWait, past, future, baseline }: NowFigures): Shown => ({
  month,
  plan,
  stormsWait,
  past: past.slice(-monthsBefore),
  future: future.slice(0, monthsAfter),
  baseline: baseline?.slice(0, monthsAfter) ?? null,
})

const WholeLink = ({ figures, isWhole }: { figures: NowFigures; isWhole: boolean }) => {
  const { past, future } = figures
  if (past.length <= monthsBefore && future.length <= monthsAfter) return null
  const first = past[0] ?? future[0]
  const last = future.at(-1) ?? past.at(-1)
  if (!first || !last) return null
  return (
    <p class="no-print hint">
      {isWhole ? (
        <a href="/now#savings">A year back and five years ahead</a>
      ) : (
        <a href="/now?savings=all#savings">
          All months, {fromTo(monthName(first.month), monthName(last.month))}
        </a>
      )}
    </p>
  )
}

const SavingsChart = ({ figures }: { figures: Shown }) => {
  const { past, future } = figures
  if (past.length + future.length < 2) {
    return (
      <EmptyState href="/books" action="Go to Books">
        The chart of savings begins once the books hold a month. Record an entry, or read in a bank statement.
      </EmptyState>
    )
  }
  const join = past.at(-1)
  return (
    <LineChart
      id="savings"
      title="Spendable savings"
      summary={inWords(figures)}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        {
          name: 'Savings: actual solid, plan dashed',
          short: 'as planned',
          tone: 2,
          futureAfter: join?.month ?? figures.month - 1,
          points: [
            ...past.map((one) => ({ x: one.month as number, y: dollarsOf(one) })),
            ...future
              .filter((one) => !join || one.month > join.month)
              .map((one) => ({ x: one.month as number, y: one.dollars })),
          ],
          ...bandOf(figures),
        },
        ...(future.length > 0
          ? [
              {
                name: 'Floor',
                short: 'floor',
                tone: 4 as const,
                isGround: true,
                points: future.map((one) => ({ x: one.month as number, y: one.floor })),
              },
            ]
          : []),
        ...baselineSeries(figures),
      ]}
      marks={[{ atX: figures.month, says: 'today' }]}
      notes={notesOf(figures)}
      isCloseUp
      tableEvery={past.length + future.length > 40 ? 3 : 1}
    />
  )
}

/** From the plan down to the worst bad year. One that leaves more than the plan, as a death may, is no bad one on this scale. */
const bandOf = ({ future, stormsWait }: Shown) =>
  future.length === 0 || stormsWait
    ? {}
    : {
        band: {
          name: 'down to the worst bad year',
          points: future.map((one) => ({
            x: one.month as number,
            low: Math.min(one.low, one.dollars),
            high: one.dollars,
          })),
        },
      }

export const CoverChart = ({ figures }: { figures: NowFigures }) => {
  const shown = figures.cover.filter((one) => one.ratio !== null)
  if (shown.length === 0) return null
  const percent = (value: number) => formatPercent(value / 100, 0)
  const last = shown.at(-1)!
  return (
    <BarChart
      id="cover-ratio"
      title="Paid by the farm, trailing twelve months"
      summary={`The farm paid ${percent(last.ratio! * 100)} of household costs, by draws less what was put into it, in the ${last.months === 1 ? 'one month' : `${last.months === 12 ? 'twelve' : last.months} months`} to ${monthName(last.month)}${last.months < 12 ? ', all that the books hold' : ''}; at 100% the farm carries the house.`}
      categories={shown.map((one) => monthNameShort(one.month))}
      categoryTitle="To"
      series={[
        {
          name: 'Draws less what was put into the farm, over household costs',
          tone: 1,
          values: shown.map((one) => one.ratio! * 100),
        },
      ]}
      y={{ format: percent, formatShort: percent }}
      mark={{ atY: 100, says: 'farm pays all' }}
    />
  )
}

/** Where savings come nearest to the floor, and from when the farm carries the house. */
function notesOf({ plan, future }: Shown): ChartNote[] {
  if (plan.status !== 'read') return []
  const at = (month: Month | null) => future.find((one) => one.month === month)
  const low = at(plan.marginMonth)
  const carry = at(plan.carryMonth)
  return [
    ...(low
      ? [
          {
            x: low.month,
            y: low.dollars,
            mark: 'ring' as const,
            tone: 2 as const,
            says: [
              `${formatDollars(Math.abs(low.dollars - low.floor))} ${low.dollars < low.floor ? 'below' : 'above'} the floor`,
              monthName(low.month),
            ],
          },
        ]
      : []),
    ...(carry
      ? [
          {
            x: carry.month,
            y: carry.dollars,
            mark: 'dot' as const,
            tone: 2 as const,
            says: ['Farm carries the house', `from ${monthName(carry.month)}`],
          },
        ]
      : []),
  ]
}

const baselineSeries = ({ baseline }: Shown): LineSeries[] =>
  baseline === null
    ? []
    : [
        {
          name: 'As the plan was saved',
          short: 'as saved',
          tone: 4,
          isThin: true,
          points: baseline.map((one) => ({ x: one.month, y: one.dollars })),
        },
      ]

const dollarsOf = (one: { cents: number }): number => one.cents / 100

const inWords = ({ past, future, plan }: Shown): string => {
  const join = past.at(-1)
  const first = past[0] ?? null
  const end = future.at(-1)
  const words = [
    join && first?.month === join.month
      ? `Savings are ${formatDollars(dollarsOf(join))} in ${monthName(join.month)}.`
      : join && first
        ? `Savings went from ${formatDollars(dollarsOf(first))} in ${monthName(first.month)} to ${formatDollars(dollarsOf(join))} in ${monthName(join.month)}.`
        : '',
    end && plan.status === 'read'
      ? `By the plan they stand at ${formatDollars(end.dollars)} in ${monthName(end.month)}${plan.runsShort === null ? `; lowest ${formatDollars(plan.lowestDollars)}${plan.lowestMonth === null ? '' : ` in ${monthName(plan.lowestMonth)}`}${plan.lowestDollars < -0.5 ? ', once the tax owed by then is taken off' : ''}` : `; money runs out in ${monthName(plan.runsShort)}`}.`
      : '',
    plan.status === 'read' && plan.worst
      ? `The band runs from the worst of the plan’s bad years to the best; the worst is “${plan.worst.name}”.`
      : '',
  ]
  return words.filter(Boolean).join(' ')
}
