// Attachments on disk: each file under the SHA-256 of its content, so that the same receipt is kept once and a changed one is noticed.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'

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
  writeFileSync(`${path}.half`, bytes, { flush: true, mode: 0o600 })
  renameSync(`${path}.half`, path)
  return hash
}

/** The hash of what lies under a hash, or null: for verify. */
export const readHash =
  (folder: string) =>
  (hash: string): string | null => {
    const path = attachmentPath(folder, hash)
    return existsSync(path) ? hashOf(readFileSync(path)) : null
  }
