// Cards of house and farm on which more was paid than is booked on them, and what of it counts on a person's word.
import type { Day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { cardCredits } from '#db/ledger/card-credits.ts'
import type { Books } from '#db/open.ts'
import { type Account, farmSide, householdSide } from '#ledger/account.ts'
import { isCard, unreadOnCard } from '#ledger/money-held.ts'
import { cents } from '#money/cents.ts'
import type { NowFigures } from './figures.ts'

/** Household cards that are none of spendable savings lower nothing that is told here. */
export const isCountedCard = (account: Account): boolean =>
  isCard(account) &&
  (account.sideId === farmSide || (account.sideId === householdSide && account.cashRole === 'spendable'))

export const cardFigures = (books: Books, today: Day): NowFigures['spendable']['cards'] => {
  const balances = balancesOn(books, today)
  const credits = cardCredits(books)
  return listAccounts(books, { withArchived: true }).flatMap((account) => {
    const balance = balances.get(account.id) ?? cents(0)
    if (!isCountedCard(account) || balance <= 0) return []
    return [
      {
        id: account.id,
        name: account.name,
        side: account.sideId === farmSide ? ('farm' as const) : ('household' as const),
        creditCents: balance,
        countedCents: cents(balance - unreadOnCard(account, balance, credits)),
      },
    ]
  })
}
