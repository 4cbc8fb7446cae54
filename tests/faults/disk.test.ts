// A full disk, a folder that may not be written, a damaged page: a clear message, and the books as they were.
import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { backUpTo } from '#db/backup/backup.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { verifyBooks } from '#db/verify/verify.ts'
import { freshBooks } from '../db/fresh-books.ts'
import { inOnePiece } from './run-and-kill.ts'

const root = join(import.meta.dirname, '../..')
const folder = mkdtempSync(join(tmpdir(), 'dooryard-faults-'))
const mounted: string[] = []
afterAll(() => {
  for (const place of mounted) spawnSync('umount', [place])
  rmSync(folder, { recursive: true, force: true })
})

/** Runs the posting process; as another user when this one may write everywhere. */
const postUntilItFails = (path: string, most: number, limits = '', uid?: number): string[] => {
  const script = `${limits} exec "$0" "$@"`
  const args = ['-c', script, process.execPath, inOnePiece('until-it-fails.ts'), path, String(most)]
  const run = spawnSync('bash', args, {
    cwd: root,
    encoding: 'utf8',
    ...(uid === undefined ? {} : { uid, gid: uid, env: { ...process.env, HOME: tmpdir() } }),
  })
  if (run.stderr.trim() !== '') throw new Error(run.stderr)
  return run.stdout.trim().split('\n')
}

/** A disk of 2 MB where the user may mount one; a limit on the size of files where not. */
const smallDisk = (name: string): { place: string; limits: string } => {
  const place = join(folder, name)
  mkdirSync(place)
  const mount = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', place])
  if (mount.status !== 0) return { place, limits: 'ulimit -f 1500;' }
  mounted.push(place)
  return { place, limits: '' }
}

test('a full disk is said plainly; what was acknowledged before it stays, the rest leaves no trace', () => {
  const { place, limits } = smallDisk('small')
  const path = join(place, 'books.sqlite')
  freshBooks(path).close()
  const lines = postUntilItFails(path, 5000, limits)
  const failed = lines.find((line) => line.startsWith('failed'))
  expect(failed).toMatch(/^failed full The disk is full: .* Free some space, then do it again\.$/)
  expect(lines.at(-1)).toBe('backup full')
  const acknowledged = lines.filter((line) => line.startsWith('done ')).map((line) => line.slice(5))
  expect(acknowledged.length).toBeGreaterThan(10)
  const elsewhere = join(folder, 'after-full.sqlite')
  for (const suffix of ['', '-wal'])
    if (existsSync(path + suffix)) writeFileSync(elsewhere + suffix, readFileSync(path + suffix))
  const books = openBooksOrThrow(elsewhere, { now: new Date(0) })
  expect(verifyBooks(books.sqlite).findings).toEqual([])
  const ids = books.sqlite.prepare('SELECT id FROM entries ORDER BY no').pluck().all()
  expect(ids).toEqual(acknowledged)
  books.close()
  expect(readdirSync(place).filter((file) => file.includes('.copy'))).toEqual([])
})

test('a full disk at the start is told in one line that says what to do, of new books, old ones and the sample', () => {
  const { place, limits } = smallDisk('start')
  freshBooks(join(place, 'old/books.sqlite')).close()
  if (limits === '') spawnSync('dd', ['if=/dev/zero', `of=${join(place, 'filler')}`, 'bs=4k'])
  for (const args of [
    ['--data', join(place, 'old')],
    ['--data', join(place, 'new')],
    ['--sample', '--data', place],
  ]) {
    const script = `${limits.replace('1500', '4')} exec "$0" src/start.mjs --port 0 "$@"`
    const run = spawnSync('bash', ['-c', script, process.execPath, ...args], { cwd: root, encoding: 'utf8' })
    expect(run.stderr).toMatch(/^dooryard serve: The disk is full: .* Free some space, then do it again\.\n$/)
    expect(run).toMatchObject({ status: 1, stdout: '' })
  }
})

test('a folder and a file that may not be written are refused with what to change, untouched', () => {
  const place = join(folder, 'read-only')
  mkdirSync(place)
  const path = join(place, 'books.sqlite')
  freshBooks(path).close()
  const before = readFileSync(path)
  const other = process.getuid?.() === 0 ? 65_534 : undefined
  chmodSync(path, 0o444)
  chmodSync(place, 0o555)
  chmodSync(folder, 0o755)
  const [line] = postUntilItFails(path, 1, '', other)
  expect(line).toMatch(/(refused|failed) (read-only|cannot-open) .*(permissions|may write)/)
  const [fresh] = postUntilItFails(join(place, 'new.sqlite'), 1, '', other)
  expect(fresh).toMatch(/refused (read-only|cannot-open)/)
  expect(readFileSync(path).equals(before)).toBe(true)
  expect(readdirSync(place)).toEqual(['books.sqlite'])
  if (other !== undefined) chownSync(place, 0, 0)
  chmodSync(place, 0o755)
})

test('a damaged page is named, nothing is overwritten, and a restore keeps the damaged file beside', () => {
  const path = join(folder, 'damaged', 'books.sqlite')
  const books = freshBooks(path)
  const copy = join(folder, 'good-copy.sqlite')
  expect(backUpTo(books, copy)).toMatchObject({ ok: true })
  books.close()
  const bytes = readFileSync(path)
  bytes.fill(0x5a, 100, statSync(path).size >> 1)
  writeFileSync(path, bytes)
  const [line] = postUntilItFails(path, 1)
  expect(line).toMatch(/^(refused|failed) damaged .* Restore the latest backup/)
  expect(readFileSync(path).subarray(0, bytes.length).equals(bytes)).toBe(true)
  const place = {
    file: path,
    backups: join(folder, 'damaged/backups'),
    attachments: join(folder, 'damaged/attachments'),
    now: new Date(0),
  }
  const result = prepareRestore(copy, place)
  if (!result.ok) throw new Error(result.problem.message)
  expect(result.prepared.comparison).toMatchObject({ readable: false })
  const done = result.prepared.carryOut()
  if (!done.ok) throw new Error(done.problem.message)
  expect(readFileSync(done.keptBefore!).equals(bytes)).toBe(true)
  const restored = openBooksOrThrow(path, { now: new Date(0) })
  expect(verifyBooks(restored.sqlite).findings).toEqual([])
  restored.close()
})
