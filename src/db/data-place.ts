// Where the books file lies: --data, else DOORYARD_DATA, else the user-data folder of the operating system.
import { chmodSync, statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import envPaths from 'env-paths'

export interface DataPlace {
  /** The folder that holds everything: the file, its backups, its attachments. */
  folder: string
  /** The books file. */
  file: string
  backups: string
  attachments: string
}

export interface DataPlaceOptions {
  /** The value of --data: a folder or a file. */
  data?: string | undefined
  env: Readonly<Record<string, string | undefined>>
  /** Name of the books inside the folder: `books` by default, `sample` for the sample farm. */
  name?: string
}

/** Says where things lie; makes nothing. A relative path counts from the working folder. */
export const dataPlace = ({ data, env, name = 'books' }: DataPlaceOptions): DataPlace => {
  const given = data ?? env.DOORYARD_DATA
  const chosen = given?.trim() ? resolve(given.trim()) : envPaths('dooryard', { suffix: '' }).data
  const isFile = namesFile(chosen)
  const folder = isFile ? resolve(chosen, '..') : chosen
  return {
    folder,
    file: isFile ? chosen : join(folder, `${name}.sqlite`),
    backups: join(folder, 'backups'),
    attachments: join(folder, 'attachments'),
  }
}

/** What is there says what it is; what is not yet is a file when it is called like one. */
const namesFile = (path: string): boolean =>
  statSync(path, { throwIfNoEntry: false })?.isFile() ?? /\.(sqlite3?|db3?)$/i.test(path)

/**
 * Money is nobody else's business. What this program makes only its user can read (`main.ts` sees to that); what an older one
 * made, or a hand put here, is closed to others as it is met. Another user's file is left as it is, and so is one on a disk that
 * keeps no rights, like most sticks. Windows has no such rights: there the user's own folder is closed to others by the system.
 */
export const closeToOthers = (path: string): void => {
  const found = statSync(path, { throwIfNoEntry: false })
  if (!found || !(found.mode & 0o077) || found.uid !== process.getuid?.()) return
  try {
    chmodSync(path, found.mode & 0o700)
  } catch (error) {
    if (!['EPERM', 'ENOTSUP', 'EROFS'].includes((error as NodeJS.ErrnoException).code ?? '')) throw error
  }
}

/** Copies and attachments lie in the folder of the books file, whatever the file is called. */
export const placeBeside = (booksPath: string): Pick<DataPlace, 'folder' | 'backups' | 'attachments'> => {
  const folder = resolve(booksPath, '..')
  return { folder, backups: join(folder, 'backups'), attachments: join(folder, 'attachments') }
}
