// What a change of the plan would count twice: a premium beside a marketplace plan, a loan beside living costs that hold its
// payments, lines of work, overheads and markets that cost something beside the line for the whole farm.
import type { Enterprise, Market } from '#farm/farm-document.ts'
import { loanRows } from '#farm/loans.ts'
import { spreadOverYear, yearTotal } from '#farm/seasonal.ts'
import { enterpriseYear, herdYear, marketYear, overheadYear, type ThingYear } from '#farm/told/year-told.ts'
import { formatCount, formatDollars } from '#money/format.ts'
import { planPremiums } from './place/follows-from-place.ts'
import { type Plan, planSchema } from './plan.ts'
import { ownLines, wholeFarm, wholeFarmOf } from './whole-farm.ts'

/** Asked before such a plan is saved: each answer with the plan that it makes. */
export interface TwiceQuestion {
  asks: string
  answers: readonly { label: string; says: string; plan: Plan }[]
}

/** The first thing that `after` would count twice and `before` did not. Null when there is none. `thisMonth`: like `2026-03`. */
export const countedTwice = (before: Plan, after: Plan, thisMonth: string): TwiceQuestion | null =>
  premiumTwice(before, after, thisMonth) ?? loanTwice(before, after) ?? farmTwice(before, after, thisMonth)

/** A plan of the marketplace is paid for somebody. */
export const paysMarketplace = (plan: Plan): boolean =>
  plan.health.marketplace.members.length > 0 && planPremiums(plan).length > 0

const premiumTwice = (before: Plan, after: Plan, thisMonth: string): TwiceQuestion | null => {
  if (!paysMarketplace(after)) return null
  const known = new Set(paysMarketplace(before) ? premiumLines(before).map((line) => line.id) : [])
  const lines = premiumLines(after).filter((line) => !known.has(line.id) && overlaps(after, line, thisMonth))
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

/** In a month that is not behind: what was paid before is counted by the books. */
const overlaps = ({ health }: Plan, line: PremiumLine, thisMonth: string): boolean =>
  !(line.to !== undefined && line.to < thisMonth) &&
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

const farmTwice = (before: Plan, after: Plan, thisMonth: string): TwiceQuestion | null => {
  const whole = wholeFarmOf(after)
  if (whole === null || wholeFarmOf(before) === null) return null
  // What begins later is no part of the farm as it is.
  const now = thisMonth > after.startMonth ? thisMonth : after.startMonth
  const runs = ({ start }: { start?: string | undefined }): boolean => start === undefined || start <= now
  const known = new Set(ownLines(before).map((line) => line.id))
  const lines = ownLines(after).filter((line) => !known.has(line.id) && runs(line))
  const had = new Set(before.farm.overheads.map((one) => one.id))
  const overheads = after.farm.overheads.filter((one) => !had.has(one.id))
  const stood = new Set(before.farm.markets.map((one) => one.id))
  const markets = after.farm.markets.filter(
    (one) => !stood.has(one.id) && runs(one) && sharesWith(whole, one),
  )
  const added = [...lines, ...overheads, ...markets]
  if (added.length === 0) return null
  const isNew = ({ id }: { id: string }) => added.some((line) => line.id === id)
  const years = [
    ...after.farm.enterprises.filter(isNew).map(enterpriseYear),
    ...after.farm.herds.filter(isNew).map(herdYear),
    ...overheads.map(overheadYear),
    ...markets.map(marketYear),
  ]
  const parts = years.filter((one) => one !== null)
  const names = added.map((line) => `“${line.name}”`).join(', ')
  const withFarm = (lines: Enterprise[]): Plan => ({ ...after, farm: { ...after.farm, enterprises: lines } })
  const rest = lessParts(whole, parts)
  const part = withFarm(after.farm.enterprises.map((one) => (one.id === wholeFarm ? rest : one)))
  const without = withFarm(after.farm.enterprises.filter((one) => one.id !== wholeFarm))
  const answers = [
    {
      label: `${names}: a part of “${whole.name}”`,
      says: restSays(whole, rest, parts),
      plan: part,
      isOffered: parts.length === years.length,
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

/** Of what a market costs and takes, the whole holds something. */
const sharesWith = (whole: Enterprise, market: Market): boolean => {
  const [held, own] = [enterpriseYear(whole), marketYear(market)]
  return (own.costs > 0 && held.costs > 0) || (own.hours > 0 && held.hours > 0)
}

/** The whole less its parts, never below nothing; its own seasons stay. */
const lessParts = (whole: Enterprise, parts: readonly ThingYear[]): Enterprise => {
  const less = (field: 'salesPerUnit' | 'costsPerUnit' | 'hoursPerUnit', of: keyof ThingYear) => {
    const scale = whole.scale > 0 ? whole.scale : 1
    const year = yearTotal(whole[field])
    const kept = year > 0 ? Math.max(0, year - total(parts, of) / scale) / year : 0
    return typeof whole[field] === 'number'
      ? Math.round(year * kept * 100) / 100
      : spreadOverYear(whole[field]).map((month) => Math.round(month * kept * 100) / 100)
  }
  return {
    ...whole,
    salesPerUnit: less('salesPerUnit', 'sales'),
    costsPerUnit: less('costsPerUnit', 'costs'),
    hoursPerUnit: less('hoursPerUnit', 'hours'),
  }
}

const total = (parts: readonly ThingYear[], of: keyof ThingYear): number =>
  parts.reduce((sum, part) => sum + part[of], 0)

const formatHours = (hours: number): string => `${formatCount(Math.round(hours))} hours`

/** What is taken out a year, what is left, and of what there was not enough. */
const restSays = (whole: Enterprise, rest: Enterprise, parts: readonly ThingYear[]): string => {
  const [was, left] = [enterpriseYear(whole), enterpriseYear(rest)]
  const rows = [
    { of: 'sales', said: (value: number) => `${formatDollars(value)} of sales` },
    { of: 'costs', said: (value: number) => `${formatDollars(value)} of costs` },
    { of: 'hours', said: formatHours },
  ] as const
  const some = rows.filter(({ of }) => was[of] > 0)
  const short = some.filter(({ of }) => total(parts, of) > was[of] + 0.5)
  const taken = some
    .filter(({ of }) => total(parts, of) > 0)
    .map(({ of, said }) => said(Math.min(total(parts, of), was[of])))
  return [
    `Taken out of “${whole.name}”: ${taken.join(', ')} a year. It is then the rest: ${some.map(({ of, said }) => said(left[of])).join(', ')}.`,
    ...short.map(
      ({ of, said }) =>
        `There were only ${said(was[of])} to take out, of ${said(total(parts, of))}: check what was entered.`,
    ),
  ].join(' ')
}
