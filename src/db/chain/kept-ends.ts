// The ends of the chain that a file's own copies still hold: what was cut off the books is not cut off them.
import { basename } from 'node:path'
import { listBackups } from '#db/backup/backup.ts'
import { fileProblem } from '#db/file-problem.ts'
import { openSqlite } from '#db/sqlite.ts'
import type { KnownEnd } from '#db/verify/verify-chain.ts'
import { chainEnd } from './chain.ts'

/**
 * The end of each daily copy. A copy whose end lies in books that a restore put aside speaks of those books, not of the present
 * ones, and is left out.
 */
export const endsInCopies = (file: string, backups: string): KnownEnd[] => {
  const own = `${basename(file, '.sqlite')}-`
  const copies = listBackups(backups).filter(({ name }) => name.startsWith(own) && name.endsWith('.sqlite'))
  const rest = ({ name }: { name: string }) => name.slice(own.length)
  const putAside = copies.filter((copy) => rest(copy).startsWith('before-restore-'))
  const asideDigests = new Set(putAside.flatMap(({ path }) => read(path, digestsOf) ?? []))
  return copies
    .filter((copy) => /^\d{4}-\d{2}-\d{2}\.sqlite$/.test(rest(copy)))
    .flatMap(({ name, path }) => {
      const end = read(path, chainEnd)
      return end && !asideDigests.has(end.digest) ? [{ ...end, from: fromCopy(name) }] : []
    })
}

/** How such an end names its copy. */
export const fromCopy = (name: string): string => `copy ${name}`

type Sqlite = ReturnType<typeof openSqlite>

const digestsOf = (sqlite: Sqlite): string[] =>
  sqlite.prepare('SELECT digest FROM chain_links').pluck().all() as string[]

/** Null for a copy from before there was a chain, and for one that cannot be read: its own check tells that. */
const read = <Result>(path: string, ask: (sqlite: Sqlite) => Result): Result | null => {
  let sqlite: Sqlite | undefined
  try {
    sqlite = openSqlite(path, { readonly: true, fileMustExist: true })
    const has = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'chain_links'").get()
    return has ? ask(sqlite) : null
  } catch (error) {
    if (!fileProblem(error, path)) throw error
    return null
  } finally {
    sqlite?.close()
  }
}
