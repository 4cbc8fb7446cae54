// Encrypted backups: the file's bytes under a passphrase, scrypt for the key and AES-256-GCM for the content.
// Layout: 8 bytes "DYSEAL01", log2 N, r, p (one byte each), 16 bytes salt, 12 bytes nonce, ciphertext, 16 bytes tag. All before the ciphertext is authenticated too.
import { createCipheriv, createDecipheriv, type DecipherGCM, randomBytes, scryptSync } from 'node:crypto'
import { closeSync, fsyncSync, openSync, readSync, rmSync, statSync, writeFileSync } from 'node:fs'
import type { FileProblem } from '#db/file-problem.ts'

const mark = Buffer.from('DYSEAL01', 'latin1')
/** What scrypt asks of whoever tries a passphrase. */
export interface SealCost {
  log2N: number
  r: number
  p: number
}

/** 2^17 × 8 × 128 bytes: 128 MiB and about half a second to try one passphrase. */
const fullCost: SealCost = { log2N: 17, r: 8, p: 1 }
/** A file may ask for no more than this, twice our own cost: a forged head must eat neither the memory nor the afternoon. */
const costLimit: SealCost = { log2N: 18, r: 8, p: 1 }
const headLength = mark.length + 3 + 16 + 12
const tagLength = 16

export const isSealed = (bytes: Buffer): boolean => bytes.subarray(0, mark.length).equals(mark)

/** Seals a file under a passphrase, piece by piece; two seals of the same bytes differ. */
export const sealFile = (from: string, to: string, passphrase: string, cost = fullCost): void => {
  const head = Buffer.concat([
    mark,
    Buffer.from([cost.log2N, cost.r, cost.p]),
    randomBytes(16),
    randomBytes(12),
  ])
  const cipher = createCipheriv('aes-256-gcm', keyOf(head, passphrase), nonceOf(head))
  cipher.setAAD(head)
  writePieces(to, function* () {
    yield head
    for (const piece of pieces(from, 0, statSync(from).size)) yield cipher.update(piece)
    yield cipher.final()
    yield cipher.getAuthTag()
  })
}

/** Opens a sealed file; leaves nothing when it does not open. A wrong passphrase and a changed or cut file look alike, as they must. */
export const unsealFile = (sealed: string, to: string, passphrase: string): FileProblem | null => {
  const refuse = (message: string): FileProblem => ({ kind: 'wrong-passphrase', message })
  const { size } = statSync(sealed)
  const [head = Buffer.alloc(0)] = pieces(sealed, 0, Math.min(size, headLength))
  if (!isSealed(head) || size < headLength + tagLength)
    return refuse(`${sealed} is cut off or not an encrypted backup. Take another copy of it.`)
  const [log2N, r, p] = head.subarray(mark.length, mark.length + 3) as unknown as [number, number, number]
  if (log2N > costLimit.log2N || r > costLimit.r || p > costLimit.p || log2N < 1 || r < 1 || p < 1)
    return refuse(`${sealed} is damaged at its head. Take another copy of it.`)
  const decipher = createDecipheriv('aes-256-gcm', keyOf(head, passphrase), nonceOf(head))
  decipher.setAAD(head)
  for (const tag of pieces(sealed, size - tagLength, size)) decipher.setAuthTag(tag)
  let isWhole = false
  try {
    writePieces(to, function* () {
      for (const piece of pieces(sealed, headLength, size - tagLength)) yield decipher.update(piece)
      isWhole = closes(decipher)
    })
    return isWhole
      ? null
      : refuse(
          `The passphrase does not open ${sealed}, or the file was changed. Nothing was restored: try the passphrase again.`,
        )
  } finally {
    if (!isWhole) rmSync(to, { force: true })
  }
}

/** Whether the tag fits what went through: only then may it be believed. */
const closes = (decipher: DecipherGCM): boolean => {
  try {
    decipher.final()
    return true
  } catch {
    return false
  }
}

const pieceBytes = 4 * 1024 * 1024

function* pieces(path: string, from: number, to: number): Generator<Buffer> {
  const handle = openSync(path, 'r')
  try {
    for (let at = from; at < to; ) {
      const piece = Buffer.alloc(Math.min(pieceBytes, to - at))
      const read = readSync(handle, piece, 0, piece.length, at)
      if (read === 0) return
      at += read
      yield piece.subarray(0, read)
    }
  } finally {
    closeSync(handle)
  }
}

const writePieces = (path: string, make: () => Iterable<Buffer>): void => {
  const handle = openSync(path, 'wx', 0o600)
  try {
    for (const piece of make()) writeFileSync(handle, piece)
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}

const keyOf = (head: Buffer, passphrase: string): Buffer => {
  const [log2N, r, p] = head.subarray(mark.length, mark.length + 3) as unknown as [number, number, number]
  const salt = head.subarray(mark.length + 3, mark.length + 19)
  const N = 2 ** log2N
  return scryptSync(passphrase.normalize('NFKC'), salt, 32, { N, r, p, maxmem: 256 * N * r * p })
}

const nonceOf = (head: Buffer): Buffer => head.subarray(headLength - 12)
