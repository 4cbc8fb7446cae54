// Amounts, sums, tables, curves, counts and conditions of the rules made into functions of a return; dollars move with prices where the state indexes them.

import { derived, firstFreePlace, places, type ReturnForm } from './return-form.ts'
import type { Amount, Condition, Count, Curve, Names, Rows, Table } from './rule-form.ts'

/** An amount of a return. */
export type Read = (form: ReturnForm) => number
/** A figure of the return (−1) or of one filer (0, 1). */
export type ReadFor = (form: ReturnForm, filer: number) => number
export type Holds = (form: ReturnForm, filer: number) => boolean

/** What of a rule moves with prices: the place in `ReturnForm.index` for thresholds and for values; 0 is never moved. */
export interface Scale {
  bands: number
  values: number
}
export const unscaled: Scale = { bands: 0, values: 0 }

/** Gives names their places while a year's rules are made ready, and remembers which were named. */
export interface NameTable {
  placeOf(name: string): number
  named: Set<string>
  /** Places in use. */
  length(): number
}

export const nameTable = (): NameTable => {
  const own = new Map<string, number>()
  const named = new Set<string>()
  return {
    named,
    length: () => firstFreePlace + 3 * own.size,
    placeOf: (name) => {
      named.add(name)
      if (Object.hasOwn(places, name)) return places[name as keyof typeof places]
      if (!own.has(name)) own.set(name, firstFreePlace + 3 * own.size)
      return own.get(name)!
    },
  }
}

/** Counts and ages: all other figures are dollars. */
const pureNames: ReadonlySet<string> = new Set<string>([
  'coupleAgedCount',
  'one',
  'size',
  'agedCount',
  'agedBlindBoxes',
  'olderAge',
  'youngerAge',
  'age',
  'qualifyingChildren',
])

const listed = (names: Names): readonly (string | number)[] => (typeof names === 'string' ? [names] : names)

/** Whether a sum of names is in dollars. */
export const isDollars = (names: Names): boolean =>
  listed(names).some((name) => typeof name === 'string' && !pureNames.has(name.replace(/^-/, '')))

/** The sum of figures. A number among them is dollars, and moves as thresholds do. */
export const readSum = (names: Names, table: NameTable, scale: Scale): ReadFor => {
  const terms = listed(names)
  const slots: number[] = []
  const signs: number[] = []
  let fixed = 0
  for (const term of terms) {
    if (typeof term === 'number') fixed += term
    else {
      slots.push(table.placeOf(term.replace(/^-/, '')) + 1)
      signs.push(term.startsWith('-') ? -1 : 1)
    }
  }
  const [a = 0, b = 0] = slots
  const [signA = 1, signB = 1] = signs
  if (fixed === 0 && slots.length === 1) return ({ v }, filer) => signA * v[a + filer]!
  if (fixed === 0 && slots.length === 2)
    return ({ v }, filer) => signA * v[a + filer]! + signB * v[b + filer]!
  return ({ v, index }, filer) => {
    let sum = fixed * index[scale.bands]!
    for (let k = 0; k < slots.length; k += 1) sum += signs[k]! * v[slots[k]! + filer]!
    return sum
  }
}

/** `moved` is the place in `index`; 0 for what stays as it is. */
export const readAmount = (amount: Amount, moved: number): Read => {
  const read = plainAmount(amount)
  // The poverty line moves by itself.
  const moves = moved !== 0 && amount !== 0 && !(typeof amount === 'object' && 'timesPoverty' in amount)
  if (!moves) return read
  return (form) => read(form) * form.index[moved]!
}

const plainAmount = (amount: Amount): Read => {
  if (typeof amount === 'number') return () => amount
  if ('byChildren' in amount) return byNumber(amount.byChildren.map(plainAmount), (form) => form.children)
  if ('byDependents' in amount)
    return byNumber(amount.byDependents.map(plainAmount), (form) => form.dependents)
  if ('base' in amount) {
    const { perDependent = 0, perFiler = 0 } = amount
    const base = plainAmount(amount.base)
    return (form) => base(form) + perDependent * form.dependents + perFiler * form.filers
  }
  if ('timesPoverty' in amount) {
    const times = plainAmount(amount.timesPoverty)
    return (form) => times(form) * form.v[derived.povertyLine]!
  }
  const { single, joint, head, separate } = amount
  if (
    typeof single === 'number' &&
    typeof joint === 'number' &&
    typeof head === 'number' &&
    typeof separate === 'number'
  ) {
    const all = [single, joint, head, separate]
    return (form) => all[form.status]!
  }
  const all = [single, joint, head, separate].map(plainAmount)
  return (form) => all[form.status]!(form)
}

const byNumber = (all: readonly Read[], number: (form: ReturnForm) => number): Read => {
  const last = all.length - 1
  return (form) => all[Math.min(number(form), last)]!(form)
}

/** A table of pairs: starts and values. */
export interface Pairs {
  starts: Float64Array
  values: Float64Array
}

/** `[start, value]` pairs as two arrays of the same length, in their order. */
export const pairsOf = (pairs: readonly (readonly [number, number])[]): Pairs => ({
  starts: Float64Array.from(pairs, ([start]) => start),
  values: Float64Array.from(pairs, ([, value]) => value),
})

const readRows = (rows: Rows): ((form: ReturnForm) => Pairs) => {
  if (Array.isArray(rows)) {
    const pairs = pairsOf(rows)
    return () => pairs
  }
  const pick = (all: ((form: ReturnForm) => Pairs)[], number: (form: ReturnForm) => number) => {
    const last = all.length - 1
    return (form: ReturnForm) => all[Math.max(0, Math.min(number(form), last))]!(form)
  }
  if ('byChildren' in rows) return pick(rows.byChildren.map(readRows), (form) => form.children)
  if ('byDependents' in rows) return pick(rows.byDependents.map(readRows), (form) => form.dependents)
  if ('bySize' in rows) {
    const more = rows.plusAged ?? 0
    return pick(
      rows.bySize.map(readRows),
      (form) => Math.trunc(form.v[derived.size]! + more * form.v[derived.agedCount]!) - 1,
    )
  }
  const all = [rows.single, rows.joint, rows.head, rows.separate].map(readRows)
  return (form) => all[form.status]!(form)
}

/** `values` is the place in `index` by which the table's values move. */
export const readTable = (rule: Table, table: NameTable, scale: Scale, values: number): ReadFor => {
  const on = readSum(rule.on, table, scale)
  const over = rule.over === undefined ? null : readSum(rule.over, table, scale)
  const bands = over === null && isDollars(rule.on) ? scale.bands : 0
  const above = rule.above === undefined ? null : readAmount(rule.above, bands)
  const rows = readRows(rule.rows)
  const strictly = rule.strictlyAbove === true
  return (form, filer) => {
    let x = on(form, filer)
    if (over !== null) {
      const by = over(form, filer)
      x = by === 0 ? Number.POSITIVE_INFINITY : x / by
    }
    if (above !== null) x -= above(form)
    x /= form.index[bands]!
    const { starts, values: given } = rows(form)
    let k = starts.length - 1
    if (strictly) while (k > 0 && !(x > starts[k]!)) k -= 1
    else while (k > 0 && !(x >= starts[k]!)) k -= 1
    return k < 0 ? 0 : given[k]! * form.index[values]!
  }
}

/** Straight lines between points; before the first and after the last it stays. `values` is the place in `index` by which its values move. */
export const readCurve = (rule: Curve, table: NameTable, scale: Scale, values: number): ReadFor => {
  const on = readSum(rule.on, table, scale)
  const bands = isDollars(rule.on) ? scale.bands : 0
  const rows = readRows(rule.points)
  return (form, filer) => onCurve(rows(form), on(form, filer) / form.index[bands]!) * form.index[values]!
}

const onCurve = ({ starts, values }: Pairs, x: number): number => {
  if (x <= starts[0]!) return values[0]!
  for (let k = 1; k < starts.length; k += 1) {
    const to = starts[k]!
    if (x > to) continue
    const from = starts[k - 1]!
    if (to <= from) return values[k]!
    return values[k - 1]! + ((values[k]! - values[k - 1]!) * (x - from)) / (to - from)
  }
  return values[values.length - 1]!
}

/** People of the return, or of one filer, counted by age in whole years at the year’s end. */
export const readCount = (count: Count): ReadFor => {
  if (count === 'filers') return (form, filer) => (filer < 0 ? form.filers : 1)
  if (count === 'everyone') return (form) => form.filers + form.dependents
  if (count === 'dependents') return (form) => form.dependents
  const {
    who,
    ageFrom = 0,
    ageBelow = Number.POSITIVE_INFINITY,
    plus = 0,
    most = Number.POSITIVE_INFINITY,
  } = count
  const moves = count.byBirth === true ? 1 : 0
  return (form, filer) => {
    const { age, filers, dependents, dependentAge, blind } = form
    const from = ageFrom + moves * form.yearsOn
    const below = ageBelow + moves * form.yearsOn
    let number = plus
    if (who === 'blindFilers') number += blind[0] + (filers === 2 ? blind[1] : 0)
    if (who === 'filers' && filer >= 0) number += isWithin(age[filer]!, from, below)
    else if (who === 'filers' || who === 'everyone')
      number += isWithin(age[0], from, below) + (filers === 2 ? isWithin(age[1], from, below) : 0)
    if (who === 'dependents' || who === 'everyone')
      for (let k = 0; k < dependents; k += 1) number += isWithin(dependentAge[k]!, from, below)
    return Math.min(most, Math.max(0, number))
  }
}

const isWithin = (age: number, from: number, below: number): number => (age >= from && age < below ? 1 : 0)

const statusNames = ['single', 'joint', 'head', 'separate']

/** All parts of a condition together; one without any holds. Bounds on dollars move with prices as thresholds do. */
export const readCondition = (rule: Condition, table: NameTable, scale: Scale): Holds => {
  const on = rule.on === undefined ? null : readSum(rule.on, table, scale)
  const counts = (rule.counts ?? []).map(readCount)
  const over = rule.over === undefined ? null : readSum(rule.over, table, scale)
  const moved = over === null && rule.on !== undefined && isDollars(rule.on) ? scale.bands : 0
  const shift = rule.byBirth === true ? 1 : 0
  const bound = (amount: Amount | undefined): Read | null => {
    if (amount === undefined) return null
    const read = readAmount(amount, moved)
    return shift === 0 ? read : (form) => read(form) + form.yearsOn
  }
  const atMost = bound(rule.atMost)
  const below = bound(rule.below)
  const atLeast = bound(rule.atLeast)
  const above = bound(rule.above)
  const statuses = statusNames.map(
    (name) => rule.status === undefined || rule.status.some((one) => one === name),
  )
  const all = (rule.and ?? []).map((one) => readCondition(one, table, scale))
  return (form, filer) => {
    if (!statuses[form.status]) return false
    let x = on === null ? 0 : on(form, filer)
    for (const count of counts) x += count(form, filer)
    if (over !== null) x /= over(form, filer)
    if (atMost !== null && !(x <= atMost(form))) return false
    if (below !== null && !(x < below(form))) return false
    if (atLeast !== null && !(x >= atLeast(form))) return false
    if (above !== null && !(x > above(form))) return false
    for (const one of all) if (!one(form, filer)) return false
    return true
  }
}
