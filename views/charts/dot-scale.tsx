// One row a thing on one scale of months: a dot where it is reached, a ring at the end where it is not.
import { scaleLinear } from 'd3-scale'
import type { Child } from 'hono/jsx'
import { ChartFrame, round, type Size } from './chart-frame.tsx'
import { cutTo, rowHeight, widthOf } from './text-width.ts'

export interface DotRow {
  name: string
  /** Months from now; null where it is not reached. */
  months: number | null
  /** At the right of the name. */
  says: string
}

interface DotScaleProps {
  id: string
  title: string
  summary: string
  rows: readonly DotRow[]
  /** A dotted line through all rows, where there is something to hold them against. */
  reference: { months: number; says: string } | null
  table: Child
}

const rowOf = 42
/** Between the last year of the scale and the rings of what is not reached. */
const gap = 28
const foot = 44

export const DotScale = (props: DotScaleProps) => (
  <ChartFrame
    {...props}
    legend={{ wide: [], narrow: [] }}
    draw={(size) => <Drawing {...props} size={size} />}
    footBelow={(size) => placesOf(props.rows, size).bottom + foot - size.height}
    isMoney={false}
  />
)

/** Where each row's name stands; one that has no room beside what is said of it stands a row above. */
function placesOf(rows: readonly DotRow[], size: Size) {
  let bottom = 0
  const places = rows.map((row) => {
    const isLong = widthOf(row.name, true) + widthOf(row.says) + 32 > size.width
    const name = bottom + 18
    const says = name + (isLong ? rowHeight : 0)
    bottom += rowOf + (isLong ? rowHeight : 0)
    return { row, name, says, line: says + 12 }
  })
  return { places, bottom }
}

const Drawing = ({ rows, reference, size }: DotScaleProps & { size: Size }) => {
  const reached = [...rows.map((row) => row.months), reference?.months ?? null]
  const years = Math.max(1, Math.ceil(Math.max(0, ...reached.map((months) => months ?? 0)) / 12))
  const right = size.width - 8
  const x = scaleLinear([0, years * 12], [8, right - gap])
  const { places, bottom } = placesOf(rows, size)
  const every = Math.ceil(years / (size.width > 500 ? 12 : 5))
  return (
    <>
      {Array.from({ length: years + 1 }, (_, year) => year).map((year) => (
        <g>
          <line class="grid" x1={round(x(year * 12))} x2={round(x(year * 12))} y1={4} y2={bottom} />
          {year % every === 0 ? (
            <text x={round(x(year * 12))} y={bottom + 16} text-anchor={year === 0 ? 'start' : 'middle'}>
              {year === 0 ? 'today' : `${year} y`}
            </text>
          ) : null}
        </g>
      ))}
      {reference ? (
        <g>
          <line
            class="mark"
            x1={round(x(reference.months))}
            x2={round(x(reference.months))}
            y1={4}
            y2={bottom + 20}
          />
          <text
            class="mark-name"
            x={round(x(reference.months))}
            y={bottom + 34}
            text-anchor={x(reference.months) > size.width / 2 ? 'end' : 'start'}
          >
            {reference.says}
          </text>
        </g>
      ) : null}
      {places.map(({ row, name, says, line: y }) => {
        const end = row.months === null ? right - 6 : x(row.months)
        return (
          <g>
            <text class="series-name" x={8} y={name}>
              {cutTo(row.name, size.width - 16, true)}
            </text>
            <text x={right} y={says} text-anchor="end">
              {row.says}
            </text>
            <line class="axis" x1={8} x2={round(end)} y1={y} y2={y} />
            <circle class={row.months === null ? 'ring tone-2' : 'dot tone-2'} cx={round(end)} cy={y} r={5} />
          </g>
        )
      })}
    </>
  )
}
