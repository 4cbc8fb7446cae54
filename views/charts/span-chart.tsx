// One row a person or thing, spans of time in it with their names inside; a gap is told in words where it begins.
import { scaleLinear } from 'd3-scale'
import type { Child } from 'hono/jsx'
import { Rail, ticksOf } from './axes.tsx'
import { ChartFrame, round, type Size } from './chart-frame.tsx'
import { cutTo, widthOf } from './text-width.ts'

export interface Span {
  /** First month and the month after the last. */
  from: number
  to: number
  says: string
  /** From nothing there to all of it: how dark it is drawn. */
  look: 'gap' | 'light' | 'middle' | 'full'
}

interface SpanChartProps {
  id: string
  title: string
  summary: string
  rows: readonly { name: string; spans: readonly Span[] }[]
  table: Child
}

const barHeight = 26
const foot = 34

export const SpanChart = (props: SpanChartProps) => (
  <ChartFrame
    {...props}
    legend={{ wide: [], narrow: [] }}
    draw={(size) => <Drawing {...props} size={size} />}
    footBelow={(size) => props.rows.length * rowOf(size) + 4 + foot - size.height}
    isMoney={false}
  />
)

/** Names stand beside their spans where there is room, else over them. */
const isBeside = (size: Size): boolean => size.width > 500
const rowOf = (size: Size): number => (isBeside(size) ? 36 : 54)

const Drawing = ({ rows, size: whole }: SpanChartProps & { size: Size }) => {
  const nameRoom = isBeside(whole)
    ? Math.min(150, Math.max(0, ...rows.map((row) => widthOf(row.name, true)))) + 22
    : 8
  const size = { ...whole, left: nameRoom, right: 12 }
  const spans = rows.flatMap((row) => row.spans)
  const low = Math.min(...spans.map((one) => one.from))
  const high = Math.max(...spans.map((one) => one.to))
  const x = scaleLinear([low, high], [size.left, size.width - size.right])
  const base = rows.length * rowOf(size) + 4
  const ticks = ticksOf('month', [low, high], x, size)
  return (
    <>
      {rows.map((row, at) => {
        const top = at * rowOf(size) + (isBeside(size) ? 4 : 22)
        return (
          <g>
            <text class="series-name strong" x={8} y={isBeside(size) ? top + 18 : top - 7}>
              {cutTo(row.name, isBeside(size) ? nameRoom - 20 : size.width - 20, true)}
            </text>
            {row.spans.map((span) => (
              <SpanDrawing span={span} x={x} top={top} />
            ))}
          </g>
        )
      })}
      <Rail ticks={ticks} y={base} size={size} />
    </>
  )
}

const SpanDrawing = ({ span, x, top }: { span: Span; x: (month: number) => number; top: number }) => {
  const from = x(span.from)
  const width = x(span.to) - from
  return (
    <g>
      {span.look === 'gap' ? (
        <line
          class="mark"
          x1={round(from)}
          x2={round(from + width)}
          y1={top + barHeight}
          y2={top + barHeight}
        />
      ) : (
        <rect
          class={`span span-${span.look}`}
          x={round(from + 0.5)}
          y={top}
          width={round(Math.max(1, width - 1))}
          height={barHeight}
        />
      )}
      {widthOf(span.says) + 12 <= width ? (
        <text class={`span-name on-${span.look}`} x={round(from + 7)} y={top + 18}>
          {span.says}
        </text>
      ) : null}
    </g>
  )
}
