// What a change of the plan would count twice: a premium beside a marketplace plan, a loan beside living costs that hold its
// payments, lines of work beside the line for the whole farm.
import type { Enterprise, Overhead } from '#farm/farm-document.ts'
import { loanRows } from '#farm/loans.ts'
import { spreadOverYear, yearTotal } from '#farm/seasonal.ts'
import { formatDollars } from '#money/format.ts'
import { planPremiums } from './place/follows-from-place.ts'
import { type Plan, planSchema } from './plan.ts'
import { ownLines, wholeFarm, wholeFarmOf } from './whole-farm.ts'

/** Asked before such a plan is saved: each answer with the plan that it makes. */
export interface TwiceQuestion {
  asks: string
  answers: readonly { label: string; says: string; plan: Plan }[]
}

/** The first thing that `after` would count twice and `before` did not. Null when there is none. */
export const countedTwice = (before: Plan, after: Plan): TwiceQuestion | null =>
  premiumTwice(before, after) ?? loanTwice(before, after) ?? farmTwice(before, after)

/** A plan of the marketplace is paid for somebody. */
export const paysMarketplace = (plan: Plan): boolean =>
  plan.health.marketplace.members.length > 0 && planPremiums(plan).length > 0

const premiumTwice = (before: Plan, after: Plan): TwiceQuestion | null => {
  if (!paysMarketplace(after)) return null
  const known = new Set(paysMarketplace(before) ? premiumLines(before).map((line) => line.id) : [])
  const lines = premiumLines(after).filter((line) => !known.has(line.id) && overlaps(after, line))
  if (lines.length === 0) return null
  const ids = new Set(lines.map((line) => line.id))
  const names = lines.map((line) => `“${line.name}”, ${formatDollars(line.perMonth)} a month`).join('; ')
  const premiums = after.health.premiums.filter((line) => !ids.has(line.id))
  return {
    asks: `The plan pays a marketplace plan, and ${names}. Is that the same cover?`,
    answers: [
      {
        label: 'The same cover: count it once',
        says: `The marketplace plan and its credit are in the plan; ${names} is removed.`,
        plan: { ...after, health: { ...after.health, premiums } },
      },
      {
        label: 'Other cover: count both',
        says: 'Dental, another person, a plan of an employer: both are paid.',
        plan: after,
      },
    ],
  }
}

type PremiumLine = Plan['health']['premiums'][number]

const premiumLines = (plan: Plan): PremiumLine[] => plan.health.premiums.filter((line) => line.perMonth > 0)

const overlaps = ({ health }: Plan, line: PremiumLine): boolean =>
  health.marketplace.members.some(
    (one) =>
      (line.to === undefined || one.from === undefined || one.from <= line.to) &&
      (one.to === undefined || line.from === undefined || line.from <= one.to),
  )

/** Living costs are often told with the mortgage in them. A loan still to be taken is in none. */
const loanTwice = (before: Plan, after: Plan): TwiceQuestion | null => {
  const known = new Set(before.household.loans.map((loan) => loan.id))
  const added = after.household.loans.filter((loan) => !known.has(loan.id) && !loan.drawn)
  const payment = added.reduce((sum, loan) => sum + (loanRows(loan)[0]?.payment ?? 0), 0)
  const told = new Set(before.household.living.map((line) => line.id))
  const lines = after.household.living.filter((line) => told.has(line.id) && line.perMonth >= payment)
  if (payment <= 0 || lines.length === 0) return null
  const names = added.map((loan) => `“${loan.name}”`).join(', ')
  const without = (id: string): Plan => ({
    ...after,
    household: {
      ...after.household,
      living: after.household.living.map((line) =>
        line.id === id ? { ...line, perMonth: Math.round((line.perMonth - payment) * 100) / 100 } : line,
      ),
    },
  })
  return {
    asks: `${names} costs ${formatDollars(payment)} a month. Do the plan’s living costs hold that already?`,
    answers: [
      ...lines.map((line) => ({
        label: `In “${line.name}”: remove it there`,
        says: `“${line.name}” becomes ${formatDollars(line.perMonth - payment)} a month, and the loan is counted separately.`,
        plan: without(line.id),
      })),
      {
        label: 'In none of them: add it',
        says: 'Living costs stay as they are, and the payments come on top.',
        plan: after,
      },
    ],
  }
}

const farmTwice = (before: Plan, after: Plan): TwiceQuestion | null => {
  const whole = wholeFarmOf(after)
  if (whole === null || wholeFarmOf(before) === null) return null
  const known = new Set(ownLines(before).map((line) => line.id))
  const lines = ownLines(after).filter((line) => !known.has(line.id))
  const had = new Set(before.farm.overheads.map((one) => one.id))
  const overheads = after.farm.overheads.filter((one) => !had.has(one.id))
  const added = [...lines, ...overheads]
  if (added.length === 0) return null
  const enterprises = after.farm.enterprises.filter((one) => lines.some((line) => line.id === one.id))
  const parts = [...enterprises.map(yearOfEnterprise), ...overheads.map(yearOfOverhead)]
  const names = added.map((line) => `“${line.name}”`).join(', ')
  const withFarm = (lines: Enterprise[]): Plan => ({ ...after, farm: { ...after.farm, enterprises: lines } })
  const part = withFarm(
    after.farm.enterprises.map((one) => (one.id === wholeFarm ? lessParts(one, parts) : one)),
  )
  const without = withFarm(after.farm.enterprises.filter((one) => one.id !== wholeFarm))
  const answers = [
    {
      label: `${names}: a part of “${whole.name}”`,
      says: `Its sales, costs and hours are taken out of “${whole.name}”, which is then the rest.`,
      plan: part,
      isOffered: parts.length === added.length,
    },
    {
      label: `“${whole.name}” is now entered enterprise by enterprise`,
      says: `“${whole.name}” is removed: the enterprises entered are the whole farm.`,
      plan: without,
      isOffered: lines.length > 0,
    },
    {
      label: `${names}: new, on top`,
      says: `Work that “${whole.name}” did not hold: both count.`,
      plan: after,
      isOffered: true,
    },
  ]
  return {
    asks: `“${whole.name}” stands for all the farm sells and costs: ${formatDollars(yearTotal(whole.salesPerUnit) * whole.scale)} and ${formatDollars(yearTotal(whole.costsPerUnit) * whole.scale)} a year. What is ${names} to it?`,
    // One that other parts of the plan point at cannot be taken out: it is then not offered.
    answers: answers
      .filter(({ isOffered, plan }) => isOffered && planSchema.safeParse(plan).success)
      .map(({ label, says, plan }) => ({ label, says, plan })),
  }
}

/** What a part sells, costs and works in a year. */
interface Part {
  salesPerUnit: number
  costsPerUnit: number
  hoursPerUnit: number
}

const yearOfEnterprise = (one: Enterprise): Part => ({
  salesPerUnit: yearTotal(one.salesPerUnit) * one.scale,
  costsPerUnit: yearTotal(one.costsPerUnit) * one.scale,
  hoursPerUnit: yearTotal(one.hoursPerUnit) * one.scale,
})

const yearOfOverhead = (one: Overhead): Part => ({
  salesPerUnit: 0,
  costsPerUnit: yearTotal(one.costs),
  hoursPerUnit: yearTotal(one.hours),
})

/** The whole less its parts, never below nothing; its own seasons stay. */
const lessParts = (whole: Enterprise, parts: readonly Part[]): Enterprise => {
  const less = (field: keyof Part) => {
    const scale = whole.scale > 0 ? whole.scale : 1
    const taken = parts.reduce((sum, part) => sum + part[field], 0)
    const year = yearTotal(whole[field])
    const kept = year > 0 ? Math.max(0, year - taken / scale) / year : 0
    return typeof whole[field] === 'number'
      ? Math.round(year * kept * 100) / 100
      : spreadOverYear(whole[field]).map((month) => Math.round(month * kept * 100) / 100)
  }
  return {
    ...whole,
    salesPerUnit: less('salesPerUnit'),
    costsPerUnit: less('costsPerUnit'),
    hoursPerUnit: less('hoursPerUnit'),
  }
}
