// Markets side by side: what each brings an hour, and how the plan stands without it.
import { formatDollars, formatDollarsAndCents, formatPercent } from '#money/format.ts'
import type { DropMarket, MarketDropped } from '#solve/drop-market.ts'
import { DataTable } from '../parts/table.tsx'
import { againstPlan, Standings } from './standings.tsx'

export const MarketsShown = ({ answer, firstMonth }: { answer: DropMarket; firstMonth: number }) =>
  answer.markets.length === 0 ? null : (
    <>
      <DataTable
        caption="What ends with each market, a year"
        ofPlan
        rows={answer.markets}
        stack
        columns={[
          { title: 'Market', isHeader: true, cell: (one) => one.name },
          { title: 'Hours', isNumber: true, cell: (one) => String(Math.round(one.hours)) },
          { title: 'An hour brings', isNumber: true, cell: anHour },
          { title: 'Who follow, as planned', isNumber: true, cell: (one) => formatPercent(one.follow, 0) },
          { title: 'Then lost', isNumber: true, cell: (one) => formatDollars(one.lost) },
          { title: 'Lost if none follow', isNumber: true, cell: (one) => formatDollars(one.lostIfNone) },
          { title: 'Lost if half follow', isNumber: true, cell: (one) => formatDollars(one.lostIfHalf) },
        ]}
      />
      <Standings
        caption="The plan without each market, in the same simulations"
        title="Without"
        rows={[
          { name: 'As planned', standing: answer.today },
          ...answer.markets.map((one) => ({ name: one.name, standing: one, note: againstPlan(one) })),
        ]}
        firstMonth={firstMonth}
        confidence={answer.confidence}
      />
    </>
  )

const anHour = ({ hours, lost }: MarketDropped): string =>
  hours > 0 ? formatDollarsAndCents(lost / hours) : 'takes none'
