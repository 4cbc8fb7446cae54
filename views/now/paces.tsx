// The pace of the books: how many months savings last at what the trailing months cost.
import { addMonths, type Month, monthName } from '#calendar/month.ts'
import { monthsWords } from '#calendar/spell.ts'
import type { Pace } from '#ledger/pace.ts'
import { formatDollars } from '#money/format.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { MadeOfDetails } from '../parts/figure.tsx'
import { DataTable } from '../parts/table.tsx'

export const Paces = ({ figures }: { figures: NowFigures }) => {
  if (figures.paces.length === 0) return null
  const left = (months: number | null) => (months === null ? 'does not fall' : String(months))
  const [ends] = figures.paces.map((pace) => pace.ends)
  return (
    <div>
      <DataTable
        caption="Months left at recent spending"
        stack
        rows={figures.paces}
        columns={[
          { title: 'Trailing months', isHeader: true, cell: (one) => String(one.months) },
          { title: 'Costs a month', isNumber: true, cell: (one) => formatDollars(one.costCents / 100) },
          { title: 'Draws a month', isNumber: true, cell: (one) => formatDollars(one.drawCents / 100) },
          { title: 'Months left', isNumber: true, cell: (one) => left(one.leftWithDraws) },
          { title: 'Without draws', isNumber: true, cell: (one) => left(one.leftWithoutDraws) },
        ]}
      />
      {ends && ends.length > 0 ? (
        <p class="hint">
          Pay and side income that the plan ends count until then, the first to{' '}
          {monthName(addMonths(figures.month, ends[0]!.inMonths - 1))}.
        </p>
      ) : null}
      {figures.paces.map((one) => (
        <PaceMadeOf pace={one} left={left} month={figures.month} />
      ))}
    </div>
  )
}

const PaceMadeOf = ({
  pace,
  left,
  month,
}: {
  pace: Pace
  left: (months: number | null) => string
  month: Month
}) => {
  const dollars = (amount: number) => formatDollars(amount / 100)
  return (
    <MadeOfDetails
      says="Savings above the floor, over what each month took off them, in whole months. All of it is in the books but the floor, which is the plan’s of this month."
      named={`What the ${monthsWords(pace.months)} are made of`}
      rows={[
        { label: 'Savings above the floor', value: dollars(pace.aboveFloorCents) },
        { label: `Costs a month over ${monthsWords(pace.months)}`, value: dollars(pace.costCents) },
        { label: 'Pay, interest and other income a month', value: dollars(-pace.otherCents) },
        {
          label: 'From the farm a month, less what was put into it',
          value: dollars(-pace.fromFarmCents),
        },
        {
          label: 'Taken off savings a month',
          value: dollars(pace.costCents - pace.otherCents - pace.fromFarmCents),
          isTotal: true,
        },
        ...pace.ends.map(({ inMonths, cents }) => ({
          label: `More from ${monthName(addMonths(month, inMonths))} on, as income ends by the plan`,
          value: dollars(cents),
        })),
        { label: 'Months left', value: left(pace.leftWithDraws) },
        { label: 'Without what comes from the farm', value: left(pace.leftWithoutDraws) },
      ]}
    />
  )
}
