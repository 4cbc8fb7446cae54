// Miles, hired hours, goods used at home and bartered of a year, each with its CSV.
import { dayName } from '#calendar/day.ts'
import type { PreparerNotes } from '#farm/notebook/preparer.ts'
import { hoursText } from '#farm/notebook/words.ts'
import { sumCents } from '#money/cents.ts'
import { formatCents, formatCount } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { PageTitle } from '../layout.tsx'
import { Figure, Figures } from '../parts/figure.tsx'
import { Caution, EmptyState } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { headRows } from '../year-pack/notebook-part.tsx'

interface PreparerProps {
  figures: PreparerNotes
  year: number
}

export const PreparerPage = ({ figures, year }: PreparerProps) => (
  <>
    <PageTitle purpose={`Miles, hired hours and goods of ${year}, as the notebook holds them.`}>
      For the preparer
    </PageTitle>
    <p class="answer">{notedInWords(figures, year)}</p>
    <p class="no-print">
      <a href={`/farm/preparer?year=${year - 1}`}>The year before</a> ·{' '}
      <a href="/farm/notebook">The notebook</a>
    </p>
    <Figures>
      <Figure
        label="Miles for the farm"
        value={formatCount(figures.farmMiles)}
        note={odometerSays(figures)}
      />
      <Figure
        label="Goods used at home"
        value={formatCents(figures.kitchenCents)}
        note="at what they sell for"
      />
      <Figure label="Goods bartered" value={formatCents(figures.barteredCents)} note="income of the farm" />
    </Figures>
    {figures.unpriced > 0 ? (
      <p>
        {figures.unpriced} without a price yet: <a href="/farm/notebook/table">give it at the table</a>.
      </p>
    ) : null}
    <Caution askWhom="a licensed tax preparer">
      What of it is deducted or taxed follows from your own case: a rate a mile or actual costs, wages or
      other pay, goods used at home or sold.
    </Caution>
    <Miles figures={figures} year={year} />
    <Hired figures={figures} year={year} />
    <Goods figures={figures} year={year} />
    <Heads figures={figures} />
  </>
)

/** What a preparer asks for first; goods count at what they sell for, and those without a price in nothing. */
export function notedInWords(
  {
    farmMiles,
    hired,
    goods,
    kitchenCents,
    barteredCents,
  }: Pick<PreparerNotes, 'farmMiles' | 'hired' | 'goods' | 'kitchenCents' | 'barteredCents'>,
  year: number,
): string {
  const hours = hired.reduce((sum, { minutes }) => sum + minutes, 0)
  const some = [
    ...(farmMiles > 0 ? [`${formatCount(farmMiles)} farm miles`] : []),
    ...(hours > 0 ? [`${hoursText(hours)} hired hours`] : []),
    ...(goods.length > 0
      ? [`${formatCents(sumCents([kitchenCents, barteredCents]))} of goods that left without money`]
      : []),
  ]
  return some.length === 0
    ? `No miles, hired hours or goods of ${year} are noted yet.`
    : `Noted for ${year} are ${allOf(some)}.`
}

const odometerSays = ({ odometers }: PreparerNotes): string =>
  odometers
    .map(
      ({ vehicle, first, last, driven }) =>
        `${vehicle}: odometer ${formatCount(first)} to ${formatCount(last)}, ${formatCount(driven)} miles in all`,
    )
    .join('; ') || 'no odometer was read'

const Miles = ({ figures, year }: PreparerProps) =>
  figures.trips.length === 0 ? (
    <EmptyState href="/farm/notebook?open=trip" action="Write miles">
      No miles of {year} are written down.
    </EmptyState>
  ) : (
    <DataTable
      caption="Miles by trip"
      rows={figures.trips}
      csv={`/farm/preparer.csv?year=${year}&table=miles`}
      columns={[
        { title: 'Day', cell: ({ day }) => dayName(day), isHeader: true },
        { title: 'Where and why', cell: ({ where }) => where },
        { title: 'Vehicle', cell: ({ vehicle }) => vehicle },
        { title: 'Miles', cell: ({ miles }) => formatCount(miles), isNumber: true },
      ]}
    />
  )

const Hired = ({ figures, year }: PreparerProps) =>
  figures.hired.length > 0 ? (
    <DataTable
      caption="Hired hours and pay"
      rows={figures.hired}
      csv={`/farm/preparer.csv?year=${year}&table=hired`}
      columns={[
        { title: 'Who', cell: ({ person }) => person, isHeader: true },
        { title: 'Hours', cell: ({ minutes }) => hoursText(minutes), isNumber: true },
        {
          title: 'Paid',
          cell: ({ payCents, hasUnpaid }) =>
            `${formatCents(payCents)}${hasUnpaid ? ', some without pay entered' : ''}`,
          isNumber: true,
        },
      ]}
    />
  ) : null

const Heads = ({ figures }: Pick<PreparerProps, 'figures'>) => {
  const rows = headRows(figures)
  return rows.length > 0 ? (
    <details>
      <summary>Head count, breeding stock apart from what is for sale</summary>
      <DataTable
        caption="Head count, breeding stock apart from what is for sale"
        rows={rows}
        columns={[
          { title: 'Herd or flock', cell: ({ what }) => what, isHeader: true },
          { title: 'Head count', cell: ({ quantity }) => quantity, isNumber: true },
        ]}
      />
    </details>
  ) : null
}

const Goods = ({ figures, year }: PreparerProps) =>
  figures.goods.length > 0 ? (
    <DataTable
      caption="Goods used at home and bartered"
      rows={figures.goods}
      stack
      csv={`/farm/preparer.csv?year=${year}&table=goods`}
      columns={[
        { title: 'Day', cell: ({ day }) => dayName(day), isHeader: true },
        { title: 'What', cell: ({ says, kind }) => `${says}${kind === 'kitchen' ? ', our kitchen' : ''}` },
        {
          title: 'Value',
          cell: ({ valueCents }) => (valueCents === null ? 'no price yet' : formatCents(valueCents)),
          isNumber: true,
        },
        { title: 'In the books', cell: ({ isBooked }) => (isBooked ? 'yes' : 'waits') },
      ]}
    />
  ) : null
