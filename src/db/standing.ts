// Whether the open books still are the file at their path, and whole: asked before and after every write and by every page.
import { type BigIntStats, statSync } from 'node:fs'
import type Database from 'better-sqlite3'
import { type FileProblem, FileProblemError, fileProblem, restoreLatest } from './file-problem.ts'
import { openSqlite } from './sqlite.ts'

export interface Standing {
  /** Why nothing may be written, or null. Two or three questions to the file system, no more, while nothing is wrong. */
  problem(): FileProblem | null
  /** Throws the problem, if there is one. */
  mustHold(): void
  /** After a write of our own: what the files look like now is known. Throws when they were taken away meanwhile. */
  settle(): void
  /** Looks through all pages; what is found stands until a later look finds none. */
  checkPages(how: 'quick_check' | 'integrity_check'): FileProblem | null
}

/** Of books in memory nothing can be taken away. */
export const standingOf = (sqlite: Database.Database, path: string): Standing => {
  const isMemory = path === ':memory:'
  let damage: FileProblem | null = null
  let known = isMemory ? null : seen(path)
  const watched = (): FileProblem | null => {
    if (known === null) return null
    const now = seen(path)
    const moved = movedProblem(known, now, path)
    if (moved) return moved
    if (looksTheSame(known, now)) return null
    // Another Dooryard, as a command beside the server, may have written: then all that we know of is still in it.
    const changed = changedProblem(sqlite, path)
    if (changed === null) known = now
    return changed
  }
  const problem = () => damage ?? watched()
  return {
    problem,
    mustHold() {
      const found = problem()
      if (found) throw new FileProblemError(found)
    },
    settle() {
      if (known === null) return
      const now = seen(path)
      const moved = movedProblem(known, now, path)
      if (moved) throw new FileProblemError(moved)
      known = now
    },
    checkPages(how) {
      damage = pagesProblem(sqlite, how, path)
      return damage
    },
  }
}

interface Seen {
  file: BigIntStats | undefined
  log: BigIntStats | undefined
}

const seen = (path: string): Seen => {
  const look = (at: string) => statSync(at, { bigint: true, throwIfNoEntry: false })
  return { file: look(path), log: look(`${path}-wal`) }
}

const isSame = (one: BigIntStats | undefined, other: BigIntStats | undefined): boolean =>
  one?.dev === other?.dev && one?.ino === other?.ino

const movedProblem = (before: Seen, now: Seen, path: string): FileProblem | null => {
  if (!now.file) return awayProblem(`${path} was moved or deleted while it is open here.`)
  if (!isSame(before.file, now.file))
    return awayProblem(`Another file was put at ${path} while it is open here.`)
  // The log comes with the first write; once there it stays as long as anybody has the file open.
  if (before.log && !isSame(before.log, now.log))
    return awayProblem(`The log of ${path} was taken away while it is open here.`)
  return null
}

const looksTheSame = (before: Seen, now: Seen): boolean =>
  before.file?.size === now.file?.size &&
  before.file?.mtimeNs === now.file?.mtimeNs &&
  (now.log?.size ?? 0n) >= (before.log?.size ?? 0n)

/** Written over in place: what stands in the file now is not what we wrote there last. */
const changedProblem = (sqlite: Database.Database, path: string): FileProblem | null => {
  const newest = 'SELECT id, at, kind, subject FROM change_log ORDER BY id DESC LIMIT 1'
  const ours = sqlite.prepare(newest).get() as { id: number } | undefined
  let fresh: Database.Database | undefined
  try {
    fresh = openSqlite(path, { readonly: true, fileMustExist: true })
    const whole = pagesProblem(fresh, 'quick_check', path)
    const same = fresh.prepare(newest.replace('ORDER BY', 'WHERE id = ? ORDER BY')).get(ours?.id ?? 0)
    if (whole === null && JSON.stringify(same) === JSON.stringify(ours)) return null
  } catch (error) {
    if (!fileProblem(error, path)) throw error
  } finally {
    fresh?.close()
  }
  return awayProblem(`${path} was written over while it is open here.`)
}

const awayProblem = (what: string): FileProblem => ({
  kind: 'away',
  message: `${what} Nothing is stored any more, and nothing that was stored before is lost: save the open books as a file under Backups, stop Dooryard, put the right file in place or restore the saved one, and start again.`,
})

const pagesProblem = (
  sqlite: Database.Database,
  how: 'quick_check' | 'integrity_check',
  path: string,
): FileProblem | null => {
  const damaged = (what: string): FileProblem => ({
    kind: 'damaged',
    message: `${path} is damaged (${what}), so nothing more is written to it. ${restoreLatest}`,
  })
  try {
    const said = sqlite.pragma(`${how}(1)`, { simple: true }) as string
    return said === 'ok' ? null : damaged(said.split('\n').at(-1)!)
  } catch (error) {
    if (fileProblem(error, path)?.kind !== 'damaged') throw error
    return damaged((error as Error).message)
  }
}
