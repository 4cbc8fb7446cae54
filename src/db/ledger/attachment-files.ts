// Attachments on disk: each file under the SHA-256 of its content, so that the same receipt is kept once and a changed one is noticed.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type Database from 'better-sqlite3'
import type { FileProblem } from '#db/file-problem.ts'
import { forgetHalf, halfOf } from '#db/half.ts'
import { takePlace } from '#db/platform.ts'

export const hashOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex')

/** `attachments/ab/abcdef…`: a few hundred folders however many receipts. */
export const attachmentPath = (folder: string, hash: string): string => {
  if (!/^[0-9a-f]{64}$/.test(hash)) throw new Error(`Not a content hash: ${hash}`)
  return join(folder, hash.slice(0, 2), hash)
}

/** Puts bytes in the folder under their hash; content that is there already is left alone. Throws what the disk says. */
export const keepBytes = (folder: string, bytes: Buffer): string => {
  const hash = hashOf(bytes)
  const path = attachmentPath(folder, hash)
  if (existsSync(path) && hashOf(readFileSync(path)) === hash) return hash
  mkdirSync(dirname(path), { recursive: true })
  const half = halfOf(path)
  try {
    writeFileSync(half, bytes, { flush: true, mode: 0o600 })
    takePlace(half, path)
  } finally {
    forgetHalf(half)
  }
  return hash
}

/** Copies what lies under a hash to another folder. False when it is not there, or is not what its hash says. */
export const copyBytes = (from: string, to: string, hash: string): boolean => {
  const path = attachmentPath(from, hash)
  const bytes = existsSync(path) ? readFileSync(path) : null
  if (bytes === null || hashOf(bytes) !== hash) return false
  keepBytes(to, bytes)
  return true
}

/** Every receipt that books name, once; those taken off their entries too, since they can be put back. */
export const receiptsOf = (sqlite: Database.Database): { hash: string; isShown: boolean }[] =>
  (
    sqlite
      .prepare(
        'SELECT content_hash AS hash, max(removed_at IS NULL) AS isShown FROM attachments GROUP BY content_hash',
      )
      .all() as { hash: string; isShown: number }[]
  ).map(({ hash, isShown }) => ({ hash, isShown: isShown === 1 }))

export const receiptsMissing = (count: number, folder: string): FileProblem => ({
  kind: 'missing',
  message: `${count === 1 ? 'A receipt that the books name is' : `${count} receipts that the books name are`} missing in ${folder}, or changed there. Put them back from a backup, or remove them from their entries; all else was copied.`,
})

/** The hash of what lies under a hash, or null: for verify. */
export const readHash =
  (folder: string) =>
  (hash: string): string | null => {
    const path = attachmentPath(folder, hash)
    return existsSync(path) ? hashOf(readFileSync(path)) : null
  }
