// A fact of law by year: value, unit, source, how it was obtained, and what happens to it after its last published year.
import { Lately } from '#kept/lately.ts'

/** `read` in the source named, `secondHand` in a text that tells of it, recalled from `memory` and not seen, or `computed` here from facts that were read. */
export const obtainedWays = ['read', 'secondHand', 'memory', 'computed'] as const
export type Obtained = (typeof obtainedWays)[number]

/** `enacted`: published for the year or fixed by statute. `projected`: carried past the last published year. */
export type Basis = 'enacted' | 'projected'

/** What a fact may hold: numbers, in lists or under names, so that one walk can index and check them all. */
export type Amounts = number | readonly Amounts[] | { readonly [name: string]: Amounts }

/**
 * What holds after the last year with a value.
 * `prices` and `wages`: grows with that level, then rounded as the law rounds (`to` a multiple; a list gives one
 * multiple per entry of the value's own list). `unrounded` is the last year's amount before that rounding, the statute's base
 * amount times the index: the law indexes its base, never last year's rounded figure; where it is not known the rounded one
 * stands in. `above`: only what exceeds this amount is rounded. `statute`: the law itself keeps the amount, so it stays enacted.
 * `held`: nothing is known, the last value is kept and marked projected. `none`: asking for it is an error.
 */
export type After =
  | {
      by: 'prices' | 'wages'
      to: number | readonly number[]
      rounding: 'down' | 'nearest'
      unrounded?: Amounts
      above?: number
    }
  | { by: 'statute' }
  | { by: 'held' }
  | { by: 'none' }

export interface Dated<Value extends Amounts = Amounts> {
  /** What the fact is, in words that can stand in a message to the user. */
  readonly rule: string
  readonly unit: string
  readonly source: string
  readonly obtained: Obtained
  /** Years obtained in another way than `obtained` says. */
  readonly obtainedIn?: Readonly<Record<number, Obtained>>
  readonly note?: string
  readonly values: Readonly<Record<number, Value>>
  /** Later years that the statute's base and the index let us compute before they are published: used, and marked projected. */
  readonly ahead?: Readonly<Record<number, Value>>
  readonly after: After
}

/** Levels of prices and wages by year, on any common base: only ratios between years are used. */
export interface Indexing {
  prices(year: number): number
  /** Average wages; where it is missing wages move with prices. */
  wages?(year: number): number
}

/** Prices (and wages) that grow by a steady rate a year: 0.025 is 2.5 %. */
export const steadyIndexing = (pricesPerYear: number, wagesPerYear = pricesPerYear): Indexing => {
  const key = `${pricesPerYear} ${wagesPerYear}`
  const indexing = steady.get(key) ?? {
    prices: (year) => (1 + pricesPerYear) ** (year - 2026),
    wages: (year) => (1 + wagesPerYear) ** (year - 2026),
  }
  steady.set(key, indexing)
  return indexing
}

/** The same for the same rates, so that what was looked up under them can be kept with them. */
const steady = new Lately<string, Indexing>(16)

/** The law has no figure for the year asked. Names the rule and the year, so that the message can be shown as it is. */
export class RuleYearError extends Error {
  readonly rule: string
  readonly year: number
  constructor(rule: string, year: number, known: string) {
    super(`No figure for “${rule}” in ${year}: ${known}`)
    this.name = 'RuleYearError'
    this.rule = rule
    this.year = year
  }
}

/** The fact's value in a year. Throws `RuleYearError` before its first year, or after its last where nothing may follow. */
export const lookUp = <Value extends Amounts>(
  fact: Dated<Value>,
  year: number,
  indexing: Indexing,
): { value: Value; basis: Basis } => {
  const published = fact.values[year]
  if (published !== undefined) return { value: published, basis: 'enacted' }
  const ahead = fact.ahead?.[year]
  if (ahead !== undefined) return { value: ahead, basis: 'projected' }
  const { first, last } = yearsOf(fact)
  if (year < last) throw new RuleYearError(fact.rule, year, `figures start in ${first}`)
  return carry(fact, year, lastKnownYear(fact), indexing)
}

/** The last year with a value, published or computed ahead. */
export const lastKnownYear = (fact: Dated): number =>
  Math.max(yearsOf(fact).last, ...Object.keys(fact.ahead ?? {}).map(Number))

/** Found once a fact: a law is made ready for sixty years, and each asks for two hundred facts. */
const spans = new WeakMap<Dated, { first: number; last: number }>()

/** First and last year with a published value. */
export const yearsOf = (fact: Dated): { first: number; last: number } => {
  const known = spans.get(fact)
  if (known) return known
  let first = Number.POSITIVE_INFINITY
  let last = Number.NEGATIVE_INFINITY
  for (const key in fact.values) {
    const year = Number(key)
    if (year < first) first = year
    if (year > last) last = year
  }
  const span = { first, last }
  spans.set(fact, span)
  return span
}

/** How the value of a year was obtained. */
export const obtainedFor = (fact: Dated, year: number): Obtained =>
  fact.obtainedIn?.[year] ?? (fact.ahead?.[year] === undefined ? fact.obtained : 'computed')

const carry = <Value extends Amounts>(fact: Dated<Value>, year: number, last: number, indexing: Indexing) => {
  const value = (fact.values[last] ?? fact.ahead?.[last])!
  const { after } = fact
  if (after.by === 'statute') return { value, basis: 'enacted' as const }
  if (after.by === 'held') return { value, basis: 'projected' as const }
  if (after.by === 'none') throw new RuleYearError(fact.rule, year, `figures end in ${last}`)
  const level = (after.by === 'wages' && indexing.wages) || indexing.prices
  const factor = level.call(indexing, year) / level.call(indexing, last)
  if (!(factor > 0) || !Number.isFinite(factor))
    throw new Error(`Price levels must be above 0: ${last} to ${year} gives ${factor}`)
  const from = after.unrounded ?? value
  return { value: roundedAs(after, from, factor) as Value, basis: 'projected' as const }
}

/** `from` times `factor`, rounded as the law rounds. */
export const roundedAs = (
  after: Extract<After, { to: unknown }>,
  from: Amounts,
  factor: number,
  to: number | readonly number[] = after.to,
): Amounts => {
  if (typeof from === 'number') {
    const above = after.above ?? 0
    return above + roundTo(from * factor - above, to as number, after.rounding)
  }
  if (Array.isArray(from)) {
    return from.map((part: Amounts, index) =>
      roundedAs(after, part, factor, typeof to === 'number' ? to : to[index]!),
    )
  }
  return Object.fromEntries(
    Object.entries(from).map(([name, part]) => [name, roundedAs(after, part, factor, to)]),
  )
}

/** Rounds to a multiple. A hair is added so that 24,800 × 1 stays 24,800 in binary fractions. */
const roundTo = (amount: number, multiple: number, rounding: 'down' | 'nearest'): number =>
  (rounding === 'down' ? Math.floor(amount / multiple + 1e-9) : Math.floor(amount / multiple + 0.5 + 1e-9)) *
  multiple
