// A note beside the books while a server has them open, so that a second one can say so at its start.
import { readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { z } from 'zod'
import { isRunning } from '#db/half.ts'

const note = z.object({ process: z.number().int(), address: z.string().max(300) })

/** The address of a server that has these books open, or null. */
export const servedAt = (booksPath: string): string | null => {
  if (!statSync(noteOf(booksPath), { throwIfNoEntry: false })) return null
  const read = note.safeParse(readJson(noteOf(booksPath)))
  // One that was killed could not take its note away.
  return read.success && read.data.process !== process.pid && isRunning(read.data.process)
    ? read.data.address
    : null
}

/** Leaves the note; the function returned takes it away, unless it is another server's by now. */
export const noteServing = (booksPath: string, address: string): (() => void) => {
  const mine = JSON.stringify({ process: process.pid, address })
  writeFileSync(noteOf(booksPath), mine)
  return () => {
    const path = noteOf(booksPath)
    if (statSync(path, { throwIfNoEntry: false }) && readFileSync(path, 'utf8') === mine) rmSync(path)
  }
}

const noteOf = (booksPath: string): string => `${booksPath}.serving`

const readJson = (path: string): unknown => {
  try {
    return JSON.parse(readFileSync(path, 'utf8'))
  } catch {
    return null
  }
}
