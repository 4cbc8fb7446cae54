// Income room: for every planned year with marketplace cover, the room left before the next costly line, as a chart and a table.
import { formatDollars, formatPercent } from '#money/format.ts'
import { anyOf } from '#money/lists.ts'
import { roomBefore } from '#rules/marketplace/income-room.ts'
import type { IncomeRooms, RoomYear } from '#today/cover/income-room.ts'
import { BarChart } from '../charts/bar-chart.tsx'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { PageTitle } from '../layout.tsx'
import { Caution } from '../parts/message.tsx'
import { DataTable } from '../parts/table.tsx'
import { incomeInPart, inPart } from '../parts/year-part.ts'

interface IncomeRoomProps {
  found: IncomeRooms
  /** What each limit of coverage is called. */
  names: Readonly<Record<string, string>>
  planName: string
}

export const IncomeRoomPage = ({ found, names, planName }: IncomeRoomProps) => (
  <>
    <PageTitle purpose="How much more can we earn in each year before coverage costs more than it brings?">
      Income room
    </PageTitle>
    <p class="answer">{found.sentence}</p>
    {found.years.length > 0 ? (
      <>
        <RoomChart years={found.years} />
        <RoomTable years={found.years} names={names} />
        <p class="hint">
          {capital(extraWords(found.years))} beyond that of {planName}, in each year’s dollars, as planned.{' '}
          {found.years.map(({ year, part, goesOnFrom }) =>
            part ? `${incomeInPart(`Income of ${year} is that`, part, goesOnFrom)}. ` : '',
          )}
          <a href="/runway/questions/income-room.json">As JSON</a>
        </p>
      </>
    ) : null}
    <p>
      <a href="/cover/credit">The premium tax credit over income is on Health</a>.{' '}
      <a href="/runway/questions">Other questions</a>
    </p>
    <Caution>Limits of coverage change every year, and states have some of their own.</Caution>
  </>
)

/** Farm profit where a year has any, else other income; both where years differ. */
const extraWords = (years: readonly RoomYear[]): string =>
  anyOf([...new Set(years.map((year) => year.extraIs))].sort())

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

const RoomChart = ({ years }: { years: readonly RoomYear[] }) => {
  const shown = years.filter((year) => year.cliff !== null)
  if (shown.length === 0) return null
  const least = shown.reduce((near, year) =>
    roomBefore(year.cliff!) < roomBefore(near.cliff!) ? year : near,
  )
  return (
    <BarChart
      id="income-room-years"
      dollars={{ of: 'year' }}
      title={`Room in ${extraWords(years)} before a costly line`}
      summary={`Least in ${least.year}: ${formatDollars(roomBefore(least.cliff!))}. A line is costly when going over it costs more than $100.`}
      categories={shown.map((year) => String(year.year))}
      categoryTitle="Year"
      series={[{ name: 'Room', tone: 1, values: shown.map((year) => roomBefore(year.cliff!)) }]}
      y={{ format: formatDollars, formatShort: dollarsShort }}
    />
  )
}

const RoomTable = ({ years, names }: { years: readonly RoomYear[]; names: IncomeRoomProps['names'] }) => (
  <DataTable
    caption="Year by year"
    rows={years}
    csv="/runway/questions/income-room.csv"
    stack
    columns={[
      {
        title: 'Year',
        isHeader: true,
        cell: (year) =>
          year.costPart === null || year.costPart.isYear
            ? String(year.year)
            : inPart(`${year.year}, cost`, year.costPart),
      },
      { title: 'Household income', isNumber: true, cell: (year) => formatDollars(year.now.householdIncome) },
      {
        title: '% of FPL of the year before',
        isNumber: true,
        cell: (year) => formatPercent(year.now.povertyPercent / 100, 0),
      },
      {
        title: 'Room',
        isNumber: true,
        cell: (year) => (year.cliff ? formatDollars(roomBefore(year.cliff)) : '–'),
      },
      { title: 'Before', cell: (year) => (year.cliff ? names[year.cliff.line] : 'no costly line ahead') },
      {
        title: 'Crossing costs',
        isNumber: true,
        cell: (year) => (year.cliff ? formatDollars(year.cliff.costOfCrossing) : '–'),
      },
      {
        title: 'Kept of the next $100',
        isNumber: true,
        cell: (year) => formatDollars(year.keptOfNextHundred),
      },
    ]}
  />
)
