// Taking back what was posted: every line with its sign turned, and every crossing it was part of with its sides swapped.
import type { Day } from '#calendar/day.ts'
import { type Cents, negateCents } from '#money/cents.ts'
import type { SideId } from './account.ts'
import type { CrossingRecord } from './crossing.ts'
import type { EntryDraft } from './entry.ts'

export interface PostedEntry {
  no: number
  id: string
  sideId: SideId
  day: Day
  payee: string
  memo: string
  lines: readonly {
    accountId: number
    amountCents: Cents
    memo: string
    enterpriseId: string | null
    batchId: string | null
    crossingId: string | null
  }[]
}

export type ReversingEntry = EntryDraft & { reversesNo: number }
export type ReversingCrossing = CrossingRecord & { reversesId: string }

/**
 * The reversal of entries that belong together (an entry, or all halves of its crossings), all on one day:
 * the originals’ day while its month is open on every side, else a later one. New ids are made from `id`.
 */
export const reverse = (
  id: string,
  day: Day,
  entries: readonly PostedEntry[],
  crossings: readonly CrossingRecord[],
): { entries: ReversingEntry[]; crossings: ReversingCrossing[] } => {
  const crossingId = new Map(crossings.map((crossing, index) => [crossing.id, `${id}.c${index + 1}`]))
  return {
    crossings: crossings.map((crossing) => ({
      ...crossing,
      id: crossingId.get(crossing.id)!,
      day,
      fromSideId: crossing.toSideId,
      toSideId: crossing.fromSideId,
      reversesId: crossing.id,
    })),
    entries: entries.map((entry, index) => ({
      id: `${id}.${index + 1}`,
      sideId: entry.sideId,
      day,
      payee: entry.payee,
      memo: entry.memo,
      source: 'reversal',
      reversesNo: entry.no,
      lines: entry.lines.map((line) => ({
        ...line,
        amountCents: negateCents(line.amountCents),
        crossingId: line.crossingId === null ? null : crossingId.get(line.crossingId)!,
      })),
    })),
  }
}

interface PairedLine {
  accountId: number
  amountCents: Cents
}

/**
 * Which line of a replacement stands where a line of the original stood: the same account and amount, each taken once, at
 * the same place if it can be. Positions from 0; a line that changed has none.
 */
export const pairLines = (
  original: readonly PairedLine[],
  replacement: readonly PairedLine[],
): Map<number, number> => {
  const isSame = (a: PairedLine, b: PairedLine | undefined) =>
    a.accountId === b?.accountId && a.amountCents === b.amountCents
  const pairs = new Map<number, number>()
  const taken = new Set<number>()
  const take = (index: number, at: number) => {
    if (at < 0) return
    pairs.set(index, at)
    taken.add(at)
  }
  for (const [index, line] of original.entries()) take(index, isSame(line, replacement[index]) ? index : -1)
  for (const [index, line] of original.entries())
    if (!pairs.has(index))
      take(
        index,
        replacement.findIndex((other, at) => !taken.has(at) && isSame(line, other)),
      )
  return pairs
}
