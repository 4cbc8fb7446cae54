// What a month was for the household: its costs, what it earned, what crossed from and to it, and its spendable savings.
// Every account of the household stands in exactly one figure, so that the figures add up to the change in savings.
import type { Month } from '#calendar/month.ts'
import { addCents, type Cents, cents, negateCents, zeroCents } from '#money/cents.ts'
import {
  type Account,
  type AccountPurpose,
  type CrossingRole,
  farmSide,
  isLoan,
  isMoney,
  type SideId,
} from './account.ts'

export interface HouseholdMonth {
  month: Month
  /** What the month cost by account, as spent (a refund is negative). */
  costs: { accountId: number; name: string; purpose: AccountPurpose | null; cents: Cents }[]
  /** All but care, loan payments, premiums, income taxes and food from the farm, which took no cash. */
  livingCents: Cents
  careCents: Cents
  /** Principal and interest paid; and what loans brought in. */
  loanPaidCents: Cents
  loanDrawnCents: Cents
  premiumCents: Cents
  taxCents: Cents
  /** Paid on cards beyond what is booked on them: spent, on what is not known yet. Below zero when it is booked later. */
  cardUnreadCents: Cents
  /** living + care + loan payments + premiums + taxes + paid on cards. */
  costCents: Cents
  /** Pay from off-farm work as it came, after the tax kept from it, which is not in `taxCents` either; interest, benefits and other income. */
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
  /** Put into retirement and other money that does not count as savings, less taken out. */
  setAsideCents: Cents
  /** Lent to somebody outside the books, less what was paid back: nothing spent. */
  owedCents: Cents
  /** Lasting things bought, less sold: a vehicle, a home. */
  thingsCents: Cents
  /** Goods from the farm less the food they stand for, and equity entered by hand: mostly nothing. */
  otherCents: Cents
  /** Spendable savings at the end of the month: spendable accounts, less spendable cards' debt. */
  spendableCents: Cents
  /** How savings changed in it, opening balances left out. */
  changeCents: Cents
}

export interface SideCrossings {
  sideId: SideId
  drawCents: Cents
  contributionCents: Cents
  reimbursementCents: Cents
  lentCents: Cents
  goodsCents: Cents
}

/** What was posted to one of the household's accounts in a month, in the ledger's sign; opening balances left out. */
export interface PostedInMonth {
  account: Account
  cents: Cents
}

export interface MonthEnd {
  spendableCents: Cents
  /** Of its change, what opening balances brought. */
  openingCents: Cents
  cardUnreadCents: Cents
  /** Of what was posted to loans in the month: what came in as new debt. */
  loanDrawnCents: Cents
}

export const householdMonth = (
  month: Month,
  sums: readonly PostedInMonth[],
  end: MonthEnd,
  spendableBeforeCents: Cents,
): HouseholdMonth => {
  const costs = sums.filter(({ account }) => account.kind === 'expense')
  const spent = costsByPurpose(costs)
  const earned = (...purposes: (AccountPurpose | null)[]) =>
    negateCents(totalOf(sums, (account) => account.kind === 'income' && purposes.includes(account.purpose)))
  const bySide = crossingsBySide(sums)
  const farm = bySide.find((side) => side.sideId === farmSide)
  const overSides = (field: Exclude<keyof SideCrossings, 'sideId'>) =>
    cents(bySide.reduce((sum, side) => sum + side[field], 0))
  const loanPaidCents = addCents(spent.debtCents, totalOf(sums, isLoan), end.loanDrawnCents)
  const { livingCents, careCents, premiumCents, taxCents } = spent
  const { cardUnreadCents } = end
  return {
    month,
    costs: costs.map(({ account, cents: paid }) => ({
      accountId: account.id,
      name: account.name,
      purpose: account.purpose,
      cents: paid,
    })),
    livingCents,
    careCents,
    loanPaidCents,
    loanDrawnCents: end.loanDrawnCents,
    premiumCents,
    taxCents,
    cardUnreadCents,
    costCents: addCents(livingCents, careCents, loanPaidCents, premiumCents, taxCents, cardUnreadCents),
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
    ventureCents: fromVentures(bySide),
    lentCents: overSides('lentCents'),
    goodsCents: overSides('goodsCents'),
    bySide,
    setAsideCents: totalOf(sums, isSetAside),
    owedCents: totalOf(sums, isOwed),
    thingsCents: totalOf(sums, isThing),
    otherCents: cents(overSides('goodsCents') - spent.farmFoodCents - totalOf(sums, isOtherEquity)),
    spendableCents: end.spendableCents,
    changeCents: cents(end.spendableCents - spendableBeforeCents - end.openingCents),
  }
}

const fromVentures = (bySide: readonly SideCrossings[]): Cents =>
  cents(
    bySide
      .filter((side) => side.sideId !== farmSide)
      .reduce((sum, side) => sum + side.drawCents + side.reimbursementCents - side.contributionCents, 0),
  )

const costsByPurpose = (costs: readonly PostedInMonth[]) => {
  const of = (purpose: AccountPurpose) => totalOf(costs, (account) => account.purpose === purpose)
  const told = {
    careCents: of('care'),
    debtCents: of('debt'),
    premiumCents: of('premium'),
    taxCents: of('tax'),
    farmFoodCents: of('farm_food'),
  }
  const whole = totalOf(costs, () => true)
  const livingCents = cents(Object.values(told).reduce((left, part) => left - part, whole as number))
  return { ...told, livingCents }
}

const isSetAside = (account: Account): boolean => isMoney(account) && account.cashRole !== 'spendable'

const isOwned = (account: Account): boolean =>
  account.kind === 'asset' && !isMoney(account) && account.crossingRole === null

const isOwed = (account: Account): boolean => isOwned(account) && account.currentKind === 'receivable'

const isThing = (account: Account): boolean => isOwned(account) && !isOwed(account)

const isOtherEquity = (account: Account): boolean =>
  account.kind === 'equity' && account.crossingRole === null

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
