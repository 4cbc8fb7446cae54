// One batch: what an hour of it brought in one sentence, how many are left day by day, money and hours, the batches before, and what can be noted.
import { type Day, dayName, dayNumber } from '#calendar/day.ts'
import { isCountedByHead } from '#farm/notebook/whole-heads.ts'
import { hoursText } from '#farm/notebook/words.ts'
import type { Cents } from '#money/cents.ts'
import { formatCents, formatDollarsAndCents } from '#money/format.ts'
import type { BatchFigures, BatchRow } from '#today/farm/batch-figures.ts'
import { LineChart } from '../charts/line-chart.tsx'
import { PageTitle } from '../layout.tsx'
import { LinkButton } from '../parts/button.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Notice } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { BatchForms, type BatchFormsProps } from './batch-forms.tsx'
import { BatchMoney } from './batch-money.tsx'
import { BatchLines, BatchNotes } from './batch-noted.tsx'

export const BatchPage = (props: BatchFormsProps) => {
  const { figures } = props
  const { batch, result } = figures
  return (
    <>
      <PageTitle purpose={answerOf(figures)}>{batch.name}</PageTitle>
      <p class="hint">
        {figures.enterprise}, {batch.size} {batch.unit}, started {dayName(batch.startedDay)}
        {batch.endedDay === null ? '' : `, ended ${dayName(batch.endedDay)}`}
        {batch.place === '' ? '' : `, ${batch.place}`}.{' '}
        <a class="no-print" href={`/farm/batches/${batch.id}/edit`}>
          Change it{batch.endedDay === null ? ' or end it' : ''}
        </a>
      </p>
      <NotRight figures={figures} />
      <Figures>
        <Figure
          label="Cost of one"
          value={money(result.costPerUnitCents)}
          note={`all costs over the ${result.lived} that were not lost`}
        />
        <Figure label="Cost of a pound" value={money(result.costPerPoundCents)} note={poundsSay(figures)} />
        <Figure
          label="Left after costs"
          value={formatCents(result.marginCents)}
          note="sales and own goods less costs"
        />
        <Figure
          label="Return to labor"
          word="return to labor"
          value={
            result.perHourCents === null ? hourUntold(result) : `${formatCents(result.perHourCents)} an hour`
          }
          note={`over ${hoursText(result.minutes)} h of your own`}
        />
      </Figures>
      {result.onHand.length > 1 ? <OnHand figures={figures} /> : null}
      <BatchMoney figures={figures} />
      <Beside figures={figures} />
      <BatchNotes {...props} />
      <BatchLines {...props} />
      <BatchForms {...props} />
      <p class="no-print">
        <LinkButton quiet href="/farm/batches">
          All batches
        </LinkButton>
      </p>
    </>
  )
}

/** What of it cannot be right, or is told nowhere. */
const NotRight = ({ figures: { batch, result } }: { figures: BatchFigures }) => (
  <>
    {result.tooMany > 0 ? (
      <Notice>
        <p>
          {result.tooMany} more are gone than there were. One of the notes below, or the size, is not right.
        </p>
      </Notice>
    ) : null}
    {result.salesCents > 0 && result.sold === 0 && result.left > 0 ? (
      <Notice>
        <p>
          It has sales, and no note says that any of it was sold: all of its cost lies in what is left.{' '}
          {isCountedByHead(batch.unit)
            ? 'Note what was sold'
            : `Note as sold the ${batch.unit} that are picked for good`}
          , or end the batch once it is over.
        </p>
      </Notice>
    ) : null}
    {result.untold > 0 ? (
      <Notice>
        <p>
          It ended, and no note says what became of {result.untold} of {batch.size} {batch.unit}.{' '}
          <a class="no-print" href={`/farm/batches/${batch.id}/edit`}>
            Say how many were sold, lost, used at home and kept
          </a>
        </p>
      </Notice>
    ) : null}
  </>
)

const poundsSay = ({ batch, result: { pounds } }: BatchFigures): string => {
  if (pounds === null) return 'no weights noted'
  const weighed = `${pounds.of} at ${pounds.pounds} lb`
  return pounds.basis === 'live'
    ? `a ${isCountedByHead(batch.unit) ? 'live pound' : 'pound'}: ${weighed} when last weighed`
    : `${weighed}, ${pounds.basis}`
}

const hourUntold = ({ minutes }: BatchFigures['result']): string =>
  minutes === 0 ? 'no hours noted' : 'after the first sale'

const money = (amount: Cents | null): string => (amount === null ? 'not known yet' : formatCents(amount))

/** The page's answer: an hour so far, what is left, and what that must bring. */
const answerOf = ({ batch, result }: BatchFigures): string => {
  const hour =
    result.perHourCents === null ? 'no hours are noted' : `${formatCents(result.perHourCents)} an hour`
  if (batch.endedDay !== null)
    return result.perHourCents === null
      ? `It brought ${formatCents(result.marginCents)} after costs; ${hour}.`
      : `It brought ${hour}, ${formatCents(result.marginCents)} after costs.`
  const rest = `${result.left} of ${batch.size} are left`
  if (result.salesCents + result.goodsCents === 0)
    return `${formatCents(result.costsCents)} spent so far; ${rest}, and each must bring ${money(result.breakEvenCents)} to pay for it.`
  const covered =
    result.breakEvenCents === 0
      ? 'it has paid for itself'
      : `each must bring ${money(result.breakEvenCents)} to pay for it`
  return `So far ${hour}; ${rest}, and ${covered}.`
}

const OnHand = ({ figures: { batch, result, today } }: { figures: BatchFigures }) => {
  const last = result.onHand.at(-1)!
  const until: Day = batch.endedDay ?? (last.day > today ? last.day : today)
  const points = [...result.onHand, { day: until, count: batch.endedDay === null ? last.count : result.kept }]
  return (
    <LineChart
      id="on-hand"
      title="How many were there, day by day"
      summary={`${batch.size} on ${dayName(batch.startedDay)}, ${last.count} on ${dayName(last.day)}.`}
      series={[
        {
          name: batch.unit,
          tone: 1,
          shape: 'step',
          points: points.map(({ day, count }) => ({ x: dayNumber(day), y: Math.max(0, count) })),
        },
      ]}
      x={{ title: 'Day', format: (x) => dayName(dayOf(batch.startedDay, x)).replace(/, \d{4}$/, '') }}
      y={{ format: wholeNumber, formatShort: wholeNumber, unit: batch.unit }}
      marks={result.paidForItself ? [{ atX: dayNumber(result.paidForItself), says: 'paid for itself' }] : []}
    />
  )
}

const wholeNumber = (count: number): string => String(Math.round(count))

const dayOf = (start: Day, number: number): Day => {
  const date = new Date((number - dayNumber(start)) * 86_400_000 + Date.parse(`${start}T00:00:00Z`))
  return date.toISOString().slice(0, 10) as Day
}

const Beside = ({ figures: { beside, batch, plan } }: { figures: BatchFigures }) => (
  <DataTable<{ name: string; lost: string; cost: string; margin: string; hour: string; isThis: boolean }>
    caption="Next to the batches before, and the plan"
    stack
    rows={[
      ...beside.map((row) => besideRow(row, row.batch.id === batch.id)),
      ...(plan
        ? [
            {
              name: `The plan, one ${plan.unit} a year`,
              lost: '–',
              cost: formatDollarsAndCents(plan.costs),
              margin: formatDollarsAndCents(plan.sales - plan.costs),
              hour: plan.perHour === null ? '–' : formatDollarsAndCents(plan.perHour),
              isThis: false,
            },
          ]
        : []),
    ]}
    rowClass={({ isThis }) => (isThis ? 'total' : undefined)}
    columns={[
      {
        title: 'Batch',
        cell: ({ name, isThis }) => (isThis ? <strong>{name}</strong> : name),
        isHeader: true,
      },
      { title: 'Lost', cell: ({ lost }) => lost, isNumber: true },
      { title: 'Cost of one', cell: ({ cost }) => cost, isNumber: true },
      {
        title: `Left of one that ${isCountedByHead(batch.unit) ? 'lived' : 'was not lost'}, after costs`,
        cell: ({ margin }) => margin,
        isNumber: true,
      },
      { title: 'An hour', cell: ({ hour }) => hour, isNumber: true },
    ]}
  />
)

const besideRow = ({ batch, result }: BatchRow, isThis: boolean) => ({
  name: batch.name,
  lost: `${result.lost} of ${batch.size}`,
  cost: money(result.costPerUnitCents),
  margin: money(result.marginPerUnitCents),
  hour: result.perHourCents === null ? hourUntold(result) : formatCents(result.perHourCents),
  isThis,
})
