// Farm cash that is drawn beyond the plan's draws, so that savings hold the floor: since when, how much, and what it takes from later draws.
import { nameOfMonth } from '#calendar/month.ts'
import { formatDollars } from '#money/format.ts'
import type { SeenMonth } from '#runway/dollars/seen-month.ts'

/** What of the draws is more than the plan's, to hold savings at the floor: from when, and how much of it in the years that are told. */
export interface CalledOn {
  from: string
  dollars: number
  /** Planned draws of those years that go unpaid. */
  unpaid: number
  /** Of those what it had taken before: no more than had been drawn beyond the plan by then. */
  taken: number
  /** Savings are below the floor in its first month all the same. */
  isBelow: boolean
  /** Told over the whole plan, which ends within ten years. */
  isWhole: boolean
}

/** Draws are told over the plan's first ten years, or the whole of a shorter plan. */
const firstTenYears = 120

export const toldYears = <One>(months: readonly One[]): readonly One[] => months.slice(0, firstTenYears)

/** Whether a plan ends within them: then no count of years is named. */
export const isToldWhole = (months: readonly unknown[]): boolean => months.length <= firstTenYears

type Called = Pick<SeenMonth, 'month' | 'drawToHoldFloor' | 'unmetDraw' | 'spendable' | 'floor'>

export const unmetIn = (months: readonly Called[]): number =>
  months.reduce((total, one) => total + one.unmetDraw, 0)

export const calledOn = (months: readonly Called[]): CalledOn | null => {
  const at = months.find((one) => one.drawToHoldFloor > 0.5)
  if (!at) return null
  const years = toldYears(months)
  let [dollars, unpaid, taken] = [0, 0, 0]
  for (const one of years) {
    dollars += one.drawToHoldFloor
    unpaid += one.unmetDraw
    taken += Math.min(one.unmetDraw, dollars - taken)
  }
  const isBelow = at.spendable < at.floor - 0.5
  return { from: at.month, dollars, unpaid, taken, isBelow, isWhole: isToldWhole(months) }
}

export const calledWords = (called: CalledOn): string => {
  const holds = called.isBelow ? 'fall less far below the floor' : 'do not fall below the floor'
  const over = called.isWhole ? 'in all' : 'in the first ten years'
  const much = called.dollars > 0.5 ? `: ${formatDollars(called.dollars)} ${over}` : ''
  return `From ${nameOfMonth(called.from)} farm cash that can be spared is drawn beyond the planned draws, so that savings ${holds}${much}.${netWords(called)}`
}

const netWords = ({ dollars, unpaid, taken, isWhole }: CalledOn): string => {
  if (unpaid <= 0.5 || dollars <= 0.5) return ''
  const net = dollars - unpaid
  const inAll = `${formatDollars(Math.abs(net))} ${net < 0 ? 'less' : 'more'} than planned in all`
  const isAll = unpaid - taken <= 0.5
  const because =
    taken <= 0.5
      ? ''
      : `, ${isAll ? '' : `${formatDollars(taken)} of that `}because this cash is gone by then`
  return ` Of the planned draws${isWhole ? '' : ' of those years'} ${formatDollars(unpaid)} cannot be paid${because}. Over ${isWhole ? 'the whole plan' : 'those years'} the farm pays ${inAll}.`
}
