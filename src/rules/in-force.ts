// The value in force in a year, for facts whose values are changes of statute rather than yearly figures.
import { type Amounts, type Dated, RuleYearError, yearsOf } from './dated.ts'

/** The latest value dated in or before `year`; with `Infinity` the latest of all. Throws `RuleYearError` before the first. */
export const inForce = <Value extends Amounts>(fact: Dated<Value>, year: number): Value => {
  let latest = Number.NEGATIVE_INFINITY
  for (const key in fact.values) {
    const from = Number(key)
    if (from <= year && from > latest) latest = from
  }
  const value = fact.values[latest]
  if (value === undefined) throw new RuleYearError(fact.rule, year, `it starts in ${yearsOf(fact).first}`)
  return value
}
