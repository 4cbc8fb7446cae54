// Purchases in their queue: when farm cash allows each, what waiting costs, which draws it displaces; and the farm's basics.
import { dayName } from '#calendar/day.ts'
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { LineChart } from '../charts/line-chart.tsx'
import { asWords } from '../parts/as-words.ts'
import { Button, LinkButton } from '../parts/button.tsx'
import { Hidden, PlanFormIds } from '../parts/field.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'

type Queued = FarmFigures['purchases']['queue'][number]

export const PurchaseSection = ({ figures, formId }: { figures: FarmFigures; formId: string }) => {
  const { purchases, basics } = figures
  const order = purchases.queue.map((one) => one.id)
  return (
    <section id="purchases" aria-labelledby="purchases-title">
      <h2 id="purchases-title">What the farm buys from its own cash</h2>
      <p>
        {purchases.cashNow.isFromBooks ? 'By the books the farm has' : 'By the plan the farm has'}{' '}
        {formatDollars(purchases.cashNow.dollars)} in cash at the end of {dayName(purchases.cashNow.asOf)}. Of
        that {formatDollars(purchases.affordableNow)} could be spent with the reserve of{' '}
        {formatDollars(basics.reserve)} intact through the next twelve months, draws as planned. Where cash
        allows two at once, the one higher in the list comes first.
      </p>
      {purchases.queue.length === 0 ? (
        <p>Nothing is planned yet. Add what you want to buy, and its month is told here.</p>
      ) : null}
      <ol class="purchase-queue" data-reorder="purchase-order">
        {purchases.queue.map((one, index) => (
          <QueueItem one={one} index={index} order={order} figures={figures} formId={formId} />
        ))}
      </ol>
      <form method="post" action="/farm/purchases/order" id="purchase-order" class="no-print">
        <PlanFormIds formId={formId} planId={figures.planId} basedOn={figures.revisionNo} />
        <Hidden name="order" value={order.join(' ')} />
        {order.length > 1 && <p class="hint">With a mouse an item can also be dragged to its place.</p>}
      </form>
      <p class="no-print">
        <LinkButton href="/farm/purchases/new" small>
          Add a purchase
        </LinkButton>
      </p>
      <LineChart
        id="farm-cash"
        title="Farm cash, purchases made and draws taken"
        summary={`Month-end cash over ten years. The reserve is ${formatDollars(basics.reserve)}.`}
        x="month"
        series={[
          {
            name: 'Farm cash',
            tone: 1,
            points: purchases.cash.map((one) => ({ x: one.month, y: one.dollars })),
          },
        ]}
        marks={[{ atY: basics.reserve, says: 'reserve' }]}
        tableEvery={6}
      />
      <Depreciation figures={figures} />
    </section>
  )
}

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
      </p>
      <p class="hint">{consequences(one)}</p>
      <div class="button-row no-print">
        {index > 0 ? move(index - 1, 'Earlier') : null}
        {index < order.length - 1 ? move(index + 1, 'Later') : null}
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
    one.waitMonths ? `Waits ${one.waitMonths} ${one.waitMonths === 1 ? 'month' : 'months'}` : null,
    one.waitingCosts > 0.5
      ? `waiting costs ${formatDollars(one.waitingCosts)} in cash and hours not gained`
      : null,
    one.drawDisplaced !== null && one.drawDisplaced > 0.5
      ? `takes the place of ${formatDollars(one.drawDisplaced)} a month of draws for a year`
      : null,
    one.payback.months !== null
      ? `returns its cost in ${Math.round(one.payback.months / 1.2) / 10} years, hours saved counted`
      : 'brings in no more than it costs by itself',
    one.payback.yearlyReturn !== null ? `${formatPercent(one.payback.yearlyReturn, 0)} a year` : null,
  ]
    .filter(Boolean)
    .join('; ')
  return `${said[0]!.toUpperCase()}${said.slice(1)}.`
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
        foot={['Together', '', ...depreciation.totals.map((dollars) => formatDollars(dollars))]}
      />
      <Caution askWhom="a licensed tax preparer">
        Classes, conventions and limits are those of IRS Pub. 946 as carried in this program’s rule years.
      </Caution>
    </details>
  )
}

export const BasicsSection = ({ figures }: { figures: FarmFigures }) => {
  const { basics, overheads, loans } = figures
  return (
    <section id="basics" aria-labelledby="basics-title">
      <h2 id="basics-title">Cash, land, hands</h2>
      <dl class="basics">
        <dt>Farm cash at the plan’s start, and reserve</dt>
        <dd>
          {formatDollars(basics.cash)}, {formatDollars(basics.reserve)}
        </dd>
        <dt>Land</dt>
        <dd>
          {Math.round(basics.landUsed * 10) / 10} of {basics.land} acres used in {figures.year}
        </dd>
        <dt>Hours a week</dt>
        <dd>
          {basics.crew.map((one) => `${one.who} ${one.weeklyHours}`).join('; ') || 'nobody named yet'}; hired
          help at {formatDollars(basics.hiredHourlyCost)} an hour
        </dd>
      </dl>
      <HiredWords hired={figures.hired} year={figures.year} />
      <p class="no-print">
        <LinkButton href="/farm/basics" small>
          Change these
        </LinkButton>
      </p>
      <Overheads overheads={overheads} />
      <Loans loans={loans} year={figures.year} />
    </section>
  )
}

/** What hired work costs in the year, and what an employer has to do for it. */
const HiredWords = ({ hired, year }: { hired: FarmFigures['hired']; year: number }) => {
  if (hired.hours < 0.5) return null
  const { oneWorker, allWorkers, aQuarter } = hired.tests
  return (
    <>
      <p>
        In {String(year)} the plan hires {Math.round(hired.hours).toLocaleString('en-US')} hours for{' '}
        {formatDollars(hired.cost)}
        {hired.wages === null
          ? ', payroll tax and workers’ compensation counted in your own figure.'
          : `: wages ${formatDollars(hired.wages)}, the employer’s social security and Medicare tax ${formatDollars(hired.payrollTax!)}, workers’ compensation ${formatDollars(hired.compensation!)}.`}
      </p>
      <details>
        <summary>What hiring brings</summary>
        <ul>
          <li>Of each who is hired: Form W-4, Form I-9, and an entry with your state as its rules ask.</li>
          <li>
            Social security and Medicare tax once one worker gets {formatDollars(oneWorker)} in a year or all
            together {formatDollars(allWorkers)}
            {hired.passesWageTest === null
              ? ''
              : hired.passesWageTest
                ? ', which these wages pass'
                : ': these wages may stay below, and the tax counted here would not be due'}
            . Form 943 for the year by January 31, Forms W-2 and W-3 by the same day.
          </li>
          <li>
            Federal unemployment tax, Form 940, from {formatDollars(aQuarter)} in one quarter or ten workers
            in twenty weeks
            {hired.passesUnemploymentTest ? ', which these wages pass; it is not counted here' : ''}.
          </li>
          <li>
            Workers’ compensation, unemployment and minimum wage are your state’s; some ask it of the smallest
            farm, some of none.
          </li>
        </ul>
        <Caution askWhom="a licensed tax preparer, your insurer and your state’s department of labor">
          The thresholds are second hand or from memory, as Sources says of each.
        </Caution>
      </details>
    </>
  )
}

const Overheads = ({ overheads }: Pick<FarmFigures, 'overheads'>) => (
  <div id="overheads">
    <DataTable
      caption="Overheads a year"
      ofPlan
      rows={overheads}
      columns={[
        {
          title: 'Overhead',
          isHeader: true,
          cell: (one) => <a href={`/farm/overheads/${one.id}`}>{one.name}</a>,
        },
        { title: 'Costs', isNumber: true, cell: (one) => formatDollars(one.costs) },
        { title: 'Hours', isNumber: true, cell: (one) => String(Math.round(one.hours)) },
      ]}
    />
    <p class="no-print">
      <LinkButton href="/farm/overheads/new" small quiet>
        Add an overhead
      </LinkButton>
    </p>
  </div>
)

const Loans = ({ loans, year }: Pick<FarmFigures, 'loans' | 'year'>) => (
  <div id="loans">
    {loans.length > 0 ? (
      <DataTable
        caption="Loans"
        rows={loans}
        columns={[
          {
            title: 'Loan',
            isHeader: true,
            cell: (one) => <a href={`/farm/loans/${one.id}`}>{one.name}</a>,
          },
          { title: 'Principal', isNumber: true, cell: (one) => formatDollars(one.principal) },
          { title: 'Rate', isNumber: true, cell: (one) => formatPercent(one.yearlyRate) },
          {
            title: `Owed at the end of ${year}`,
            isNumber: true,
            cell: (one) => formatDollars(one.owedAtYearEnd),
          },
        ]}
      />
    ) : (
      <p>No loan stands in the plan, and nothing is bought by borrowing.</p>
    )}
    <p class="no-print">
      <LinkButton href="/farm/loans/new" small quiet>
        Add a loan
      </LinkButton>
    </p>
  </div>
)
