// One-line news for the page a form leads to ("Draw of $300 recorded"): kept for one reading, at most a hundred at a time.
import { randomUUID } from 'node:crypto'
import { Lately } from '#kept/lately.ts'

export interface NoticeText {
  text: string
  /** A form that takes the last action back. */
  undo?: { action: string; label: string; formId: string }
  /** Where what stands in the way is mended. */
  way?: { href: string; says: string }
}

export interface NoticeBoard {
  /** Keeps the notice and returns the address with its key, for a redirect. */
  pin(address: string, notice: NoticeText): string
  /** Takes the notice off the board. */
  take(key: string): NoticeText | undefined
}

export const noticeBoard = (): NoticeBoard => {
  const pinned = new Lately<string, NoticeText>(100)
  return {
    pin(address, notice) {
      const key = randomUUID()
      pinned.set(key, notice)
      const [path, hash] = address.split('#') as [string, string | undefined]
      return `${path}${path.includes('?') ? '&' : '?'}notice=${key}${hash ? `#${hash}` : ''}`
    },
    take(key) {
      const notice = pinned.get(key)
      pinned.delete(key)
      return notice
    },
  }
}
