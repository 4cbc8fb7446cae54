// What a line chart is told: its lines, bands, marks and notes.
import type { ToldDollars } from '../parts/dollars.tsx'
import { type Axis, dollarsShort, type Tone } from './chart-frame.tsx'

export interface Point {
  x: number
  y: number
}

export interface LineSeries {
  name: string
  /** What stands at the line itself, where the name is long. */
  short?: string
  tone: Tone
  points: readonly Point[]
  /** Points after this x are the future: drawn dashed. */
  futureAfter?: number
  shape?: 'line' | 'step' | 'area'
  /** Stands back behind the others. */
  isThin?: boolean
  /** What must not be spent: the ground under the line is tinted. */
  isGround?: boolean
  /** The spread around it, lightly filled: from the low to the high end. */
  band?: { name: string; points: readonly { x: number; low: number; high: number }[] }
}

/** A point with something to say: a ring for what is lowest or not reached, a dot for what is reached or is you. */
export interface ChartNote extends Point {
  /** The first row stands out. */
  says: readonly string[]
  mark: 'ring' | 'dot'
  tone: Tone
}

export type ChartMark = { atX: number; says: string } | { atY: number; says: string }

export interface LineChartProps {
  id: string
  title: string
  summary: string
  series: readonly LineSeries[]
  /** `month`: x is a Month. Otherwise what it is called and how it is written: in the table, and short along the line where that differs. */
  x: 'month' | { title: string; format: (x: number) => string; formatShort?: (x: number) => string }
  y?: Axis
  /** Upright or level lines with a few words: today, the floor. */
  marks?: readonly ChartMark[]
  notes?: readonly ChartNote[]
  /** A strip over the rail: what holds between two values of x. */
  zones?: readonly { from: number; to: number; says: string }[]
  /** The posts of the rail, where they are not round numbers; those that matter most first. */
  posts?: readonly { at: number; says: string }[]
  /** The scale begins near the lowest value, not at nothing: for lines that are read by what lies between them. */
  isCloseUp?: boolean
  /** Told in these dollars, whichever the page shows. */
  dollars?: ToldDollars | undefined
  /** Every so many points stand in the table; the default keeps it under 40 rows. */
  tableEvery?: number
}

export const writeShort = (chart: LineChartProps): ((value: number) => string) =>
  chart.y?.formatShort ?? dollarsShort
