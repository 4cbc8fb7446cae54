// Reads bank files off the request: a small one on the spot, a large one by a worker, so that no page waits for it.
import { serverNiceness } from '#chance/pool.ts'
import { Workers } from '#chance/workers.ts'
import type { Account } from '#ledger/account.ts'
import type { ColumnMapping } from '#ledger/statements/reading/column-mapping.ts'
import { fitGuess, type OpenedFile, openBankFile, readMapped } from '#ledger/statements/reading/read-file.ts'

/** Read in about a hundredth of a second. */
const smallBytes = 100_000

export const openOffRequest = async (bytes: Uint8Array): Promise<OpenedFile> =>
  bytes.byteLength <= smallBytes ? openBankFile(bytes) : worker.run(bytes, 'openBankFile')

export const readOffRequest = async (
  text: string,
  mapping: ColumnMapping,
): Promise<ReturnType<typeof readMapped>> =>
  text.length <= smallBytes ? readMapped(text, mapping) : worker.run({ text, mapping }, 'readMappedIn')

export const fitOffRequest = async (
  text: string,
  guess: ColumnMapping,
  { kind, name }: Pick<Account, 'kind' | 'name'>,
): Promise<ColumnMapping> =>
  text.length <= smallBytes
    ? fitGuess(text, guess, { kind, name })
    : worker.run({ text, guess, account: { kind, name } }, 'fitGuessIn')

/** It goes when no file was read for a while. */
const worker = new Workers({
  filename: new URL('./reading-worker.mjs', import.meta.url).href,
  minThreads: 0,
  maxThreads: 1,
  idleTimeout: 120_000,
  niceIncrement: serverNiceness,
})
