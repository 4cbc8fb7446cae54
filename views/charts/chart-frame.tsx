// What every chart shares: one drawing for wide and one for narrow screens, a text summary, a legend and the table behind.
import type { Child } from 'hono/jsx'
import { formatDollars } from '#money/format.ts'
import { DollarsSaid, type ToldDollars } from '../parts/dollars.tsx'

/** By whose money it is: 1 the farm's, 2 the household's, 3 a venture's, 4 nobody's. */
export type Tone = 1 | 2 | 3 | 4

export interface Size {
  width: number
  height: number
  left: number
  right: number
  top: number
  bottom: number
}

/** Each chart is drawn twice, never one drawing scaled to the other. */
export const chartSizes: Readonly<Record<'wide' | 'narrow', Size>> = {
  wide: { width: 760, height: 300, left: 72, right: 16, top: 16, bottom: 34 },
  narrow: { width: 340, height: 250, left: 58, right: 10, top: 16, bottom: 34 },
}

export interface LegendItem {
  name: string
  tone: Tone
  mark: 'line' | 'bar' | 'band'
  dash?: string
}

/** What a legend says beside each drawing: what stands at its line needs none. */
export type Legends = Readonly<Record<'wide' | 'narrow', readonly LegendItem[]>>

interface FrameProps {
  id: string
  title: string
  /** The chart in words: what it shows and what matters in it. */
  summary: string
  /** The page says it already, above the chart. */
  isSaidAbove?: boolean | undefined
  legend: Legends
  draw: (size: Size) => Child
  /** Room below the axis beyond one row of names, for a drawing of this size. */
  footBelow?: (size: Size) => number
  /** The table behind the chart. */
  table: Child
  /** Its amounts are dollars; of which kind, where that is not the one shown on the page. */
  isMoney: boolean
  dollars?: ToldDollars | undefined
  /** What the upright axis measures. */
  unit?: string | undefined
}

export const ChartFrame = ({
  id,
  title,
  summary,
  isSaidAbove,
  legend,
  draw,
  footBelow,
  table,
  isMoney,
  dollars,
  unit,
}: FrameProps) => (
  <figure class="chart" id={id} aria-labelledby={`${id}-title`}>
    <h3 id={`${id}-title`}>{title}</h3>
    {unit === undefined ? null : <p class="hint">Upward: {unit}</p>}
    {(['wide', 'narrow'] as const)
      .map((width) => ({ width, size: withFoot(chartSizes[width], footBelow?.(chartSizes[width]) ?? 0) }))
      .map(({ width, size }) => (
        <>
          {legend[width].length > 0 ? <Legend items={legend[width]} of={width} /> : null}
          <svg
            class={`chart-${width}`}
            viewBox={`0 0 ${size.width} ${size.height}`}
            role="img"
            aria-label={`${title}. ${summary}`}
          >
            {draw(size)}
          </svg>
        </>
      ))}
    <figcaption>
      {isSaidAbove ? null : summary}
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

interface LaidOut {
  /** What found no place at its line or in its area. */
  legend: readonly LegendItem[]
}

interface LaidOutProps<Layout extends LaidOut> extends Omit<FrameProps, 'legend' | 'draw' | 'footBelow'> {
  layoutOf: (size: Size) => Layout
  draw: (layout: Layout) => Child
}

/** The frame of a chart that first finds places for its names, and by that what its legend has left to say. */
export const LaidOutFrame = <Layout extends LaidOut>({ layoutOf, draw, ...frame }: LaidOutProps<Layout>) => {
  const layouts = { wide: layoutOf(chartSizes.wide), narrow: layoutOf(chartSizes.narrow) }
  return (
    <ChartFrame
      {...frame}
      legend={{ wide: layouts.wide.legend, narrow: layouts.narrow.legend }}
      draw={({ width }) => draw(width === chartSizes.wide.width ? layouts.wide : layouts.narrow)}
    />
  )
}

const withFoot = (size: Size, more: number): Size => ({
  ...size,
  height: size.height + more,
  bottom: size.bottom + more,
})

/** How an upright axis is written; dollars when nothing is said. */
export interface Axis {
  format: (value: number) => string
  formatShort: (value: number) => string
  /** What is measured, said over the drawing: heads, dollars an hour. */
  unit?: string
}

export const isMoneyAxis = (y: Axis | undefined): boolean => y === undefined || y.format === formatDollars

/** Amounts on an axis: `$12k`, `−$1.5m`, `$2bn`. */
export const dollarsShort = (dollars: number): string => {
  const size = Math.abs(dollars)
  const sign = dollars < 0 ? '−' : ''
  if (size >= 1_000_000_000) return `${sign}$${trim(size / 1_000_000_000)}bn`
  if (size >= 1_000_000) return `${sign}$${trim(size / 1_000_000)}m`
  if (size >= 1_000) return `${sign}$${trim(size / 1_000)}k`
  return `${sign}$${trim(size)}`
}

/** Money that says its unit over the drawing too. */
export const dollarAxis: Axis = { format: formatDollars, formatShort: dollarsShort, unit: 'dollars' }

export const round = (value: number): number => Math.round(value * 10) / 10

const trim = (value: number): string => value.toFixed(1).replace(/\.0$/, '')

const Legend = ({ items, of }: { items: readonly LegendItem[]; of: 'wide' | 'narrow' }) => (
  <ul class={`legend chart-${of}`}>
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
