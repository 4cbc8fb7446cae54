// What hangs on accounts that are to be put away: money, standing transfers, sorting rules, lines that wait; and lets it go with them.
import { isAmong } from '#db/among.ts'
import type { Books } from '#db/open.ts'
import { standingTransfers } from '#db/schema.ts'
import { sortingRules } from '#db/schema-statements.ts'
import { listRules } from '#db/statements/sorting-rule-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { listStanding } from '#db/transfers/standing-store.ts'
import { type Account, balanceAsRead } from '#ledger/account.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { type Cents, zeroCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { balancesOn } from './balances.ts'

export interface Hanging {
  /** What each account holds or owes, as a person reads it. */
  balances: readonly { name: string; cents: Cents }[]
  /** Names of the standing transfers that pay from or into one of them. */
  transfers: readonly string[]
  rules: number
  waitingLines: number
}

/** Closed accounts keep their balance: it is counted as before. Transfers and rules end with the account. */
export const whatHangs = (books: Books, accounts: readonly Account[]): Hanging => {
  const ids = new Set(accounts.map(({ id }) => id))
  const balances = balancesOn(books)
  return {
    balances: accounts
      .filter(({ kind }) => kind === 'asset' || kind === 'liability')
      .map((one) => ({ name: one.name, cents: balanceAsRead(one.kind, balances.get(one.id) ?? zeroCents) }))
      .filter(({ cents }) => cents !== 0),
    transfers: transfersOf(books, ids).map(({ name }) => name),
    rules: rulesOf(books, ids).length,
    waitingLines: accounts.reduce((sum, { id }) => sum + countWaiting(books, id).waiting, 0),
  }
}

/** One sentence for each thing that hangs, with what becomes of it; none when nothing does. */
export const hangingSentences = ({ balances, transfers, rules, waitingLines }: Hanging): string[] => [
  ...balances.map(({ name, cents }) => `“${name}” has ${formatCents(cents)} on it, which stays counted`),
  ...transfers.map((name) => `the standing transfer “${name}” ends`),
  ...(rules === 0 ? [] : [`${rules} sorting ${rules === 1 ? 'rule is' : 'rules are'} archived with it`]),
  ...(waitingLines === 0
    ? []
    : [`${waitingLines} statement ${waitingLines === 1 ? 'line waits' : 'lines wait'} to be sorted`]),
]

/** Asks before anything is put away that something hangs on. */
export const hangingProblem = (books: Books, accounts: readonly Account[]): FieldProblem[] => {
  const sentences = hangingSentences(whatHangs(books, accounts))
  return sentences.length === 0
    ? []
    : [
        {
          path: 'anyway',
          message: `Something hangs on it: ${sentences.join('; ')}. Check this to archive it all the same`,
        },
      ]
}

/** Ends transfers and rules of accounts that are put away. Call it inside a write. */
export const letGo = (books: Books, at: string, accounts: readonly Account[]): void => {
  const ids = new Set(accounts.map(({ id }) => id))
  const put = { archivedAt: at }
  books.db
    .update(standingTransfers)
    .set(put)
    .where(
      isAmong(
        standingTransfers.id,
        transfersOf(books, ids).map(({ id }) => id),
      ),
    )
    .run()
  books.db
    .update(sortingRules)
    .set(put)
    .where(
      isAmong(
        sortingRules.id,
        rulesOf(books, ids).map(({ id }) => id),
      ),
    )
    .run()
}

const transfersOf = (books: Books, ids: ReadonlySet<number>) =>
  listStanding(books).filter((one) => ids.has(one.fromAccountId) || ids.has(one.toAccountId))

const rulesOf = (books: Books, ids: ReadonlySet<number>) =>
  listRules(books).filter(({ onAccountId, target }) =>
    [onAccountId, target.kind === 'account' ? target.accountId : target.otherAccountId].some(
      (id) => id !== null && ids.has(id),
    ),
  )
