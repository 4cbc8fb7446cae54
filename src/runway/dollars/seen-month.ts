// A month as charts and sentences look at it: few figures of many months, so that each is multiplied when it is asked for and no row of
// all of them is written out.
import type { ProjectedMonth } from '#runway/figures/month-row.ts'

/** Dollars as they are shown. A row of a projection is one too. */
export type SeenMonth = Pick<ProjectedMonth, keyof PricedMonth>

/** `factor` is what a dollar of that month is shown as; hours and shares are no money. */
export const pricedMonth = (one: ProjectedMonth, factor: number): SeenMonth => new PricedMonth(one, factor)

class PricedMonth {
  private readonly one: ProjectedMonth
  private readonly factor: number
  constructor(one: ProjectedMonth, factor: number) {
    this.one = one
    this.factor = factor
  }
  get month(): string {
    return this.one.month
  }
  get coverRatio(): number | null {
    return this.one.coverRatio
  }
  get farmHours(): number {
    return this.one.farmHours
  }
  get undoneHours(): number {
    return this.one.undoneHours
  }
  get spendable(): number {
    return this.one.spendable * this.factor
  }
  get floor(): number {
    return this.one.floor * this.factor
  }
  get taxOwed(): number {
    return this.one.taxOwed * this.factor
  }
  get householdCosts(): number {
    return this.one.householdCosts * this.factor
  }
  get plannedDraw(): number {
    return this.one.plannedDraw * this.factor
  }
  get draw(): number {
    return this.one.draw * this.factor
  }
  get drawToHoldFloor(): number {
    return this.one.drawToHoldFloor * this.factor
  }
  get unmetDraw(): number {
    return this.one.unmetDraw * this.factor
  }
  get contribution(): number {
    return this.one.contribution * this.factor
  }
  get farmSales(): number {
    return this.one.farmSales * this.factor
  }
  get pay(): number {
    return this.one.pay * this.factor
  }
  get side(): number {
    return this.one.side * this.factor
  }
  get socialSecurity(): number {
    return this.one.socialSecurity * this.factor
  }
  get loanDrawn(): number {
    return this.one.loanDrawn * this.factor
  }
  get loanPayments(): number {
    return this.one.loanPayments * this.factor
  }
  get oneOffs(): number {
    return this.one.oneOffs * this.factor
  }
  get taxes(): number {
    return this.one.taxes * this.factor
  }
  get premiums(): number {
    return this.one.premiums * this.factor
  }
  get care(): number {
    return this.one.care * this.factor
  }
  get returns(): number {
    return this.one.returns * this.factor
  }
}
