// December: what is converted from traditional into Roth accounts, as an amount or as many whole dollars as keep the year at a line.
import { conversionLines } from '#plan/savings/conversions.ts'
import { type HouseholdTax, householdSize } from '#rules/household-year.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { assessAgain, fillReturn } from '#runway/household-return.ts'
import { ownerNow } from './early.ts'
import { isPaidEvenly } from './even-months.ts'
import { noteRoth } from './roth-layers.ts'

/**
 * Runs before the year's return is filed; `profit` is the farm's in it. What is converted is income of the
 * year without the early addition (26 USC 408A(d)(3)); what had to be taken out was taken in January.
 */
export const convertInDecember = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
  profit: number,
): void => {
  const { conversions } = plan.savings
  const { month, state } = buffers
  for (let k = 0; k < conversions.count; k += 1) {
    if (!isOpen(plan, buffers, k, m)) continue
    const [from, into] = [conversions.from[k]!, conversions.into[k]!]
    const byAmount = conversionLines[conversions.upTo[k]!] === 'amount'
    if (!byAmount) fillReturn(plan, buffers, m, y, profit)
    const amount = amountOf(plan, buffers, k, y)
    if (amount <= 0) continue
    state.balance[from] = state.balance[from]! - amount
    state.balance[into] = state.balance[into]! + amount
    const cell = into * plan.years + y
    state.converted[cell] = state.converted[cell]! + amount
    noteRoth(plan, state, into, y)
    state.year.retirementIncome += amount
    if (ownerNow(plan, buffers, from) === 1) state.year.secondRetirementIncome += amount
    month.converted += amount
  }
}

/** January: the same for the year as it is expected, into its expected household. Returns the dollars. */
export const expectConversions = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  m: number,
  y: number,
): number => {
  const { conversions } = plan.savings
  const { householdYear, cover } = buffers.state
  let expected = 0
  const december = m + 11 - ((plan.firstMonth + m) % 12)
  for (let k = 0; k < conversions.count; k += 1) {
    if (december >= plan.months || !isOpen(plan, buffers, k, december)) continue
    const amount = amountOf(plan, buffers, k, y)
    expected += amount
    householdYear.iraDistributions += amount
    cover.onceTaken += amount
    if (isSecondOnReturn(plan, buffers, k)) householdYear.secondIraDistributions += amount
  }
  return expected
}

const isSecondOnReturn = (plan: CompiledPlan, buffers: CourseBuffers, k: number): boolean =>
  ownerNow(plan, buffers, plan.savings.conversions.from[k]!) === 1 && buffers.state.slotPerson[1] === 1

/** Both accounts are one living person's, the time has come, and even payments do not forbid it. */
const isOpen = (plan: CompiledPlan, buffers: CourseBuffers, k: number, m: number): boolean => {
  const { conversions } = plan.savings
  if (m < conversions.fromMonth[k]! || m >= conversions.endMonth[k]!) return false
  const [from, into] = [conversions.from[k]!, conversions.into[k]!]
  const owner = ownerNow(plan, buffers, from)
  if (owner < 0 || buffers.state.alive[owner] === 0 || ownerNow(plan, buffers, into) !== owner) return false
  return !isPaidEvenly(plan, buffers, from, m)
}

const amountOf = (plan: CompiledPlan, buffers: CourseBuffers, k: number, y: number): number => {
  const { conversions } = plan.savings
  const balance = Math.max(0, buffers.state.balance[conversions.from[k]!]!)
  return conversionLines[conversions.upTo[k]!] === 'amount'
    ? Math.min(balance, conversions.line[k]! * buffers.state.level)
    : wholeDollarsUpTo(plan, buffers, k, y, Math.floor(balance))
}

/**
 * The most whole dollars of income, up to `most`, with which the household now filled is at or under the line. Tries lie where the line
 * would be met if income rose evenly, as it mostly does dollar by dollar; where it does not, halves close in.
 */
const wholeDollarsUpTo = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  k: number,
  y: number,
  most: number,
): number => {
  let lowOver = overLineAt(plan, buffers, k, y, 0)
  if (lowOver > hair) return 0
  let low = 0
  let high = most + 1
  let highOver = Number.NaN
  for (let round = 0; high - low > 1; round += 1) {
    const step = Number.isNaN(highOver) ? -lowOver : (-lowOver * (high - low)) / (highOver - lowOver)
    const guess = round < quickRounds ? low + Math.min(most, Math.floor(step)) : Math.floor((low + high) / 2)
    const next = Math.max(low + 1, Math.min(high - 1, guess))
    const over = overLineAt(plan, buffers, k, y, next)
    if (over > hair) {
      high = next
      highOver = over
    } else {
      low = next
      lowOver = over
    }
  }
  return low
}

const hair = 1e-6
const quickRounds = 8

/** By how many dollars the filled household is over the line with so much more income from the account; it is left as it was. */
const overLineAt = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  k: number,
  y: number,
  more: number,
): number => {
  const { householdYear } = buffers.state
  const ofSecond = isSecondOnReturn(plan, buffers, k)
  const [distributions, seconds] = [householdYear.iraDistributions, householdYear.secondIraDistributions]
  householdYear.iraDistributions += more
  if (ofSecond) householdYear.secondIraDistributions += more
  const tax = assessAgain(plan, buffers, y)
  householdYear.iraDistributions = distributions
  householdYear.secondIraDistributions = seconds
  const { conversions } = plan.savings
  const line = conversions.line[k]!
  return conversionLines[conversions.upTo[k]!] === 'poverty'
    ? overPoverty(plan, buffers, y, line, tax)
    : overBracket(plan, buffers, y, line, tax)
}

const overPoverty = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  y: number,
  percent: number,
  tax: HouseholdTax,
): number => {
  const law = plan.law.years[y]!
  const size = householdSize(state.householdYear)
  const line = law.povertyFirst[plan.law.region]! + law.povertyAdditional[plan.law.region]! * (size - 1)
  return tax.householdIncome - (line * percent * state.lasting.priceRatio) / 100
}

/** Over the income at which the next higher rate begins; under the lowest rate that is where tax begins at all. */
const overBracket = (
  plan: CompiledPlan,
  { state }: CourseBuffers,
  y: number,
  rate: number,
  tax: HouseholdTax,
): number => {
  const law = plan.law.years[y]!
  const place = law.ordinaryRates.findIndex((each) => each > rate + hair)
  if (place < 0) return Number.NEGATIVE_INFINITY
  const top = law.ordinaryStarts[state.householdYear.status]![place]! * state.lasting.priceRatio
  const ordinary = tax.taxableIncome - tax.preferredIncome
  // Taxable income stands at nothing below the deduction: what is left of the deduction is room too.
  return (ordinary > 0 ? ordinary : Math.min(0, tax.adjustedGrossIncome - tax.deduction)) - top
}
