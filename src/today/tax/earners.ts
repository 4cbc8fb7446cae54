// Whose the year's earnings are on the return: farm profit by who owns the farm, a venture's by who runs it, pay by its account.
import { firstOf } from '#ledger/reports/form-lines.ts'
import type { YearIncome } from '#ledger/reports/income-of-year.ts'
import { cents, centsToDollars, dollarsToCents } from '#money/cents.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { contributionLimits } from '#rules/contribution-limits.ts'
import type { Indexing } from '#rules/dated.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import type { LawYear } from '#rules/law-year.ts'
import { farmShareOfFirst } from '#today/cover/cover-household.ts'
import { ventureKey } from '#today/projection/cash-handed-over.ts'

type Earned = Pick<
  HouseholdYear,
  'farmProfit' | 'farmGross' | 'wages' | 'deferredPay' | 'otherSelfEmployment'
>

/** Dollars for the first and the second who sign; `signers` is how many do. */
export const earnedBy = (plan: Plan, signers: number, income: YearIncome): Earned => {
  const share = signers === 2 ? ownedByFirst(plan, income.owners) : 1
  return {
    farmProfit: inShares(income.farmProfit, share),
    farmGross: inShares(income.farmGross, share),
    wages: byPerson(plan, signers, income.pay, income.payBy, wageEarner(plan)),
    deferredPay: byPerson(
      plan,
      signers,
      income.beforeTax.deferred,
      income.beforeTax.deferredBy,
      wageEarner(plan),
    ),
    otherSelfEmployment: byPerson(
      plan,
      signers,
      income.ventureProfit,
      income.ventures.map((venture) => ({ person: ownerOf(plan, venture), amount: venture.profit })),
      plan.household.sideVentures[0]?.person ?? null,
    ),
  }
}

/** What of the farm is the plan's first person's, as a fraction. */
export const ownedByFirst = (plan: Plan, owners: YearIncome['owners']): number => {
  if (owners?.ownership === 'one') return isSecond(plan, owners.owner) ? 0 : 1
  return owners?.firstShare ?? farmShareOfFirst(plan)
}

/** In whole cents that add up to the whole. */
const inShares = (dollars: number, share: number): number[] => {
  const whole = dollarsToCents(dollars)
  const first = cents(firstOf(whole, share))
  return [first, cents(whole - first)].map(centsToDollars)
}

/** What names nobody, and what came before the books, goes to `other`. */
const byPerson = (
  plan: Plan,
  signers: number,
  whole: number,
  parts: readonly { person: string | null; amount: number }[],
  other: string | null,
): number[] => {
  const all = dollarsToCents(whole)
  if (signers < 2) return [centsToDollars(all), 0]
  const told = parts.reduce((sum, { amount }) => sum + dollarsToCents(amount), 0)
  const second = [...parts, { person: other, amount: (all - told) / 100 }]
    .filter(({ person }) => isSecond(plan, person ?? other))
    .reduce((sum, { amount }) => sum + dollarsToCents(amount), 0)
  return [cents(all - second), cents(second)].map(centsToDollars)
}

/** Whose a venture is: as its form says, else as the plan does. */
const ownerOf = (plan: Plan, { name, person }: { name: string; person: string | null }): string | null =>
  person ?? runnerOf(plan, name)

/** Place on the return of whose a venture is; what names nobody is of the first venture's person. */
export const placeOfVenture = (
  plan: Plan,
  signers: number,
  venture: { name: string; person: string | null },
): 0 | 1 =>
  signers === 2 && isSecond(plan, ownerOf(plan, venture) ?? plan.household.sideVentures[0]?.person ?? null)
    ? 1
    : 0

const isSecond = (plan: Plan, person: string | null): boolean =>
  person !== null && plan.household.people.findIndex(({ id }) => id === person) === 1

/** Whose pay is that names nobody. */
export const wageEarner = (plan: Plan): string | null =>
  plan.household.pay.find(({ kind }) => kind === 'wages')?.person ?? null

/** The plan's venture of the same name says who runs it. */
export const runnerOf = (plan: Plan, name: string): string | null =>
  plan.household.sideVentures.find((one) => ventureKey(one.name) === ventureKey(name))?.person ?? null

/** What is put off beyond the year's limit is wages all the same (26 USC 402(g)(1)). */
export const limitDeferrals = (
  law: LawYear,
  household: HouseholdYear,
  plan: Plan,
  indexing: Indexing,
  tooMuch: string[],
): void => {
  const put = household.deferredPay ?? []
  const most = put.map((_, place) => {
    const { deferral, deferralCatchUp } = contributionLimits(law.year, household.age[place]!, indexing)
    return deferral + deferralCatchUp
  })
  household.deferredPay = put.map((dollars, place) => Math.min(dollars, most[place]!))
  household.wages = household.wages.map((wages, place) => {
    const over = (put[place] ?? 0) - (household.deferredPay![place] ?? 0)
    if (over > 0.005)
      tooMuch.push(
        `Into a plan at work${plan.household.people.length > 1 ? ` by ${plan.household.people[place]?.name}` : ''}: ${formatDollarsAndCents(put[place]!)} is booked and ${formatDollarsAndCents(most[place]!)} is the most for ${law.year}; the rest is wages (26 USC 402(g)(1)). Ask the plan for it back before April 15.`,
      )
    return wages + over
  })
}
