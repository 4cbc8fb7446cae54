// Courses of action side by side: how each stands on the same simulations.
import { type Month, monthNameShort } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Standing, WorseIn } from '#solve/standing.ts'
import { Fold } from '../parts/fold.tsx'
import { DataTable } from '../parts/table.tsx'

export interface StandingRow {
  name: string
  standing: Standing
  /** More to say of it, like that it is worse than the plan. */
  note?: string
}

interface StandingsProps {
  caption: string
  /** What the rows are. */
  title: string
  rows: readonly StandingRow[]
  firstMonth: number
  confidence: number
  hideCaption?: boolean
}

/** Under a picture that tells the answer: the table of eleven columns is a step away. */
export const FoldedStandings = ({ holds, ...shown }: StandingsProps & { holds: string }) => (
  <Fold name={shown.caption} holds={holds}>
    <Standings {...shown} hideCaption />
  </Fold>
)

export const Standings = ({ rows, firstMonth, confidence, title, ...shown }: StandingsProps) => {
  const percent = (share: number) => formatPercent(share, 0)
  const sure = percent(confidence)
  const when = (month: number) =>
    Number.isFinite(month) ? monthNameShort((firstMonth + month) as Month) : 'never'
  const hasNotes = rows.some((row) => row.note)
  return (
    <DataTable
      {...shown}
      ofPlan
      rows={rows}
      stack
      columns={[
        { title, isHeader: true, cell: (row) => row.name },
        { title: 'Nothing unpaid', isNumber: true, cell: (row) => percent(row.standing.held.share) },
        { title: 'Above the floor', isNumber: true, cell: (row) => percent(row.standing.aboveFloor.share) },
        {
          title: 'Below the floor, middle',
          isNumber: true,
          cell: (row) => when(row.standing.monthsLeft.median),
        },
        {
          title: 'Worst tenth by',
          isNumber: true,
          cell: (row) => when(row.standing.monthsLeft.p10),
        },
        {
          title: `Farm carries by, in ${sure}`,
          isNumber: true,
          cell: (row) => when(row.standing.carryMonth.value),
        },
        { title: 'Carries by, in half', isNumber: true, cell: (row) => when(row.standing.medianCarryMonth) },
        { title: 'Carries at all', isNumber: true, cell: (row) => percent(row.standing.carries.share) },
        {
          title: `Lowest savings, in ${sure}`,
          isNumber: true,
          cell: (row) => formatDollars(row.standing.lowestSavings.value),
        },
        {
          title: 'Savings at the end, middle',
          isNumber: true,
          cell: (row) => formatDollars(row.standing.atEnd.median),
        },
        {
          title: 'Left in the farm, middle',
          isNumber: true,
          cell: (row) => formatDollars(row.standing.farmAtEnd.median),
        },
        ...(hasNotes ? [{ title: 'Against the plan', cell: (row: StandingRow) => row.note ?? '' }] : []),
      ]}
    />
  )
}

/** How a course of action compares with today's plan, in words. */
export const againstPlan = ({ worseIn, surer }: { worseIn: WorseIn | null; surer?: boolean }): string =>
  worseIn ? `not so well: ${reasons[worseIn]}` : surer ? 'better' : 'no difference beyond chance'

const reasons: Readonly<Record<WorseIn, string>> = {
  held: 'something goes unpaid more often',
  short: 'money runs short sooner',
  floor: 'below the floor more often',
  sooner: 'below the floor sooner',
}
