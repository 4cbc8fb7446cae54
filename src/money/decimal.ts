// The one configured Decimal of the house: wide enough that cents are never lost, half-up as the law rounds.
import { Decimal as Base } from 'decimal.js'

export const Decimal = Base.clone({
  precision: 40,
  rounding: Base.ROUND_HALF_UP,
  toExpNeg: -40,
  toExpPos: 40,
})
export type Decimal = Base
