// What coverage costs a month over household income, as one line with its marks and where the household stands; and the answer in a sentence.
import { monthsWords } from '#calendar/spell.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { type Room, roomBefore } from '#rules/marketplace/income-room.ts'
import type { YearInSight } from '#today/cover/figures.ts'
import { dollarsShort } from '../charts/chart-frame.tsx'
import { LineChart } from '../charts/line-chart.tsx'
import { inPart } from '../parts/year-part.ts'
import { coverageHad } from './coverage-words.ts'

/** What may still be earned before care costs more, or before the credit ends. */
export const RoomAnswer = ({ sight }: { sight: YearInSight }) => {
  const next = sight.cliff
  const first = next ?? creditEnd(sight)
  return (
    <p class="answer">
      {fullPrice(sight)}
      {first ? (
        <>
          You can earn <strong>{formatDollars(roomBefore(first))} more</strong> in {sight.extraIs} in{' '}
          {sight.year} before {next ? costsWords(next, sight) : 'the credit ends'}.
        </>
      ) : (
        `More ${sight.extraIs} in ${sight.year} does not make coverage cost more by a step.`
      )}
    </p>
  )
}

const creditEnd = ({ room }: YearInSight): Room | undefined =>
  room.rooms.find(({ line }) => line === 'credit line' || line === 'credit gone')

/** What else lies on the way: where the credit begins, where other coverage does, and where the credit ends. */
export const OnTheWay = ({ sight }: { sight: YearInSight }) => {
  const next = sight.cliff
  const passes = sight.room.rooms.find((one) => one.moves.length > 0)
  const end = creditEnd(sight)
  const begins = sight.room.rooms.find(
    (one) => one.line === 'federal poverty level' && one.costOfCrossing <= -1,
  )
  return (
    <>
      {begins ? (
        <>
          The credit begins at a household income of {formatDollars(begins.incomeAt)}:{' '}
          <strong>{formatDollars(begins.extraLeft)} more</strong> in {sight.extraIs} brings{' '}
          {inPart(formatDollars(-begins.costOfCrossing), sight.costPart, ' a year')}. Money taken from an IRA
          counts as income too.{' '}
        </>
      ) : null}
      {next && passes && passes.extraLeft < next.extraLeft ? `${passesWords(passes)} ` : ''}
      {next && end && end !== next ? creditEndsWords(end, sight) : ''}
    </>
  )
}

/** The year is named before it. */
const costsWords = ({ costOfCrossing }: Room, { costPart }: YearInSight): string => {
  if (costOfCrossing < 1) return 'coverage costs more'
  const cost = formatDollars(costOfCrossing)
  return `coverage costs more by a step of ${costPart?.isYear ? cost : inPart(cost, costPart, ' a year')}`
}

/** Room before coverage costs more is no good news where all of it is paid already. */
const fullPrice = (sight: YearInSight): string => {
  const { now } = sight.room
  const isFull = sight.knowsPremiums && now.credit <= 0 && !now.onMedicaid && sight.months > 0
  return isFull
    ? `Full price is paid already: ${formatDollars(now.netPremium / sight.months)} a month, with no credit at this income. `
    : ''
}

/** A line on the way at which other coverage begins for as good as the same. */
const passesWords = (room: Room): string => {
  const to = [...new Set(room.moves.map((one) => coverageHad[one.to]))].join(', ')
  const who = [...new Set(room.moves.map((one) => one.name))]
  return `From ${formatDollars(roomBefore(room))} more on, ${allOf(who)} ${who.length === 1 ? 'has' : 'have'} ${to} instead.`
}

/** Also where no credit is paid yet: the income at which it ends, and how far off that is. */
const creditEndsWords = (end: Room, sight: YearInSight): string =>
  `No credit is paid above a household income of ${formatDollars(end.incomeAt)}: that takes ${formatDollars(roomBefore(end))} more ${sight.extraIs} than now.`

export const IncomeLine = ({ sight }: { sight: YearInSight }) => {
  const months = Math.max(1, sight.monthsAtMost)
  const points = sight.credit.map((one) => ({ x: one.householdIncome, y: one.netPremium / months }))
  if (points.length < 2) return null
  const highest = points.at(-1)!.x
  const at = sight.lookedAtIncome
  const pays = sight.room.now.netPremium / months
  return (
    <LineChart
      id="income-line"
      dollars={{ of: 'one year', year: sight.year }}
      title={`Premium a month after the credit, by household income, ${sight.year}`}
      summary={`At ${formatDollars(at)} it is ${formatDollars(pays)} a month${monthsOfIt(sight)}. ${linesInWords(sight)}`}
      series={[{ name: 'Premium a month, after the credit', tone: 2, points, shape: 'step' }]}
      x={{ title: 'Household income', format: formatDollars, formatShort: dollarsShort }}
      y={{ format: formatDollars, formatShort: dollarsShort }}
      notes={
        at <= highest
          ? [
              {
                x: at,
                y: pays,
                mark: 'dot',
                tone: 2,
                says: [
                  `${sight.isTried ? 'Tried' : 'You are here'}: ${formatDollars(at)}`,
                  `${formatDollars(pays)} a month after the credit`,
                ],
              },
            ]
          : []
      }
      zones={zonesOf(sight, highest)}
      posts={postsOf(sight, highest)}
      tableEvery={25}
    />
  )
}

/** Where not all of the months are on the marketplace at this income, the mean of the year is charged in none. */
const monthsOfIt = ({ months, monthsAtMost, room: { now } }: YearInSight): string =>
  months === 0 || months >= monthsAtMost
    ? ''
    : ` on average over ${monthsWords(monthsAtMost)}: ${formatDollars(now.netPremium / months)} in each of ${monthsWords(months)} on the marketplace, nothing in the others`

/** Whom the state's programs cover, then what share of costs a silver plan pays, then no credit. */
function zonesOf(sight: YearInSight, highest: number) {
  const zones: { from: number; to: number; says: string }[] = []
  const edges = [
    0,
    ...sight.credit
      .slice(1)
      .flatMap((point, at) =>
        sight.credit[at]!.silverValue === point.silverValue ? [] : [point.householdIncome],
      ),
    highest,
  ]
  for (let at = 1; at < edges.length; at += 1) {
    const from = edges[at - 1]!
    const value = sight.credit.find((one) => one.householdIncome >= from)!.silverValue
    zones.push({ from, to: edges[at]!, says: value >= 1 ? 'program' : formatPercent(value, 0) })
  }
  return zones
}

/** The lines of income that lie in the picture, those that cost most first. */
const postsOf = (sight: YearInSight, highest: number) =>
  sight.room.rooms
    .filter((one) => one.incomeAt <= highest)
    .toSorted((a, b) => b.costOfCrossing - a.costOfCrossing)
    .map((one) => ({ at: one.incomeAt, says: dollarsShort(Math.round(one.incomeAt / 100) * 100) }))

const linesInWords = ({ room }: YearInSight): string => {
  const dearest = room.rooms.reduce<(typeof room.rooms)[number] | null>(
    (most, one) => (most === null || one.costOfCrossing > most.costOfCrossing ? one : most),
    null,
  )
  const strip =
    'The strip shows what share of the costs of care a silver plan pays; “program” is Medicaid or another program of the state.'
  return dearest === null || dearest.costOfCrossing < 1
    ? strip
    : `The costliest limit above it is at ${formatDollars(dearest.incomeAt)}: going over it costs ${formatDollars(dearest.costOfCrossing)}. ${strip}`
}
