// Random commands on books, for the properties: what any sequence of them must leave true.
import fc from 'fast-check'
import { dayInMonth } from '#calendar/day.ts'
import { addMonths, month } from '#calendar/month.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { postCrossing, postReceipt } from '#db/ledger/crossing-store.ts'
import { latestEntries } from '#db/ledger/latest-entries.ts'
import { changeEntries, planChange } from '#db/ledger/ledger-bulk.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { registerPage } from '#db/ledger/register.ts'
import type { Act } from '#db/once.ts'
import { postOccurrence, startStanding } from '#db/transfers/standing-store.ts'
import { lastUndoable, undoChange } from '#db/undo.ts'
import type { Account } from '#ledger/account.ts'
import { type CrossingKind, crossingKinds } from '#ledger/crossing-kind.ts'
import { cents } from '#money/cents.ts'
import { act, type TestBooks, writeRows } from './fresh-books.ts'

/** One thing a person does; numbers pick accounts, days and earlier entries by their remainder. */
export type Command =
  | { do: 'entry'; side: number; pick: number[]; amounts: number[]; day: number }
  | { do: 'receipt'; pick: number[]; amounts: number[]; day: number }
  | { do: 'crossing'; kind: CrossingKind; pick: [number, number]; amount: number; day: number }
  | { do: 'void'; which: number; day: number }
  | { do: 'correct'; which: number; amount: number; day: number }
  | {
      do: 'bulk'
      pick: [number, number]
      lines: 'chosen' | 'others'
      from: number
      count: number
      text: boolean
    }
  | { do: 'undo'; day: number }
  | { do: 'standing'; amount: number; day: number }
  | { do: 'repeat' }
  | { do: 'close'; side: number; month: number }

const amount = fc.integer({ min: -50_000_000, max: 50_000_000 })
const pick = fc.nat(1000)
const dayPick = fc.nat(900)

export const anyCommand: fc.Arbitrary<Command> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant('entry' as const),
      side: pick,
      pick: fc.array(pick, { minLength: 1, maxLength: 4 }),
      amounts: fc.array(amount, { minLength: 4, maxLength: 4 }),
      day: dayPick,
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('receipt' as const),
      pick: fc.array(pick, { minLength: 2, maxLength: 5 }),
      amounts: fc.array(amount, { minLength: 5, maxLength: 5 }),
      day: dayPick,
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant('crossing' as const),
      kind: fc.constantFrom(...crossingKinds),
      pick: fc.tuple(pick, pick),
      amount,
      day: dayPick,
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('void' as const), which: pick, day: dayPick }) },
  {
    weight: 2,
    arbitrary: fc.record({ do: fc.constant('correct' as const), which: pick, amount, day: dayPick }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('standing' as const), amount, day: dayPick }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('repeat' as const) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('close' as const), side: pick, month: fc.nat(30) }) },
)

/** The same, with changes of many entries and taking back the last action among them. */
export const anyCommandOrBulk: fc.Arbitrary<Command> = fc.oneof(
  { weight: 10, arbitrary: anyCommand },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant('bulk' as const),
      pick: fc.tuple(pick, pick),
      lines: fc.constantFrom('chosen' as const, 'others' as const),
      from: pick,
      count: fc.integer({ min: 1, max: 12 }),
      text: fc.boolean(),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('undo' as const), day: dayPick }) },
)

const firstMonth = month(2024, 1)
const dayOf = (pick: number) => dayInMonth(addMonths(firstMonth, Math.floor(pick / 31)), (pick % 31) + 1)

/** Carries commands out; the stores may refuse any of them. Returns how many were accepted. */
export const carryOut = (
  books: TestBooks,
  accounts: readonly Account[],
  commands: readonly Command[],
): number => {
  let accepted = 0
  let last: (() => { ok: boolean }) | undefined
  for (const command of commands) {
    const run = command.do === 'repeat' ? last : commandRunner(books, accounts, command)
    if (!run) continue
    if (run().ok) accepted += 1
    last = run
  }
  return accepted
}

const commandRunner = (
  books: TestBooks,
  accounts: readonly Account[],
  command: Exclude<Command, { do: 'repeat' }>,
) => {
  const form = act()
  const of = (list: readonly Account[], pick: number) => list[pick % list.length]!
  switch (command.do) {
    case 'entry': {
      const own = accounts.filter((account) => account.sideId === (command.side % 2 ? 'farm' : 'household'))
      const lines = command.pick.map((pick, index) => ({
        accountId: of(own, pick).id,
        amountCents: cents(command.amounts[index]!),
      }))
      const rest = cents(-lines.reduce((sum, line) => sum + line.amountCents, 0))
      const draft = {
        sideId: own[0]!.sideId,
        day: dayOf(command.day),
        payee: 'Someone',
        memo: '',
        source: 'form' as const,
        lines: [...lines, { accountId: of(own, command.side).id, amountCents: rest }],
      }
      return () => postEntry(books, form, draft)
    }
    case 'receipt': {
      const [paidFrom, ...rest] = command.pick
      const lines = rest.map((pick, index) => ({
        accountId: of(accounts, pick).id,
        amountCents: cents(command.amounts[index]!),
      }))
      return () =>
        postReceipt(books, form, {
          day: dayOf(command.day),
          payee: 'Store',
          memo: '',
          paidFromAccountId: of(accounts, paidFrom!).id,
          lines,
        })
    }
    case 'crossing':
      return () => {
        const value = cents(Math.abs(command.amount))
        const goods =
          command.kind === 'goods_used_at_home' ? { quantity: 1, unit: 'box', unitPriceCents: value } : null
        return postCrossing(books, form, {
          kind: command.kind,
          day: dayOf(command.day),
          amountCents: value,
          fromAccountId: of(accounts, command.pick[0]).id,
          toAccountId: of(accounts, command.pick[1]).id,
          memo: '',
          goods,
        })
      }
    case 'void':
      return () => {
        const entries = latestEntries(books, { limit: 1000 })
        const entry = entries[command.which % Math.max(1, entries.length)]
        return entry ? voidEntry(books, form, entry.entryId, dayOf(command.day)) : { ok: false }
      }
    case 'correct':
      return () => {
        const entries = latestEntries(books, { limit: 1000 })
        const entry = entries[command.which % Math.max(1, entries.length)]
        if (!entry) return { ok: false }
        const own = accounts.filter((account) => account.sideId === entry.sideId)
        const value = cents(command.amount)
        return correctEntry(books, form, entry.entryId, {
          sideId: entry.sideId,
          day: dayOf(command.day),
          payee: '',
          memo: '',
          source: 'form',
          lines: [
            { accountId: of(own, command.which).id, amountCents: value },
            { accountId: of(own, command.which + 1).id, amountCents: cents(-value) },
          ],
        })
      }
    case 'bulk':
      return () => changeSome(books, form, accounts, command)
    case 'undo':
      return () => {
        const last = lastUndoable(books, form.actor)
        return last ? undoChange(books, form, last.id, dayOf(command.day)) : { ok: false }
      }
    case 'standing':
      return () => {
        const started = startStanding(books, form, {
          name: 'Draw',
          kind: 'draw',
          fromAccountId: books.account('farm', 'Farm checking').id,
          toAccountId: books.account('household', 'Savings').id,
          amountCents: cents(Math.abs(command.amount)),
          dayOfMonth: (command.day % 31) + 1,
          firstMonth,
          lastMonth: null,
          posting: 'confirm',
          memo: '',
        })
        if (!started.ok) return started
        for (const later of [0, 1, 0])
          postOccurrence(books, form, started.result.standingId, addMonths(firstMonth, later))
        return started
      }
    case 'close':
      return () => {
        const side = command.side % 2 ? 'farm' : 'household'
        try {
          writeRows(
            books,
            `INSERT INTO month_closings (id, side_id, month, closed_at)
             VALUES ('${form.formId}', '${side}', ${addMonths(firstMonth, command.month)}, '${form.at}')`,
          )
          return { ok: true }
        } catch {
          return { ok: false }
        }
      }
  }
}

/** As on the page: what cannot be changed is seen first and left out, the rest is booked together. */
const changeSome = (
  books: TestBooks,
  form: Act,
  accounts: readonly Account[],
  command: Extract<Command, { do: 'bulk' }>,
): { ok: boolean } => {
  const used = balancesOn(books)
  const inUse = accounts.filter((account) => used.has(account.id))
  const register = inUse[command.pick[0] % Math.max(1, inUse.length)]
  if (!register) return { ok: false }
  const own = accounts.filter((account) => account.sideId === register.sideId)
  const rows = registerPage(books, { accountId: register.id, limit: 100 }).rows
  const first = command.from % Math.max(1, rows.length)
  const request = {
    accountId: register.id,
    postingIds: rows.slice(first, first + command.count).map((row) => row.postingId),
    change: {
      lines: command.lines,
      accountId: command.text ? null : own[command.pick[1] % own.length]!.id,
      enterpriseId: null,
      payee: command.text ? `Someone ${command.from}` : null,
      memo: null,
    },
  }
  const looked = planChange(books, request)
  if (!looked.ok) return looked
  const able = looked.planned.filter(({ fate }) => fate.ok).flatMap((one) => one.postingIds)
  return changeEntries(books, form, { ...request, postingIds: able })
}
