// One rule that gives dollars, made ready once and worked for any return.
import {
  type Holds,
  isDollars,
  type NameTable,
  type Read,
  type ReadFor,
  readAmount,
  readCondition,
  readCount,
  readCurve,
  readSum,
  readTable,
  type Scale,
} from './amounts.ts'
import type { ReturnForm } from './return-form.ts'
import type { Amount, Item, Names, Reduction, Table } from './rule-form.ts'

/** The dollars of one rule for the return (−1) or for one filer. */
export const readItem = (rule: Item, table: NameTable, scale: Scale): ReadFor => {
  const when = (rule.when ?? []).map((one) => readCondition(one, table, scale))
  const steps = stepsOf(rule, table, scale)
  const start = startOf(rule, table, scale)
  const least = rule.mayBeNegative ? Number.NEGATIVE_INFINITY : 0
  const one: ReadFor = (form, filer) => {
    if (!hold(when, form, filer)) return 0
    let x = start(form, filer)
    for (let k = 0; k < steps.length; k += 1) x = steps[k]!(x, form, filer)
    return Math.max(x, least)
  }
  if (!rule.each) return one
  return (form, filer) =>
    filer >= 0 ? one(form, filer) : one(form, 0) + (form.filers === 2 ? one(form, 1) : 0)
}

/** Whether every condition holds for the return (−1) or one filer (0, 1); none at all holds. */
export const hold = (all: readonly Holds[], form: ReturnForm, filer: number): boolean => {
  for (let k = 0; k < all.length; k += 1) if (!all[k]!(form, filer)) return false
  return true
}

/** Changes a value on its way. */
type Step = (x: number, form: ReturnForm, filer: number) => number

/**
 * What the value begins with. Of a sum or an amount it is dollars; of a count (or of 1) the table, the curve or the share that
 * follows is, and moves with prices.
 */
const startOf = (rule: Item, table: NameTable, scale: Scale): ReadFor => {
  if (rule.sumOf) {
    const parts = rule.sumOf.map((part) => readItem(part, table, scale))
    return (form, filer) => {
      let sum = 0
      for (const part of parts) sum += part(form, filer)
      return sum
    }
  }
  if (rule.largestOf) {
    const parts = rule.largestOf.map((part) => readItem(part, table, scale))
    return (form, filer) => {
      let most = parts[0]!(form, filer)
      for (const part of parts) most = Math.max(most, part(form, filer))
      return most
    }
  }
  if (rule.of !== undefined) return startOfSum(rule, rule.of, table, scale)
  if (rule.amount !== undefined) {
    const amount = readAmount(rule.amount, rule.table || rule.curve ? 0 : scale.values)
    return (form) => amount(form)
  }
  return () => 1
}

const startOfSum = (rule: Item, of: Names, table: NameTable, scale: Scale): ReadFor => {
  const sum = readSum(of, table, scale)
  const most = rule.mostBefore === undefined ? null : readSum(rule.mostBefore, table, scale)
  const base = rule.maxOf === undefined ? null : readAmount(rule.maxOf.base, scale.values)
  const less = rule.maxOf?.less === undefined ? null : readSum(rule.maxOf.less, table, scale)
  const least = rule.mayBeNegative ? Number.NEGATIVE_INFINITY : 0
  if (most === null && base === null) return (form, filer) => Math.max(least, sum(form, filer))
  return (form, filer) => {
    let x = Math.max(least, sum(form, filer))
    if (most !== null) x = Math.min(x, most(form, filer))
    if (base !== null) x = Math.min(x, Math.max(0, base(form) - (less === null ? 0 : less(form, filer))))
    return x
  }
}

const stepsOf = (rule: Item, table: NameTable, scale: Scale): Step[] => {
  const steps: Step[] = []
  const values = scale.values
  const startsPure = rule.of !== undefined ? !isDollars(rule.of) : !rule.sumOf && !rule.largestOf
  const given = startsPure && (rule.amount === undefined || rule.table || rule.curve) ? values : 0
  const amount = (of: Amount | undefined, moved: number, make: (read: Read) => Step): void => {
    if (of !== undefined) steps.push(make(readAmount(of, moved)))
  }
  const sum = (of: Names | undefined, make: (read: ReadFor) => Step): void => {
    if (of !== undefined) steps.push(make(readSum(of, table, scale)))
  }
  const item = (of: Item | undefined, make: (read: ReadFor) => Step): void => {
    if (of !== undefined) steps.push(make(readItem(of, table, scale)))
  }
  const lookUp = (of: Table | undefined, moved: number, make: (read: ReadFor) => Step): void => {
    if (of !== undefined) steps.push(make(readTable(of, table, scale, moved)))
  }
  const times =
    (read: ReadFor): Step =>
    (x, form, filer) =>
      x * read(form, filer)
  const upTo =
    (read: ReadFor): Step =>
    (x, form, filer) =>
      Math.min(x, read(form, filer))
  const positive = (x: number) => Math.max(x, 0)

  amount(rule.share, rule.table || rule.curve ? 0 : given, (read) => (x, form) => x * read(form))
  lookUp(rule.table, given, times)
  if (rule.curve) steps.push(times(readCurve(rule.curve, table, scale, given)))
  if (rule.count !== undefined) steps.push(times(readCount(rule.count)))
  amount(rule.mostFirst, values, (read) => (x, form) => Math.min(x, read(form)))
  for (const less of rule.less ?? []) steps.push(lessOf(less, table, scale))
  item(rule.lessItem, (read) => (x, form, filer) => x - read(form, filer))
  amount(rule.shareAfter, 0, (read) => (x, form) => positive(x) * read(form))
  lookUp(rule.tableAfter, 0, (read) => (x, form, filer) => positive(x) * read(form, filer))
  amount(rule.least, values, (read) => (x, form) => Math.max(x, read(form)))
  amount(rule.most, values, (read) => (x, form) => Math.min(x, read(form)))
  sum(rule.mostOf, upTo)
  item(rule.mostItem, upTo)
  sum(rule.lessAfter, (read) => (x, form, filer) => positive(x - read(form, filer)))
  if (rule.stepUp) steps.push(stepUpOf(rule.stepUp, table, scale))
  if (rule.reduce) steps.push(...reductionOf(rule.reduce, table, scale))
  lookUp(rule.mostTable, values, upTo)
  if (rule.thenCount !== undefined) {
    const count = readCount(rule.thenCount)
    steps.push((x, form, filer) => positive(x) * count(form, filer))
  }
  if (rule.thenTimes) steps.push(ratioOf(rule.thenTimes, table, scale))
  return steps
}

const lessOf = (less: NonNullable<Item['less']>[number], table: NameTable, scale: Scale): Step => {
  if (less.of === undefined) {
    const amount = readAmount(less.amount ?? 0, scale.values)
    return (x, form) => x - amount(form)
  }
  const share = readAmount(less.share ?? 1, isDollars(less.of) ? 0 : scale.values)
  const sum = readSum(less.of, table, scale)
  return (x, form, filer) => x - share(form) * sum(form, filer)
}

/** Whole steps are counted with a little patience for sums in fractions. */
const almost = 1e-9

const stepUpOf = (rule: NonNullable<Item['stepUp']>, table: NameTable, scale: Scale): Step => {
  const on = readSum(rule.on, table, scale)
  const moved = isDollars(rule.on) ? scale.bands : 0
  const above = readAmount(rule.above, moved)
  const step = readAmount(rule.step, moved)
  const by = readAmount(rule.by, scale.values)
  return (x, form, filer) =>
    Math.min(x, Math.ceil(Math.max(0, on(form, filer) - above(form)) / step(form) - almost) * by(form))
}

const reductionOf = (rule: Reduction, table: NameTable, scale: Scale): Step[] => {
  const moved = isDollars(rule.on) ? scale.bands : 0
  const on = readSum(rule.on, table, scale)
  const above = readAmount(rule.above, moved)
  const excess: ReadFor = (form, filer) => Math.max(0, on(form, filer) - above(form))
  const steps = [takenOff(rule, excess, moved, scale)]
  if (rule.to === undefined) return steps
  const to = readAmount(rule.to, scale.values)
  return [...steps, (x, form) => Math.max(x, to(form))]
}

const takenOff = (rule: Reduction, excess: ReadFor, moved: number, scale: Scale): Step => {
  if (rule.step !== undefined) {
    const step = readAmount(rule.step, moved)
    const number: ReadFor = (form, filer) => {
      const steps = excess(form, filer) / step(form)
      if (rule.round === 'none') return steps
      return rule.round === 'down' ? Math.floor(steps + almost) : Math.ceil(steps - almost)
    }
    if (rule.byShare !== undefined) {
      const share = readAmount(rule.byShare, 0)
      return (x, form, filer) => x * Math.max(0, 1 - number(form, filer) * share(form))
    }
    const by = readAmount(rule.by ?? 0, scale.values)
    return (x, form, filer) => x - number(form, filer) * by(form)
  }
  if (rule.width !== undefined) {
    const width = readAmount(rule.width, moved)
    const digits = rule.places === undefined ? null : 10 ** rule.places
    return (x, form, filer) => {
      const over = excess(form, filer)
      const wide = width(form)
      const left = wide > 0 ? Math.max(0, 1 - over / wide) : over <= 0 ? 1 : 0
      return x * (digits === null ? left : Math.round(left * digits) / digits)
    }
  }
  const rate = readAmount(rule.rate ?? 0, 0)
  return (x, form, filer) => x - excess(form, filer) * rate(form)
}

const ratioOf = (rule: NonNullable<Item['thenTimes']>, table: NameTable, scale: Scale): Step => {
  const of = readSum(rule.of, table, scale)
  const over = readSum(rule.over, table, scale)
  return (x, form, filer) => {
    const by = over(form, filer)
    return by === 0 ? 0 : x * Math.min(1, Math.max(0, of(form, filer) / by))
  }
}
