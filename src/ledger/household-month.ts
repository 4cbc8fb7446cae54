// What a month was for the household: its costs, what it earned, what crossed from and to it, and its spendable savings.
import type { Month } from '#calendar/month.ts'
import { addCents, type Cents, cents, negateCents, zeroCents } from '#money/cents.ts'
import { type Account, type AccountPurpose, type CrossingRole, farmSide, type SideId } from './account.ts'

export interface HouseholdMonth {
  month: Month
  /** What the month cost by account, as spent (a refund is negative). */
  costs: { accountId: number; name: string; purpose: AccountPurpose | null; cents: Cents }[]
  /** Living costs, care and debt: all but premiums, income taxes and food from the farm, which took no cash. */
  livingCents: Cents
  premiumCents: Cents
  taxCents: Cents
  /** living + premiums + taxes. */
  costCents: Cents
  /** Pay from off-farm work, interest, benefits and other income. */
  payCents: Cents
  interestCents: Cents
  benefitCents: Cents
  otherIncomeCents: Cents
  /** From and to the farm alone, as leak and cover ratio are told; taken-back crossings count against. */
  drawCents: Cents
  contributionCents: Cents
  reimbursementCents: Cents
  /** What side ventures gave the household, net of what it put into them. */
  ventureCents: Cents
  /** Lent to all other sides less what they paid back. */
  lentCents: Cents
  goodsCents: Cents
  bySide: SideCrossings[]
  /** Spendable savings at the end of the month: spendable accounts, less spendable cards' debt. */
  spendableCents: Cents
}

export interface SideCrossings {
  sideId: SideId
  drawCents: Cents
  contributionCents: Cents
  reimbursementCents: Cents
  lentCents: Cents
  goodsCents: Cents
}

/** What was posted to one of the household's accounts in a month, in the ledger's sign. */
export interface PostedInMonth {
  account: Account
  cents: Cents
}

/** `spendableCents` is what was spendable at the month's end. */
export const householdMonth = (
  month: Month,
  sums: readonly PostedInMonth[],
  spendableCents: Cents,
): HouseholdMonth => {
  const costs = sums.filter(({ account }) => account.kind === 'expense')
  const spentOn = (...purposes: (AccountPurpose | null)[]) =>
    totalOf(costs, (account) => purposes.includes(account.purpose))
  const earned = (...purposes: (AccountPurpose | null)[]) =>
    negateCents(totalOf(sums, (account) => account.kind === 'income' && purposes.includes(account.purpose)))
  const premiumCents = spentOn('premium')
  const taxCents = spentOn('tax')
  const livingCents = totalOf(
    costs,
    ({ purpose }) => !['premium', 'tax', 'farm_food'].includes(purpose ?? ''),
  )
  const bySide = crossingsBySide(sums)
  const farm = bySide.find((side) => side.sideId === farmSide)
  const overSides = (field: Exclude<keyof SideCrossings, 'sideId'>) =>
    cents(bySide.reduce((sum, side) => sum + side[field], 0))
  return {
    month,
    costs: costs.map(({ account, cents: spent }) => ({
      accountId: account.id,
      name: account.name,
      purpose: account.purpose,
      cents: spent,
    })),
    livingCents,
    premiumCents,
    taxCents,
    costCents: addCents(livingCents, premiumCents, taxCents),
    payCents: earned('pay'),
    interestCents: earned('interest'),
    benefitCents: earned('benefit'),
    otherIncomeCents: negateCents(
      totalOf(
        sums,
        ({ kind, purpose }) => kind === 'income' && !['pay', 'interest', 'benefit'].includes(purpose ?? ''),
      ),
    ),
    drawCents: farm?.drawCents ?? zeroCents,
    contributionCents: farm?.contributionCents ?? zeroCents,
    reimbursementCents: farm?.reimbursementCents ?? zeroCents,
    ventureCents: cents(
      bySide
        .filter((side) => side.sideId !== farmSide)
        .reduce((sum, side) => sum + side.drawCents + side.reimbursementCents - side.contributionCents, 0),
    ),
    lentCents: overSides('lentCents'),
    goodsCents: overSides('goodsCents'),
    bySide,
    spendableCents,
  }
}

/** In the household's books what reached it is a credit on the account that stands for the other side, what left it a debit. */
const crossingsBySide = (sums: readonly PostedInMonth[]): SideCrossings[] => {
  const sides = [...new Set(sums.flatMap(({ account }) => account.crossingSideId ?? []))]
  return sides.map((sideId) => {
    const of = (role: CrossingRole) =>
      totalOf(sums, (account) => account.crossingSideId === sideId && account.crossingRole === role)
    return {
      sideId,
      drawCents: negateCents(of('draws')),
      contributionCents: of('contributions'),
      reimbursementCents: negateCents(of('reimbursements')),
      lentCents: addCents(of('lent'), of('borrowed')),
      goodsCents: negateCents(of('goods')),
    }
  })
}

/** Of the accounts wanted, in the ledger's sign. */
export const totalOf = (sums: readonly PostedInMonth[], wanted: (account: Account) => boolean): Cents =>
  cents(sums.reduce((sum, entry) => (wanted(entry.account) ? sum + entry.cents : sum), 0))
