// What insurance would have to pay, by person, event and year.
import { type Month, monthName } from '#calendar/month.ts'
import { formatDollars, formatPercent } from '#money/format.ts'
import type { Insurance, InsuranceNeed } from '#solve/insurance.ts'
import { DataTable } from '../parts/table.tsx'

export const Needs = ({ answer, firstMonth }: { answer: Insurance; firstMonth: number }) => {
  const sum = (amount: InsuranceNeed['neverShort'], event: InsuranceNeed['event']) =>
    amount === null
      ? 'no sum tried is enough'
      : amount.value === 0
        ? 'nothing'
        : `${formatDollars(amount.value)}${event === 'hurt' ? ' a month' : ''}`
  if (answer.needs.length === 0) return null
  return (
    <>
      <DataTable
        caption={`What would have to come, in ${formatPercent(answer.confidence, 0)} of simulations`}
        ofPlan
        rows={answer.needs}
        stack
        columns={[
          {
            title: 'If',
            isHeader: true,
            cell: (need) => `${need.name} ${need.event === 'dies' ? 'dies' : 'can no longer work'}`,
          },
          { title: 'In', cell: (need) => monthName((firstMonth + need.month) as Month) },
          {
            title: 'For nothing to go unpaid',
            isNumber: true,
            cell: (need) => sum(need.neverShort, need.event),
          },
          {
            title: 'To stay above the floor',
            isNumber: true,
            cell: (need) => sum(need.aboveFloor, need.event),
          },
          {
            title: 'Chance of dying within ten years',
            isNumber: true,
            cell: (need) => (need.odds === null ? '–' : formatPercent(need.odds, 1)),
          },
        ]}
      />
      <p class="hint">
        After a death once, untaxed, in today’s prices; after an injury each month until 67, rising with
        prices, untaxed. The chance is that of the period life table of Social Security for 2023, for all of
        that age.
      </p>
    </>
  )
}
