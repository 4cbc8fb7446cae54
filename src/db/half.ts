// What is still being made has a name of its own beside its place, with the process that makes it; what a killed one left is tidied away.
import { randomBytes } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { closeToOthers, type DataPlace } from './data-place.ts'
import { fileProblem } from './file-problem.ts'
import { takePlace } from './platform.ts'

/** Tells this life of the process from an earlier one that had the same number. */
const life = randomBytes(4).toString('hex')

/** The name under which `path` is made before it takes its place: unlike any other, and known again after a kill. */
export const halfOf = (path: string): string => `${path}.${process.pid}-${life}.half`

/** SQLite's own files beside a half one go with it. A folder that cannot be written holds nothing of ours, and says nothing new. */
export const forgetHalf = (half: string): void => {
  for (const suffix of ['', '-journal', '-wal', '-shm'])
    try {
      rmSync(half + suffix, { force: true, recursive: true })
    } catch (error) {
      if (!fileProblem(error, half)) throw error
    }
}

/**
 * Makes `target` on any disk, whole or not at all: `fill` writes it under its half name. While that lasts, a note in the data
 * folder says where, so that the next start finds it there when this process is killed.
 */
export const makeWhole = (folder: string, target: string, fill: (half: string) => void): void => {
  const half = halfOf(target)
  const note = halfOf(join(folder, `note-${randomBytes(4).toString('hex')}`))
  const isElsewhere = dirname(target) !== folder
  try {
    if (isElsewhere) writeFileSync(note, half, { mode: 0o600, flush: true })
    fill(half)
    takePlace(half, target)
  } finally {
    forgetHalf(half)
    rmSync(note, { force: true })
  }
}

/** Closes the place to others, and takes away what killed processes left half made: in the data folder, its copies and receipts, and where their notes lead. */
export const tidyPlace = ({ file, folder, backups, attachments }: DataPlace): void => {
  for (const ours of [backups, attachments]) closeToOthers(ours)
  const own = basename(file)
  for (const name of namesIn(folder)) {
    const path = join(folder, name)
    if (isLeft(name)) {
      if (name.startsWith('note-')) forgetNoted(path)
      forgetHalf(path)
    } else if (name.startsWith(`${own}.restoring`) && /^(-journal|-wal|-shm)?$/.test(afterOf(name, own)))
      rmSync(path, { force: true })
  }
  const copiedReceipts = join(backups, basename(attachments))
  for (const inside of [backups, ...receiptFolders(attachments), ...receiptFolders(copiedReceipts)])
    for (const name of namesIn(inside))
      if (isLeft(name) || isOldHalf(name, own)) forgetHalf(join(inside, name))
}

const receiptFolders = (folder: string): string[] =>
  namesIn(folder)
    .filter((name) => /^[0-9a-f]{2}$/.test(name))
    .map((name) => join(folder, name))

const afterOf = (name: string, own: string): string => name.slice(`${own}.restoring`.length)

/** Halves of before, without the process in their name: of a daily copy, or of a receipt. */
const isOldHalf = (name: string, own: string): boolean => {
  const stem = own.replace(/\.sqlite$/, '')
  return (
    /^[0-9a-f]{64}\.half$/.test(name) ||
    (name.startsWith(`${stem}-`) && /^\d{4}-\d{2}-\d{2}\.sqlite\.half$/.test(name.slice(stem.length + 1)))
  )
}

const isLeft = (name: string): boolean => {
  const made = /\.(\d{1,10})-([0-9a-f]{8})\.half(-journal|-wal|-shm)?$/.exec(name)
  if (!made) return false
  const pid = Number(made[1])
  return pid === process.pid ? made[2] !== life : !isRunning(pid)
}

export const isRunning = (pid: number): boolean => {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

const forgetNoted = (note: string): void => {
  const half = readFileSync(note, 'utf8')
  // The stick may be out by now; a note that was cut off names no half.
  if (isLeft(basename(half))) forgetHalf(half)
}

const namesIn = (folder: string): string[] =>
  existsSync(folder) && statSync(folder).isDirectory() ? readdirSync(folder) : []
