// All that has to fit, in one picture: a row a measure, a bar a season over the years, red where more is needed than there is.
import { fromTo } from '#calendar/spell.ts'
import { formatPercent } from '#money/format.ts'
import type { FarmFigures } from '#today/farm/figures.ts'
import { ChartFrame, round, type Size } from '../charts/chart-frame.tsx'
import { cutTo, widthOf } from '../charts/text-width.ts'
import { DataTable } from '../parts/table.tsx'

type FitRow = FarmFigures['fit'][number]
type FitSeason = FitRow['seasons'][number]

const rowTall = 58
const barTall = 28
/** The height of a bar that takes all the room: above it there is place for what is over. */
const full = 0.75

export const FitChart = ({ rows }: { rows: readonly FitRow[] }) => {
  if (rows.length === 0) return null
  const years = yearsOf(rows)
  return (
    <ChartFrame
      id="fit-chart"
      title={`Room that is used, ${fromTo(String(years[0]), String(years.at(-1)))}`}
      summary={summaryOf(rows)}
      legend={{ wide: [], narrow: [] }}
      unit="the part of the room that is used, season by season; the line over the bars is all of it"
      draw={(size) => <Drawing rows={rows} years={years} size={size} />}
      footBelow={(size) => rows.length * rowTall + 24 - size.height}
      table={<FitTable rows={rows} years={years} />}
      isMoney={false}
    />
  )
}

const yearsOf = (rows: readonly FitRow[]): number[] =>
  [...new Set(rows.flatMap(({ seasons }) => seasons.map(({ year }) => year)))].sort((a, b) => a - b)

const summaryOf = (rows: readonly FitRow[]): string => {
  const out = rows.filter(({ firstOver }) => firstOver !== null)
  if (out.length === 0) return 'Stock, markets, room, land, feed and hours fit in every season.'
  const said = out.map(({ name, firstOver }) => `${name}: short from ${firstOver!.season} ${firstOver!.year}`)
  return `${said.join('. ')}.`
}

interface DrawingProps {
  rows: readonly FitRow[]
  years: readonly number[]
  size: Size
}

const Drawing = ({ rows, years, size }: DrawingProps) => {
  const [left, right] = [4, size.width - 4]
  const wide = (right - left) / (years.length * 4)
  const every = Math.ceil((years.length * 44) / (right - left))
  return (
    <>
      {rows.map((row, place) => (
        <Row row={row} years={years} top={place * rowTall} left={left} right={right} wide={wide} />
      ))}
      {years.map((year, at) =>
        at % every === 0 ? (
          <text x={round(left + 4 * wide * at)} y={rows.length * rowTall + 12}>
            {year}
          </text>
        ) : null,
      )}
    </>
  )
}

interface RowProps {
  row: FitRow
  years: readonly number[]
  top: number
  left: number
  right: number
  wide: number
}

const Row = ({ row, years, top, left, right, wide }: RowProps) => {
  const base = top + 20 + barTall
  const line = round(base - barTall * full)
  return (
    <g>
      <text x={left} y={top + 13}>
        {rowSays(row).find((one) => widthOf(one) <= right - left) ?? cutTo(rowSays(row)[0]!, right - left)}
      </text>
      {row.seasons.map((season) => {
        const tall = barTall * Math.min(1, usedOf(season) * full)
        return (
          <rect
            class={season.isOver ? 'bar over' : 'bar tone-4'}
            x={round(left + wide * (4 * years.indexOf(season.year) + placeInYear(row, season)) + 0.5)}
            y={round(base - tall)}
            width={round(Math.max(1, wide - 1.5))}
            height={round(tall)}
          />
        )
      })}
      <line class="axis" x1={left} x2={right} y1={base} y2={base} />
      <line class="mark" x1={left} x2={right} y1={line} y2={line} />
    </g>
  )
}

const placeInYear = ({ seasons }: FitRow, season: FitSeason): number =>
  seasons.filter(({ year }) => year === season.year).indexOf(season)

const usedOf = ({ needed, room }: FitSeason): number => (room > 0 ? needed / room : needed > 0 ? 2 : 0)

/** In full, and shorter where that has no room. */
const rowSays = ({ name, firstOver, seasons }: FitRow): string[] =>
  firstOver === null
    ? [`${name}: up to ${percent(Math.max(0, ...seasons.map(usedOf)))}`]
    : [`${name}: short from ${firstOver.season} ${firstOver.year}`, `${name}: short from ${firstOver.year}`]

const percent = (used: number): string => formatPercent(used, 0)

const FitTable = ({ rows, years }: Omit<DrawingProps, 'size'>) => (
  <DataTable<FitRow>
    caption="Part of the room that is used in the tightest season of each year"
    rows={rows}
    csv="/farm.csv?table=fit"
    columns={[
      { title: 'Measure', isHeader: true, cell: ({ name }) => name },
      ...years.map((year) => ({
        title: String(year),
        isNumber: true,
        cell: (row: FitRow) => tightest(row, year),
      })),
    ]}
  />
)

const tightest = ({ seasons }: FitRow, year: number): string => {
  const own = seasons.filter((one) => one.year === year)
  if (own.length === 0) return '–'
  const most = own.reduce((a, b) => (usedOf(b) > usedOf(a) ? b : a))
  if (most.room > 0) return `${percent(usedOf(most))}, ${most.season}`
  return most.needed > 0 ? 'no room' : '–'
}
