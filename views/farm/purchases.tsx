// Purchases in their queue: when farm cash allows each, what it takes and gives, what waiting costs, which draws it displaces.

import { type Month, monthName } from '#calendar/month.ts'
import { monthsWords, spell } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { dollarAxis } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import type { ChartNote } from '../charts/line-shape.ts'
import { asWords } from '../parts/as-words.ts'
import { Button, LinkButton } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { SpendableNow } from './spendable-now.tsx'

type Queued = FarmFigures['purchases']['queue'][number]

export const PurchaseSection = ({ figures, formId }: { figures: FarmFigures; formId: string }) => {
  const { purchases } = figures
  const wanted = purchases.queue.filter((one) => !one.isBought)
  const order = wanted.map((one) => one.id)
  return (
    <section id="purchases" aria-labelledby="purchases-title">
      <LineChart
        id="farm-cash"
        title="Farm cash, purchases made and draws taken"
        summary={`Month-end cash over ten years. The reserve is ${formatDollars(purchases.reserveNow)} now.`}
        x="month"
        y={dollarAxis}
        series={[
          {
            name: 'Farm cash',
            tone: 1,
            points: purchases.cash.map((one) => ({ x: one.month, y: one.dollars })),
          },
        ]}
        marks={[{ atY: purchases.reserveNow, says: 'reserve' }]}
        notes={boughtNotes(purchases)}
        tableEvery={6}
      />
      <h2 id="purchases-title">What the farm buys from its own cash</h2>
      <p>
        <SpendableNow purchases={purchases} /> If cash is enough for two at once, the one higher in the list
        is bought first.
      </p>
      {wanted.length === 0 ? (
        <p>Nothing is planned yet. Add what you want to buy, and its month shows here.</p>
      ) : null}
      <ol class="purchase-queue" data-reorder="purchase-order">
        {wanted.map((one, index) => (
          <QueueItem one={one} index={index} order={order} figures={figures} formId={formId} />
        ))}
      </ol>
      <form method="post" action="/farm/purchases/order" id="purchase-order" class="no-print">
        <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
        <Hidden name="order" value={order.join(' ')} />
        {order.length > 1 && <p class="hint">With a mouse an item can also be dragged to its place.</p>}
      </form>
      <p class="no-print">
        <LinkButton href="/farm/purchases/new" quiet small>
          Add a purchase
        </LinkButton>{' '}
        <span class="hint">
          For one that is bought on credit, <a href="/farm/loans/new">add its loan</a> too: what it lends
          comes in, and its payments go out.
        </span>
      </p>
      <BoughtAlready queue={purchases.queue.filter((one) => one.isBought)} />
      <Depreciation figures={figures} />
    </section>
  )
}

const BoughtAlready = ({ queue }: { queue: readonly Queued[] }) =>
  queue.length === 0 ? null : (
    <>
      <h3>Bought already</h3>
      <ul>
        {queue.map((one) => (
          <li>
            <a href={`/farm/purchases/${one.id}`}>{one.name}</a>, {formatDollars(one.cost)}:{' '}
            <strong>{monthName(one.bought as Month)}</strong>, {one.because}.
            <p class="hint">{consequences(one)}</p>
          </li>
        ))}
      </ul>
    </>
  )

/** Where the first ones in the list are bought: a picture bears no more. */
const mostNotes = 3

const boughtNotes = ({ queue, cash }: FarmFigures['purchases']): ChartNote[] =>
  queue
    .flatMap((one) => {
      const at = cash.find(({ month }) => month === one.bought)
      return at
        ? [
            {
              x: at.month,
              y: at.dollars,
              mark: 'dot' as const,
              tone: 1 as const,
              says: [one.name, monthName(at.month as Month)],
            },
          ]
        : []
    })
    .slice(0, mostNotes)

interface QueueItemProps {
  one: Queued
  index: number
  /** Ids of the whole list. */
  order: readonly string[]
  figures: FarmFigures
  formId: string
}

const QueueItem = ({ one, index, order, figures, formId }: QueueItemProps) => {
  const move = (to: number, words: string) => (
    <form method="post" action="/farm/purchases/order">
      <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
      <Hidden name="order" value={withSwapped(order, index, to).join(' ')} />
      <Button small quiet label={`${one.name}: ${words}`}>
        {words}
      </Button>
    </form>
  )
  return (
    <li data-id={one.id} draggable>
      <p>
        <a href={`/farm/purchases/${one.id}`}>{one.name}</a>, {formatDollars(one.cost)}:{' '}
        <strong>{one.bought === null ? 'not within the plan' : monthName(one.bought as Month)}</strong>,{' '}
        {one.because}.
        {Math.abs(one.costThen - one.cost) >= 1 && one.bought !== null
          ? ` In dollars of that month its price is ${formatDollars(one.costThen)}.`
          : ''}
      </p>
      <p class="hint">{consequences(one)}</p>
      <div class="button-row no-print">
        {index > 0 ? move(index - 1, 'Earlier') : null}
        {index < order.length - 1 ? move(index + 1, 'Later') : null}
        <form method="post" action="/farm/purchases/bought">
          <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
          <Hidden name="purchase" value={one.id} />
          <Button small quiet label={`${one.name}: bought this month`}>
            Bought this month
          </Button>
        </form>
      </div>
    </li>
  )
}

const withSwapped = (order: readonly string[], from: number, to: number): string[] => {
  const swapped = [...order]
  ;[swapped[from], swapped[to]] = [swapped[to]!, swapped[from]!]
  return swapped
}

const consequences = (one: Queued): string => {
  const said = [
    one.monthsOfDraws === null ? null : `Takes ${inMonths(one.monthsOfDraws)} of draws`,
    one.waitMonths ? `waits ${spell(one.waitMonths)}` : null,
    one.waitingCosts > 0.5
      ? `waiting costs ${formatDollars(one.waitingCosts)} in cash and hours not gained`
      : null,
    one.drawDisplaced !== null && one.drawDisplaced > 0.5
      ? `without it an even draw could be ${formatDollars(one.drawDisplaced)} a month higher for a year`
      : null,
    one.payback.months !== null
      ? `pays back in ${spell(Math.ceil(one.payback.months))}, hours saved counted`
      : 'brings in no more than it costs by itself',
    givesWords(one.gives),
    one.payback.yearlyReturn !== null
      ? `${formatPercent(one.payback.yearlyReturn, 0)} a year on its cost`
      : null,
  ]
    .filter(Boolean)
    .join('; ')
  const behind = one.behind.length === 0 ? '' : ` Behind it wait: ${one.behind.join(', ')}.`
  return `${said[0]!.toUpperCase()}${said.slice(1)}.${behind}`
}

const inMonths = (months: number): string => monthsWords(Math.round(months * 10) / 10)

const givesWords = ({ cash, hours, room }: Queued['gives']): string | null => {
  const given = [
    cash > 0.5 ? `${formatDollars(cash)} a year at the plan’s first prices` : null,
    hours > 0.5 ? `${Math.round(hours).toLocaleString('en-US')} hours a year` : null,
    room,
  ].filter(Boolean)
  return given.length === 0 ? null : `gives ${given.join(', ')}`
}

const Depreciation = ({ figures }: { figures: FarmFigures }) => {
  const { depreciation } = figures.purchases
  if (depreciation.rows.length === 0) return null
  return (
    <details>
      <summary>Depreciation of these purchases by year</summary>
      {depreciation.rows.some((row) => row.section179 > 0) && (
        <p class="hint">
          Section 179 counts in the plan as far as a year’s income from businesses and wages goes; what is
          over is carried to later years.
        </p>
      )}
      <DataTable
        caption="Deductions by year, in dollars of each year: section 179 share first, then bonus where it is taken, then the class’s table"
        csv="/farm.csv?table=depreciation"
        rows={depreciation.rows}
        columns={[
          {
            title: 'What',
            isHeader: true,
            cell: (row) => (
              <>
                {row.name} <span class="hint">{asWords(row.assetClass)}</span>
              </>
            ),
          },
          { title: 'Cost', isNumber: true, cell: (row) => formatDollars(row.cost) },
          ...depreciation.years.map((year, y) => ({
            title: String(year),
            isNumber: true,
            cell: (row: (typeof depreciation.rows)[number]) => formatDollars(row.deductions[y] ?? 0),
          })),
        ]}
        foot={['Total', '', ...depreciation.totals.map((dollars) => formatDollars(dollars))]}
      />
      <Caution askWhom="a licensed tax preparer">
        Classes, conventions and limits are those of IRS Pub. 946 as carried in this program’s rule years.
      </Caution>
    </details>
  )
}
