// The value in force in a year, for facts whose values are changes of statute rather than yearly figures.
import { type Amounts, type Dated, RuleYearError, yearsOf } from './dated.ts'

/** The latest value dated in or before `year`; with `Infinity` the latest of all. Throws `RuleYearError` before the first. */
export const inForce = <Value extends Amounts>(fact: Dated<Value>, year: number): Value => {
  const asked = answers.get(fact)
  const known = asked?.get(year)
  if (known !== undefined) return known as Value
  const found = latestOf(fact, year)
  if (asked) asked.set(year, found)
  else answers.set(fact, new Map([[year, found]]))
  return found as Value
}

/** A plan asks for the same years of a fact many hundred times. */
const answers = new WeakMap<Dated, Map<number, Amounts>>()

const latestOf = (fact: Dated, year: number): Amounts => {
  let latest = Number.NEGATIVE_INFINITY
  for (const key in fact.values) {
    const from = Number(key)
    if (from <= year && from > latest) latest = from
  }
  const value = fact.values[latest]
  if (value === undefined) throw new RuleYearError(fact.rule, year, `it starts in ${yearsOf(fact).first}`)
  return value
}
