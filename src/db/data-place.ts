// Where the books file lies: --data, else DOORYARD_DATA, else the user-data folder of the operating system.
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
  /** The value of --data: a folder, or a file ending in .sqlite. */
  data?: string | undefined
  env: Readonly<Record<string, string | undefined>>
  /** Name of the books inside the folder: `books` by default, `sample` for the sample farm. */
  name?: string
}

/** Says where things lie; makes nothing. A relative path counts from the working folder. */
export const dataPlace = ({ data, env, name = 'books' }: DataPlaceOptions): DataPlace => {
  const given = data ?? env.DOORYARD_DATA
  const chosen = given?.trim() ? resolve(given.trim()) : envPaths('dooryard', { suffix: '' }).data
  const isFile = chosen.endsWith('.sqlite')
  const folder = isFile ? resolve(chosen, '..') : chosen
  return {
    folder,
    file: isFile ? chosen : join(folder, `${name}.sqlite`),
    backups: join(folder, 'backups'),
    attachments: join(folder, 'attachments'),
  }
}

/** Copies and attachments lie in the folder of the books file, whatever the file is called. */
export const placeBeside = (booksPath: string): Pick<DataPlace, 'folder' | 'backups' | 'attachments'> => {
  const folder = resolve(booksPath, '..')
  return { folder, backups: join(folder, 'backups'), attachments: join(folder, 'attachments') }
}
