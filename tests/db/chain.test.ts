// The chain of changes: each change made past the program is found and named, whatever row it was made to, and the books of the program hold.
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { drizzle } from 'drizzle-orm/better-sqlite3'
import { migrate } from 'drizzle-orm/better-sqlite3/migrator'
import { afterAll, describe, expect, test } from 'vitest'
import { restoreWords } from '#db/backup/comparison-words.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { exportBooks } from '#db/backup/export.ts'
import { exportedTables } from '#db/backup/export-format.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { beginChain, chainEnd, endInWords, parseEnd } from '#db/chain/chain.ts'
import { endsInCopies } from '#db/chain/kept-ends.ts'
import { provedOtherwise, provedTables } from '#db/chain/proved-rows.ts'
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { migrationJournal, openBooksOrThrow } from '#db/open.ts'
import { writeSetting } from '#db/settings-store.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { smallBooks } from '../fuzz/small-books.ts'
import { act, done, freshBooks, on, type TestBooks, withAccounts } from './fresh-books.ts'
import { oldBooks } from './old-books.ts'
import { pastTheGuards } from './past-the-guards.ts'

const folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
let places = 0
const placeOf = () => {
  const own = join(folder, String(++places))
  return {
    file: join(own, 'books.sqlite'),
    backups: join(own, 'backups'),
    attachments: join(own, 'attachments'),
    now: new Date('2026-02-01T08:00:00Z'),
  }
}
const fullBooks = () => {
  const place = placeOf()
  const books = smallBooks(place.file, place.attachments)
  done(addAccount(books, act(), { sideId: 'farm', name: 'Honey stand', kind: 'income' }))
  expect(writeSetting(books, act(), 'access.passphrase', { salt: 's', hash: 'h' }, 0).ok).toBe(true)
  return { books, place }
}
const spend = (books: TestBooks, day: string) =>
  done(
    postEntry(
      books,
      act(),
      moneyOut(
        { id: '', sideId: 'farm', day: on(day), payee: 'Seed house', memo: '' },
        books.account('farm', 'Farm checking').id,
        [{ accountId: books.account('farm', 'Seeds and plants').id, amountCents: cents(4500) }],
      ),
    ),
  )
const chainFindings = (books: Pick<TestBooks, 'sqlite'>, known: Parameters<typeof verifyBooks>[2] = []) =>
  verifyBooks(books.sqlite, undefined, known).findings.filter(({ check }) => check === 'chain')

const bytes = (() => {
  const { books, place } = fullBooks()
  books.sqlite.prepare('VACUUM INTO ?').run(`${place.file}.whole`)
  books.close()
  return readFileSync(`${place.file}.whole`)
})()
/** The full books again, with a change made to the file by hand. */
const changedBy = (statement: string) => {
  const sqlite = new Database(Buffer.from(bytes))
  pastTheGuards(sqlite, statement)
  return { sqlite }
}

test('books of the program hold, and every table of the file is proved one way or another', () => {
  expect(verifyBooks(changedBy('SELECT 1').sqlite).findings).toEqual([])
  expect([...provedTables, ...Object.keys(provedOtherwise)].sort()).toEqual(
    exportedTables.map(({ name }) => name).sort(),
  )
})

/** What a hand with an editor could do without any other check seeing it; and the row that must be named. */
const planted: [string, string, RegExp][] = [
  [
    'the end of the log cut off',
    'DELETE FROM change_log WHERE id > (SELECT max(id) - 2 FROM change_log)',
    /^change \d+: It is gone; link \d+/,
  ],
  [
    'the end of the log cut off, the counter too',
    "DELETE FROM change_log WHERE id = (SELECT max(id) FROM change_log); UPDATE sqlite_sequence SET seq = seq - 1 WHERE name = 'change_log'",
    /^change \d+: It is gone/,
  ],
  [
    'a summary of the log rewritten',
    "UPDATE change_log SET summary = 'Nothing' WHERE id = 4",
    /^change 4: It is not what/,
  ],
  ['a payee rewritten', "UPDATE entries SET payee = 'Cousin' WHERE no = 2", /^entry no 2: It is not what/],
  [
    'the memo of a posting rewritten',
    "UPDATE postings SET memo = 'gift' WHERE entry_no = 1",
    /^entry no 1: /,
  ],
  [
    'a crossing’s memo rewritten',
    "UPDATE crossings SET memo = 'loan' WHERE id = (SELECT min(id) FROM crossings)",
    /^crossing /,
  ],
  ['a closing deleted', "DELETE FROM month_closings WHERE side_id = 'farm'", /^closing .*It is gone/],
  ['a closing’s note rewritten', "UPDATE month_closings SET note = 'all well'", /^closing /],
  ['an attachment’s row deleted', 'DELETE FROM attachments', /^attachment .*It is gone/],
  [
    'a form that was carried out deleted',
    "DELETE FROM submissions WHERE kind = 'month.close'",
    /^form .*It is gone/,
  ],
  ['a plan emptied', "UPDATE plan_revisions SET document = '{}'", /^plan revision /],
  [
    'the kind of an account changed',
    "UPDATE accounts SET kind = 'expense' WHERE name = 'Honey stand'",
    /^account \d+: It is not what/,
  ],
  [
    'the passphrase made unreadable',
    `UPDATE settings SET value = '"x"' WHERE key = 'access.passphrase'`,
    /^setting access\.passphrase: It is not what/,
  ],
  ['a bank’s word rewritten', "UPDATE statement_lines SET payee = 'Feed & more'", /^transaction /],
  ['a sorting rule turned', "UPDATE sorting_rules SET match_text = 'x'", /^sorting rule /],
  ['the worth of a holding raised', 'UPDATE holdings SET market_value_cents = 99', /^holding /],
  [
    'what months left was said to be, changed',
    'UPDATE runway_history SET months_left = 400',
    /^saying of month /,
  ],
  [
    'an entry put in by hand, with all that belongs to it',
    `INSERT INTO entries (no, id, side_id, day, source, posted_at) VALUES (900, 'x', 'farm', '2026-01-20', 'form', '2026-01-20T00:00:00Z');
     INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents)
       SELECT 900, 1, min(id), '2026-01-20', 5 FROM accounts WHERE side_id = 'farm' AND kind = 'expense';
     INSERT INTO postings (entry_no, line_no, account_id, day, amount_cents)
       SELECT 900, 2, min(id), '2026-01-20', -5 FROM accounts WHERE side_id = 'farm' AND kind = 'expense';
     INSERT INTO sealed_entries VALUES (900)`,
    /^entry no 900: No link of the chain knows it/,
  ],
  [
    'a link rewritten',
    "UPDATE chain_links SET written = replace(written, 'a', 'b') WHERE no = 3",
    /^link 3: /,
  ],
  [
    'a link taken out',
    'DELETE FROM chain_links WHERE no = 3',
    /^link 4: The link of the chain before it is missing/,
  ],
  [
    'a link whose rows can no longer be read',
    "UPDATE chain_links SET written = 'entries' || char(10) || 'accounts' || char(9) || '7' || char(9) || 'x' WHERE no = 3",
    /^entry no \(none\): It is gone; link 3 of the chain wrote it/,
  ],
  ['the end of the chain cut off', 'DELETE FROM chain_links WHERE no > 5', /No link of the chain knows it/],
]

describe('a change made past the program is found', () => {
  test.for(planted)('%s', ([, statement, named]) => {
    const found = chainFindings(changedBy(statement)).map(({ at, message }) => `${at}: ${message}`)
    expect(
      found.find((finding) => named.test(finding)),
      found.slice(0, 5).join('\n'),
    ).toBeDefined()
  })

  test('and the first broken link is named first', () => {
    const changed = changedBy(
      "UPDATE change_log SET summary = 'x'; UPDATE sides SET name = 'Other' WHERE id = 'farm'",
    )
    expect(chainFindings(changed)[0]).toMatchObject({ message: expect.stringContaining('link 1 ') })
  })

  test('also when the log lost its end and nothing else', () => {
    const { sqlite } = changedBy('DELETE FROM change_log WHERE id = (SELECT max(id) FROM change_log)')
    expect(verifyBooks(sqlite).findings.map(({ check }) => check)).toContain('change-log-whole')
  })
})

test('an end of the chain on paper is read with all its letters, and nothing shorter is taken for one', () => {
  expect(parseEnd('41: 3fa9 0c2b 77de 1a40')).toEqual({ no: 41, digest: '3fa90c2b77de1a40' })
  expect(parseEnd(` 41:3FA90C2B77DE1A40 `)).toEqual({ no: 41, digest: '3fa90c2b77de1a40' })
  const tooShort = ['41: 3fa9 0c2b 77de 1a4', `41: 3fa9${' '.repeat(20)}`, `41:${' '.repeat(40)}`, '41:', '']
  for (const text of tooShort) expect(parseEnd(text)).toBeNull()
})

test('books that were set back to an earlier state are found by the copies kept of them, by paper and by nothing else', () => {
  const { books, place } = fullBooks()
  const early = `${place.file}.early`
  books.sqlite.prepare('VACUUM INTO ?').run(early)
  spend(books, '2026-01-20')
  const printed = parseEnd(endInWords(chainEnd(books.sqlite)!))!
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  const ends = endsInCopies(place.file, place.backups)
  expect(ends.map(({ from }) => from)).toEqual(['copy books-2026-02-01.sqlite'])
  expect(chainFindings(books, [...ends, { ...printed, from: 'paper' }])).toEqual([])
  books.close()
  const setBack = { sqlite: new Database(readFileSync(early)) }
  expect(verifyBooks(setBack.sqlite).findings).toEqual([])
  expect(chainFindings(setBack, ends)).toMatchObject([{ at: 'copy books-2026-02-01.sqlite' }])
  expect(chainFindings(setBack, [{ ...printed, from: 'paper' }])).toMatchObject([{ at: 'paper' }])
})

test('after a restore the copies of the books put aside speak of those, not of the present ones', () => {
  const { books, place } = fullBooks()
  const copy = `${place.file}.copy`
  books.sqlite.prepare('VACUUM INTO ?').run(copy)
  spend(books, '2026-01-20')
  expect(backUpDaily(books, place.backups, on('2026-02-01'))).toMatchObject({ ok: true })
  books.close()
  const prepared = prepareRestore(copy, place)
  if (!prepared.ok) throw new Error(prepared.problem.message)
  expect(prepared.prepared.carryOut()).toMatchObject({ ok: true })
  expect(endsInCopies(place.file, place.backups)).toEqual([])
})

test('a closing keeps the end of the chain it was made on', () => {
  const { sqlite } = changedBy('SELECT 1')
  const kept = sqlite.prepare('SELECT chain_digest FROM month_closings').pluck().all() as string[]
  expect(kept.length).toBeGreaterThan(1)
  for (const digest of kept)
    expect(sqlite.prepare('SELECT count(*) FROM chain_links WHERE digest = ?').pluck().get(digest)).toBe(1)
})

test('what is refused or breaks off leaves no link behind', () => {
  const { books } = fullBooks()
  const before = chainEnd(books.sqlite)
  expect(writeSetting(books, act(), 'access.passphrase', 'late', 0).ok).toBe(false)
  expect(chainEnd(books.sqlite)).toEqual(before)
  spend(books, '2026-01-21')
  expect(chainEnd(books.sqlite)!.no).toBe(before!.no + 1)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
})

describe('an export', () => {
  type Tables = Record<string, { columns: string[]; rows: unknown[][] }>
  const { books, place } = fullBooks()
  const target = `${place.file}.json`
  exportBooks(books.sqlite, target, place)
  books.close()
  const restoring = (change: (tables: Tables) => void) => {
    const exported = JSON.parse(readFileSync(target, 'utf8'))
    change(Object.fromEntries(exported.tables.map((table: { name: string }) => [table.name, table])))
    const changed = `${target}.changed`
    writeFileSync(changed, JSON.stringify(exported))
    const result = prepareRestore(changed, placeOf())
    return result.ok ? 'accepted' : result.problem.message
  }
  const set = (table: Tables[string], row: number, column: string, value: unknown) => {
    table.rows[row]![table.columns.indexOf(column)] = value
  }

  test('comes back as it was', () => expect(restoring(() => {})).toBe('accepted'))
  test('with the end of its log cut off is refused in words', () =>
    expect(restoring((tables) => void tables.change_log!.rows.splice(-3))).toMatch(
      /was not restored: .*change \d+: It is gone/,
    ))
  test('with a forged payee is refused in words', () =>
    expect(restoring((tables) => set(tables.entries!, 0, 'payee', 'Cousin'))).toMatch(
      /entry no 1: It is not what link \d+/,
    ))
  /** As an export of a Dooryard that made no chain would be. */
  const saidToBeOlder = (from: string) => {
    const exported = JSON.parse(readFileSync(from, 'utf8'))
    exported.structure = migrationJournal()[2]!.when
    exported.tables = exported.tables.filter(({ name }: { name: string }) => name !== 'chain_links')
    writeFileSync(`${from}.older`, JSON.stringify(exported))
    return prepareRestore(`${from}.older`, placeOf())
  }
  test('made out to be older than the chain is refused by a closing that knows better', () =>
    expect(saidToBeOlder(target)).toMatchObject({
      ok: false,
      problem: { message: expect.stringContaining('It was made on a chain that these books no longer have') },
    }))
  test('older than the chain, without such a closing, is taken as it is found, and that is said before', () => {
    const place = placeOf()
    const young = freshBooks(place.file)
    spend(young, '2026-01-20')
    exportBooks(young.sqlite, `${place.file}.json`, place)
    young.close()
    const result = saidToBeOlder(`${place.file}.json`)
    if (!result.ok) throw new Error(result.problem.message)
    expect(restoreWords(result.prepared, 'books.sqlite', (at) => at).at(-1)).toContain('no check can show')
    result.prepared.forget()
  })
  test('without its chain is refused in words', () =>
    expect(restoring((tables) => void tables.chain_links!.rows.splice(0))).toMatch(
      /No link of the chain knows it/,
    ))
})

test('a file that was killed between its migration and its first link gets the link at the next opening', () => {
  const path = join(folder, 'killed.sqlite')
  oldBooks(path, 2)
  const sqlite = new Database(path)
  migrate(drizzle(sqlite), { migrationsFolder: join(import.meta.dirname, '../../drizzle') })
  expect(chainEnd(sqlite)).toBeNull()
  sqlite.close()
  const books = openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') })
  expect(books.chainBegun).toBe(true)
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  books.close()
})

test('a file from before the chain is taken as it is found, once, and says so', () => {
  const path = join(folder, 'old.sqlite')
  oldBooks(path, 2)
  const open = () => withAccounts(openBooksOrThrow(path, { now: new Date('2026-03-01T00:00:00Z') }))
  const books = open()
  const report = verifyBooks(books.sqlite)
  expect(report.findings).toEqual([])
  expect(report.end?.no).toBe(1)
  expect(report.begun).toHaveLength(1)
  expect(books.chainBegun).toBe(true)
  books.close()
  const again = open()
  expect(again.chainBegun).toBe(false)
  expect(chainEnd(again.sqlite)).toEqual(report.end)
  done(addAccount(again, act(), { sideId: 'farm', name: 'Honey stand', kind: 'income' }))
  again.close()
  copyFileSync(path, `${path}.changed`)
  const changed = new Database(`${path}.changed`)
  pastTheGuards(changed, "UPDATE entries SET payee = 'Cousin'")
  expect(chainFindings({ sqlite: changed })).toMatchObject([{ at: 'entry no 1' }])
  changed.close()
})

describe('a file that a migration writes certain rows of', () => {
  /** As the Dooryard before `0009_property_loans` left it, everything in it proved; then `past` is done past the program. */
  const beforeLoans = (past = '') => {
    const { file } = placeOf()
    mkdirSync(dirname(file), { recursive: true })
    oldBooks(file, migrationJournal().findIndex(({ tag }) => tag === '0009_property_loans') - 1)
    const raw = new Database(file)
    raw.exec(`
      INSERT INTO sides (id, kind, name, created_at) VALUES ('household', 'household', 'Home', 'x');
      INSERT INTO accounts (side_id, number, name, kind, purpose, created_at) VALUES
        ('household', 2100, 'Mortgage', 'liability', NULL, 'x'), ('household', 5130, 'Its interest', 'expense', 'debt', 'x'),
        ('household', 5120, 'Property tax', 'expense', 'living', 'x'), ('household', 5000, 'Groceries', 'expense', 'living', 'x');
      INSERT INTO change_log (at, kind, summary) VALUES ('x', 'chain.begun', 'From here on');`)
    // Tables that later migrations make are not there yet, and are empty in every file of then.
    const later = provedTables.filter(
      (name) => !raw.prepare('SELECT 1 FROM sqlite_schema WHERE name = ?').get(name),
    )
    for (const name of later) raw.exec(`CREATE TABLE ${name} (id text PRIMARY KEY)`)
    expect(beginChain(raw)).toBe(true)
    for (const name of later) raw.exec(`DROP TABLE ${name}`)
    if (past !== '') pastTheGuards(raw, past)
    raw.close()
    return file
  }
  const open = (file: string) => withAccounts(openBooksOrThrow(file, { now: placeOf().now }))

  test('has these in a new link, once, and keeps the proof of all others', () => {
    const file = beforeLoans()
    const books = open(file)
    const end = chainEnd(books.sqlite)
    const { written } = books.sqlite.prepare('SELECT written FROM chain_links WHERE no = ?').get(end!.no) as {
      written: string
    }
    expect(written.split('\n').map((line) => line.split('\t')[0])).toEqual([
      'accounts',
      'accounts',
      'accounts',
      'change_log',
    ])
    expect([books.chainBegun, verifyBooks(books.sqlite).findings]).toEqual([false, []])
    books.close()
    const again = open(file)
    expect(chainEnd(again.sqlite)).toEqual(end)
    again.close()
  })

  test('still shows what was changed past the program before it', () => {
    const books = open(
      beforeLoans("UPDATE accounts SET name = 'Cousin' WHERE number = 5000 AND side_id = 'household'"),
    )
    const { id } = books.account('household', 'Cousin')
    expect(chainFindings(books)).toMatchObject([{ at: `account ${id}` }])
    books.close()
  })
})

test('an export of an older structure, read in, has what later migrations wrote into its rows', () => {
  const place = placeOf()
  const books = freshBooks(place.file)
  const target = `${place.file}.json`
  exportBooks(books.sqlite, target, place)
  books.close()
  const exported = JSON.parse(readFileSync(target, 'utf8'))
  const journal = migrationJournal()
  exported.structure = journal[journal.findIndex(({ tag }) => tag === '0009_property_loans') - 1]!.when
  const { columns, rows } = exported.tables.find(({ name }: { name: string }) => name === 'accounts')
  const at = columns.indexOf('property_loan')
  for (const row of [columns, ...rows]) row.splice(at, 1)
  writeFileSync(target, JSON.stringify(exported))
  const other = placeOf()
  const result = prepareRestore(target, other)
  if (!result.ok) throw new Error(result.problem.message)
  expect([result.prepared.chainBegun, result.prepared.carryOut().ok]).toEqual([false, true])
  const restored = openBooksOrThrow(other.file, { now: other.now })
  const parts = listAccounts(restored).flatMap((one) => one.propertyLoan ?? [])
  expect(parts.sort()).toEqual(['escrow', 'interest', 'loan'])
  restored.close()
})
