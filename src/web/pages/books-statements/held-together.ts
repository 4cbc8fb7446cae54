// Files that were chosen together: which of them are held, and why the others could not be read.
import { randomUUID } from 'node:crypto'
import { Lately } from '#kept/lately.ts'
import { describeBroken } from '#ledger/statements/statement.ts'
import { type HeldFile, type HeldFiles, mostFiles } from './held-files.ts'

export interface HeldTogether {
  key: string
  files: readonly HeldFile[]
  refused: readonly Refused[]
  /** Which account each of the bank's numbers is, as it was chosen: for as long as the files are held. */
  named: Map<string, string>
}

interface Refused {
  fileName: string
  message: string
}

/** Choices looked at one after the other; the files themselves are held for an hour. */
const mostChoices = 12

export const togetherHeld = (held: HeldFiles) => {
  const choices = new Lately<string, Omit<HeldTogether, 'key' | 'files'> & { keys: readonly string[] }>(
    mostChoices,
  )
  const keep = (keys: readonly string[], refused: readonly Refused[]): string => {
    const key = randomUUID()
    choices.set(key, { keys, refused, named: new Map() })
    return key
  }
  return {
    /** One file that holds several accounts. */
    alone: (file: HeldFile): string => keep([file.key], []),
    async hold(files: readonly File[], now: Date): Promise<string> {
      const keys: string[] = []
      const names = new Map<string, string>()
      const refused: Refused[] = files.slice(mostFiles).map(({ name }) => ({
        fileName: name,
        message: `At most ${mostFiles} files at once: choose it again after these`,
      }))
      for (const file of files.slice(0, mostFiles)) {
        const kept = await held.hold(file.name, new Uint8Array(await file.arrayBuffer()), now)
        if ('message' in kept) {
          refused.push({ fileName: file.name, message: describeBroken(kept) })
          continue
        }
        const same = names.get(kept.contentHash)
        if (same !== undefined) {
          refused.push({ fileName: file.name, message: `Holds the very same as ${same}` })
          continue
        }
        names.set(kept.contentHash, file.name)
        keys.push(kept.key)
      }
      return keep(keys, refused)
    },
    find(key: string, now: Date): HeldTogether | undefined {
      const choice = choices.get(key)
      if (!choice) return undefined
      const files = choice.keys.flatMap((one) => held.find(one, now) ?? [])
      return files.length < choice.keys.length
        ? undefined
        : { key, files, refused: choice.refused, named: choice.named }
    },
  }
}

export const severalAddress = (key: string): string => `/books/statements/several/${key}`
