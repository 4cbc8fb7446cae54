// One of the plan's adults as a run needs them.

export interface CompiledPerson {
  id: string
  name: string
  /** Year and calendar month of birth as Social Security and Medicare count: by the day before the birthday. */
  bornYear: number
  bornMonth: number
  /** The calendar's own year of birth: tax law's ages for retirement accounts turn on the birthday. */
  birthYear: number
  claimMonth: number
  /** First month apart after a separation, counted from the plan's first month; `Infinity` without one. */
  partsMonth: number
  /** First month at age 65 and 59½, counted from the plan's first month; may be negative. */
  month65: number
  /** Month from which health savings come out for anything without the addition. */
  monthHealthFree: number
  month59Half: number
  /** Share of the farm's profit that is this person's; the shares of a couple add up to 1. */
  farmShare: number
  /** Put into accounts in the first year before the first month. */
  putInSoFar: { traditional: number; roth: number; ownPlan: number; health: number }
  /** Covered earnings by year, index 0 the benefit law's first year; the run adds its own. */
  earnings: Float64Array
  /** Primary amount by the agency's statement, at the plan's first prices; 0 where the record speaks. */
  statementPrimary: number
}
