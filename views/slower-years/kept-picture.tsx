// House, barn and the house to come, each filled to what is there, with what is kept back marked in it.
import { scaleLinear } from 'd3-scale'
import type { Child } from 'hono/jsx'
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { KeptMoney } from '#today/slower-years/figures.ts'
import { ChartFrame, dollarsShort, round, type Size } from '../charts/chart-frame.tsx'
import { inRows, rowHeight, widthOf } from '../charts/text-width.ts'

interface Level {
  name: string
  from: number
  to: number
}

interface Building {
  name: string
  kind: 'house' | 'farm'
  isToCome: boolean
  has: number
  levels: readonly Level[]
}

export const KeptPicture = (props: { kept: KeptMoney; summary: string; table: Child }) => (
  <ChartFrame
    id="kept-picture"
    title="Where money is kept back"
    summary={props.summary}
    legend={{ wide: [], narrow: [] }}
    draw={(size) => <Drawing buildings={buildingsOf(props.kept)} size={size} />}
    footBelow={(size) => (size.width > 500 ? 1 : 2) * rowHeight}
    table={props.table}
    isMoney
  />
)

const buildingsOf = ({
  month,
  savings,
  floor,
  emergency,
  farmCash,
  reserve,
  cushion,
}: KeptMoney): Building[] => [
  {
    name: `House, ${shortMonth(month)}`,
    kind: 'house',
    isToCome: false,
    has: savings,
    levels: [
      { name: 'Floor', from: 0, to: floor },
      { name: 'Emergency fund', from: floor, to: Math.max(floor, emergency) },
    ],
  },
  {
    name: `Farm, ${shortMonth(month)}`,
    kind: 'farm',
    isToCome: false,
    has: farmCash,
    levels: [{ name: 'Reserve', from: 0, to: reserve }],
  },
  ...(cushion
    ? [
        {
          name: `House, ${shortMonth(cushion.month)}`,
          kind: 'house' as const,
          isToCome: true,
          has: cushion.savings,
          levels: [{ name: 'Cushion', from: 0, to: cushion.needed }],
        },
      ]
    : []),
]

const shortMonth = (month: string): string => {
  const [name, year] = nameOfMonth(month).split(' ') as [string, string]
  return `${name.slice(0, 3)} ${year}`
}

const Drawing = ({ buildings, size }: { buildings: readonly Building[]; size: Size }) => {
  const base = size.height - size.bottom
  const room = size.width / buildings.length
  return (
    <>
      {buildings.map((building, at) => (
        <BuildingDrawing building={building} middle={room * (at + 0.5)} room={room} base={base} />
      ))}
      <line class="rail" x1={4} x2={size.width - 4} y1={base} y2={base} />
    </>
  )
}

const fitting = (dollars: number, room: number): string =>
  widthOf(formatDollars(dollars)) < room ? formatDollars(dollars) : dollarsShort(dollars)

const roof = 56

const BuildingDrawing = (props: { building: Building; middle: number; room: number; base: number }) => {
  const { building, middle, room, base } = props
  const half = Math.min(110, room * 0.42)
  const inside = half - 6
  const most = Math.max(1, building.has, ...building.levels.map((one) => one.to))
  const y = scaleLinear([0, most], [base, roof + 24])
  const filled = Math.max(0, building.has)
  const name = inRows(building.name, room > 140 ? 20 : 9)
  return (
    <g class={`kept-building side-${building.kind}`}>
      <path
        class={building.isToCome ? 'kept-outline to-come' : 'kept-outline'}
        d={outlineOf(building.kind, middle, half, base)}
      />
      <rect
        class="kept-there"
        x={round(middle - inside)}
        width={round(inside * 2)}
        y={round(y(filled))}
        height={round(base - y(filled))}
      />
      {building.levels.map((level) => (
        <LevelDrawing
          level={level}
          isTopmost={level === building.levels.at(-1)}
          middle={middle}
          inside={inside}
          y={y}
        />
      ))}
      {[...name, `has ${fitting(building.has, room - 44)}`].map((row, at) => (
        <text
          class={at < name.length ? 'strong' : undefined}
          x={round(middle)}
          y={base + 20 + at * rowHeight}
          text-anchor="middle"
        >
          {row}
        </text>
      ))}
    </g>
  )
}

function outlineOf(kind: Building['kind'], middle: number, half: number, base: number): string {
  const eaves = roof + 10
  const [left, right] = [round(middle - half), round(middle + half)]
  const bend = half * 0.55
  const top =
    kind === 'house'
      ? `L${round(middle)} 12`
      : `L${round(middle - bend)} 26L${round(middle)} 12L${round(middle + bend)} 26`
  return `M${left} ${base}V${eaves}${top}L${right} ${eaves}V${base}`
}

/** A level with its name and height inside, or over it where it is too low for them and nothing else stands. */
const LevelDrawing = (props: {
  level: Level
  isTopmost: boolean
  middle: number
  inside: number
  y: (value: number) => number
}) => {
  const { level, isTopmost, middle, inside, y } = props
  const [top, bottom] = [y(level.to), y(level.from)]
  if (bottom - top < 1) return null
  const name = inRows(level.name, widthOf(level.name, true) < inside * 2 - 6 ? 99 : 9)
  const rows = [...name, fitting(level.to, inside * 2 - 8)]
  const tall = rows.length * rowHeight
  const isInside = bottom - top > tall + 4
  const center = isInside ? (top + bottom) / 2 : top - tall / 2 - 4
  const first = center + 5 - ((rows.length - 1) * rowHeight) / 2
  return (
    <g>
      <rect
        class="kept-level"
        x={round(middle - inside)}
        width={round(inside * 2)}
        y={round(top)}
        height={round(bottom - top)}
      />
      {(isInside || isTopmost ? rows : []).map((row, at) => (
        <text
          class={at < name.length ? 'in-area' : 'in-area plain'}
          x={round(middle)}
          y={round(first + at * rowHeight)}
          text-anchor="middle"
        >
          {row}
        </text>
      ))}
    </g>
  )
}
