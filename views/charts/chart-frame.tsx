// What every chart shares: one drawing for wide and one for narrow screens, a text summary, a legend and the table behind.
import type { Child } from 'hono/jsx'
import { formatDollars } from '#money/format.ts'
import { DollarsSaid, type ToldDollars } from '../parts/dollars.tsx'

export type Tone = 1 | 2 | 3 | 4

export interface Size {
  width: number
  height: number
  left: number
  right: number
  top: number
  bottom: number
}

const wide: Size = { width: 760, height: 300, left: 72, right: 16, top: 16, bottom: 32 }
const narrow: Size = { width: 340, height: 250, left: 58, right: 10, top: 14, bottom: 30 }

export interface LegendItem {
  name: string
  tone: Tone
  mark: 'line' | 'bar' | 'band'
  dash?: string
}

interface FrameProps {
  id: string
  title: string
  /** The chart in words: what it shows and what matters in it. */
  summary: string
  legend: readonly LegendItem[]
  draw: (size: Size) => Child
  /** Room below the axis beyond one row of names, for a drawing of this size. */
  footBelow?: (size: Size) => number
  /** The table behind the chart. */
  table: Child
  /** Its amounts are dollars; of which kind, where that is not the one shown on the page. */
  isMoney: boolean
  dollars?: ToldDollars | undefined
}

export const ChartFrame = ({
  id,
  title,
  summary,
  legend,
  draw,
  footBelow,
  table,
  isMoney,
  dollars,
}: FrameProps) => (
  <figure class="chart" id={id} aria-labelledby={`${id}-title`}>
    <h3 id={`${id}-title`}>{title}</h3>
    {legend.length > 0 ? <Legend items={legend} /> : null}
    {[wide, narrow]
      .map((size) => withFoot(size, footBelow?.(size) ?? 0))
      .map((size, place) => (
        <svg
          class={place === 0 ? 'chart-wide' : 'chart-narrow'}
          viewBox={`0 0 ${size.width} ${size.height}`}
          role="img"
          aria-label={`${title}. ${summary}`}
        >
          {draw(size)}
        </svg>
      ))}
    <figcaption>
      {summary}
      {isMoney ? <DollarsSaid of={dollars} /> : null}
    </figcaption>
    <details>
      <summary>
        The numbers of this chart<span class="hidden-text">: {title}</span>
      </summary>
      {table}
    </details>
  </figure>
)

const withFoot = (size: Size, more: number): Size => ({
  ...size,
  height: size.height + more,
  bottom: size.bottom + more,
})

/** A line of the grid with its amount, for each tick of the upright axis. */
export const Grid = (props: {
  size: Size
  ticks: readonly number[]
  y: (value: number) => number
  format: (value: number) => string
}) => (
  <g>
    {props.ticks.map((tick) => (
      <g>
        <line
          class={tick === 0 ? 'axis' : 'grid'}
          x1={props.size.left}
          x2={props.size.width - props.size.right}
          y1={round(props.y(tick))}
          y2={round(props.y(tick))}
        />
        <text x={props.size.left - 8} y={round(props.y(tick) + 4)} text-anchor="end">
          {props.format(tick)}
        </text>
      </g>
    ))}
  </g>
)

/** How an upright axis is written; dollars when nothing is said. */
export interface Axis {
  format: (value: number) => string
  formatShort: (value: number) => string
}

export const isMoneyAxis = (y: Axis | undefined): boolean => y === undefined || y.format === formatDollars

/** Amounts on an axis: `$12k`, `−$1.5m`. */
export const dollarsShort = (dollars: number): string => {
  const size = Math.abs(dollars)
  const sign = dollars < 0 ? '−' : ''
  if (size >= 1_000_000) return `${sign}$${trim(size / 1_000_000)}m`
  if (size >= 1_000) return `${sign}$${trim(size / 1_000)}k`
  return `${sign}$${trim(size)}`
}

export const round = (value: number): number => Math.round(value * 10) / 10

const trim = (value: number): string => value.toFixed(1).replace(/\.0$/, '')

const Legend = ({ items }: { items: readonly LegendItem[] }) => (
  <ul class="legend">
    {items.map((item) => (
      <li>
        <svg class={`tone-${item.tone}`} viewBox="0 0 32 12" aria-hidden="true" focusable="false">
          {item.mark === 'line' ? (
            <path class={`line ${item.dash ?? ''}`} d="M1 6h30" />
          ) : (
            <rect class={item.mark} x="1" y="1" width="30" height="10" />
          )}
        </svg>
        {item.name}
      </li>
    ))}
  </ul>
)
