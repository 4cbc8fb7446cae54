// What can be wrong with a file or a disk, told so that the person knows what to do. Anything else is a bug and is thrown.
import { dirname } from 'node:path'

export interface FileProblem {
  kind:
    | 'missing'
    | 'newer'
    | 'not-books'
    | 'damaged'
    | 'read-only'
    | 'full'
    | 'busy'
    | 'cannot-open'
    | 'not-a-folder'
    | 'broken-disk'
    | 'wrong-passphrase'
    | 'exists'
    /** The open file is no longer the one at its path. */
    | 'away'
  message: string
}

/** For the write door, whose callers know no files: the edge tells it as any other problem of a file. */
export class FileProblemError extends Error {
  readonly problem: FileProblem
  constructor(problem: FileProblem) {
    super(problem.message)
    this.name = 'FileProblemError'
    this.problem = problem
  }
}

/** What is asked to be written stands there already. */
export const alreadyThere = (path: string): FileProblem => ({
  kind: 'exists',
  message: `${path} is there already. Choose another name; nothing was overwritten.`,
})

/** What to do about damaged books. */
export const restoreLatest = 'Restore the latest backup: npm run dooryard -- restore BACKUP'

/** A SQLite or system error as a problem to show, or null when it is none of the expected ones. */
export const fileProblem = (error: unknown, path: string): FileProblem | null => {
  if (error instanceof FileProblemError) return error.problem
  const code = codeOf(error)
  const kind = code === null ? null : kindOfCode(code)
  return kind === null ? null : { kind, message: messages[kind](path) }
}

/** What is in the file was not saved there by the program. Nothing is guessed in its place. */
export class NotAsSaved extends FileProblemError {
  constructor(what: string) {
    super({ kind: 'damaged', message: `${what} in the books file cannot be read. ${restoreLatest}` })
  }
}

type SystemKind = Exclude<FileProblem['kind'], 'newer' | 'wrong-passphrase' | 'exists' | 'away'>

const messages: Record<SystemKind, (path: string) => string> = {
  damaged: (path) => `${path} is damaged. Nothing was changed. ${restoreLatest}`,
  'read-only': (path) =>
    `${path} cannot be written: the folder or file is read-only. Change its permissions or choose another place.`,
  full: (path) => `The disk is full: ${path} was left as it was. Free some space, then do it again.`,
  busy: (path) => `${path} is in use by another program. Close it, then try again.`,
  'cannot-open': (path) =>
    `${path} cannot be opened. Check that the folder is there and that you may write to it.`,
  'not-a-folder': (path) =>
    `${dirname(path)} is a file, not a folder. Name a folder, or a file that ends in .sqlite.`,
  'broken-disk': (path) =>
    `The disk that holds ${path} does not answer as it should. Check the disk; if the file is damaged, restore a copy of it elsewhere.`,
  'not-books': (path) => `${path} is not a books file. Choose another file.`,
  missing: (path) => `There is no file at ${path}. Check the name.`,
}

const kindOfCode = (code: string): SystemKind | null => {
  if (code.startsWith('SQLITE_CORRUPT')) return 'damaged'
  if (code === 'SQLITE_NOTADB') return 'not-books'
  if (code.startsWith('SQLITE_READONLY') || code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
    return 'read-only'
  if (['SQLITE_FULL', 'SQLITE_IOERR_WRITE', 'SQLITE_IOERR_SHMSIZE', 'ENOSPC', 'EDQUOT'].includes(code))
    return 'full'
  if (code.startsWith('SQLITE_IOERR') || code === 'EIO') return 'broken-disk'
  if (code.startsWith('SQLITE_BUSY') || code === 'SQLITE_LOCKED' || code === 'EBUSY') return 'busy'
  if (code.startsWith('SQLITE_CANTOPEN') || code === 'EISDIR') return 'cannot-open'
  if (code === 'ENOTDIR') return 'not-a-folder'
  if (code === 'ENOENT') return 'missing'
  return null
}

const codeOf = (error: unknown): string | null => {
  if (!(error instanceof Error)) return null
  const { code, syscall } = error as { code?: unknown; syscall?: unknown }
  // A folder that cannot be made because a file of its name is in the way.
  if (code === 'EEXIST' && syscall === 'mkdir') return 'ENOTDIR'
  if (typeof code === 'string') return code
  return error.cause ? codeOf(error.cause) : null
}
