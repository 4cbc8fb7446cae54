// What accounts of money hold together. A card never adds to it by itself: what was paid on it beyond what is booked on it is money gone, not saved.
import { type Cents, cents, zeroCents } from '#money/cents.ts'
import { type Account, isMoney } from './account.ts'

/** What the bank of a card was said to owe back, by account: up to so much its credit counts. */
export type CardCredits = ReadonlyMap<number, Cents>

type Card = Pick<Account, 'id' | 'kind' | 'cashRole'>

export const isCard = (account: Pick<Account, 'kind' | 'cashRole'>): boolean =>
  account.kind === 'liability' && isMoney(account)

/** The part of a card's credit that does not count, at a balance in the ledger's sign. */
export const unreadOnCard = (card: Card, balance: Cents, credits: CardCredits): Cents =>
  isCard(card) ? cents(Math.max(0, balance - (credits.get(card.id) ?? 0))) : zeroCents

export const moneyHeld = (
  balances: ReadonlyMap<number, Cents>,
  accounts: readonly Card[],
  credits: CardCredits,
): Cents =>
  cents(
    accounts.reduce((sum, account) => {
      const balance = balances.get(account.id) ?? zeroCents
      return sum + balance - unreadOnCard(account, balance, credits)
    }, 0),
  )
