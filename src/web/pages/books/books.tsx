// The Books page: balances and latest entries of each side, and the latest crossings on the line between them.
import { Hono } from 'hono'
import { listAccounts, listSides, type Side } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { type ListedCrossing, listCrossings } from '#db/ledger/crossing-store.ts'
import { type ListedEntry, latestEntries } from '#db/ledger/latest-entries.ts'
import type { Books } from '#db/open.ts'
import { waitingSums } from '#db/statements/waiting-lines.ts'
import { type Account, balanceAsRead, isCash, isMoney } from '#ledger/account.ts'
import { crossingKindNames } from '#ledger/crossing-kind.ts'
import { isOverpaid, salesTaxOverpaid } from '#ledger/reports/overpaid.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import {
  type BooksFigures,
  BooksPage,
  type Door,
  type GateFigures,
  type SideFigures,
} from '#views/books/books.tsx'
import { kindNames } from '#web/forms/account-options.ts'
import { answer } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const booksPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().get('/books', (c) => {
      const figures = booksFigures(c.var.web.books)
      return answer(c, {
        title: 'Books',
        figures,
        page: () => <BooksPage figures={figures} doors={doors} />,
        tables: {
          balances: () =>
            tableOf(
              figures.sides.flatMap((side) =>
                [...side.money, ...side.groups.flatMap(asOwed)].map((account) => ({ side, account })),
              ),
              {
                side: ({ side }) => side.name,
                account: ({ account }) => account.name,
                balance: ({ account }) => centsToDecimalText(account.balanceCents),
              },
            ),
        },
      })
    }),
}

/** On paper one column holds what is owed: what was paid beyond it is below zero there. */
const asOwed = ({ accounts, isOverpaid }: SideFigures['groups'][number]) =>
  isOverpaid ? accounts.map((one) => ({ ...one, balanceCents: negateCents(one.balanceCents) })) : accounts

const doors: readonly Door[] = [
  { href: '/books/entry', name: 'Record an entry' },
  { href: '/books/receipt', name: 'Mixed receipt' },
  { href: '/crossings', name: 'Record a crossing' },
]

function booksFigures(books: Books): BooksFigures {
  const accounts = listAccounts(books)
  const balances = balancesOn(books)
  const sides = listSides(books)
  const gates = listCrossings(books, { limit: 6 }).filter((crossing) => crossing.reversesId === null)
  return {
    waiting: waitingSums(books).map((one) => ({
      accountId: one.accountId,
      name: one.accountName,
      lines: one.lines,
      sumCents: one.sumCents,
      bankCents: cents((balances.get(one.accountId) ?? 0) + one.sumCents),
    })),
    sides: sides.map((side) => sideFigures(books, side, accounts, balances)),
    gates: gates.map((crossing) => gateFigures(crossing, sides)),
    toSort: accounts.flatMap((account) => toSort(account, balances, sides)),
    overpaidTax: accounts.flatMap((account) => {
      const says = salesTaxOverpaid(account, balances.get(account.id) ?? cents(0))
      return says === null ? [] : [{ says, href: `/books/entry?side=${account.sideId}&kind=journal` }]
    }),
  }
}

function sideFigures(
  books: Books,
  side: Side,
  all: readonly Account[],
  balances: ReadonlyMap<number, Cents>,
): SideFigures {
  const ledgerOf = ({ id }: Account) => balances.get(id) ?? cents(0)
  const figures = all
    .filter((account) => account.sideId === side.id)
    .map((account) => ({
      account,
      id: account.id,
      name: account.name,
      balanceCents: balanceAsRead(account.kind, ledgerOf(account)),
    }))
  const isOnHand = (account: Account) => account.kind === 'asset' && isCash(account)
  const money = figures.filter((one) => isOnHand(one.account) && one.balanceCents !== 0)
  const empty = figures.filter((one) => isOnHand(one.account) && one.balanceCents === 0)
  const rest = figures.filter((one) => !isOnHand(one.account) && one.balanceCents !== 0)
  const isBeyond = ({ account }: (typeof figures)[number]) => isOverpaid(account, ledgerOf(account))
  const plain = ({ account: _, ...figure }: (typeof figures)[number]) => figure
  return {
    id: side.id,
    kind: side.kind,
    name: side.name,
    money: money.map(plain),
    moneyTotalCents: sumCents(money.map((one) => one.balanceCents)),
    moneyTotalName: money.some(({ account }) => account.savingsKind === 'taxable')
      ? 'Total of cash and investments'
      : 'Total cash',
    groups: [
      ...(['asset', 'liability', 'equity', 'income', 'expense'] as const).map((kind) => ({
        name: groupName(kind, money.length > 0),
        ...(kind === 'equity' ? { isEquity: true } : {}),
        accounts: rest.filter((one) => one.account.kind === kind && !isBeyond(one)).map(plain),
      })),
      {
        name: 'Paid beyond what is owed',
        isOverpaid: true,
        accounts: rest
          .filter(isBeyond)
          .map((one) => ({ ...plain(one), balanceCents: negateCents(one.balanceCents) })),
      },
      { name: 'Empty accounts', isEmpty: true, accounts: empty.map(plain) },
    ].filter((group) => group.accounts.length > 0),
    latest: latestEntries(books, { sideId: side.id, limit: 6, withoutTakenBack: true }).map((entry) =>
      entryLine(entry, moneyIds(all)),
    ),
  }
}

/** Cash stands above the folds, and what was earned and spent is no part of the equity accounts until a year is closed into them. */
const groupName = (kind: Account['kind'], hasCash: boolean): string =>
  kind === 'equity'
    ? 'Equity before income and costs'
    : kind === 'asset' && hasCash
      ? 'What else is owned'
      : kindNames[kind]

export const moneyIds = (accounts: readonly Account[]): ReadonlySet<number> =>
  new Set(accounts.filter(isMoney).map((account) => account.id))

export const entryLine = (entry: ListedEntry, money: ReadonlySet<number>): SideFigures['latest'][number] => ({
  no: entry.entryNo,
  day: entry.day,
  says: entry.payee || entry.memo || entry.lines.map((line) => line.name).join(', '),
  amountCents: moneyOf(entry, money),
  isTakenBack: entry.isReversed || entry.reversesNo !== null,
})

/** Money in less money out; an entry that only moved money, or moved none, has the size of its debits. */
const moneyOf = (entry: ListedEntry, money: ReadonlySet<number>): Cents => {
  const net = sumCents(
    entry.lines.filter((line) => money.has(line.accountId)).map((line) => line.amountCents),
  )
  return net === 0 ? sumCents(entry.lines.map((line) => cents(Math.max(0, line.amountCents)))) : net
}

export const gateFigures = (crossing: ListedCrossing, sides: readonly Side[]): GateFigures => {
  const end = (id: string) => {
    const side = sides.find((one) => one.id === id)
    return { name: side?.name ?? id, kind: side?.kind ?? 'venture' }
  }
  return {
    id: crossing.id,
    day: crossing.day,
    kindName: crossingKindNames[crossing.kind],
    amountCents: crossing.amountCents,
    from: end(crossing.fromSideId),
    to: end(crossing.toSideId),
    memo: crossing.memo,
    isTakenBack: crossing.reversedById !== null,
  }
}

const toSort = (account: Account, balances: ReadonlyMap<number, Cents>, sides: readonly Side[]) => {
  const balance = balanceAsRead(account.kind, balances.get(account.id) ?? cents(0))
  const isUnsorted = account.systemRole === 'unsorted_in' || account.systemRole === 'unsorted_out'
  const side = sides.find((one) => one.id === account.sideId)?.name ?? ''
  return isUnsorted && balance !== 0
    ? [{ accountId: account.id, says: `${account.name}, ${side}: ${formatCents(balance)}` }]
    : []
}
