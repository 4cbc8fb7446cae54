// Works a state's return that has been filled: income, deductions, brackets, spouses on two incomes, credits, in the order of the form.
import { hold } from './item.ts'
import type { CompiledSpouses, Line, Program } from './program.ts'
import {
  derived,
  person,
  personPlaces,
  type ReturnForm,
  setEach,
  setFigure,
  step,
  whole,
} from './return-form.ts'

const of = ({ v }: ReturnForm, place: number): number => v[place]!

/** Tax of the filled `program.form` for the year, net of refundable credits: below zero it is paid out. Leaves its steps in the lines. */
export const workProgram = (program: Program): number => {
  program.derive(program.form)
  for (const { form } of program.others) copyForm(program.form, form)
  const tax = workOneWay(program)
  let least = tax
  for (const other of program.others) least = Math.min(least, workOneWay(other))
  return least
}

/** The way of working the return that came to the lowest tax. */
export const wayTaken = (program: Program): Program => {
  let taken = program
  for (const other of program.others) if (of(other.form, step.tax) < of(taken.form, step.tax)) taken = other
  return taken
}

const workOneWay = (program: Program): number => {
  const { form, lines } = program
  const taxable = workTaxable(program, form)
  const before = taxBeforeCredits(program, form, taxable)
  setFigure(form, step.taxOfWhole, before)
  setFigure(form, step.spousesCredit, 0)
  const after = workSpouses(program, before)
  setFigure(form, step.taxBefore, after.tax)
  const left = takeCredits(program, after.left)
  const tax = left + sumOf(lines.flatTax, form, true)
  setFigure(form, step.tax, tax)
  return tax
}

/** Income, less what is subtracted, deducted and exempt. */
const workTaxable = (program: Program, form: ReturnForm): number => {
  const { lines } = program
  const keep = form === program.form
  let gross = 0
  for (let k = 0; k < program.start.length; k += 1) {
    const amount = program.start[k]!(form, -1)
    gross += program.floorEach ? Math.max(0, amount) : amount
  }
  gross += sumOf(lines.add, form, keep)
  setFigure(form, step.stateGross, gross)
  const subtracted = sumOf(lines.subtract, form, keep)
  setFigure(form, step.subtractions, subtracted)
  const income = Math.max(0, gross - subtracted)
  setFigure(form, step.stateAgi, income)
  setFigure(form, step.familySizeIncome, Math.max(of(form, whole.federalAgi), income))
  const deducted = sumOf(lines.deduct, form, keep)
  setFigure(form, step.deductions, deducted)
  const exempt = sumOf(lines.exempt, form, keep)
  setFigure(form, step.exemptions, exempt)
  const taxable = Math.max(0, income - deducted - exempt)
  setFigure(form, step.taxable, taxable)
  return taxable
}

/** The schedule, what is added to it, and the rules that cap or lift it. */
const taxBeforeCredits = (program: Program, form: ReturnForm, taxable: number): number => {
  const { lines } = program
  const keep = form === program.form
  setFigure(form, step.creditIncome, taxable)
  const bySchedule = program.schedule(form, taxable, form.status)
  setFigure(form, step.scheduleTax, bySchedule)
  let tax = Math.max(0, bySchedule + sumOf(lines.alsoTax, form, keep))
  for (const none of program.noTaxWhen) if (none(form, -1)) tax = 0
  for (let k = 0; k < lines.taxAtMost.length; k += 1) {
    if (!hold(program.taxAtMostWhen[k]!, form, -1)) continue
    const most = lines.taxAtMost[k]!.value(form, -1)
    if (keep) lines.taxAtMost[k]!.used = most
    if (most >= tax) continue
    tax = most
    setFigure(form, step.creditIncome, of(form, step.stateAgi))
  }
  for (const line of lines.taxAtLeast) tax = Math.max(tax, keptValue(line, form, keep))
  return tax
}

interface TaxOfCouple {
  /** Before credits, and what is left after those of a spouse's own column. */
  tax: number
  left: number
}
const couple: TaxOfCouple = { tax: 0, left: 0 }

/** What a couple's two incomes make of the tax; of others only their own credits. */
const workSpouses = (program: Program, tax: number): TaxOfCouple => {
  const { form, spouses, lines } = program
  couple.tax = tax
  couple.left = Math.max(0, tax - sumOf(lines.ownCredits, form, true))
  const each = program.ownUnit(form)
  if (spouses === null || form.filers < 2 || !hold(spouses.when, form, -1)) {
    couple.left = Math.max(0, couple.left - each * form.dependents)
    return couple
  }
  for (let filer = 0; filer < 2; filer += 1) {
    fillOne(program, filer)
    workTaxable(program, program.ones[filer]!)
  }
  if (spouses.method === 'own') onOwnReturns(program, each)
  else if (spouses.method === 'byShare') byShareOfIncome(program)
  else split(program)
  return couple
}

/** Two returns on one form: taken where both together come to less. */
const onOwnReturns = (program: Program, each: number): void => {
  const { ones, lines } = program
  const [first, second] = ones
  const taxOfFirst = taxBeforeCredits(program, first, of(first, step.taxable))
  const taxOfSecond = taxBeforeCredits(program, second, of(second, step.taxable))
  let one = Math.max(0, taxOfFirst - sumOf(lines.ownCredits, first, false))
  let other = Math.max(0, taxOfSecond - sumOf(lines.ownCredits, second, false))
  for (let k = 0; each > 0 && k < program.form.dependents; k += 1) {
    if (one >= other) one = Math.max(0, one - each)
    else other = Math.max(0, other - each)
  }
  const together = Math.max(0, couple.left - each * program.form.dependents)
  if (one + other < together - 1e-9) {
    couple.tax = taxOfFirst + taxOfSecond
    couple.left = one + other
  } else couple.left = together
}

/** The joint taxable income is divided by each one's share of the income. */
const byShareOfIncome = (program: Program): void => {
  const { form, ones, schedule } = program
  const first = of(ones[0], step.stateAgi)
  const total = first + of(ones[1], step.stateAgi)
  const taxable = of(form, step.taxable)
  const ofFirst = total > 0 ? taxable * (first / total) : taxable
  couple.tax = schedule(form, ofFirst, form.status) + schedule(form, taxable - ofFirst, form.status)
  couple.left = couple.tax
}

/** The saving of two parts on the schedule instead of one whole, as a credit or off the tax. */
const split = (program: Program): void => {
  const { form, ones, schedule } = program
  const rule = program.spouses!
  const lesser = Math.min(incomeToSplit(rule, ones[0]), incomeToSplit(rule, ones[1]))
  const lower = Math.max(0, lesser - rule.lessAmount(form))
  if (lower === 0 || couple.tax === 0) return
  const taxable = of(form, step.taxable)
  const part = rule.whole ? lower : Math.min(taxable / 2, lower)
  const column = rule.column < 0 ? form.status : rule.column
  const whole = of(form, step.scheduleTax)
  const inParts = schedule(form, part, column) + schedule(form, Math.max(0, taxable - part), column)
  const saved = Math.min(Math.max(0, whole - inParts), rule.most(form), couple.tax)
  if (rule.asCredit) setFigure(form, step.spousesCredit, saved)
  else couple.tax -= saved
  couple.left = Math.max(0, couple.left - saved)
}

const incomeToSplit = (rule: CompiledSpouses, one: ReturnForm): number =>
  rule.income(one, -1) - (rule.lessExemptions ? of(one, step.exemptions) : 0)

/** The return that one spouse would file on own income alone: status separate, no dependents, the own share of adjustments. */
const fillOne = (program: Program, filer: number): void => {
  const { form } = program
  const one = program.ones[filer]!
  copyForm(form, one)
  for (const place of personPlaces) setEach(one, place, of(form, place + 1 + filer), 0)
  one.status = 3
  one.filers = 1
  one.age[0] = form.age[filer]!
  one.blind[0] = form.blind[filer]!
  one.dependents = 0
  one.children = 0
  const gross = of(form, derived.gross + 1 + filer)
  const total = of(form, derived.gross)
  const half = of(form, person.halfSeTax + 1 + filer)
  const rest = of(form, whole.adjustments) - of(form, person.halfSeTax)
  const adjustments = half + (total === 0 ? 0 : rest * (gross / total))
  setFigure(one, whole.adjustments, adjustments)
  setFigure(one, whole.federalAgi, gross - adjustments)
  setFigure(one, whole.capitalLossLimit, of(form, whole.capitalLossLimit) / 2)
  program.derive(one)
}

const copyForm = (from: ReturnForm, to: ReturnForm): void => {
  to.v.set(from.v)
  to.status = from.status
  to.filers = from.filers
  to.dependents = from.dependents
  to.children = from.children
  to.yearsOn = from.yearsOn
  for (let k = 0; k < 2; k += 1) {
    to.age[k] = from.age[k]!
    to.blind[k] = from.blind[k]!
  }
  for (let k = 0; k < 3; k += 1) to.index[k] = from.index[k]!
  for (let k = 0; k < from.dependents; k += 1) to.dependentAge[k] = from.dependentAge[k]!
}

/** In order: non-refundable credits down to zero; what the refundable ones pay may leave less than nothing. */
const takeCredits = (program: Program, tax: number): number => {
  const { form, lines } = program
  const { credits } = lines
  let left = tax
  let back = 0
  for (let k = 0; k < credits.length; k += 1) {
    const line = credits[k]!
    line.used = 0
    if (line.place >= 0) setFigure(form, line.place, 0)
  }
  for (let k = 0; k < credits.length; k += 1) {
    let line = credits[k]!
    setFigure(form, step.tax, left)
    if (line.pick >= 0) {
      if (!isFirstOfPick(credits, k)) continue
      line = worthMost(credits, k, form, left)
    }
    const full = line.value(form, -1)
    const used = line.item.refundable ? full : Math.min(full, left)
    if (line.item.refundable) back += used
    else left -= used
    line.used = used
    if (line.place >= 0) setFigure(form, line.place, of(form, line.place) + used)
  }
  return left - back
}

const isFirstOfPick = (credits: readonly Line[], k: number): boolean => {
  for (let j = 0; j < k; j += 1) if (credits[j]!.pick === credits[k]!.pick) return false
  return true
}

const worthMost = (credits: readonly Line[], first: number, form: ReturnForm, left: number): Line => {
  let best = credits[first]!
  let most = Number.NEGATIVE_INFINITY
  for (let k = first; k < credits.length; k += 1) {
    const line = credits[k]!
    if (line.pick !== credits[first]!.pick) continue
    const full = line.value(form, -1)
    const worth = line.item.refundable ? full : Math.min(full, left)
    if (worth <= most) continue
    most = worth
    best = line
  }
  return best
}

const picked = new Float64Array(8)

/** All items together; of those that stand for each other the largest alone. `keep` notes what each came to. */
const sumOf = (lines: readonly Line[], form: ReturnForm, keep: boolean): number => {
  let sum = 0
  let picks = 0
  for (let k = 0; k < lines.length; k += 1) {
    const line = lines[k]!
    const value = keptValue(line, form, keep)
    if (line.pick < 0) sum += value
    else {
      while (picks <= line.pick) {
        picked[picks] = 0
        picks += 1
      }
      picked[line.pick] = Math.max(picked[line.pick]!, value)
    }
  }
  for (let k = 0; k < picks; k += 1) sum += picked[k]!
  return sum
}

const keptValue = (line: Line, form: ReturnForm, keep: boolean): number => {
  const value = line.value(form, -1)
  if (line.place >= 0) setFigure(form, line.place, value)
  if (keep) line.used = value
  return value
}
