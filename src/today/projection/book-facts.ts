// What the books hold as a month begins, for a plan that is continued from there. Dollars.
import { addDays, type Day, firstDayOf } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { cardCredits } from '#db/ledger/card-credits.ts'
import { openingSums } from '#db/ledger/household-postings.ts'
import { openingDay } from '#db/ledger/opening-day.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, holdsCash, householdSide, isLoan, isMoney } from '#ledger/account.ts'
import { moneyHeld } from '#ledger/money-held.ts'
import { type Cents, cents, centsToDollars } from '#money/cents.ts'
import { type AccountKind, ownedKinds } from '#plan/savings-plan.ts'
import { keptThrough } from '#today/kept.ts'
import { ventureKey } from './cash-handed-over.ts'

export interface BookFacts {
  /** Savings by kind; a kind without an account that was ever used is not known. Below zero: more is owed on cards than is there. */
  savings: Partial<Record<AccountKind, number>>
  /** Of `savings`, each account of retirement savings that was ever used. */
  retirement: readonly { kind: 'traditional' | 'roth'; name: string; dollars: number }[]
  /** Of `savings`, what lies in each account of cash, by its number; cards are not among them. */
  cashIn: ReadonlyMap<number, number>
  farmCash: number | null
  /** Money of each venture, by `ventureKey` of its name; one whose accounts were never used is not known. */
  ventures: ReadonlyMap<string, number>
  /** What is owed on each loan, by the number of its account on its side. */
  loans: { household: ReadonlyMap<number, number>; farm: ReadonlyMap<number, number> }
}

/** Null when the books hold nothing before the month. */
export const bookFacts = (books: Books, month: Month): BookFacts | null => {
  const first = firstDayOf(month)
  return keptThrough(books, addDays(first, -1), 'book facts', () => factsBefore(books, first))
}

const factsBefore = (books: Books, first: Day): BookFacts | null => {
  // What opening balances hold stands in the books from their day on.
  const opened = openingDay(books)
  if (opened === null || opened > first) return null
  const balances = balancesBefore(books, first)
  if (balances.size === 0) return null
  const credits = cardCredits(books)
  const home = listAccounts(books, { sideId: householdSide, withArchived: true })
  const farm = listAccounts(books, { sideId: farmSide, withArchived: true })
  const used = (account: Account) => balances.has(account.id)
  const held = (accounts: readonly Account[]) =>
    accounts.some(used) ? centsToDollars(moneyHeld(balances, accounts, credits)) : null
  const ofKind = (kind: AccountKind) => held(home.filter((account) => kindOf(account) === kind))
  return {
    savings: Object.fromEntries(
      (['cash', 'taxable', 'traditional', 'roth', 'health'] as const).flatMap((kind) => {
        const dollars = ofKind(kind)
        return dollars === null ? [] : [[kind, dollars]]
      }),
    ),
    retirement: home.flatMap((account) => {
      const kind = kindOf(account)
      return (kind === 'traditional' || kind === 'roth') && used(account)
        ? [{ kind, name: account.name, dollars: held([account]) ?? 0 }]
        : []
    }),
    cashIn: new Map(
      home
        .filter(holdsCash)
        .map((account) => [account.number, centsToDollars(moneyHeld(balances, [account], credits))]),
    ),
    farmCash: held(farm.filter(isMoney)),
    ventures: new Map(
      listSides(books)
        .filter((side) => side.kind === 'venture')
        .flatMap((side) => {
          const accounts = listAccounts(books, { sideId: side.id, withArchived: true })
          const dollars = held(accounts.filter(isMoney))
          return dollars === null ? [] : [[ventureKey(side.name), dollars] as const]
        }),
    ),
    loans: { household: owedOn(home, balances), farm: owedOn(farm, balances) },
  }
}

/** Balances as a day begins: of the eve, and of opening balances of the day itself, which are what the eve left. */
const balancesBefore = (books: Books, first: Day): Map<number, Cents> => {
  const balances = balancesOn(books, addDays(first, -1))
  for (const { accountId, sumCents } of openingSums(books, null, { from: first, to: first }))
    balances.set(accountId, cents((balances.get(accountId) ?? 0) + sumCents))
  return balances
}

/** The farm's money at the end of a day. */
export const farmCashOn = (books: Books, day: Day): number => {
  const farm = listAccounts(books, { sideId: farmSide, withArchived: true })
  return centsToDollars(moneyHeld(balancesOn(books, day), farm.filter(isMoney), cardCredits(books)))
}

const owedOn = (accounts: readonly Account[], balances: ReadonlyMap<number, Cents>): Map<number, number> =>
  new Map(
    accounts
      .filter((account) => isLoan(account) && balances.has(account.id))
      .map((account) => [account.number, -centsToDollars(balances.get(account.id)!)]),
  )

/** What can be spent and is not taxable is cash, cards included. */
const kindOf = ({ cashRole, savingsKind }: Account): AccountKind | null => {
  if (cashRole === 'spendable') return savingsKind === 'taxable' ? 'taxable' : 'cash'
  return ownedKinds.find((kind) => kind === savingsKind) ?? null
}
