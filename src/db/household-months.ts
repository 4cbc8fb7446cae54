// What the months left are reckoned from: per month, the household's costs, what crossed from and to it, and its spendable savings.
import { lastDayOf } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import {
  type Account,
  type AccountPurpose,
  type CrossingRole,
  farmSide,
  householdSide,
  type SideId,
} from '#ledger/account.ts'
import { addCents, type Cents, cents, negateCents, zeroCents } from '#money/cents.ts'
import { listAccounts } from './account-store.ts'
import { balancesOn, monthSums } from './balances.ts'
import type { Books } from './open.ts'

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

/** Every month of the span, also those without entries, oldest first. Reads the rollups only. */
export const householdMonths = (books: Books, from: Month, to: Month): HouseholdMonth[] => {
  const accounts = listAccounts(books, { sideId: householdSide, withArchived: true })
  const byId = new Map(accounts.map((account) => [account.id, account]))
  const byMonth = new Map<Month, { account: Account; cents: Cents }[]>()
  for (const sum of monthSums(books, from, to)) {
    const account = byId.get(sum.accountId)
    if (!account) continue
    const sums = byMonth.get(sum.month)
    if (sums) sums.push({ account, cents: sum.sumCents })
    else byMonth.set(sum.month, [{ account, cents: sum.sumCents }])
  }
  let spendable = spendableOf(balancesOn(books, lastDayOf(addMonths(from, -1))), accounts)
  const months: HouseholdMonth[] = []
  for (let month = from; month <= to; month = addMonths(month, 1)) {
    const sums = byMonth.get(month) ?? []
    spendable = addCents(
      spendable,
      total(sums, (account) => account.cashRole === 'spendable'),
    )
    months.push(monthFacts(month, sums, spendable))
  }
  return months
}

/** Spendable savings at the end of a day. */
export const spendableOn = (books: Books, day: Parameters<typeof balancesOn>[1]): Cents =>
  spendableOf(balancesOn(books, day), listAccounts(books, { sideId: householdSide, withArchived: true }))

const spendableOf = (balances: Map<number, Cents>, accounts: readonly Account[]): Cents =>
  accounts
    .filter((account) => account.cashRole === 'spendable')
    .reduce((sum, account) => addCents(sum, balances.get(account.id) ?? zeroCents), zeroCents)

interface Sum {
  account: Account
  cents: Cents
}

const total = (sums: readonly Sum[], wanted: (account: Account) => boolean): Cents =>
  cents(sums.reduce((sum, entry) => (wanted(entry.account) ? sum + entry.cents : sum), 0))

const monthFacts = (month: Month, sums: readonly Sum[], spendableCents: Cents): HouseholdMonth => {
  const costs = sums.filter(({ account }) => account.kind === 'expense')
  const spentOn = (...purposes: (AccountPurpose | null)[]) =>
    total(costs, (account) => purposes.includes(account.purpose))
  const earned = (...purposes: (AccountPurpose | null)[]) =>
    negateCents(total(sums, (account) => account.kind === 'income' && purposes.includes(account.purpose)))
  const premiumCents = spentOn('premium')
  const taxCents = spentOn('tax')
  const livingCents = total(costs, ({ purpose }) => !['premium', 'tax', 'farm_food'].includes(purpose ?? ''))
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
      total(
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
const crossingsBySide = (sums: readonly Sum[]): SideCrossings[] => {
  const sides = [...new Set(sums.flatMap(({ account }) => account.crossingSideId ?? []))]
  return sides.map((sideId) => {
    const of = (role: CrossingRole) =>
      total(sums, (account) => account.crossingSideId === sideId && account.crossingRole === role)
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
