// A thing given in trade is sold at what is allowed for it, and the new one costs the allowance and what is paid beside it: since 2018
// gains are put off for land alone (26 USC 1031(a)(1)).
import { postEntry } from '#db/ledger/ledger-store.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type Disposal, disposeOf } from '#db/year/holding-parts.ts'
import { saveHolding } from '#db/year-store.ts'
import { type Account, isLoan } from '#ledger/account.ts'
import { type FieldProblem, type Outcome, type Refusal, refuse } from '#ledger/problem.ts'
import type { HoldingKind } from '#ledger/reports/stock-inventory.ts'
import { type Cents, cents, negateCents, zeroCents } from '#money/cents.ts'
import type { FarmAssetClass } from '#rules/depreciation/recovery.ts'
import type { FoundHolding } from './found-holding.ts'

export interface Trade {
  name: string
  kind: HoldingKind
  assetClass: FarmAssetClass | null
  /** Holds the cost of the new thing. */
  accountId: number | null
  paidCents: Cents | null
  /** Where the old thing was allowed more than the new one cost. */
  receivedCents: Cents | null
  /** What was paid from or received in; null where that is booked already, or comes with the bank's file. */
  paidFromId: number | null
}

export type Gone = Disposal & { trade: Trade | null }

interface Accounts {
  lasting: readonly Account[]
  paidFrom: readonly Account[]
  /** Has such sales; null where the books have none. */
  sales: Account | null
}

/** All of it in one transaction. The result names the new thing of a trade. */
export const goneByForm = (
  books: Books,
  act: Act,
  seen: FoundHolding,
  gone: Gone,
  accounts: Accounts,
): Outcome<{ newId: string | null }> => {
  const { holding, sideId } = seen
  return once<{ newId: string | null }>(
    books,
    act,
    'holding.gone',
    { sideId, id: holding.id, ...gone },
    () => {
      const { trade, ...disposal } = gone
      const problems = trade ? tradeProblems(disposal, trade, accounts) : []
      if (problems.length > 0) return refuse(...problems)
      const sold = disposeOf(books, { ...act, formId: `${act.formId}.sold` }, sideId, holding.id, disposal)
      if (!sold.ok) return sold
      return trade
        ? traded(books, act, seen, { disposal, trade, accounts })
        : { ok: true, result: { newId: null } }
    },
  )
}

const tradeProblems = (
  { disposedForCents }: Disposal,
  trade: Trade,
  { lasting, paidFrom, sales }: Accounts,
): FieldProblem[] => {
  const problems: FieldProblem[] = []
  const add = (path: string, message: string) => problems.push({ path, message })
  if (!disposedForCents) add('disposedFor', 'Enter what was allowed for it, as the dealer’s bill has it')
  if (!lasting.some(({ id }) => id === trade.accountId))
    add('newAccount', 'Choose the account that holds the cost of the new one')
  if (trade.paidFromId !== null && !paidFrom.some(({ id }) => id === trade.paidFromId))
    add('paidFrom', 'Choose an account from the list')
  const from = paidFrom.find(({ id }) => id === trade.paidFromId)
  if (trade.paidFromId !== null && !trade.paidCents && !trade.receivedCents)
    add('paid', 'Enter what was paid or received beside it, or choose no account')
  if (trade.paidCents && trade.receivedCents)
    add('received', 'Enter what was paid or what was received, not both')
  if (trade.receivedCents && from && isLoan(from))
    add('paidFrom', 'Choose the account of money in which it was received')
  if (trade.receivedCents && trade.receivedCents >= (disposedForCents ?? 0))
    add('received', 'Enter less than what was allowed for the old one')
  if (!sales)
    add(
      '',
      'No account of income has the line of equipment sold (Form 4797). Give one that line in Settings, Accounts',
    )
  return problems
}

interface Traded {
  disposal: Disposal
  trade: Trade
  accounts: Accounts
}

const traded = (
  books: Books,
  act: Act,
  seen: FoundHolding,
  gone: Traded,
): { ok: true; result: { newId: string } } | Refusal => {
  const { disposal, trade } = gone
  const added = saveHolding(books, { ...act, formId: `${act.formId}.new` }, seen.sideId, {
    kind: trade.kind,
    name: trade.name,
    quantity: 1,
    unit: '',
    accountId: trade.accountId,
    acquiredDay: disposal.disposedDay,
    inServiceDay: null,
    raised: false,
    costCents: cents(
      disposal.disposedForCents! + (trade.paidCents ?? zeroCents) - (trade.receivedCents ?? zeroCents),
    ),
    depreciation:
      trade.assetClass === null
        ? null
        : { assetClass: trade.assetClass, section179Cents: zeroCents, bonus: false },
    marketValueCents: null,
  })
  if (!added.ok) return refuse(...added.problems.map(atNewThing))
  const problems = bookTrade(books, act, seen, gone)
  return problems.length > 0 ? refuse(...problems) : { ok: true, result: { newId: added.result.holdingId } }
}

/** Two entries: what was given for the new thing is a sale in kind; what was paid is none, and what was received one for money. */
const bookTrade = (
  books: Books,
  act: Act,
  { holding, sideId }: FoundHolding,
  { disposal, trade, accounts }: Traded,
): FieldProblem[] => {
  const [paid, received] = [trade.paidCents ?? zeroCents, trade.receivedCents ?? zeroCents]
  const { accountId: newId, paidFromId } = trade
  const salesId = accounts.sales!.id
  const inKind = cents(disposal.disposedForCents! - received)
  const entries = [
    { what: 'allowance', toId: newId!, fromId: salesId, amountCents: inKind },
    ...(paidFromId === null
      ? []
      : received > 0
        ? [{ what: 'received', toId: paidFromId, fromId: salesId, amountCents: received }]
        : [{ what: 'paid', toId: newId!, fromId: paidFromId, amountCents: paid }]),
  ]
  for (const { what, toId, fromId, amountCents } of entries) {
    const done = postEntry(
      books,
      { ...act, formId: `${act.formId}.${what}` },
      {
        sideId,
        day: disposal.disposedDay,
        payee: '',
        memo: `${holding.name} in trade for ${trade.name}`,
        source: 'form',
        lines: [
          { accountId: toId, amountCents },
          { accountId: fromId, amountCents: negateCents(amountCents) },
        ],
      },
    )
    if (!done.ok)
      return done.problems.map((problem) =>
        problem.path === 'day' ? { ...problem, path: 'disposedDay' } : problem,
      )
  }
  return []
}

/** Fields of a new thing by their names on this form. */
const atNewThing = (problem: FieldProblem): FieldProblem => ({
  ...problem,
  path: { name: 'newName', assetClass: 'newClass' }[problem.path] ?? problem.path,
})
