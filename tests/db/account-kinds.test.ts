// A file of the days when names and numbers decided: what each account is gets proposed once, and stays to be changed.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { changeAccount } from '#db/ledger/account-change.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { migrationJournal, openBooksOrThrow } from '#db/open.ts'
import { act, done } from './fresh-books.ts'
import { oldBooks } from './old-books.ts'

const before = migrationJournal().findIndex(({ tag }) => tag === '0002_account_kinds') - 1

const old: [
  number: number,
  name: string,
  kind: string,
  cashRole: string,
  purpose: string | null,
  is: string | null,
][] = [
  [5600, 'Federal taxes', 'expense', 'none', 'tax', 'federal'],
  [5601, 'Self-employment tax', 'expense', 'none', 'tax', 'federal'],
  [5610, 'State and local income taxes', 'expense', 'none', 'tax', 'state'],
  [5611, 'Oregon income tax', 'expense', 'none', 'tax', 'state'],
  [5612, 'City income tax', 'expense', 'none', 'tax', 'local'],
  [5613, 'Kansas City earnings tax', 'expense', 'none', 'tax', 'local'],
  [5614, 'Federal tax on the state pension', 'expense', 'none', 'tax', 'federal'],
  [5100, 'Ohio trip', 'expense', 'none', 'living', null],
  [2400, 'Sales tax collected', 'liability', 'none', null, 'sales'],
  [2410, 'Payroll taxes withheld', 'liability', 'none', null, 'payroll'],
  [2100, 'Mortgage', 'liability', 'none', null, null],
  [4110, 'Change in value of investments', 'income', 'none', 'interest', 'unrealized'],
  [1000, 'Checking', 'asset', 'spendable', null, 'cash'],
  [1200, 'Index shares', 'asset', 'spendable', null, 'taxable'],
  [1210, 'Brokerage', 'asset', 'spendable', null, 'taxable'],
  [1300, 'From the old job', 'asset', 'other', null, 'traditional'],
  [1305, 'Wren’s Roth', 'asset', 'other', null, 'roth'],
  [1306, 'Ada’s IRA', 'asset', 'other', null, 'traditional'],
  [1320, 'HSA at the credit union', 'asset', 'other', null, 'health'],
  [1330, 'For Ida’s school', 'asset', 'other', null, null],
  [1500, 'Home', 'asset', 'none', null, null],
]

test('names and numbers are read once, when the file is brought up to date, and Settings has the last word', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    oldBooks(path, before)
    const raw = new Database(path)
    raw.exec("INSERT INTO sides (id, kind, name, created_at) VALUES ('household', 'household', 'Home', 'x')")
    const insert = raw.prepare(
      "INSERT INTO accounts (side_id, number, name, kind, cash_role, purpose, created_at) VALUES ('household', ?, ?, ?, ?, ?, 'x')",
    )
    for (const [number, name, kind, cashRole, purpose] of old)
      insert.run(number, name, kind, cashRole, purpose)
    raw.close()
    const books = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
    const kinds = listAccounts(books, { sideId: 'household' }).map((one) => [
      one.name,
      one.taxKind ?? one.savingsKind,
    ])
    expect(Object.fromEntries(kinds)).toEqual(Object.fromEntries(old.map(([, name, , , , is]) => [name, is])))
    const roth = listAccounts(books).find(({ name }) => name === 'Wren’s Roth')!
    done(changeAccount(books, act(), roth, { name: 'Federal taxes of Wren', savingsKind: 'taxable' }))
    books.close()
    const again = openBooksOrThrow(path, { now: new Date('2026-03-02T00:00:00Z') })
    expect(listAccounts(again).find(({ id }) => id === roth.id)).toMatchObject({
      savingsKind: 'taxable',
      taxKind: null,
    })
    again.close()
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})

test('three numbers that chose defaults are written into the accounts once, where kind and purpose fit', () => {
  const place = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  try {
    const path = join(place, 'books.sqlite')
    oldBooks(path, migrationJournal().findIndex(({ tag }) => tag === '0009_property_loans') - 1)
    const raw = new Database(path)
    raw.exec("INSERT INTO sides (id, kind, name, created_at) VALUES ('household', 'household', 'Home', 'x')")
    const insert = raw.prepare(
      "INSERT INTO accounts (side_id, number, name, kind, cash_role, purpose, created_at) VALUES (?, ?, ?, ?, ?, ?, 'x')",
    )
    insert.run('household', 2100, 'Bank on Elm Street', 'liability', 'none', null)
    insert.run('household', 5130, 'What that costs', 'expense', 'none', 'debt')
    insert.run('household', 5120, 'Garden and yard', 'expense', 'none', 'premium')
    insert.run('household', 5100, 'Mortgage', 'expense', 'none', 'debt')
    insert.run('farm', 2100, 'Operating loan', 'liability', 'none', null)
    insert.run('farm', 5130, 'Custom hire', 'expense', 'none', null)
    insert.run('farm', 1510, 'Depreciation taken', 'asset', 'none', null)
    insert.run('farm', 1530, 'Depreciation taken on barns', 'asset', 'none', null)
    insert.run('household', 1510, 'Depreciation taken', 'asset', 'none', null)
    raw.close()
    const books = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
    const parts = listAccounts(books).flatMap((one) =>
      one.propertyLoan ? [[one.name, one.propertyLoan]] : [],
    )
    expect(Object.fromEntries(parts)).toEqual({ 'Bank on Elm Street': 'loan', 'What that costs': 'interest' })
    const forSeason = listAccounts(books).filter(({ currentKind }) => currentKind === 'operating_loan')
    expect(forSeason.map(({ name }) => name)).toEqual(['Operating loan'])
    const writtenOff = listAccounts(books).filter(({ contraKind }) => contraKind !== null)
    expect(writtenOff.map(({ sideId, number }) => [sideId, number])).toEqual([['farm', 1510]])
    books.close()
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
})
