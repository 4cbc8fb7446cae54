// What the headline of Now rests on, in sentences: how far the books reach, whose savings are counted, and from when what is booked counts.
import { dayName, monthOfDay } from '#calendar/day.ts'
import { addMonths, monthName } from '#calendar/month.ts'
import type { AccountKind } from '#plan/savings-plan.ts'
import type { SavingsFrom } from '#today/projection/continued-plan.ts'
import type { NowFigures } from './figures.ts'

type Told = Pick<NowFigures, 'reach' | 'month' | 'plan'>

export const reachWords = ({ reach, month, plan }: Told): string[] => {
  const counted = plan.status === 'read' ? savingsWords(plan.savingsFrom) : []
  if (reach === null) return counted
  const missing =
    reach.missingMonths === 0
      ? []
      : [
          `${reach.missingMonths === 1 ? 'A month is' : `${reach.missingMonths} months are`} missing since then and counted here as planned.`,
        ]
  const isUnderWay = plan.status === 'read' && monthOfDay(reach.day) === month
  return [
    reach.isByHand
      ? `The books reach ${dayName(reach.day)}, as they were entered by hand.`
      : `The books reach ${dayName(reach.day)}.`,
    ...(reach.laterByHand === null
      ? []
      : [
          `An entry by hand of ${dayName(reach.laterByHand)} does not count here: how far the books reach comes from bank files, finished reconciliations and closed months.`,
        ]),
    ...missing,
    ...counted,
    ...(isUnderWay
      ? [
          `Months left are counted from the first of ${monthName(month)}, with this month as planned: what is booked in it moves them from ${monthName(addMonths(month, 1))} on.`,
        ]
      : []),
  ]
}

const kindWords: Record<AccountKind, string> = {
  cash: 'cash',
  taxable: 'taxable accounts',
  traditional: 'traditional accounts',
  roth: 'Roth accounts',
  health: 'health savings',
}

const savingsWords = ({ books, plan, apart }: SavingsFrom): string[] => {
  if (books.length === 0) return ['Savings are counted as the plan has them: the books do not hold them yet.']
  const missing = [...plan.map((kind) => kindWords[kind]), ...apart.map((name) => `“${name}”`)]
  return missing.length === 0 ? [] : [`The books do not hold ${missing.join(' and ')}: counted as planned.`]
}
