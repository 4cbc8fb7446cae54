// The household's months from the rollups: what the months left are reckoned from.
import { type Day, firstDayOf, lastDayOf } from '#calendar/day.ts'
import { addMonths, type Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, householdSide, isLoan } from '#ledger/account.ts'
import { type HouseholdMonth, householdMonth, type PostedInMonth, totalOf } from '#ledger/household-month.ts'
import { isCard, moneyHeld, unreadOnCard } from '#ledger/money-held.ts'
import { addCents, type Cents, cents, zeroCents } from '#money/cents.ts'
import { listAccounts } from './account-store.ts'
import { balancesOn, monthSumsOfSide } from './balances.ts'
import { cardCredits } from './card-credits.ts'
import { keptFromPay, loansDrawn, openingSums } from './household-postings.ts'

/**
 * Every month of the span, also those without entries, oldest first; pay as it came, without the tax that was kept from it. Reads the
 * rollups, and single postings of loans, openings and such tax alone.
 */
export const householdMonths = (books: Books, from: Month, to: Month): HouseholdMonth[] => {
  const accounts = listAccounts(books, { sideId: householdSide, withArchived: true })
  const byId = new Map(accounts.map((account) => [account.id, account]))
  const days = { from: firstDayOf(from), to: lastDayOf(to) }
  const posted = byMonth(monthSumsOfSide(books, householdSide, from, to), byId)
  const opened = byMonth(openingSums(books, householdSide, days), byId)
  const kept = byMonth(keptFromPay(books, householdSide, days), byId)
  const drawn = loansDrawn(books, accounts.filter(isLoan), days)
  const track = new SavingsTrack(books, accounts, lastDayOf(addMonths(from, -1)))
  const months: HouseholdMonth[] = []
  for (let month = from; month <= to; month = addMonths(month, 1)) {
    const sums = posted.get(month) ?? []
    const opening = opened.get(month) ?? []
    const before = track.spendable
    const cardUnreadCents = track.add(sums)
    const end = {
      spendableCents: track.spendable,
      openingCents: totalOf(opening, isSpendable),
      cardUnreadCents,
      loanDrawnCents: drawn.get(month) ?? zeroCents,
    }
    months.push(householdMonth(month, without(without(sums, opening), kept.get(month) ?? []), end, before))
  }
  return months
}

/** The first month in which the books hold a draw from the farm; null before there is one. */
export const firstDrawIn = (books: Books): Month | null =>
  books.sqlite.prepare(firstDrawText).pluck().get({ householdSide, farmSide }) as Month | null

const firstDrawText = `
  SELECT min(month) FROM accounts JOIN account_months ON account_months.account_id = accounts.id
  WHERE side_id = @householdSide AND crossing_role = 'draws' AND crossing_side_id = @farmSide AND sum_cents <> 0`

/** Spendable savings at the end of a day. */
export const spendableOn = (books: Books, day: Day): Cents =>
  moneyHeld(
    balancesOn(books, day),
    listAccounts(books, { sideId: householdSide, withArchived: true }).filter(isSpendable),
    cardCredits(books),
  )

const isSpendable = (account: Pick<Account, 'cashRole'>): boolean => account.cashRole === 'spendable'

/** Spendable savings carried from month to month, each card by its own balance. */
class SavingsTrack {
  spendable: Cents
  readonly #balances: Map<number, Cents>
  readonly #cards: readonly Account[]
  readonly #credits: ReturnType<typeof cardCredits>

  constructor(books: Books, accounts: readonly Account[], eve: Day) {
    this.#balances = balancesOn(books, eve)
    this.#credits = cardCredits(books)
    this.#cards = accounts.filter((account) => isSpendable(account) && isCard(account))
    this.spendable = moneyHeld(this.#balances, accounts.filter(isSpendable), this.#credits)
  }

  /** Goes on by a month's sums; what was paid on cards in it beyond what is booked on them. */
  add(sums: readonly PostedInMonth[]): Cents {
    const before = this.#unread()
    for (const card of this.#cards) {
      const moved = totalOf(sums, (account) => account.id === card.id)
      this.#balances.set(card.id, addCents(this.#balances.get(card.id) ?? zeroCents, moved))
    }
    const unread = cents(this.#unread() - before)
    this.spendable = cents(this.spendable + totalOf(sums, isSpendable) - unread)
    return unread
  }

  #unread(): number {
    return this.#cards.reduce(
      (sum, card) => sum + unreadOnCard(card, this.#balances.get(card.id) ?? zeroCents, this.#credits),
      0,
    )
  }
}

const byMonth = (
  rows: readonly { accountId: number; month: Month; sumCents: Cents }[],
  accounts: ReadonlyMap<number, Account>,
): Map<Month, PostedInMonth[]> => {
  const months = new Map<Month, PostedInMonth[]>()
  for (const { accountId, month, sumCents } of rows) {
    const posted = { account: accounts.get(accountId)!, cents: sumCents }
    const sums = months.get(month)
    if (sums) sums.push(posted)
    else months.set(month, [posted])
  }
  return months
}

const without = (sums: readonly PostedInMonth[], apart: readonly PostedInMonth[]): PostedInMonth[] =>
  apart.length === 0
    ? [...sums]
    : sums.map((one) => ({
        account: one.account,
        cents: cents(one.cents - totalOf(apart, (account) => account.id === one.account.id)),
      }))
