// Opens the sample farm's books: a file of their own beside the user's, built once and built anew when the sample changes.
import { createHash } from 'node:crypto'
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type Books, openBooks, openBooksOrThrow } from '#db/open.ts'
import { rename } from '#db/platform.ts'
import { readSetting, writeSetting } from '#db/settings-store.ts'

const madeFromSetting = 'sample.made_from'
const sampleFolder = import.meta.dirname
/** Built as the house was installed (`src/start/ready.mjs`), beside the bundle that runs; from its sources none is there. */
const builtBefore = fileURLToPath(new URL('./made/sample.sqlite', import.meta.url))

/**
 * The books in `sample.sqlite` of the data folder. They are built anew, and what was tried in them is gone, when the sample's
 * statements, plan or code, the start accounts or the structure of the file have changed since, or when the file cannot be opened.
 */
export const openSampleBooks = async (
  dataFolder: string,
  now: Date,
  builtAt: string = builtBefore,
): Promise<Books> => {
  mkdirSync(dataFolder, { recursive: true })
  const path = join(dataFolder, 'sample.sqlite')
  const madeFrom = sampleFingerprint()
  const standing = openIfMadeFrom(madeFrom, path, now)
  if (standing) return standing
  const unfinished = join(dataFolder, `sample-unfinished-${process.pid}.sqlite`)
  removeFile(unfinished)
  if (!isCopied(builtAt, madeFrom, unfinished, now)) await build(madeFrom, unfinished, now)
  removeFile(path)
  rename(unfinished, path)
  removeFile(unfinished)
  return openBooksOrThrow(path, { now })
}

const openIfMadeFrom = (madeFrom: string, path: string, now: Date): Books | null => {
  if (!existsSync(path)) return null
  const opened = openBooks(path, { now })
  if (!opened.ok) return null
  if (readSetting(opened.books, madeFromSetting).value === madeFrom) return opened.books
  opened.books.close()
  return null
}

/** False where there is none, of this sample and this user's to read, and nothing is left of the attempt. */
const isCopied = (from: string, madeFrom: string, to: string, now: Date): boolean => {
  try {
    copyFileSync(from, to)
  } catch {
    return false
  }
  const copied = openIfMadeFrom(madeFrom, to, now)
  copied?.close()
  if (!copied) removeFile(to)
  return copied !== null
}

/** Building needs half the house; opening what is built does not, and the first page waits for it. */
const build = async (madeFrom: string, path: string, now: Date): Promise<void> => {
  const { buildSample } = await import('./build-sample.ts')
  const books = openBooksOrThrow(path, { now })
  // The file is nobody's work yet: it may be lost, and is built again.
  books.sqlite.pragma('synchronous = OFF')
  buildSample(books)
  writeSetting(books, { at: now.toISOString(), actor: 'sample' }, madeFromSetting, madeFrom, 0)
  books.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  books.close()
}

/** SHA-256 over everything the built file depends on. */
export const sampleFingerprint = (): string => {
  const hash = createHash('sha256')
  const root = join(sampleFolder, '..')
  for (const folder of ['sample', 'sample/statements', 'drizzle']) {
    for (const name of readdirSync(join(root, folder)).sort()) {
      if (/\.(ts|json|sql|ofx|csv)$/.test(name))
        hash.update(name).update(readFileSync(join(root, folder, name)))
    }
  }
  return hash.update(readFileSync(join(root, 'src/ledger/start-accounts.ts'))).digest('hex')
}

const removeFile = (path: string): void => {
  for (const ending of ['', '-wal', '-shm']) rmSync(`${path}${ending}`, { force: true })
}
