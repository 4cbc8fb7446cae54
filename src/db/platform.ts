// What differs from one operating system to the next, in one place. The house runs and is tried on Linux; what is said here of the
// others is what their makers say of them.
import { closeSync, fsyncSync, openSync, renameSync, statSync } from 'node:fs'
import { dirname } from 'node:path'

export interface Ways {
  /** How a file is opened to wait for it: Windows writes out only what was opened to be written. */
  flushFlag: 'r' | 'r+'
  /** Whether a folder's list of names can be waited for. Windows cannot open one, and keeps a journal of names itself. */
  flushesFolders: boolean
  /** Whether a file can take the place of one that is open. */
  replacesOpen: boolean
  /** How often a rename is tried: on Windows whoever looks through new files, as against viruses, holds them for moments. */
  renameTries: number
  /** What asks the server to stop. Windows sends the last one when the window of the command is closed; elsewhere it ends the process, unless it was started to outlive its terminal. */
  stopSignals: readonly NodeJS.Signals[]
}

export const waysOf = (platform: NodeJS.Platform): Ways =>
  platform === 'win32'
    ? {
        flushFlag: 'r+',
        flushesFolders: false,
        replacesOpen: false,
        renameTries: 20,
        stopSignals: ['SIGINT', 'SIGTERM', 'SIGBREAK', 'SIGHUP'],
      }
    : {
        flushFlag: 'r',
        flushesFolders: true,
        replacesOpen: true,
        renameTries: 1,
        stopSignals: ['SIGINT', 'SIGTERM'],
      }

export const ways = waysOf(process.platform)

/** Waits until a file, or a folder's list of names, is on disk. */
export const toDisk = (path: string, { flushFlag, flushesFolders } = ways): void => {
  const isFolder = statSync(path).isDirectory()
  if (isFolder && !flushesFolders) return
  const handle = openSync(path, isFolder ? 'r' : flushFlag)
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}

/** Puts what is whole by now in its place, on disk before and after. */
export const takePlace = (made: string, target: string): void => {
  toDisk(made)
  rename(made, target)
  toDisk(dirname(target))
}

/** Gives a file another name, once nobody else holds it. */
export const rename = (from: string, to: string): void =>
  patiently(() => renameSync(from, to), ways.renameTries, pause)

/** Tries again what another program that looks at the file may hold up; anything else is thrown at once. */
export const patiently = <Result>(work: () => Result, tries: number, wait: () => void): Result => {
  for (let left = tries - 1; ; left -= 1)
    try {
      return work()
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (left <= 0 || !['EPERM', 'EACCES', 'EBUSY'].includes(code ?? '')) throw error
      wait()
    }
}

const pauseMilliseconds = 50
const pause = () => void Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMilliseconds)
