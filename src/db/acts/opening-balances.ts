// The opening balances as they were entered, account by account, and changing them: each entry they stand in is corrected, not undone.
import type { Day } from '#calendar/day.ts'
import { listAccounts, listSides, systemAccount } from '#db/ledger/account-store.ts'
import { type EntryRecord, entryByNo } from '#db/ledger/entry-reader.ts'
import { correctEntry, postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { type Account, balanceAsRead, type SideId } from '#ledger/account.ts'
import { type Outcome, refuse } from '#ledger/problem.ts'
import { type OpeningBalance, openingEntry } from '#ledger/simple-entry.ts'
import { type Cents, zeroCents } from '#money/cents.ts'

/** As they are read: what is owed is positive. By the id of the account; what was taken back is not among them. */
export const openedBalances = (books: Books): Map<number, Cents> => {
  const accounts = accountsById(books)
  return new Map(
    openings(books).flatMap(({ lines }) =>
      lines.map(({ accountId, amountCents }) => [
        accountId,
        balanceAsRead(accounts.get(accountId)!.kind, amountCents),
      ]),
    ),
  )
}

/** `balances` of accounts that are not named stay. The day stays as it was; accounts that had none begin on `first`. */
export const changeOpenings = (
  books: Books,
  act: Act,
  first: Day,
  balances: ReadonlyMap<number, Cents>,
): Outcome<{ entries: number }> =>
  once(books, act, 'opening.change', [...balances], () => {
    const opened = openedBalances(books)
    const changed = new Map(
      [...balances].filter(([id, balance]) => (opened.get(id) ?? zeroCents) !== balance),
    )
    let entries = 0
    for (const { id: sideId } of listSides(books)) {
      const done = changeSide(books, act, { sideId, first, changed })
      if (!done.ok) return done
      entries += done.result.entries
    }
    return { ok: true, result: { entries } }
  })

interface SideChange {
  sideId: SideId
  first: Day
  changed: ReadonlyMap<number, Cents>
}

const changeSide = (
  books: Books,
  act: Act,
  { sideId, first, changed }: SideChange,
): Outcome<{ entries: number }> => {
  const accounts = listAccounts(books, { sideId, withArchived: true })
  const left = new Map(accounts.flatMap((each) => (changed.has(each.id) ? [[each.id, each] as const] : [])))
  const places = openings(books).filter((entry) => entry.sideId === sideId)
  let entries = 0
  for (const [index, entry] of places.entries()) {
    const own = entry.lines.filter(({ accountId }) => left.has(accountId))
    // What no entry opened yet goes into the first one of its side.
    const added =
      index === 0 ? [...left.values()].filter((one) => !places.some((each) => holds(each, one))) : []
    if (own.length === 0 && added.length === 0) continue
    const done = rewrite(books, act, entry, [...balancesIn(books, entry, changed), ...asked(added, changed)])
    if (!done.ok) return done
    for (const { accountId } of own) left.delete(accountId)
    for (const { id } of added) left.delete(id)
    entries += 1
  }
  if (left.size === 0) return { ok: true, result: { entries }, repeated: false }
  const head = { id: act.formId, sideId, day: first, payee: '', memo: 'Opening balances' }
  const draft = openingEntry(
    head,
    systemAccount(books, sideId, 'opening_balances').id,
    asked([...left.values()], changed),
  )
  if (!draft) return { ok: true, result: { entries }, repeated: false }
  const posted = postEntry(books, { ...act, formId: `${act.formId}.${sideId}` }, draft)
  return posted.ok
    ? { ok: true, result: { entries: entries + 1 }, repeated: false }
    : refuse(...posted.problems)
}

const holds = ({ lines }: EntryRecord, { id }: Account): boolean =>
  lines.some((line) => line.accountId === id)

const asked = (accounts: readonly Account[], changed: ReadonlyMap<number, Cents>): OpeningBalance[] =>
  accounts.map((account) => ({ account, balanceCents: changed.get(account.id)! }))

/** What the entry opened, with what is changed of it. */
const balancesIn = (
  books: Books,
  entry: EntryRecord,
  changed: ReadonlyMap<number, Cents>,
): OpeningBalance[] => {
  const accounts = accountsById(books)
  const against = systemAccount(books, entry.sideId, 'opening_balances').id
  return entry.lines.flatMap(({ accountId, amountCents, memo }) => {
    const account = accounts.get(accountId)!
    const balanceCents = changed.get(accountId) ?? balanceAsRead(account.kind, amountCents)
    return accountId === against ? [] : [{ account, balanceCents, ...(memo ? { memo } : {}) }]
  })
}

/** An entry of which nothing is left is taken back. */
const rewrite = (books: Books, act: Act, entry: EntryRecord, balances: readonly OpeningBalance[]) => {
  const { sideId, day, payee, memo } = entry
  const step = { ...act, formId: `${act.formId}.${entry.no}` }
  const head = { id: step.formId, sideId, day, payee, memo }
  const draft = openingEntry(head, systemAccount(books, sideId, 'opening_balances').id, balances)
  return draft ? correctEntry(books, step, entry.id, draft) : voidEntry(books, step, entry.id, day)
}

const accountsById = (books: Books): Map<number, Account> =>
  new Map(listAccounts(books, { withArchived: true }).map((account) => [account.id, account]))

/** Entries of opening balances that stand, the first first. */
const openings = (books: Books): EntryRecord[] =>
  (
    books.sqlite
      .prepare(
        `SELECT no FROM entries AS e WHERE source = 'opening'
           AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no) ORDER BY day, no`,
      )
      .pluck()
      .all() as number[]
  ).map((no) => entryByNo(books, no)!)
