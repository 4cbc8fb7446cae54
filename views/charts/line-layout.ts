// Where everything of a line chart stands in a drawing of one size: scales, ticks, and the words at lines, marks and notes.
import { scaleLinear } from 'd3-scale'
import { fixGrid, fixTicks, leftFor, postsOf, type Tick, ticksOf, uprightTicks } from './axes.tsx'
import type { LegendItem, Size } from './chart-frame.tsx'
import { type Anchor, type LabelBoard, labelBoard, type Place } from './label-board.ts'
import {
  type ChartMark,
  type ChartNote,
  type LineChartProps,
  type LineSeries,
  writeShort,
} from './line-shape.ts'
import { inRows, rowHeight, widthOf } from './text-width.ts'

type Scale = (value: number) => number

export interface WordsAt {
  rows: readonly string[]
  place: Place
}

export interface LineLayout {
  size: Size
  x: Scale
  y: Scale
  yTicks: readonly number[]
  xTicks: readonly Tick[]
  /** The rail's height. */
  base: number
  /** Words at each series and at its band; null where they are in the legend. */
  names: readonly { line: WordsAt | null; band: WordsAt | null }[]
  marks: readonly { mark: ChartMark; words: WordsAt | null }[]
  notes: readonly { note: ChartNote; words: WordsAt | null }[]
  legend: readonly LegendItem[]
}

/** With more lines than this they are told apart by the legend alone. */
const mostDirect = 4
const endGap = 8
/** Of the strip of zones with what is above and below it, px. */
export const zoneHeight = 34

export function lineLayout(chart: LineChartProps, given: Size): LineLayout {
  const { series } = chart
  const whole = chart.zones ? { ...given, bottom: given.bottom + zoneHeight } : given
  const heights = heightsOf(chart)
  const y = scaleLinear(yDomain(heights, chart.isCloseUp ?? false), [
    whole.height - whole.bottom,
    whole.top,
  ]).nice(5)
  const format = writeShort(chart)
  const yTicks = uprightTicks(y, heights.ends, format)
  const isDirect = series.length + series.filter((one) => one.band).length <= mostDirect && series.length > 1
  const size = {
    ...whole,
    left: leftFor(yTicks.map(format)),
    right: isDirect && whole.width > 500 ? rightFor(series, whole.right) : whole.right,
  }
  const [low, high] = xDomain(series)
  const x = scaleLinear([low, high === low ? low + 1 : high], [size.left, size.width - size.right])
  const base = size.height - given.bottom
  const xTicks = chart.posts
    ? postsOf(chart.posts, x, size)
    : ticksOf(chart.x === 'month' ? 'month' : (chart.x.formatShort ?? chart.x.format), [low, high], x, size)
  const board = labelBoard(size.width, size.height)
  fixGrid(board, size, yTicks, y, format)
  fixTicks(board, xTicks, base)
  for (const one of series) board.line(one.points.map((p) => [x(p.x), y(p.y)] as const))
  const at = { board, x, y, size }
  const said: ChartNote[] = []
  const notes = (chart.notes ?? []).map((note, _, all) => {
    const words = isCrowded(note, said, at) ? null : placeNote(note, all, at)
    if (words) said.push(note)
    return { note, words }
  })
  const marks = (chart.marks ?? []).map((mark) => ({ mark, words: placeMark(mark, at) }))
  const names = series.map((one) => ({
    line: isDirect ? placeName(one, at) : null,
    band: isDirect && one.band ? placeBand(one.band, at) : null,
  }))
  return { size, x, y, yTicks, xTicks, base, names, marks, notes, legend: legendOf(series, names) }
}

interface At {
  board: LabelBoard
  x: Scale
  y: Scale
  size: Size
}

/** All that stands at a height. */
function heightsOf({ series, marks, notes }: LineChartProps): Range {
  const range = new Range()
  for (const { points, band } of series) {
    for (const { y } of points) range.add(y)
    for (const point of band?.points ?? []) {
      range.add(point.low)
      range.add(point.high)
    }
  }
  for (const mark of marks ?? []) if ('atY' in mark) range.add(mark.atY)
  for (const { y } of notes ?? []) range.add(y)
  return range
}

function yDomain({ low, high: most }: Range, isCloseUp: boolean): [number, number] {
  const high = Math.max(1, most)
  if (!isCloseUp || low <= 0) return [Math.min(0, low), high]
  return [Math.max(0, low - (high - low) * 0.15), high]
}

function xDomain(series: readonly LineSeries[]): [number, number] {
  const range = new Range()
  for (const { points, band } of series) {
    for (const { x } of points) range.add(x)
    for (const { x } of band?.points ?? []) range.add(x)
  }
  return [range.low, range.high]
}

/** Looked at value by value: lists of all of them, made for each drawing, cost more than the looking. */
class Range {
  low = Number.POSITIVE_INFINITY
  high = Number.NEGATIVE_INFINITY
  /** None where nothing was looked at. */
  get ends(): number[] {
    return this.low > this.high ? [] : [this.low, this.high]
  }
  add(value: number): void {
    if (value < this.low) this.low = value
    if (value > this.high) this.high = value
  }
}

const shortOf = (one: LineSeries): string => one.short ?? one.name

/** Room at the right for the names of lines, in two rows where they are long. */
const rightFor = (series: readonly LineSeries[], least: number): number =>
  Math.max(
    least,
    Math.ceil(Math.max(...series.flatMap((one) => nameRows(one).map((row) => widthOf(row, true))))) +
      endGap +
      4,
  )

const nameRows = (one: LineSeries): string[] => inRows(shortOf(one), 14)

function placeName(one: LineSeries, at: At): WordsAt | null {
  const last = one.points.at(-1)
  if (!last) return null
  if (at.size.width > 500) {
    const rows = nameRows(one)
    const up = ((rows.length - 1) * rowHeight) / 2
    const places = shifts(80).map((shift) => ({
      x: at.x(last.x) + endGap,
      y: at.y(last.y) + 4 - up + shift,
      anchor: 'start' as const,
    }))
    const place = at.board.put(rows, places, { isBold: true })
    return place && { rows, place }
  }
  const rows = [shortOf(one)]
  const places = [1, 0.85, 0.7, 0.55, 0.4, 0.25].flatMap((part) => {
    const point = one.points[Math.round((one.points.length - 1) * part)]!
    return [-7, 18, -12, 24, -18].map((shift) => ({
      x: Math.min(at.x(point.x), at.size.width - at.size.right),
      y: at.y(point.y) + shift,
      anchor: part === 1 ? ('end' as const) : ('middle' as const),
    }))
  })
  const place = at.board.put(rows, places, { isBold: true })
  return place && { rows, place }
}

/** Nothing, then a little up and down by turns. */
const shifts = (most: number): number[] =>
  Array.from({ length: most / 4 + 1 }, (_, step) => step * 4).flatMap((by) => (by === 0 ? [0] : [-by, by]))

/** Inside the band, where it is wide enough. */
function placeBand({ name, points }: NonNullable<LineSeries['band']>, at: At): WordsAt | null {
  const rows = [name]
  const roomy = points
    .map((point) => ({ ...point, room: at.y(point.low) - at.y(point.high) }))
    .filter((point) => point.room > 2 * rowHeight)
  const places = [0.5, 0.6, 0.4, 0.7, 0.3, 0.8].flatMap((part) => {
    const point = roomy[Math.floor((roomy.length - 1) * part)]
    if (!point) return []
    return [0.5, 0.7, 0.85, 0.3].map((deep) => ({
      x: at.x(point.x),
      y: at.y(point.high) + point.room * deep + 4,
      anchor: 'middle' as const,
    }))
  })
  const place = at.board.put(rows, places)
  return place && { rows, place }
}

function placeMark(mark: ChartMark, at: At): WordsAt | null {
  const { size, board } = at
  const rows = [mark.says]
  if ('atY' in mark) {
    const y = at.y(mark.atY)
    const places = [-5, 16].flatMap((shift) => [
      { x: size.width - size.right - 4, y: y + shift, anchor: 'end' as const },
      { x: size.left + 6, y: y + shift, anchor: 'start' as const },
    ])
    const place = board.put(rows, places, { mayLieOnLines: true })
    return place && { rows, place }
  }
  const x = at.x(mark.atX)
  board.line([
    [x, size.top],
    [x, size.height - size.bottom],
  ])
  const places = [10, 26, 42, 58].flatMap((down) => [
    { x: x + 6, y: size.top + down, anchor: 'start' as const },
    { x: x - 6, y: size.top + down, anchor: 'end' as const },
  ])
  const place = board.put(rows, places, { mayLieOnLines: true })
  return place && { rows, place }
}

/** On a phone two notes near each other would hide the lines they speak of: the first one stays, of the other its mark. */
const isCrowded = (note: ChartNote, said: readonly ChartNote[], at: At): boolean =>
  at.size.width <= 500 && said.some((one) => Math.abs(at.x(one.x) - at.x(note.x)) < 150)

/** Above its point or below, with a leader between. */
function placeNote(note: ChartNote, all: readonly ChartNote[], at: At): WordsAt | null {
  const { size, board } = at
  const rows = note.says
  const x = at.x(note.x)
  const y = at.y(note.y)
  const tall = (rows.length - 1) * rowHeight
  const heights = [40, 56, 72, 28, 90, 110, 130, 150, 180].map((up) => y - up - tall)
  const depths = [36, 52, 28].map((down) => y + down)
  const bottom = size.height - size.bottom - tall - 6
  const anchors = anchorsOf(note, all, at)
  const places = [...heights, ...depths]
    .filter((top) => top >= 14 && top <= bottom)
    .flatMap((top) =>
      anchors.map((anchor) => ({
        x: anchor === 'start' ? x - 4 : anchor === 'end' ? x + 4 : x,
        y: top,
        anchor,
      })),
    )
  const place = board.put(rows, places, { isBold: true })
  if (place)
    board.line([
      [x, y],
      [x, place.y > y ? place.y - 12 : place.y + tall + 4],
    ])
  return place && { rows, place }
}

/** Away from the next note; else in the middle over the point. */
function anchorsOf(note: ChartNote, all: readonly ChartNote[], at: At): readonly Anchor[] {
  const near = all.filter((one) => one !== note && Math.abs(at.x(one.x) - at.x(note.x)) < 220)
  if (near.some((one) => one.x > note.x)) return ['end', 'middle', 'start']
  return near.length > 0 ? ['start', 'middle', 'end'] : ['middle', 'start', 'end']
}

const legendOf = (series: readonly LineSeries[], names: LineLayout['names']): LegendItem[] =>
  series.length === 1 && !series[0]!.band
    ? []
    : series.flatMap((one, index) => [
        ...(names[index]!.line
          ? []
          : [{ name: one.name, tone: one.tone, mark: 'line' as const, dash: dashOf(one, index) }]),
        ...(one.band && !names[index]!.band
          ? [{ name: one.band.name, tone: one.tone, mark: 'band' as const }]
          : []),
      ])

/** Lines are told apart without color too. */
export const dashOf = (one: LineSeries, index: number): string =>
  one.isGround ? 'ground' : one.isThin ? 'thin' : index > 0 ? `dash-${Math.min(index + 1, 3)}` : ''
