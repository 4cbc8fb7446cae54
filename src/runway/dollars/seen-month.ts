// A month as charts and sentences look at it: few figures of many months, so that each is read when it is asked for and no row of
// all of them is written out.
import { monthSeries } from '#runway/figures/course-figures.ts'
import { figurePlace, type ProjectedMonth } from '#runway/figures/month-row.ts'
import { coverRatioAt, factorAt, type MonthTable, textAt } from '#runway/figures/month-table.ts'

/** Dollars as they are shown. A row of a projection is one too. */
export type SeenMonth = Pick<ProjectedMonth, keyof MonthOfTable>

export const seenMonths = (table: MonthTable): SeenMonth[] =>
  Array.from({ length: table.count }, (_, m) => new MonthOfTable(table, m))

class MonthOfTable {
  private readonly table: MonthTable
  private readonly at: number
  private readonly values: Float64Array
  /** Where its figures begin among them. */
  private readonly first: number
  private readonly factor: number
  constructor(table: MonthTable, at: number) {
    this.table = table
    this.at = at
    this.values = table.values
    this.first = at * monthSeries.length
    this.factor = factorAt(table, at)
  }
  get month(): string {
    return textAt(this.table, this.at)
  }
  get coverRatio(): number | null {
    return coverRatioAt(this.table, this.at)
  }
  get farmHours(): number {
    return this.values[this.first + figurePlace.farmHours]!
  }
  get undoneHours(): number {
    return this.values[this.first + figurePlace.undoneHours]!
  }
  get spendable(): number {
    return this.values[this.first + figurePlace.spendable]! * this.factor
  }
  get floor(): number {
    return this.values[this.first + figurePlace.floor]! * this.factor
  }
  get taxOwed(): number {
    return this.values[this.first + figurePlace.taxOwed]! * this.factor
  }
  get householdCosts(): number {
    return this.values[this.first + figurePlace.householdCosts]! * this.factor
  }
  get plannedDraw(): number {
    return this.values[this.first + figurePlace.plannedDraw]! * this.factor
  }
  get draw(): number {
    return this.values[this.first + figurePlace.draw]! * this.factor
  }
  get drawToHoldFloor(): number {
    return this.values[this.first + figurePlace.drawToHoldFloor]! * this.factor
  }
  get unmetDraw(): number {
    return this.values[this.first + figurePlace.unmetDraw]! * this.factor
  }
  get contribution(): number {
    return this.values[this.first + figurePlace.contribution]! * this.factor
  }
  get farmSales(): number {
    return this.values[this.first + figurePlace.farmSales]! * this.factor
  }
  get pay(): number {
    return this.values[this.first + figurePlace.pay]! * this.factor
  }
  get side(): number {
    return this.values[this.first + figurePlace.side]! * this.factor
  }
  get socialSecurity(): number {
    return this.values[this.first + figurePlace.socialSecurity]! * this.factor
  }
  get loanDrawn(): number {
    return this.values[this.first + figurePlace.loanDrawn]! * this.factor
  }
  get loanPayments(): number {
    return this.values[this.first + figurePlace.loanPayments]! * this.factor
  }
  get oneOffs(): number {
    return this.values[this.first + figurePlace.oneOffs]! * this.factor
  }
  get taxes(): number {
    return this.values[this.first + figurePlace.taxes]! * this.factor
  }
  get premiums(): number {
    return this.values[this.first + figurePlace.premiums]! * this.factor
  }
  get care(): number {
    return this.values[this.first + figurePlace.care]! * this.factor
  }
  get returns(): number {
    return this.values[this.first + figurePlace.returns]! * this.factor
  }
}
