// Random households with their books: openings, entries and crossings as drawn, and year-end items and values beside them.
import { day } from '#calendar/day.ts'
import { addAccount, addSide } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { addAccrual, saveMarketValues } from '#db/year-store.ts'
import type { Account } from '#ledger/account.ts'
import { openingEntry } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { packYear, savePackYear } from '#today/year-pack/year-pack-settings.ts'
import { act, done, freshBooks, type TestBooks } from '../db/fresh-books.ts'
import { HouseholdGround, isBank } from './household-ground.ts'
import { accountOf, holds, holdThing, payWages, sayOfYear } from './household-things.ts'
import { type RandomHousehold, sides, type Thing } from './random-households.ts'

export const householdBooks = (drawn: RandomHousehold): TestBooks => {
  const books = freshBooks()
  done(addSide(books, act(), { kind: 'venture', name: 'Mill' }))
  done(
    addAccount(books, act(), {
      sideId: 'farm',
      name: 'Stock to sell',
      kind: 'asset',
      currentKind: 'market_stock',
    }),
  )
  done(
    addAccount(books, act(), {
      sideId: 'farm',
      name: 'Interest on farm money',
      kind: 'income',
      scheduleLine: '2b',
    }),
  )
  done(
    addAccount(books, act(), {
      sideId: 'farm',
      name: 'Shares paid ahead',
      kind: 'liability',
      currentKind: 'customers',
    }),
  )
  done(addAccount(books, act(), { sideId: 'farm', name: 'No line yet', kind: 'expense' }))
  done(addAccount(books, act(), { sideId: 'venture-mill', name: 'Mill loan', kind: 'liability' }))
  const ground = new HouseholdGround(books, drawn.opensOn)
  // A venture has no sheets before its first posting: it begins with the others.
  const millBank = { side: 'venture-mill' as const, pick: 0, amount: 100 }
  openHousehold(ground, [...drawn.opened, millBank], drawn.things)
  for (const one of drawn.entries) bookEntry(ground, one)
  for (const one of drawn.crossings) bookCrossing(ground, one)
  for (const [i, one] of drawn.things.entries()) holdThing(ground, one, i)
  payWages(ground, drawn.pays)
  for (const { side, year, kind, amount } of drawn.items)
    done(addAccrual(books, act(), side, year, { kind, name: kind, amountCents: cents(amount) }))
  for (const { year, pick, amount } of drawn.market) {
    const lasting = ground.of('farm', ({ name }) =>
      ['Land', 'Buildings and fences', 'Machinery and equipment'].includes(name),
    )
    const values = [{ accountId: ground.at(lasting, pick).id, amountCents: cents(amount) }]
    done(saveMarketValues(books, act(), day(`${year}-12-31`), values))
  }
  if (drawn.said) sayOfYear(ground, drawn.said)
  const rated = { ...packYear(books, 2025).saved, deferredTaxRate: drawn.rate }
  if (!savePackYear(books, act(), 2025, rated, 0).ok) throw new Error('The rate was not kept')
  return books
}

/** Balances and things that were there before the books. */
export const openHousehold = (
  ground: HouseholdGround,
  opened: RandomHousehold['opened'],
  things: readonly Thing[],
): void => {
  for (const side of sides) {
    const balances = new Map<Account, number>()
    const add = (account: Account, sum: number) => balances.set(account, (balances.get(account) ?? 0) + sum)
    const openable = ground.of(
      side,
      ({ kind, contraKind }) => (kind === 'asset' && contraKind === null) || kind === 'liability',
    )
    for (const one of opened) if (one.side === side) add(ground.at(openable, one.pick), one.amount)
    for (const one of things)
      if (one.isOpened && one.side === side && holds[one.kind])
        add(ground.named(side, accountOf(one)!), one.cost)
    const entry = openingEntry(
      { id: 'opening', sideId: side, day: day(ground.first), payee: '', memo: '' },
      ground.accounts.find((one) => one.sideId === side && one.systemRole === 'opening_balances')!.id,
      [...balances].map(([account, sum]) => ({ account, balanceCents: cents(sum) })),
    )
    if (entry) done(postEntry(ground.books, act(), entry))
  }
}

export const bookEntry = (
  ground: HouseholdGround,
  { side, on, debit, credit, amount, how }: RandomHousehold['entries'][number],
): void => {
  const bank = ground.of(side, isBank)[0]!
  const income = ground.at(
    ground.of(side, ({ kind }) => kind === 'income'),
    credit,
  )
  const cost = ground.at(
    ground.of(side, ({ kind }) => kind === 'expense'),
    debit,
  )
  const loans = ground.of(side, ({ name }) => /loan$|Mortgage$|Other loans/.test(name))
  const any = ground.of(side, () => true)
  const lasting = ground.of(side, ({ name }) =>
    ['Machinery and equipment', 'Breeding stock', 'Equipment', 'Home'].includes(name),
  )
  const sales = side === 'household' ? [income] : ground.of(side, (one) => one.scheduleLine === '4797')
  const pairs: Record<typeof how, [Account, number][]> = {
    any: [
      [ground.at(any, debit), amount],
      [ground.at(any, credit), -amount],
    ],
    sale: [
      [bank, amount],
      [income, -amount],
    ],
    cost: [
      [cost, amount],
      [bank, -amount],
    ],
    barter: [
      [cost, amount],
      [income, -amount],
    ],
    trade: [
      [ground.at(lasting, debit), amount],
      [ground.at(sales, credit), -amount],
    ],
    loan: [
      [bank, amount],
      [ground.at(loans, credit), -amount],
    ],
    loanPaid: [
      [ground.at(loans, credit), amount],
      [
        ground.at(
          ground.of(
            side,
            ({ kind, name }) => kind === 'expense' && /interest|Other venture costs/i.test(name),
          ),
          debit,
        ),
        100,
      ],
      [bank, -amount - 100],
    ],
  }
  if (pairs[how][0]![0].id !== pairs[how][1]![0].id) ground.post(side, ground.on(on), pairs[how])
}

export const bookCrossing = (
  ground: HouseholdGround,
  { kind, business, on, pays, pick, amount }: RandomHousehold['crossings'][number],
): void => {
  const ours = ground.of('household', isBank)[0]!
  const theirs = ground.of(business, isBank)[0]!
  const cost = ground.at(
    ground.of(business, (one) => one.kind === 'expense' && one.systemRole === null),
    pick,
  )
  const [from, to] = {
    draw: [theirs, ours],
    reimbursement: [theirs, ours],
    contribution: [ours, pays === 'cost' ? cost : theirs],
    loan: pick % 2 === 0 ? [theirs, ours] : [ours, theirs],
    repayment: pick % 2 === 0 ? [ours, theirs] : [theirs, ours],
    goods_used_at_home: [
      ground.of(business, ({ systemRole }) => systemRole === 'goods_value')[0]!,
      ground.of('household', ({ systemRole }) => systemRole === 'goods_cost')[0]!,
    ],
  }[kind] as [Account, Account]
  // Nothing is repaid that was not lent.
  const kinds = kind === 'repayment' ? (['loan', 'repayment'] as const) : [kind]
  for (const each of kinds) {
    const [leaves, reaches] = each === kind ? [from, to] : [to, from]
    done(
      postCrossing(ground.books, act(), {
        kind: each,
        day: ground.on(on),
        amountCents: cents(amount),
        fromAccountId: leaves.id,
        toAccountId: reaches.id,
        memo: '',
        goods:
          kind === 'goods_used_at_home' ? { quantity: 1, unit: 'box', unitPriceCents: cents(amount) } : null,
      }),
    )
  }
}
