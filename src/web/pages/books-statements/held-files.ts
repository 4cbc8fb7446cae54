// Bank files held between choosing and reading in: in memory only, few and not for long, gone when the server stops.
import { createHash, randomUUID } from 'node:crypto'
import type { OpenedFile } from '#ledger/statements/reading/read-file.ts'
import { openOffRequest } from './reading.ts'

export interface HeldFile {
  key: string
  fileName: string
  contentHash: string
  opened: Extract<OpenedFile, { ok: true }>
  bytes: number
}

export interface HeldFiles {
  /** Opens and holds a file, or says which line is broken and why. */
  hold(fileName: string, bytes: Uint8Array, now: Date): Promise<HeldFile | Extract<OpenedFile, { ok: false }>>
  find(key: string, now: Date): HeldFile | undefined
}

const mostFiles = 12
const mostBytes = 60 * 1024 * 1024
const holdMilliseconds = 60 * 60 * 1000

export const heldFiles = (): HeldFiles => {
  const held = new Map<string, HeldFile & { until: number }>()
  const tidy = (now: Date) => {
    for (const [key, file] of held) if (file.until < now.getTime()) held.delete(key)
    let bytes = [...held.values()].reduce((sum, file) => sum + file.bytes, 0)
    for (const [key, file] of held) {
      if (held.size <= mostFiles && bytes <= mostBytes) return
      held.delete(key)
      bytes -= file.bytes
    }
  }
  return {
    async hold(fileName, bytes, now) {
      const opened = await openOffRequest(bytes)
      if (!opened.ok) return opened
      const key = randomUUID()
      const file: HeldFile = {
        key,
        fileName: fileName.replaceAll(/[^\p{L}\p{N} ._-]/gu, '').slice(0, 120),
        contentHash: createHash('sha256').update(bytes).digest('hex'),
        opened,
        bytes: bytes.byteLength,
      }
      tidy(now)
      held.set(key, { ...file, until: now.getTime() + holdMilliseconds })
      tidy(now)
      return file
    },
    find(key, now) {
      tidy(now)
      return held.get(key)
    },
  }
}
