// One row a thing on one scale of months: a dot where it is reached, a ring at the end where it is not.
import { scaleLinear } from 'd3-scale'
import type { Child } from 'hono/jsx'
import { ChartFrame, round, type Size } from './chart-frame.tsx'
import { cutTo, widthOf } from './text-width.ts'

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
    footBelow={(size) => props.rows.length * rowOf + foot - size.height}
    isMoney={false}
  />
)

/** A long name is cut where what is said of it begins; the table behind has it whole. */
const shortened = ({ name, says }: DotRow, size: Size): string => cutTo(name, size.width - 32 - widthOf(says))

const Drawing = ({ rows, reference, size }: DotScaleProps & { size: Size }) => {
  const reached = [...rows.map((row) => row.months), reference?.months ?? null]
  const years = Math.max(1, Math.ceil(Math.max(0, ...reached.map((months) => months ?? 0)) / 12))
  const right = size.width - 8
  const x = scaleLinear([0, years * 12], [8, right - gap])
  const bottom = rows.length * rowOf
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
      {rows.map((row, at) => {
        const y = at * rowOf + 30
        const end = row.months === null ? right - 6 : x(row.months)
        return (
          <g>
            <text class="series-name" x={8} y={y - 12}>
              {shortened(row, size)}
            </text>
            <text x={right} y={y - 12} text-anchor="end">
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
