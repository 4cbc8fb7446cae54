// What Dooryard does, in one picture: two sides with the yard between, and savings that last until the farm carries the house.

interface Drawn {
  width: number
  height: number
  /** Middle of the house and of the barn; where the way of savings begins and ends. */
  house: number
  barn: number
}

const drawings = {
  wide: { width: 720, height: 250, house: 90, barn: 630 },
  narrow: { width: 340, height: 300, house: 56, barn: 284 },
} as const

const says =
  'A house and a barn with a fence between. Draws cross from the farm to the household, contributions from the household to the farm. Below, savings fall month by month, stay above the floor, and rise from the month in which the farm carries the house.'

export const StartPicture = () => (
  <figure class="chart" id="what-it-does">
    {(['wide', 'narrow'] as const).map((width) => (
      <svg
        class={`chart-${width}`}
        viewBox={`0 0 ${drawings[width].width} ${drawings[width].height}`}
        role="img"
        aria-label={says}
      >
        <Yard of={drawings[width]} />
        <Way of={drawings[width]} />
      </svg>
    ))}
    <figcaption>
      House and farm keep books of their own; what crosses between them is written once. So you see how long
      savings last, and from when the farm carries the house. The picture is an example.
    </figcaption>
  </figure>
)

const ground = 92

const Yard = ({ of: { width, house, barn } }: { of: Drawn }) => {
  const middle = width / 2
  return (
    <g>
      <path class="side-house side-fill" d={`M${house - 34} ${ground}V46l34-30 34 30V${ground}z`} />
      <path class="side-farm side-fill" d={`M${barn - 34} ${ground}V50l11-22 23-14 23 14 11 22V${ground}z`} />
      <path
        class="fence-stroke"
        d={`M${middle - 14} ${ground}V56M${middle} ${ground}V52M${middle + 14} ${ground}V56M${middle - 22} 66h44M${middle - 22} 80h44`}
      />
      <Crossing from={barn - 44} to={house + 44} y={26} says="draws" tone={1} />
      <Crossing from={house + 44} to={barn - 44} y={46} says="contributions" tone={2} />
      <text class="strong" x={house} y={ground + 18} text-anchor="middle">
        Household
      </text>
      <text class="strong" x={barn} y={ground + 18} text-anchor="middle">
        Farm
      </text>
    </g>
  )
}

/** An arrow with its word over it; draws above, contributions below them. */
const Crossing = (props: { from: number; to: number; y: number; says: string; tone: 1 | 2 }) => {
  const { from, to, y } = props
  const back = to > from ? -8 : 8
  return (
    <g>
      <path
        class={`line tone-${props.tone}`}
        d={`M${from} ${y}H${to}M${to + back} ${y - 5}L${to} ${y}L${to + back} ${y + 5}`}
      />
      <text class="mark-name" x={(from + to) / 2} y={y - 4} text-anchor="middle">
        {props.says}
      </text>
    </g>
  )
}

const Way = ({ of: { width, height } }: { of: Drawn }) => {
  const top = ground + 44
  const base = height - 12
  const at = (part: number) => Math.round(8 + part * (width - 16))
  const down = (part: number) => Math.round(top + part * (base - top))
  return (
    <g>
      <path class="ground-fill" d={`M${at(0)} ${down(0.78)}H${at(1)}V${base}H${at(0)}z`} />
      <path class="line ground" d={`M${at(0)} ${down(0.78)}H${at(1)}`} />
      <path
        class="line tone-2"
        d={`M${at(0)} ${down(0.02)}L${at(0.22)} ${down(0.3)}L${at(0.42)} ${down(0.62)}`}
      />
      <path
        class="line future tone-2"
        d={`M${at(0.42)} ${down(0.62)}L${at(0.56)} ${down(0.66)}L${at(0.78)} ${down(0.42)}L${at(1)} ${down(0.28)}`}
      />
      <line class="leader" x1={at(0.78)} x2={at(0.78)} y1={down(0.42) - 5} y2={down(0.42) - 24} />
      <circle class="dot tone-2" cx={at(0.78)} cy={down(0.42)} r={4.5} />
      <text class="at-line tone-2" x={at(0.02)} y={down(0.54)}>
        savings
      </text>
      <text class="note" x={at(0.78) + 4} y={down(0.42) - 29} text-anchor="end">
        the farm carries the house
      </text>
      <text class="note" x={at(0) + 6} y={down(0.78) + 17}>
        floor: not to be spent
      </text>
      <line class="rail" x1={at(0)} x2={at(1)} y1={base} y2={base} />
    </g>
  )
}
