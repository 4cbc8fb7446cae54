// Now: months left in large, the carry month, cover, leak, what is due, and savings past and to come.
import { dayName } from '#calendar/day.ts'
import { type Month, monthName, monthNameShort, monthText, yearOf } from '#calendar/month.ts'
import { formatCents, formatDollars, formatPercent } from '#money/format.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { PageTitle } from '../layout.tsx'
import { Button } from '../parts/button.tsx'
import { FormId, Hidden } from '../parts/field.tsx'
import { Figure, Figures, type MadeOf } from '../parts/figure.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import type { NowFigures } from './figures.ts'

export const NowPage = ({ figures, formId }: { figures: NowFigures; formId: string }) => (
  <>
    <PageTitle purpose="How long savings last, and when the farm carries the house.">Now</PageTitle>
    <div class="now-top">
      <MonthsLeft figures={figures} />
      <Figures>
        <Carry figures={figures} />
        <Spendable figures={figures} />
        <LeakFigure figures={figures} />
        <CoverFigure figures={figures} />
      </Figures>
    </div>
    <Due figures={figures} formId={formId} />
    <SavingsChart figures={figures} />
    <div class="columns">
      <CoverChart figures={figures} />
      <Paces figures={figures} />
    </div>
    <Caution>
      Months left come from your plan, published law and what the books say of the past; the future will
      differ.
    </Caution>
  </>
)

const MonthsLeft = ({ figures }: { figures: NowFigures }) => {
  const { plan } = figures
  if (plan.status === 'none') {
    return (
      <EmptyState href="/start/costs" action="Enter monthly costs">
        To say how many months are left, Dooryard needs a plan: what a month costs and what the farm gives.
      </EmptyState>
    )
  }
  if (plan.status === 'unreadable') {
    return (
      <EmptyState href="/runway" action="Look at the plan">
        The plan cannot be read, so months left cannot be worked out. {plan.says}
      </EmptyState>
    )
  }
  const rows = [
    { label: 'Spendable savings in the books today', value: formatCents(figures.spendable.cents) },
    { label: 'Floor this month', value: formatDollars(plan.floorDollars) },
    {
      label: 'Lowest by the plan',
      value: `${formatDollars(plan.lowestDollars)}${plan.lowestMonth === null ? '' : `, ${monthNameShort(plan.lowestMonth)}`}`,
    },
  ]
  const madeOf: MadeOf = {
    says: `Counted from ${monthName(figures.month)} to the first month in which spendable savings end below the floor, on the expected course of “${plan.name}”, revision ${plan.revisionNo}, which begins in ${monthName(plan.startMonth)}.`,
    rows,
    more: { text: 'Every month of it on Runway', href: '/runway' },
  }
  return plan.monthsLeft === null ? (
    <Figure
      large
      label="Months left"
      value={<span class="figure-words">To the end of the plan</span>}
      note={`Savings stay above the floor to the end of the plan, ${monthName(plan.lastMonth)}. Lowest: ${formatDollars(plan.lowestDollars)}${plan.lowestMonth === null ? '' : ` in ${monthName(plan.lowestMonth)}`}.`}
      madeOf={madeOf}
    />
  ) : (
    <Figure
      large
      label="Months left"
      value={String(plan.monthsLeft)}
      note={
        plan.floorMonth !== null && plan.monthsLeft > 0
          ? `Savings fall below the floor in ${monthName(plan.floorMonth)}.`
          : 'Savings are below the floor.'
      }
      madeOf={madeOf}
    />
  )
}

const Carry = ({ figures }: { figures: NowFigures }) => {
  const { plan } = figures
  if (plan.status !== 'read') return null
  return (
    <Figure
      label="Carry month"
      value={plan.carryMonth === null ? 'Not in this plan' : monthName(plan.carryMonth)}
      note={
        plan.carryMonth === null
          ? 'The farm’s draws never cover the household for twelve months running.'
          : 'From then on the farm’s draws cover all household costs.'
      }
      madeOf={{
        says: 'The first month from which the plan’s draws cover living, premiums, care and taxes over any twelve months running, up to the slower years or the end of the plan.',
        more: { text: 'The draws, month by month, on Runway', href: '/runway' },
      }}
    />
  )
}

const Spendable = ({ figures }: { figures: NowFigures }) => (
  <Figure
    label="Spendable savings"
    value={formatCents(figures.spendable.cents)}
    note={`In the books on ${dayName(figures.today)}`}
    madeOf={{
      says: 'Household accounts marked as spendable, less what is owed on spendable cards. Which accounts count is chosen in Settings.',
      rows: [
        ...figures.spendable.accounts.map((account) => ({
          label: account.name,
          value: formatCents(account.cents),
          href: `/books/accounts/${account.id}`,
        })),
        { label: 'Together', value: formatCents(figures.spendable.cents), isTotal: true },
      ],
    }}
  />
)

const LeakFigure = ({ figures }: { figures: NowFigures }) => {
  const { leak } = figures
  if (leak.since === null) return null
  return (
    <Figure
      label={`Leak since ${monthName(leak.since)}`}
      value={formatCents(leak.cents)}
      note={
        leak.cents > 0
          ? 'Put into the farm and not yet given back.'
          : 'The farm has given back all that was put in, and more.'
      }
      madeOf={{
        says: 'What the household put into the other sides, less what it drew and was paid back.',
        rows: [
          { label: 'Contributions', value: formatCents(leak.contributionCents) },
          { label: 'Draws', value: `−${formatCents(leak.drawCents)}` },
          { label: 'Reimbursements', value: `−${formatCents(leak.reimbursementCents)}` },
          { label: 'Leak', value: formatCents(leak.cents), isTotal: true },
        ],
        more: { text: 'Month by month on Crossings', href: '/crossings#leak-title' },
      }}
    />
  )
}

const CoverFigure = ({ figures }: { figures: NowFigures }) => {
  const last = figures.cover.at(-1)
  if (!last || last.ratio === null) return null
  return (
    <Figure
      label="Cover ratio"
      value={formatPercent(last.ratio, 0)}
      note={`Twelve months to ${monthName(last.month)}`}
      madeOf={{
        says: 'Draws over household costs (living, premiums and taxes) of the trailing twelve months in the books.',
        rows: [
          { label: 'Draws', value: formatCents(last.drawCents) },
          { label: 'Household costs', value: formatCents(last.costCents) },
        ],
      }}
    />
  )
}

const Due = ({ figures, formId }: { figures: NowFigures; formId: string }) => (
  <section aria-labelledby="due-title">
    <h2 id="due-title">Due</h2>
    {figures.due.length === 0 ? (
      <p class="hint">Nothing waits for you today.</p>
    ) : (
      <ul class="due">
        {figures.due.map((item) => (
          <li>
            <a href={item.href}>{item.says}</a>
            {item.standing ? (
              <form method="post" action={`/crossings/standing/${item.standing.id}/post`}>
                <FormId value={formId} />
                <Hidden name="month" value={monthText(item.standing.month)} />
                <Hidden name="back" value="now" />
                <Button small label={`Post it: ${item.standing.name}, ${monthName(item.standing.month)}`}>
                  Post it
                </Button>
              </form>
            ) : null}
          </li>
        ))}
      </ul>
    )}
  </section>
)

const SavingsChart = ({ figures }: { figures: NowFigures }) => {
  const { past, future, plan } = figures
  if (past.length + future.length < 2) {
    return (
      <EmptyState href="/books" action="Go to Books">
        The chart of savings begins once the books hold a month. Record an entry, or read in a bank statement.
      </EmptyState>
    )
  }
  const join = past.at(-1)
  const dollars = (one: { cents: number }) => one.cents / 100
  const first = past[0] ?? null
  const end = future.at(-1)
  const words = [
    join && first
      ? `Savings went from ${formatCents(first.cents)} in ${monthName(first.month)} to ${formatCents(join.cents)} in ${monthName(join.month)}.`
      : '',
    end && plan.status === 'read'
      ? `By the plan they stand at ${formatDollars(end.dollars)} in ${monthName(end.month)}; lowest ${formatDollars(plan.lowestDollars)}${plan.lowestMonth === null ? '' : ` in ${monthName(plan.lowestMonth)}`}.`
      : '',
    plan.status === 'read' && plan.worstStorm
      ? `The band runs from the worst of the plan’s storms to the best; the worst is “${plan.worstStorm}”.`
      : '',
  ]
  return (
    <LineChart
      id="savings"
      title="Spendable savings"
      summary={words.filter(Boolean).join(' ')}
      x="month"
      y={{ format: formatDollars, formatShort: dollarsShort }}
      series={[
        {
          name: 'Savings: solid in the books, dashed in the plan',
          tone: 1,
          futureAfter: join?.month ?? figures.month - 1,
          points: [
            ...past.map((one) => ({ x: one.month as number, y: dollars(one) })),
            ...future
              .filter((one) => !join || one.month > join.month)
              .map((one) => ({ x: one.month as number, y: one.dollars })),
          ],
          ...(future.length > 0
            ? {
                band: {
                  name: 'Between the storms',
                  points: future.map((one) => ({ x: one.month as number, low: one.low, high: one.high })),
                },
              }
            : {}),
        },
        ...(future.length > 0
          ? [
              {
                name: 'Floor',
                tone: 2 as const,
                points: future.map((one) => ({ x: one.month as number, y: one.floor })),
              },
            ]
          : []),
      ]}
      marks={[{ atX: figures.month, says: 'now' }]}
      tableEvery={past.length + future.length > 40 ? 3 : 1}
    />
  )
}

const CoverChart = ({ figures }: { figures: NowFigures }) => {
  const shown = figures.cover.filter((one) => one.ratio !== null)
  if (shown.length === 0) return null
  const percent = (value: number) => `${Math.round(value)}%`
  const last = shown.at(-1)!
  return (
    <BarChart
      id="cover-ratio"
      title="Cover ratio, trailing twelve months"
      summary={`Draws covered ${percent(last.ratio! * 100)} of household costs in the twelve months to ${monthName(last.month)}; at 100% the farm carries the house.`}
      categories={shown.map((one) => monthLabel(one.month))}
      categoryTitle="To"
      series={[{ name: 'Draws over household costs', tone: 1, values: shown.map((one) => one.ratio! * 100) }]}
      y={{ format: percent, formatShort: percent }}
      mark={{ atY: 100, says: 'carried' }}
    />
  )
}

const monthLabel = (month: Month): string =>
  `${monthNameShort(month).slice(0, 3)} ${String(yearOf(month)).slice(2)}`

const Paces = ({ figures }: { figures: NowFigures }) => {
  if (figures.paces.length === 0) return null
  const left = (months: number | null) => (months === null ? 'does not fall' : String(months))
  return (
    <DataTable
      caption="Months left at the pace of the books"
      rows={figures.paces}
      columns={[
        { title: 'Trailing months', isHeader: true, cell: (one) => String(one.months) },
        { title: 'Costs a month', isNumber: true, cell: (one) => formatCents(one.costCents) },
        { title: 'Draws a month', isNumber: true, cell: (one) => formatCents(one.drawCents) },
        { title: 'Months left', isNumber: true, cell: (one) => left(one.leftWithDraws) },
        { title: 'Without draws', isNumber: true, cell: (one) => left(one.leftWithoutDraws) },
      ]}
    />
  )
}
