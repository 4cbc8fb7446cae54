// What happens to the household's accounts in a month: a shortfall is met in the plan's order, a surplus is put away, balances earn.
import { accountCode, isSpendable } from '#runway/compile/codes.ts'
import type { CompiledPlan } from '#runway/compile/compiled-plan.ts'
import { accountParts } from '#runway/compile/compiled-retirement.ts'
import type { CourseBuffers } from '#runway/course-buffers.ts'
import { roomFor } from './contribution-rooms.ts'
import { isEarly, ownerNow } from './early.ts'
import { isPaidEvenly } from './even-months.ts'
import { payCare, unpaidCare } from './health-savings.ts'
import { isNewRoth, noteRoth, scaleConverted, takeConverted, youngConversions } from './roth-layers.ts'

const { cash, taxable, traditional, roth, health } = accountCode

/** Income of the year, and of the person whose account it came from. */
const countDistribution = (plan: CompiledPlan, buffers: CourseBuffers, account: number, amount: number) => {
  const { year } = buffers.state
  year.retirementIncome += amount
  const owner = ownerNow(plan, buffers, account)
  if (owner === 1) year.secondRetirementIncome += amount
  if (owner >= 0 && plan.savings.isInherited[account] === 1)
    year.inheritedIncome[owner] = year.inheritedIncome[owner]! + amount
}

/** Meets a shortfall of `need` dollars from the accounts in order; returns what could not be met. */
export const meetShortfall = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  need: number,
  m: number,
): number => {
  const { savings } = plan
  let left = need
  for (let place = 0; place < savings.spendOrder.length && left > 0; place += 1) {
    const account = savings.spendOrder[place]!
    if (isPaidEvenly(plan, buffers, account, m)) continue
    const part = savings.spendPart[place]
    const onlyContributions = part === accountParts.contributions
    const onlyCare = part === accountParts.care
    if (
      !isSpendable(savings.kind[account]!) &&
      !savings.spendRetirementBeforeAge &&
      !onlyContributions &&
      !onlyCare &&
      isEarly(plan, buffers, account, m)
    )
      continue
    const most = onlyCare
      ? unpaidCare(plan, buffers, account, m)
      : onlyContributions
        ? Math.max(0, buffers.state.basis[account]!)
        : left
    const wanted = Math.min(left, most)
    left -= withdraw(plan, buffers, account, wanted, m)
  }
  return Math.max(0, left)
}

/** Takes up to `wanted` dollars out of an account and notes what the year's return must know. Returns what was taken. */
export const withdraw = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  wanted: number,
  m: number,
): number => {
  const { state, month } = buffers
  const balance = state.balance[account]!
  const taken = Math.min(wanted, balance)
  if (taken <= 0) return 0
  const kind = plan.savings.kind[account]!
  if (kind === taxable) {
    const basisOut = balance > 0 ? (taken * state.basis[account]!) / balance : 0
    state.basis[account] = state.basis[account]! - basisOut
    state.year.gains += taken - basisOut
    month.withdrawnTaxable += taken
  } else if (kind === traditional) {
    countDistribution(plan, buffers, account, taken)
    if (isEarly(plan, buffers, account, m)) state.year.earlyWithdrawals += taken
    month.withdrawnTraditional += taken
  } else if (kind === roth) {
    const fromBasis = Math.min(taken, state.basis[account]!)
    state.basis[account] = state.basis[account]! - fromBasis
    if (taken > fromBasis) takeBeyondBasis(plan, buffers, account, taken - fromBasis, m)
    month.withdrawnRoth += taken
  } else if (kind === health) {
    const spent = taken - payCare(plan, buffers, account, taken, m)
    state.year.healthSpent += spent
    if (isEarly(plan, buffers, account, m)) state.year.healthSpentEarly += spent
    month.withdrawnHealth += taken
  }
  state.balance[account] = balance - taken
  return taken
}

/** From a Roth account beyond its contributions: what was converted and waits still bears the addition when early; earnings bear tax when early or new, and the addition when early. */
const takeBeyondBasis = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  beyond: number,
  m: number,
) => {
  const { state } = buffers
  const early = isEarly(plan, buffers, account, m)
  const y = Math.floor((plan.firstMonth + m) / 12) - plan.firstYear
  if (early) state.year.earlyWithdrawals += youngConversions(plan, state, account, y, beyond)
  const earnings = takeConverted(plan, buffers, account, beyond)
  if (earnings <= 0 || (!early && !isNewRoth(plan, state, account, y))) return
  countDistribution(plan, buffers, account, earnings)
  if (early) state.year.earlyWithdrawals += earnings
}

/** Puts `amount` into an account and raises its basis where that is kept. */
export const deposit = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  amount: number,
): void => {
  const { state } = buffers
  state.balance[account] = state.balance[account]! + amount
  const kind = plan.savings.kind[account]!
  if (kind === taxable || kind === roth) state.basis[account] = state.basis[account]! + amount
}

/** Moves up to `wanted` dollars from cash to a person's retirement account, within the year's limit and what the year is expected to earn. Returns what was moved. */
export const setAside = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  account: number,
  person: number,
  wanted: number,
  y: number,
): number => {
  const { state } = buffers
  const { savings } = plan
  const isRetirement = !isSpendable(savings.kind[account]!)
  const room = isRetirement ? roomFor(plan, buffers, account, person, y) : Number.POSITIVE_INFINITY
  const moved = Math.min(wanted, room, state.balance[savings.cashAccount]!)
  if (moved <= 0 || account === savings.cashAccount) return 0
  state.balance[savings.cashAccount] = state.balance[savings.cashAccount]! - moved
  deposit(plan, buffers, account, moved)
  if (savings.kind[account] === roth) noteRoth(plan, state, account, y)
  if (savings.isWorkPlan[account] === 1) {
    state.year.deferred[person] = state.year.deferred[person]! + moved
    if (savings.kind[account] === traditional)
      state.year.untaxedDeferrals[person] = state.year.untaxedDeferrals[person]! + moved
  } else if (savings.kind[account] === health) {
    state.year.healthSavings += moved
    state.year.intoHealth[person] = state.year.intoHealth[person]! + moved
  } else if (savings.ownPlan[account]! >= 0) {
    state.year.intoOwnPlan[person] = state.year.intoOwnPlan[person]! + moved
  } else if (isRetirement) {
    state.contributed[person] = state.contributed[person]! + moved
    if (savings.kind[account] === traditional) state.year.traditionalContributions += moved
    else state.year.rothContributions += moved
  }
  return moved
}

/** Puts away what a month left over: cash up to the reserve first, then retirement within limits, then the surplus account. */
export const putAway = (
  plan: CompiledPlan,
  buffers: CourseBuffers,
  surplus: number,
  reserve: number,
  y: number,
): number => {
  const { savings } = plan
  const { state } = buffers
  let held = 0
  for (let account = 0; account < savings.count; account += 1)
    if (savings.kind[account] === cash) held += state.balance[account]!
  let over = Math.min(surplus, held - reserve)
  if (over <= 0) return 0
  let moved = 0
  const wanted = over * savings.surplusToRetirement
  for (let person = 0; person < plan.people.length && moved < wanted; person += 1) {
    const account = savings.retirementAccount[person]!
    if (account >= 0 && state.alive[person] === 1)
      moved += setAside(plan, buffers, account, person, wanted - moved, y)
  }
  over -= moved
  if (savings.surplusAccount >= 0 && savings.surplusAccount !== savings.cashAccount) {
    const rest = Math.min(over, state.balance[savings.cashAccount]!)
    state.balance[savings.cashAccount] = state.balance[savings.cashAccount]! - rest
    deposit(plan, buffers, savings.surplusAccount, rest)
  }
  return moved
}

/** A storm takes its part of stocks and bonds at the start of its month. Returns what was lost, below zero. */
export const fallOfMarkets = (plan: CompiledPlan, buffers: CourseBuffers): number => {
  const { savings } = plan
  const { stocks, bonds } = savings.marketFall
  const { state } = buffers
  let lost = 0
  for (let account = 0; account < savings.count; account += 1) {
    const part = savings.stocks[account]! * stocks + savings.bonds[account]! * bonds
    lost -= state.balance[account]! * part
    state.balance[account] = state.balance[account]! * (1 - part)
  }
  return lost
}

/**
 * All accounts together, or cash and taxable alone, come to the sum asked for beside the tax owed: nothing is sold and no tax falls
 * due, then or when it is used. What is more than stands goes where added money lies and is no gain yet; of less, each account keeps
 * the part in which it stands, its basis with it.
 */
export const bringTo = (plan: CompiledPlan, { month, state }: CourseBuffers): void => {
  const { count, kind, addedTo, broughtTo } = plan.savings
  const wanted = Math.max(0, broughtTo.amount * state.level + month.taxOwed)
  let held = 0
  for (let account = 0; account < count; account += 1)
    if (!broughtTo.spendableAlone || isSpendable(kind[account]!)) held += state.balance[account]!
  if (wanted >= held) {
    for (let account = 0; account < count; account += 1) {
      const more = (wanted - held) * addedTo[account]!
      state.balance[account] = state.balance[account]! + more
      state.basis[account] = state.basis[account]! + more
    }
    return
  }
  const part = wanted / held
  for (let account = 0; account < count; account += 1) {
    if (broughtTo.spendableAlone && !isSpendable(kind[account]!)) continue
    state.balance[account] = state.balance[account]! * part
    state.basis[account] = state.basis[account]! * part
    scaleConverted(plan, state, account, part)
  }
}

/** Balances earn the month; interest and dividends of taxed accounts go into the year's return. Returns what was earned. */
export const earnMonth = (plan: CompiledPlan, buffers: CourseBuffers): number => {
  const { savings } = plan
  const { state } = buffers
  let earned = 0
  for (let account = 0; account < savings.count; account += 1) {
    const balance = state.balance[account]!
    const grown = balance * state.growth[account]!
    earned += grown - balance
    state.balance[account] = grown
    const kind = savings.kind[account]!
    if (!isSpendable(kind)) continue
    const interest = balance * state.interestPerDollar[account]!
    const dividends = balance * state.dividendPerDollar[account]!
    state.year.interest += interest
    state.year.dividends += dividends
    if (kind === taxable) state.basis[account] = state.basis[account]! + interest + dividends
  }
  return earned
}

/** What the accounts hold at the month's end, by kind. */
export const countHeld = (plan: CompiledPlan, { month, state, parts }: CourseBuffers, m: number): void => {
  const { count, kind } = plan.savings
  month.cash = 0
  month.taxable = 0
  month.traditional = 0
  month.roth = 0
  month.health = 0
  for (let account = 0; account < count; account += 1) {
    const balance = state.balance[account]!
    if (parts !== null) parts.accounts[account * plan.months + m] = balance
    if (kind[account] === cash) month.cash += balance
    else if (kind[account] === taxable) month.taxable += balance
    else if (kind[account] === traditional) month.traditional += balance
    else if (kind[account] === roth) month.roth += balance
    else month.health += balance
  }
}
