// Encrypted backups: the file's bytes under a passphrase, scrypt for the key and AES-256-GCM for the content.
// Layout: 8 bytes "DYSEAL01", log2 N, r, p (one byte each), 16 bytes salt, 12 bytes nonce, ciphertext, 16 bytes tag. All before the ciphertext is authenticated too.
import { createCipheriv, createDecipheriv, randomBytes, scryptSync } from 'node:crypto'
import type { FileProblem } from '#db/file-problem.ts'

const mark = Buffer.from('DYSEAL01', 'latin1')
/** 2^17 × 8 × 128 bytes: 128 MiB and about half a second to try one passphrase. */
const cost = { log2N: 17, r: 8, p: 1 }
/** A file may ask for no more than this, twice our own cost: a forged head must eat neither the memory nor the afternoon. */
const costLimit = { log2N: 18, r: 8, p: 1 }
const headLength = mark.length + 3 + 16 + 12
const tagLength = 16

export const isSealed = (bytes: Buffer): boolean => bytes.subarray(0, mark.length).equals(mark)

/** Seals bytes under a passphrase; two seals of the same bytes differ. */
export const seal = (plain: Buffer, passphrase: string): Buffer => {
  const head = Buffer.concat([
    mark,
    Buffer.from([cost.log2N, cost.r, cost.p]),
    randomBytes(16),
    randomBytes(12),
  ])
  const cipher = createCipheriv('aes-256-gcm', keyOf(head, passphrase), nonceOf(head))
  cipher.setAAD(head)
  return Buffer.concat([head, cipher.update(plain), cipher.final(), cipher.getAuthTag()])
}

/** Opens sealed bytes. A wrong passphrase and a changed or cut file look alike, as they must. */
export const unseal = (
  sealed: Buffer,
  passphrase: string,
  path: string,
): { ok: true; plain: Buffer } | { ok: false; problem: FileProblem } => {
  const refuse = (message: string) => ({
    ok: false as const,
    problem: { kind: 'wrong-passphrase' as const, message },
  })
  if (!isSealed(sealed) || sealed.length < headLength + tagLength)
    return refuse(`${path} is cut off or not an encrypted backup. Take another copy of it.`)
  const head = sealed.subarray(0, headLength)
  const [log2N, r, p] = head.subarray(mark.length, mark.length + 3) as unknown as [number, number, number]
  if (log2N > costLimit.log2N || r > costLimit.r || p > costLimit.p || log2N < 1 || r < 1 || p < 1)
    return refuse(`${path} is damaged at its head. Take another copy of it.`)
  try {
    const decipher = createDecipheriv('aes-256-gcm', keyOf(head, passphrase), nonceOf(head))
    decipher.setAAD(head)
    decipher.setAuthTag(sealed.subarray(sealed.length - tagLength))
    const plain = Buffer.concat([
      decipher.update(sealed.subarray(headLength, sealed.length - tagLength)),
      decipher.final(),
    ])
    return { ok: true, plain }
  } catch {
    return refuse(
      `The passphrase does not open ${path}, or the file was changed. Nothing was restored: try the passphrase again.`,
    )
  }
}

const keyOf = (head: Buffer, passphrase: string): Buffer => {
  const [log2N, r, p] = head.subarray(mark.length, mark.length + 3) as unknown as [number, number, number]
  const salt = head.subarray(mark.length + 3, mark.length + 19)
  const N = 2 ** log2N
  return scryptSync(passphrase.normalize('NFKC'), salt, 32, { N, r, p, maxmem: 256 * N * r * p })
}

const nonceOf = (head: Buffer): Buffer => head.subarray(headLength - 12)
