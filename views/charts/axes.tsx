// The upright and the level axis of a chart: where their words stand, and how they are drawn.
import { scaleLinear } from 'd3-scale'
import { type Month, monthNameShort, monthOfYear, yearOf } from '#calendar/month.ts'
import { round, type Size } from './chart-frame.tsx'
import type { Anchor, LabelBoard } from './label-board.ts'
import { widthOf } from './text-width.ts'

export interface Tick {
  at: number
  says: string
  anchor: Anchor
}

interface Upright {
  (value: number): number
  ticks(count: number): number[]
}

/** Amounts of an upright axis, no two of which read alike. Where all of `values` is nothing, that one line is all there is to tell. */
export const uprightTicks = (
  y: Upright,
  values: readonly number[],
  format: (value: number) => string,
): number[] =>
  values.every((value) => value === 0)
    ? [0]
    : ([5, 4, 3, 2].map((count) => y.ticks(count)).find((ticks) => areApart(ticks.map(format))) ?? y.ticks(1))

const areApart = (texts: readonly string[]): boolean => new Set(texts).size === texts.length

/** Room that the widest amount of an upright axis needs left of the drawing. */
export const leftFor = (names: readonly string[]): number =>
  Math.ceil(Math.max(28, ...names.map((name) => widthOf(name)))) + 14

/** Lines of the grid with their amounts, for each tick of the upright axis. */
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

export function fixGrid(
  board: LabelBoard,
  size: Size,
  ticks: readonly number[],
  y: (value: number) => number,
  format: (value: number) => string,
): void {
  for (const tick of ticks) board.fix([format(tick)], { x: size.left - 8, y: y(tick) + 4, anchor: 'end' })
}

/** As many ticks of a level axis as have room beside each other: months by Januaries or in even steps, else round numbers. */
export function ticksOf(
  kind: 'month' | ((x: number) => string),
  [low, high]: readonly [number, number],
  scale: (value: number) => number,
  size: Size,
): Tick[] {
  const most = size.width > 500 ? 9 : 5
  for (let count = most; count > 1; count -= 1) {
    const ticks = placed(kind, low, high, count, scale, size)
    if (ticks.every((tick, at) => at === 0 || startOf(tick) - endOf(ticks[at - 1]!) >= 8)) return ticks
  }
  return placed(kind, low, high, most, scale, size).slice(0, 1)
}

function placed(
  kind: 'month' | ((x: number) => string),
  low: number,
  high: number,
  count: number,
  scale: (value: number) => number,
  size: Size,
): Tick[] {
  const at = kind === 'month' ? monthTicks(low, high, count) : scaleLinear([low, high], [0, 1]).ticks(count)
  const name = kind === 'month' ? monthTickName : kind
  return at.map((tick) => {
    const says = name(tick)
    return { at: scale(tick), says, anchor: anchorAt(scale(tick), widthOf(says), size) }
  })
}

/** Posts at given values: all of them, and the names of those that have room, the first ones first. */
export function postsOf(
  posts: readonly { at: number; says: string }[],
  scale: (value: number) => number,
  size: Size,
): Tick[] {
  const taken: Tick[] = []
  return posts.map(({ at, says }) => {
    const tick = { at: scale(at), says, anchor: anchorAt(scale(at), widthOf(says), size) }
    const isFree = taken.every(
      (other) => startOf(tick) - endOf(other) >= 8 || startOf(other) - endOf(tick) >= 8,
    )
    if (isFree) taken.push(tick)
    return isFree ? tick : { ...tick, says: '' }
  })
}

const startOf = ({ at, says, anchor }: Tick): number =>
  anchor === 'start' ? at : at - widthOf(says) / (anchor === 'end' ? 1 : 2)

const endOf = (tick: Tick): number => startOf(tick) + widthOf(tick.says)

const anchorAt = (at: number, width: number, size: Size): Anchor =>
  at - width / 2 < 2 ? 'start' : at + width / 2 > size.width - 2 ? 'end' : 'middle'

/** Januaries, or every few months where the span is short. */
function monthTicks(low: number, high: number, count: number): number[] {
  const span = high - low
  const step = [1, 2, 3, 6, 12, 24, 60, 120, 240].find((months) => span / months <= count) ?? 480
  const ticks: number[] = []
  for (let tick = Math.ceil(low / step) * step; tick <= high; tick += step) ticks.push(tick)
  return ticks
}

const monthTickName = (tick: number): string =>
  monthOfYear(tick as Month) === 1 ? String(yearOf(tick as Month)) : monthNameShort(tick as Month)

/** The rail under a drawing, a post at each tick. */
export const Rail = ({ ticks, y, size }: { ticks: readonly Tick[]; y: number; size: Size }) => (
  <g>
    <line class="rail" x1={size.left} x2={size.width - size.right} y1={round(y)} y2={round(y)} />
    {ticks.map((tick) => (
      <g>
        <rect class="post" x={round(tick.at - 3)} y={round(y - 3)} width={6} height={6} />
        {tick.says === '' ? null : (
          <text x={round(tick.at)} y={round(y + 20)} text-anchor={tick.anchor}>
            {tick.says}
          </text>
        )}
      </g>
    ))}
  </g>
)

export const fixTicks = (board: LabelBoard, ticks: readonly Tick[], y: number): void => {
  for (const { at, says, anchor } of ticks) if (says !== '') board.fix([says], { x: at, y: y + 20, anchor })
}
