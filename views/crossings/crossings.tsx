// Crossings: the yard itself. Who put in what, what is due, what has crossed, and how much house money is in the farm.
import type { Child } from 'hono/jsx'
import { monthName, monthNameShort } from '#calendar/month.ts'
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { LeakMonth } from '#ledger/leak.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import { formatCents, formatDollars } from '#money/format.ts'
import type { CrossingsFigures, EquityFigures } from '#today/crossings/figures.ts'
import { Gate, type GateFigures } from '../books/books.tsx'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import type { HelpKey } from '../help-texts.ts'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { EmptyState, Part } from '../parts/message.tsx'
import { SideRoof, sideClass } from '../parts/side.tsx'
import { kindWords } from './crossing-form.tsx'
import { CrossingHistory, type HistoryProps } from './history.tsx'
import { HouseMoneyAnswer, isQuiet, leakNote } from './house-money.tsx'
import { LeakTable } from './leak-table.tsx'
import { DueTransfers, StandingList } from './standing.tsx'

interface CrossingsPageProps extends Omit<HistoryProps, 'rows'> {
  room: CrossingsRoom
  figures: CrossingsFigures
  gates: readonly GateFigures[]
  formId: string
}

interface RoomView {
  title: string
  purpose: string
  view(props: CrossingsPageProps): Child
}

export const crossingsRooms = {
  overview: {
    title: 'Crossings',
    purpose: 'Whatever moves between house and farm is recorded here once and lands in both sides’ books.',
    view: (props) => (
      <>
        <HouseMoneyAnswer figures={props.figures} />
        {props.figures.history.length === 0 ? <NothingYet /> : null}
        <KindDoors drawIsNext={props.figures.due.length === 0 && props.figures.history.length > 0} />
        <Part of={() => <DueTransfers due={props.figures.due} formId={props.formId} />} />
        <Yard {...props} />
        <Part of={() => <Leak months={props.figures.leak} />} />
        <Part of={() => <StandingList standing={props.figures.standing} formId={props.formId} />} />
      </>
    ),
  },
  houseMoney: {
    title: 'House money by month',
    purpose: 'What the household put into the farm and what came back, each month.',
    view: ({ figures }) => (
      <Part
        of={() =>
          isQuiet(figures.leak) ? (
            <NothingYet />
          ) : (
            <>
              <HouseMoneyAnswer figures={{ leak: figures.leak, due: [] }} />
              <LeakBars recent={figures.leak.slice(-24)} />
              <LeakTable months={figures.leak} />
            </>
          )
        }
      />
    ),
  },
  history: {
    title: 'What has crossed',
    purpose: 'Every crossing, newest first, with both of its ends.',
    view: (props) =>
      props.figures.history.length === 0 && props.kind === '' ? (
        <NothingYet />
      ) : (
        <CrossingHistory {...props} rows={props.figures.history} />
      ),
  },
} satisfies Record<string, RoomView>

export type CrossingsRoom = keyof typeof crossingsRooms

/** Each page is helped with what is on it. */
const crossingsHelp = {
  overview: 'crossings',
  houseMoney: 'houseMoney',
  history: 'crossingHistory',
} as const satisfies Record<CrossingsRoom, HelpKey>

export const CrossingsPage = (props: CrossingsPageProps) => {
  const { title, purpose, view } = crossingsRooms[props.room]
  return (
    <>
      <PageTitle help={crossingsHelp[props.room]} purpose={purpose}>
        {title}
      </PageTitle>
      {view(props)}
    </>
  )
}

const Yard = ({ figures, gates }: CrossingsPageProps) => {
  const household = figures.equity.find((one) => one.side.kind === 'household')
  const farm = figures.equity.find((one) => one.side.kind === 'farm')
  const ventures = figures.equity.filter((one) => one.side.kind === 'venture')
  return (
    <>
      {/* A box is as tall as what it holds: beside the yard it would be mostly empty. */}
      <div class="yard yard-short">
        {household ? <EquityBox {...household} /> : null}
        <section class="yard-middle" aria-labelledby="line-title">
          <h2 id="line-title">The yard</h2>
          <ol class="gates">
            {gates.map((gate) => (
              <Gate {...gate} />
            ))}
          </ol>
        </section>
        <div>
          {farm ? <EquityBox {...farm} /> : null}
          {ventures.map((one) => (
            <EquityBox {...one} />
          ))}
        </div>
      </div>
    </>
  )
}

const NothingYet = () => (
  <EmptyState href="/crossings/new?kind=draw" action="Record the first draw">
    Nothing has crossed the yard yet. When the household takes money out of the farm, or puts some in, record
    it here.
  </EmptyState>
)

const KindDoors = ({ drawIsNext }: { drawIsNext: boolean }) => (
  <nav aria-label="Record a crossing">
    <ul class="kind-doors">
      {(Object.keys(kindWords) as CrossingKind[]).map((kind) => (
        <li>
          <LinkButton quiet={!drawIsNext || kind !== 'draw'} href={`/crossings/new?kind=${kind}`}>
            {kindWords[kind].title}
          </LinkButton>
        </li>
      ))}
      <li>
        <LinkButton quiet href="/books/receipt">
          Mixed receipt
        </LinkButton>
      </li>
      <li>
        <LinkButton quiet href="/farm/notebook?open=goods#goods">
          Goods bartered
        </LinkButton>
      </li>
    </ul>
  </nav>
)

const EquityBox = (figures: EquityFigures) => (
  <section class={`side-box ${sideClass(figures.side.kind)}`} aria-label={figures.side.name}>
    <SideRoof kind={figures.side.kind} />
    <h2>{figures.side.name}</h2>
    <Figure
      label="Owner’s equity"
      value={formatCents(figures.equityCents)}
      note={`Owns ${formatCents(figures.ownedCents)}, owes ${formatCents(figures.owedCents)}`}
      madeOf={{
        says: 'What was there at the start, what crossed the yard, and what was earned and spent since.',
        rows: [
          ...figures.parts.map((part) => ({
            label: part.name,
            value: formatCents(part.cents),
            ...(part.accountId === null ? {} : { href: `/books/accounts/${part.accountId}` }),
          })),
          { label: 'Equity', value: formatCents(figures.equityCents), isTotal: true },
        ],
      }}
    />
  </section>
)

const Leak = ({ months }: { months: readonly LeakMonth[] }) => {
  const last = months.at(-1)
  if (!last || isQuiet(months)) return null
  const peak = months.reduce((high, one) => (one.runningCents > high.runningCents ? one : high), last)
  return (
    <section aria-labelledby="leak-title">
      <h2 id="leak-title">House money in the farm</h2>
      <Figures>
        <Figure
          label={
            last.runningCents < 0 ? 'Paid to the house, beyond what it put in' : 'House money in the farm'
          }
          value={formatCents(Math.abs(last.runningCents) as Cents)}
          note={leakNote(last, months)}
          madeOf={leakMadeOf(months)}
        />
        <Figure label="Highest in" value={monthName(peak.month)} note={formatCents(peak.runningCents)} />
      </Figures>
      <LeakLine months={months} last={last} peak={peak} />
      <p>
        <a href="/crossings/house-money">House money month by month</a>
      </p>
    </section>
  )
}

export const houseMoneySays =
  'What the household put into the farm, less what it drew from it and was paid back. Loans between sides are not counted: they are owed back.'

const leakMadeOf = (months: readonly LeakMonth[]) => {
  const sum = (pick: (one: LeakMonth) => number) =>
    months.reduce((total, one) => total + pick(one), 0) as Cents
  return {
    says: houseMoneySays,
    rows: [
      { label: 'Contributions', value: formatCents(sum((one) => one.contributionCents)) },
      { label: 'Draws', value: formatCents(sum((one) => -one.drawCents)) },
      { label: 'Reimbursements', value: formatCents(sum((one) => -one.reimbursementCents)) },
      { label: 'House money in the farm', value: formatCents(sum((one) => one.leakCents)), isTotal: true },
    ],
    more: { text: 'Month by month on Crossings', href: '/crossings/house-money' },
  }
}

const LeakLine = (props: { months: readonly LeakMonth[]; last: LeakMonth; peak: LeakMonth }) => {
  const { months, last, peak } = props
  return (
    <LineChart
      id="leak-running"
      title="House money in the farm, to date"
      summary={`It stood at ${formatCents(last.runningCents)} in ${monthName(last.month)}; it was highest in ${monthName(peak.month)}, at ${formatCents(peak.runningCents)}.`}
      x="month"
      series={[
        {
          name: 'Contributions − draws − reimbursements, so far',
          tone: 2,
          shape: 'step',
          points: months.map((one) => ({ x: one.month, y: centsToDollars(one.runningCents) })),
        },
      ]}
      y={{ format: formatDollars, formatShort: dollarsShort }}
    />
  )
}

const LeakBars = ({ recent }: { recent: readonly LeakMonth[] }) => (
  <BarChart
    id="leak-months"
    title="What crossed between house and farm, month by month"
    summary={`The last ${recent.length} months: upwards what came from the farm to the household, downwards what it put into the farm. Side ventures are in the list of what has crossed.`}
    categories={recent.map((one) => monthNameShort(one.month))}
    categoryTitle="Month"
    isStacked
    series={[
      {
        name: 'Draws and reimbursements',
        tone: 1,
        values: recent.map((one) => centsToDollars(one.drawCents) + centsToDollars(one.reimbursementCents)),
      },
      {
        name: 'Contributions',
        tone: 2,
        values: recent.map((one) => -centsToDollars(one.contributionCents)),
      },
    ]}
    y={{ format: formatDollars, formatShort: dollarsShort }}
  />
)
