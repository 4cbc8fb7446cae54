// Ways of doing one thing side by side, and when to slow down: standings on the same simulations, and the years of two ways.

import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent, formatRange } from '#money/format.ts'
import type { SlowDown } from '#solve/slow-down.ts'
import type { WayFlows, Ways, WayTried, WayYear } from '#solve/ways/ways-answer.ts'
import { DataTable } from '../parts/table.tsx'
import { againstPlan, Standings } from './standings.tsx'

export const Slower = ({ answer, firstMonth }: { answer: SlowDown; firstMonth: number }) =>
  answer.tried.length === 0 ? null : (
    <Standings
      caption="Beginnings tried, in the same simulations"
      title="Slower from"
      rows={[
        ...(answer.weeklyHours === null || answer.today === null
          ? []
          : [{ name: 'Today’s plan', standing: answer.today }]),
        ...answer.tried.map((one) => ({
          name: `${monthName((firstMonth + one.fromMonth) as Month)}${one.months === 0 && answer.weeklyHours === null ? ' (plan)' : ''}`,
          standing: one,
        })),
      ]}
      firstMonth={firstMonth}
      confidence={answer.confidence}
    />
  )

/** Rows of ways that are told at once; the rest are a step away. */
const rowsAtOnce = 6

/** The plan, what the answer names, and those of the others that leave most without being worse, then the rest of them. */
const nearest = ({ answer, ways, beside, paths }: Ways): WayTried[] => {
  const named = answer.kind === 'reached' ? ['plan', answer.best, answer.steadiest, beside] : ['plan']
  const rank = (way: WayTried) => (named.includes(way.id) ? 2 : way.worse ? 0 : 1)
  const whole = ways.filter((way) => way.paths === paths)
  const chosen = [...whole].sort((a, b) => rank(b) - rank(a) || b.leftMore - a.leftMore).slice(0, rowsAtOnce)
  return whole.filter((way) => chosen.includes(way))
}

export const WaysShown = ({ answer, firstMonth }: { answer: Ways; firstMonth: number }) => {
  if (answer.ways.length === 0) return null
  const shown = answer.ways.find((way) => way.id === answer.beside)!
  return (
    <>
      <Standings
        caption="The plan and the nearest ways in the same simulations"
        title="Way"
        rows={nearest(answer).map((way) => ({
          name: way.name,
          standing: way,
          ...(way.id === 'plan' ? {} : { note: againstPlan(way) }),
        }))}
        firstMonth={firstMonth}
        confidence={answer.confidence}
      />
      <details>
        <summary>
          All {String(answer.ways.length - 1)} ways tried, and what each does over all expected years
        </summary>
        <AllWays answer={answer} />
        <p class="hint">
          Months in a program are those of all persons together: who is in one has no credit.
        </p>
      </details>
      <details>
        <summary>Year by year: as planned, and {shown.name}</summary>
        <DataTable caption={shown.name} ofPlan rows={answer.years} stack columns={yearColumns} />
        <p class="hint">
          What is taken, taxed and credited is of the expected years. More at the year’s end: all savings then
          less all savings as planned, what is left untaxed counted {formatPercent(answer.laterRate, 0)} less,
          in the middle simulation and in eight of ten; and in how many it is ahead by then, with the margin
          of error.
        </p>
      </details>
    </>
  )
}

/** A credit of $0 is no loss where a program covers instead. */
export const creditOrProgram = ({ credit, programs }: Pick<WayTried, 'credit' | 'programs'>): string =>
  [
    formatDollars(credit),
    ...programs.map(({ program, months }) => `${months.toLocaleString('en-US')} months in ${named(program)}`),
  ].join(', ')

const named = (program: WayTried['programs'][number]['program']): string =>
  program === 'Medicaid' ? program : `the ${program}`

const AllWays = ({ answer }: { answer: Ways }) => (
  <DataTable
    caption="What each means, and what it does over all expected years"
    ofPlan
    rows={answer.ways}
    stack
    columns={[
      { title: 'Way', isHeader: true, cell: (way) => way.name },
      { title: 'Means', cell: (way) => way.says },
      { title: 'Simulations', isNumber: true, cell: (way) => String(way.paths) },
      { title: 'Taxes', isNumber: true, cell: (way) => formatDollars(way.tax) },
      { title: 'Premium credit, or cover by a program', isNumber: true, cell: creditOrProgram },
      {
        title: 'Left at the end more than planned, middle',
        isNumber: true,
        cell: (way) => formatDollars(way.leftMore),
      },
      {
        title: 'Ends with more, less those that end with less, of simulations',
        isNumber: true,
        cell: ({ endsWithMore }) => formatPercent(endsWithMore.share, 0),
      },
      { title: 'Against the plan', cell: (way) => (way.id === 'plan' ? '' : againstPlan(way)) },
    ]}
  />
)

const parts: readonly [keyof WayFlows, string][] = [
  ['taxable', 'from taxable savings'],
  ['traditional', 'from traditional'],
  ['roth', 'from Roth'],
  ['health', 'from health savings'],
  ['converted', 'converted'],
  ['tax', 'tax'],
  ['credit', 'premium credit'],
]

const yearColumns = [
  { title: 'Year', isHeader: true, cell: (row: WayYear) => String(row.year) },
  {
    title: 'More at the year’s end',
    isNumber: true,
    cell: ({ more }: WayYear) =>
      more === null
        ? ''
        : `${formatDollars(more.middle)} (${formatRange(more.low, more.high, formatDollars)})`,
  },
  {
    title: 'Ahead in, of simulations',
    isNumber: true,
    cell: ({ more }: WayYear) =>
      more === null
        ? ''
        : `${formatPercent(more.ahead.share, 0)} (${formatRange(more.ahead.low, more.ahead.high, (share) => formatPercent(share, 0))})`,
  },
  ...parts.flatMap(([part, name]) => [
    { title: `Plan: ${name}`, isNumber: true, cell: (row: WayYear) => formatDollars(row.plan[part]) },
    { title: `Then: ${name}`, isNumber: true, cell: (row: WayYear) => formatDollars(row.other[part]) },
  ]),
]
