// Income room: each line above today's income, the dollars left before it, and what crossing it costs.
import { formatDollars, formatPercent } from '#money/format.ts'
import { type Room, roomBefore } from '#rules/marketplace/income-room.ts'
import type { YearInSight } from '#today/cover/figures.ts'
import type { LeftWithout } from '#today/cover/left-without.ts'
import { MadeOfDetails } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'
import { inPart } from '../parts/year-part.ts'
import { coverageWords, limitOf, povertyOf } from './coverage-words.ts'

export const RoomTable = ({ sight }: { sight: YearInSight }) => (
  <section aria-labelledby="room-title">
    <h2 id="room-title">Income room</h2>
    <p>
      Of the next $100 of {sight.extraIs}, {formatDollars(sight.room.keptOfNextHundred)} stay in hand after
      tax and premiums.
    </p>
    {sight.room.rooms.length === 0 ? (
      <p>No limit of coverage lies above this income.</p>
    ) : (
      <DataTable
        caption={`Limits above ${formatDollars(sight.lookedAtIncome)}, nearest first`}
        stack
        dollars={{ of: 'one year', year: sight.year }}
        csv={`/cover.csv?table=room&${sight.query}`}
        rows={sight.room.rooms}
        columns={[
          { title: 'Limit', isHeader: true, cell: (room) => lineWords(room) },
          { title: 'At household income', isNumber: true, cell: (room) => formatDollars(room.incomeAt) },
          { title: 'Room left', isNumber: true, cell: (room) => formatDollars(room.incomeLeft) },
          {
            title: `As ${sight.extraIs}`,
            isNumber: true,
            cell: (room) => formatDollars(roomBefore(room)),
          },
          {
            title: 'Going over it',
            cell: (room) => crossingWords(room, sight, sight.leftWithout[sight.room.rooms.indexOf(room)]),
          },
        ]}
      />
    )}
    <MadeOfDetails
      says={`The whole return is worked again with more ${sight.extraIs} until household income passes the limit. The cost is the tax and premiums of a year just past the limit, less those just before it.${roomsApart(sight)}`}
      rows={sight.room.rooms.map((room) => ({
        label: `${lineWords(room)}, ${limitOf(formatPercent(room.percentAt / 100, 0), povertyOf(sight.year, room.ofYearBefore), { ofMonths: room.ofMonths, runFrom: sight.runFrom })}`,
        value: formatDollars(room.incomeAt),
      }))}
      source={{
        text: `${sight.sources.percentage}; ${sight.sources.costSharing}; ${sight.sources.medicaid}`,
      }}
    />
  </section>
)

/** Why so much more of the extra income is not so much more household income. */
const roomsApart = ({ extraIs, room: { rooms } }: YearInSight): string => {
  const larger = ` As ${extraIs} there is more room where half the self-employment tax and the health deduction come off first.`
  const smaller = ` As ${extraIs} there is less room where a credit pays, from the limit on, premiums that are deducted now: household income then rises by these too.`
  return [
    rooms.some((one) => roomBefore(one) > one.incomeLeft + 1) ? larger : '',
    rooms.some((one) => roomBefore(one) < one.incomeLeft - 1) ? smaller : '',
  ].join('')
}

const lineWords = (room: Room): string => {
  switch (room.line) {
    case 'federal poverty level':
      return 'The credit begins'
    case 'Medicaid line':
    case 'children’s program line':
    case 'basic program line':
      return programWords(room)
    case 'next percent':
      return 'Next whole percent: the credit drops a step'
    case 'cost sharing':
      return `Silver plans cover ${formatPercent(room.silverAfter, 0)} instead of ${formatPercent(room.silverBefore, 0)}`
    case 'credit line':
      return 'The credit ends (400% of FPL)'
    case 'credit gone':
      return 'Your own share reaches the benchmark: no credit left'
  }
}

const programWords = ({ moves, line }: Room): string =>
  moves.length === 0
    ? line === 'Medicaid line'
      ? 'Medicaid ends'
      : 'A program ends'
    : moves
        .map(({ name, from, to }) => `${name}: ${coverageWords[from]} ends, ${coverageWords[to]} begins`)
        .join('; ')

const crossingWords = (room: Room, sight: YearInSight, leftWithout: LeftWithout[] = []): string => {
  const money =
    room.costOfCrossing >= 1
      ? inPart(`costs ${formatDollars(room.costOfCrossing)}`, sight.costPart, ' a year')
      : room.costOfCrossing <= -1
        ? inPart(`brings ${formatDollars(-room.costOfCrossing)}`, sight.costPart, ' a year')
        : ''
  const asks = room.moves.some(({ to }) => to === 'basic health program' || to === 'children’s program')
    ? 'the program may ask a premium of its own, which is not counted here'
    : ''
  const care = room.line === 'cost sharing' ? careWords(room, sight) : ''
  const without = room.moves
    .filter(({ to }) => to === 'none')
    .map(({ name }) =>
      withoutWords(
        name,
        leftWithout.find((one) => one.name === name),
      ),
    )
  return [money || (care || without.length > 0 ? '' : 'costs less than a dollar'), care, asks, ...without]
    .filter(Boolean)
    .join('; ')
}

const withoutWords = (name: string, would: LeftWithout | undefined): string => {
  const without = `${name} would be without coverage`
  if (would === undefined) return `${without}: enter a premium to see what a plan would cost`
  const after =
    would.afterCreditMonthly === null
      ? ''
      : `, ${formatDollars(would.afterCreditMonthly)} after the credit and tax`
  return `${without}: a plan on the marketplace would cost about ${formatDollars(would.monthly)} a month${after}`
}

/** The plan's own care costs, were they all shared by a silver plan. */
const careWords = (room: Room, sight: YearInSight): string => {
  // Under Medicaid nothing of a bill is paid now, so that no share of it can be carried on.
  if (sight.careMonthly <= 0 || room.silverBefore >= 1 || sight.room.now.silverValue >= 1)
    return 'on a silver plan more of each bill is yours'
  const now = sight.careMonthly * 12
  const then = (now * (1 - room.silverAfter)) / (1 - sight.room.now.silverValue)
  return `on a silver plan, care of ${formatDollars(now)} a year becomes about ${formatDollars(then)}`
}
