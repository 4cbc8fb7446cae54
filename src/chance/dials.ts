// One number of a compiled plan that a question turns, without compiling the plan again, and what makes a course good.
import { drawCode, isSpendable } from '#runway/compile/codes.ts'
import { expectSteps } from '#runway/compile/compile-ahead.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { hair } from '#runway/figures/hair.ts'
import { isBelowFloor } from '#runway/milestones.ts'

/** Months count from the plan's first; `toMonth` is not included. Dollars are at the plan's first prices unless said. */
export type Dial =
  /** Dollars of cash and taxable savings at the start in all: of less than the plan has each account keeps its part, what is more lies where added money does. */
  | { kind: 'savings' }
  /** Draw a month from a month on, rising with prices, in place of the plan's own policy. */
  | { kind: 'draw'; fromMonth: number; toMonth: number }
  /** All savings as a month begins, retirement accounts with them, less tax owed, without tax: what is more lies where added money does, of less each keeps its part. */
  | { kind: 'cushion'; month: number }
  /** Cash and taxable savings as a month begins, less tax owed, in the parts in which they stand; the other accounts stay as they are. */
  | { kind: 'spendable'; month: number }
  /** Dollars received once, as cash and untaxed. */
  | { kind: 'lump'; month: number }
  /** Dollars a month set aside beyond what the plan earns, rising with prices. */
  | { kind: 'setAside'; fromMonth: number; toMonth: number }

export type Criterion =
  /** No month from this one on goes short. */
  | { kind: 'held'; fromMonth: number }
  /** Spendable savings are never below the floor from this month on. */
  | { kind: 'aboveFloor'; fromMonth: number }
  /** Every planned draw of these months can be paid with the farm's reserve intact, and the farm needs no contribution. */
  | { kind: 'drawsMet'; fromMonth: number; toMonth: number }

/** A plan whose one number is turned in place: what was compiled from that number turns with it, everything else is shared. */
export interface DialledPlan {
  plan: CompiledPlan
  turn(value: number): void
}

export function dial(plan: CompiledPlan, what: Dial): DialledPlan {
  switch (what.kind) {
    case 'savings':
      return dialSavings(plan)
    case 'draw':
      return dialDraw(plan, what.fromMonth, what.toMonth)
    case 'cushion':
    case 'spendable':
      return dialHeld(plan, what.month, what.kind === 'spendable')
    case 'lump':
      return dialIncome(plan, what.month, what.month + 1)
    case 'setAside':
      return dialIncome(plan, what.fromMonth, what.toMonth)
  }
}

/** Cash and taxable savings at the start, dollars. */
export function startingSavings(plan: CompiledPlan): number {
  const { opening, kind, count } = plan.savings
  let sum = 0
  for (let account = 0; account < count; account += 1)
    if (isSpendable(kind[account]!)) sum += opening[account]!
  return sum
}

function dialSavings(plan: CompiledPlan): DialledPlan {
  const { savings } = plan
  const total = startingSavings(plan)
  const opening = savings.opening.slice()
  const openingBasis = savings.openingBasis.slice()
  const turn = (value: number) => {
    const part = total > 0 ? Math.min(1, value / total) : 0
    const more = Math.max(0, value - total)
    for (let account = 0; account < savings.count; account += 1) {
      if (!isSpendable(savings.kind[account]!)) continue
      const added = more * savings.addedTo[account]!
      opening[account] = savings.opening[account]! * part + added
      openingBasis[account] = savings.openingBasis[account]! * part + added
    }
  }
  return { plan: { ...plan, savings: { ...savings, opening, openingBasis } }, turn }
}

function dialDraw(plan: CompiledPlan, fromMonth: number, toMonth: number): DialledPlan {
  const levels = new Float64Array(plan.months)
  const drawing = withDraws(plan, levels)
  return {
    plan: drawing,
    turn: (value) => {
      levels.fill(value, Math.max(0, fromMonth), Math.min(plan.months, toMonth))
      expectSteps(plan, drawing.draw, plan.law.expectedLevel, drawing.farm.expectedDraws)
    },
  }
}

/** The plan with these draws by month, at first prices and rising with them, in place of its own policy; nothing beyond them is called on. */
export function withDraws(plan: CompiledPlan, levels: Float64Array): CompiledPlan {
  const draw = {
    ...plan.draw,
    policy: drawCode.steps,
    planned: levels,
    withPrices: true,
    holdsFloor: false,
  }
  const expectedDraws = new Float64Array(plan.months)
  expectSteps(plan, draw, plan.law.expectedLevel, expectedDraws)
  return { ...plan, draw, farm: { ...plan.farm, expectedDraws } }
}

function dialHeld(plan: CompiledPlan, month: number, spendableAlone: boolean): DialledPlan {
  const broughtTo = { month, amount: 0, spendableAlone }
  const turn = (value: number) => {
    broughtTo.amount = value
  }
  return { plan: { ...plan, savings: { ...plan.savings, broughtTo } }, turn }
}

function dialIncome(plan: CompiledPlan, fromMonth: number, toMonth: number): DialledPlan {
  const oneOffReal = plan.household.oneOffReal.slice()
  const turn = (value: number) => {
    oneOffReal.set(plan.household.oneOffReal)
    for (let month = Math.max(0, fromMonth); month < Math.min(plan.months, toMonth); month += 1)
      oneOffReal[month]! -= value
  }
  return { plan: { ...plan, household: { ...plan.household, oneOffReal } }, turn }
}

export interface Judge {
  begin(): void
  /** Whether the month just run settles it, for `runCourse`: bad already, or past the last month that counts. */
  isDecided(m: number): boolean
  isGood(): boolean
}

/** Watches a course as it runs into the buffers, which begin anew for each. */
export function judge({ month }: CourseBuffers, criterion: Criterion): Judge {
  let missed = 0
  const missedIn = (): number => {
    if (criterion.kind === 'aboveFloor') return isBelowFloor(month) ? Number.POSITIVE_INFINITY : 0
    if (criterion.kind === 'drawsMet') return month.unmetDraw + month.contribution
    return month.unmetNeed > hair ? month.unmetNeed : 0
  }
  const [first, end] = [
    criterion.fromMonth,
    criterion.kind === 'drawsMet' ? criterion.toMonth : Number.POSITIVE_INFINITY,
  ]
  return {
    begin: () => {
      missed = 0
    },
    isDecided: (m) => {
      if (m >= first && m < end) missed += missedIn()
      return missed >= hair || m + 1 >= end
    },
    isGood: () => missed < hair,
  }
}
