import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { listAccounts } from '#db/ledger/account-store.ts'
import { addAttachment } from '#db/ledger/attachment-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { backup } from '#src/cli/backup.ts'
import { type Command, CommandError } from '#src/cli/command.ts'
import { restore } from '#src/cli/restore.ts'
import { verify } from '#src/cli/verify.ts'
import { anyCommand, carryOut } from '../db/commands.ts'
import { act, done, freshBooks } from '../db/fresh-books.ts'
import { oldBooks } from '../db/old-books.ts'

let folder: string
let file: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dooryard-test-'))
  file = join(folder, 'books.sqlite')
  const books = freshBooks(file)
  carryOut(books, listAccounts(books), fc.sample(anyCommand, { seed: 5, numRuns: 30 }))
  books.close()
})
afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

/** Runs a command as the command line does: what was said, and the exit code. */
const say = async (command: Command, ...args: string[]) => {
  const lines: string[] = []
  const io = {
    out: (text: string) => void lines.push(text),
    err: (text: string) => void lines.push(text),
    readInput: async () => 'six words that nobody knows\n',
    env: { DOORYARD_DATA: folder },
    now: () => new Date('2026-02-01T08:00:00Z'),
  }
  try {
    return { code: await command.run(args, io), lines }
  } catch (error) {
    if (!(error instanceof CommandError)) throw error
    return { code: error.exitCode, lines: [...lines, error.message] }
  }
}

test('verify says that everything holds, with what it looked at, or what does not and exits with 1', async () => {
  expect(await say(verify)).toMatchObject({
    code: 0,
    lines: [
      expect.stringMatching(/everything holds \(\d+ entries/),
      expect.stringMatching(/^The chain of changes ends at \d+: [0-9a-f ]{19}\.$/),
    ],
  })
  const books = openBooksOrThrow(file, { now: new Date(0) })
  books.sqlite.exec('UPDATE account_months SET sum_cents = sum_cents + 1')
  books.close()
  const { code, lines } = await say(verify)
  expect(code).toBe(1)
  expect(lines[0]).toMatch(/^month-sums-recomputed: account \d+, month \d+: The kept sum is/)
})

test('verify of a file from before the chain of changes says so, and names no end of one', async () => {
  const old = join(folder, 'old.sqlite')
  oldBooks(old, 2)
  expect(await say(verify, old)).toMatchObject({
    code: 0,
    lines: [
      expect.stringContaining('from before the chain of changes'),
      expect.stringContaining('everything holds'),
    ],
  })
})

test('verify asks whether what was printed is still all there', async () => {
  const { lines } = await say(verify)
  const printed = /ends at (.+)\.$/.exec(lines[1]!)![1]!
  expect(await say(verify, '--end', printed)).toMatchObject({ code: 0 })
  const [no, digest] = printed.split(': ')
  const later = `${Number(no) + 1}: ${digest}`
  expect(await say(verify, '--end', later)).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('no longer have'), expect.any(String)],
  })
  expect(await say(verify, '--end', 'the last one')).toMatchObject({ code: 2 })
})

test('verify of a backup finds receipts that were changed in it or are missing from it', async () => {
  const books = openBooksOrThrow(file, { now: new Date(0) })
  const entryId = books.sqlite.prepare('SELECT id FROM entries').pluck().get() as string
  const receipt = { entryId, fileName: 'cover.pdf', bytes: Buffer.from('%PDF-1.4 row cover') }
  done(addAttachment(books, act(), join(folder, 'attachments'), receipt))
  books.close()
  const target = join(folder, 'away.sqlite')
  expect(await say(backup, target)).toMatchObject({ code: 0 })
  expect(await say(verify, target)).toMatchObject({ code: 0 })
  const copy = new Database(target)
  copy.exec("UPDATE attachment_files SET bytes = x'25'")
  expect(await say(verify, target)).toMatchObject({
    code: 1,
    lines: [expect.stringMatching(/^attachments: .*The file was changed/), expect.any(String)],
  })
  copy.exec('DELETE FROM attachment_files')
  copy.close()
  expect(await say(verify, target)).toMatchObject({
    code: 1,
    lines: [expect.stringMatching(/^attachments: .*The file is missing/), expect.any(String)],
  })
})

test('verify of a missing file or of another kind of file is one line that says what to do', async () => {
  expect(await say(verify, join(folder, 'nothing.sqlite'))).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('Check the name')],
  })
  writeFileSync(join(folder, 'notes.txt'), 'Dear diary')
  expect(await say(verify, join(folder, 'notes.txt'))).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('not a books file')],
  })
})

test('verify names a damaged page instead of falling over it', async () => {
  const bytes = readFileSync(file)
  bytes.fill(0x5a, 4096 * 3, 4096 * 6)
  writeFileSync(file, bytes)
  const { code, lines } = await say(verify)
  expect(code).toBe(1)
  expect(lines.join(' ')).toMatch(/damaged|pages:/)
  expect(readFileSync(file).equals(bytes)).toBe(true)
})

test('a backup by passphrase comes back by the same passphrase, and only with --yes', async () => {
  const target = join(folder, 'away.dooryard')
  expect(await say(backup, target, '--passphrase-file', '-')).toMatchObject({ code: 0 })
  expect(await say(backup, target, '--passphrase-file', '-')).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('there already')],
  })
  expect(await say(restore, target)).toMatchObject({
    code: 1,
    lines: [expect.stringContaining('--passphrase-file')],
  })
  const before = readFileSync(file)
  const shown = await say(restore, target, '--passphrase-file', '-')
  expect(shown.lines.at(-1)).toBe('Nothing was changed. Add --yes to restore it.')
  expect(shown.lines).toContain('The backup holds the same as your books.')
  expect(readFileSync(file).equals(before)).toBe(true)
  expect(await say(restore, target, '--passphrase-file', '-', '--yes')).toMatchObject({ code: 0 })
  expect(await say(verify)).toMatchObject({ code: 0 })
})

test('words that are not understood exit with 2', async () => {
  expect(await say(backup)).toMatchObject({ code: 2 })
  expect(await say(restore, 'a', 'b')).toMatchObject({ code: 2 })
  writeFileSync(join(folder, 'short'), 'short')
  expect(await say(backup, join(folder, 'x'), '--passphrase-file', join(folder, 'short'))).toMatchObject({
    code: 2,
  })
  expect(await say(backup, join(folder, 'x.json'), '--passphrase-file', '-')).toMatchObject({ code: 2 })
})
