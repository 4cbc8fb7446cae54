// One month as pages, tables and the terminal read it. Figure by figure and not in a loop over their names: a course has hundreds of
// months, and rows that are all made in one place have one shape and cost a tenth.
import { type MonthFigures, type MonthSeries, monthSeries } from './course-figures.ts'

/** One month's figures, dollars of the month; `month` is text like `2027-04`. */
export type ProjectedMonth = { month: string; coverRatio: number | null } & MonthFigures

/** Where each figure lies in a block of all of them. */
export const figurePlace = Object.fromEntries(monthSeries.map((name, at) => [name, at])) as Record<
  MonthSeries,
  number
>

/**
 * The figures that lie in `all` from `at` on, all money times `factor`; price level and hours are no money. Without the cover ratio,
 * which takes a year of them.
 */
export const monthRow = (all: Float64Array, at: number, factor: number, month: string): ProjectedMonth => ({
  month,
  coverRatio: null,
  level: all[at + figurePlace.level]!,
  farmSales: all[at + figurePlace.farmSales]! * factor,
  farmCosts: all[at + figurePlace.farmCosts]! * factor,
  farmMarketCosts: all[at + figurePlace.farmMarketCosts]! * factor,
  farmOverheads: all[at + figurePlace.farmOverheads]! * factor,
  farmHired: all[at + figurePlace.farmHired]! * factor,
  farmStock: all[at + figurePlace.farmStock]! * factor,
  farmLoans: all[at + figurePlace.farmLoans]! * factor,
  farmPurchases: all[at + figurePlace.farmPurchases]! * factor,
  farmPurchaseGains: all[at + figurePlace.farmPurchaseGains]! * factor,
  contribution: all[at + figurePlace.contribution]! * factor,
  farmSpare: all[at + figurePlace.farmSpare]! * factor,
  plannedDraw: all[at + figurePlace.plannedDraw]! * factor,
  draw: all[at + figurePlace.draw]! * factor,
  drawToHoldFloor: all[at + figurePlace.drawToHoldFloor]! * factor,
  unmetDraw: all[at + figurePlace.unmetDraw]! * factor,
  farmCash: all[at + figurePlace.farmCash]! * factor,
  farmHours: all[at + figurePlace.farmHours]!,
  hiredHours: all[at + figurePlace.hiredHours]!,
  undoneHours: all[at + figurePlace.undoneHours]!,
  pay: all[at + figurePlace.pay]! * factor,
  side: all[at + figurePlace.side]! * factor,
  sideKept: all[at + figurePlace.sideKept]! * factor,
  ventureCash: all[at + figurePlace.ventureCash]! * factor,
  socialSecurity: all[at + figurePlace.socialSecurity]! * factor,
  othersBenefits: all[at + figurePlace.othersBenefits]! * factor,
  living: all[at + figurePlace.living]! * factor,
  farmGoods: all[at + figurePlace.farmGoods]! * factor,
  premiums: all[at + figurePlace.premiums]! * factor,
  advanceCredit: all[at + figurePlace.advanceCredit]! * factor,
  care: all[at + figurePlace.care]! * factor,
  taxes: all[at + figurePlace.taxes]! * factor,
  stateTaxes: all[at + figurePlace.stateTaxes]! * factor,
  oneOffs: all[at + figurePlace.oneOffs]! * factor,
  loanPayments: all[at + figurePlace.loanPayments]! * factor,
  loanDrawn: all[at + figurePlace.loanDrawn]! * factor,
  loanBalance: all[at + figurePlace.loanBalance]! * factor,
  setAside: all[at + figurePlace.setAside]! * factor,
  saversMatch: all[at + figurePlace.saversMatch]! * factor,
  withdrawnTaxable: all[at + figurePlace.withdrawnTaxable]! * factor,
  withdrawnTraditional: all[at + figurePlace.withdrawnTraditional]! * factor,
  withdrawnRoth: all[at + figurePlace.withdrawnRoth]! * factor,
  withdrawnHealth: all[at + figurePlace.withdrawnHealth]! * factor,
  converted: all[at + figurePlace.converted]! * factor,
  returns: all[at + figurePlace.returns]! * factor,
  cash: all[at + figurePlace.cash]! * factor,
  taxable: all[at + figurePlace.taxable]! * factor,
  traditional: all[at + figurePlace.traditional]! * factor,
  roth: all[at + figurePlace.roth]! * factor,
  health: all[at + figurePlace.health]! * factor,
  retirementSpendable: all[at + figurePlace.retirementSpendable]! * factor,
  taxOwed: all[at + figurePlace.taxOwed]! * factor,
  spendable: all[at + figurePlace.spendable]! * factor,
  floor: all[at + figurePlace.floor]! * factor,
  householdCosts: all[at + figurePlace.householdCosts]! * factor,
  unmetNeed: all[at + figurePlace.unmetNeed]! * factor,
})
