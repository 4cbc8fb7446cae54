// Bank files, opened off the request and held between choosing and reading in: in memory only, few and not for long, gone when the
// server stops. A small file is read on the spot, a large one by a worker, so that no page waits for it.
import { createHash, randomUUID } from 'node:crypto'
import { serverNiceness } from '#chance/pool.ts'
import { Workers } from '#chance/workers.ts'
import { withTurns } from '#kept/in-turns.ts'
import type { Account } from '#ledger/account.ts'
import type { ColumnMapping } from '#ledger/statements/reading/column-mapping.ts'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { fitGuess, type OpenedFile, openBankFile } from '#ledger/statements/reading/read-file.ts'
import { type openInSlices, type readCsvInSlices, unsliced } from '#ledger/statements/reading/reading-work.ts'
import type { ReadStatements } from '#ledger/statements/statement.ts'
import { turns } from '#web/server/let-others.ts'

export interface HeldFile {
  key: string
  fileName: string
  contentHash: string
  opened: Extract<OpenedFile, { ok: true }>
  bytes: number
  /** What was chosen at its own page, so that it stands there, and in the list of its files, also while nothing is read in. */
  looked: { accounts: Map<number, string>; columns: Map<string, string> }
}

export interface HeldFiles {
  /** Opens and holds a file, or says which line is broken and why. */
  hold(fileName: string, bytes: Uint8Array, now: Date): Promise<HeldFile | Extract<OpenedFile, { ok: false }>>
  find(key: string, now: Date): HeldFile | undefined
}

/** Also what can be chosen together. */
export const mostFiles = 12
const mostBytes = 60 * 1024 * 1024
const holdMilliseconds = 60 * 60 * 1000

export const heldFiles = (): HeldFiles => {
  const held = new Map<string, HeldFile & { until: number }>()
  const tidy = (now: Date) => {
    for (const [key, file] of held) if (file.until < now.getTime()) held.delete(key)
    let bytes = [...held.values()].reduce((sum, file) => sum + file.bytes, 0)
    for (const [key, file] of held) {
      if (held.size <= mostFiles && bytes <= mostBytes) return
      held.delete(key)
      bytes -= file.bytes
    }
  }
  return {
    async hold(fileName, bytes, now) {
      const opened = await openOffRequest(bytes)
      if (!opened.ok) return opened
      const key = randomUUID()
      const file: HeldFile = {
        key,
        fileName: fileName.replaceAll(/[^\p{L}\p{N} ._-]/gu, '').slice(0, 120),
        contentHash: createHash('sha256').update(bytes).digest('hex'),
        opened,
        bytes: bytes.byteLength,
        looked: { accounts: new Map(), columns: new Map() },
      }
      tidy(now)
      held.set(key, { ...file, until: now.getTime() + holdMilliseconds })
      tidy(now)
      return file
    },
    find(key, now) {
      tidy(now)
      return held.get(key)
    },
  }
}

/** Read in about a hundredth of a second. */
const smallBytes = 100_000

export const openOffRequest = async (bytes: Uint8Array): Promise<OpenedFile> =>
  bytes.byteLength <= smallBytes ? openBankFile(bytes) : openedByWorker(bytes)

const openedByWorker = async (bytes: Uint8Array): Promise<OpenedFile> => {
  const opened = (await worker.run(bytes, 'openInSlices')) as ReturnType<typeof openInSlices>
  return 'sliced' in opened
    ? { ok: true, format: 'ofx', statements: await withTurns(unsliced(opened.sliced), turns()) }
    : opened
}

const readByWorker = async (text: string, mapping: ColumnMapping): Promise<ReadStatements> => {
  const read = (await worker.run({ text, mapping }, 'readCsvInSlices')) as ReturnType<typeof readCsvInSlices>
  return read.ok ? { ok: true, statements: await withTurns(unsliced(read.sliced), turns()) } : read
}

type OpenedCsv = Extract<HeldFile['opened'], { format: 'csv' }>

/** Kept with the file until its columns are read another way: a look is followed by the same look, confirmed. */
export const readOffRequest = (opened: OpenedCsv, mapping: ColumnMapping): Promise<ReadStatements> => {
  const key = JSON.stringify(mapping)
  const last = lastReadings.get(opened)
  if (last?.key === key) return last.read
  const { text } = opened
  const read =
    text.length <= smallBytes ? Promise.resolve(readCsv(text, mapping)) : readByWorker(text, mapping)
  lastReadings.set(opened, { key, read })
  // One that failed is read anew.
  read.catch(() => lastReadings.delete(opened))
  return read
}

const lastReadings = new WeakMap<OpenedCsv, { key: string; read: Promise<ReadStatements> }>()

export const fitOffRequest = async (
  text: string,
  guess: ColumnMapping,
  { kind, name }: Pick<Account, 'kind' | 'name'>,
  bankAccount: string,
): Promise<ColumnMapping> =>
  text.length <= smallBytes
    ? fitGuess(text, guess, { kind, name }, bankAccount)
    : worker.run({ text, guess, account: { kind, name }, bankAccount }, 'fitGuessIn')

/** It goes when no file was read for a while. */
const worker = new Workers({
  filename: new URL('./reading-worker.mjs', import.meta.url).href,
  minThreads: 0,
  maxThreads: 1,
  idleTimeout: 120_000,
  niceIncrement: serverNiceness,
})
