// Finds the lines that the books already hold as an entry. The halves of a transfer are found in transfers.ts.
import { type Day, dayNumber } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'

/** Transfers may take a weekend and a holiday to arrive. */
export const daysBetweenHalves = 5

export interface OpenLine {
  id: number
  accountId: number
  day: Day
  /** Into the account positive. */
  amount: Cents
}

/** A posting in a bank account that no statement line stands for yet; `amount` in the ledger's sign, which is the bank's for assets. */
export interface OpenPosting {
  postingId: number
  accountId: number
  day: Day
  amount: Cents
}

export interface EntryMatch {
  lineId: number
  postingId: number
}

/** Pairs lines with postings of the same account and amount at most five days apart: nearest days first, each once. */
export const pairWithBooks = (lines: readonly OpenLine[], postings: readonly OpenPosting[]): EntryMatch[] => {
  const lefts = lines.map((line) => ({
    id: line.id,
    group: String(line.amount),
    lane: line.accountId,
    dayNo: dayNumber(line.day),
  }))
  const rights = postings.map((posting) => ({
    id: posting.postingId,
    group: String(posting.amount),
    lane: posting.accountId,
    dayNo: dayNumber(posting.day),
  }))
  return pairNearest(lefts, rights).map(([lineId, postingId]) => ({
    lineId,
    postingId,
  }))
}

interface Piece {
  id: number
  /** Only pieces of one group and lane can pair. */
  group: string
  lane: number
  dayNo: number
}

/** Greedy by distance, in order of day and id within it; linear in the number of pieces. */
const pairNearest = (lefts: readonly Piece[], rights: readonly Piece[]): [number, number][] => {
  const slots = new Map<string, { ids: number[]; next: number }>()
  for (const piece of inOrder(rights)) {
    const key = `${piece.group}|${piece.lane}|${piece.dayNo}`
    const slot = slots.get(key)
    if (slot) slot.ids.push(piece.id)
    else slots.set(key, { ids: [piece.id], next: 0 })
  }
  const pairs: [number, number][] = []
  let open = inOrder(lefts)
  for (const gap of gaps) {
    open = open.filter((left) => {
      const slot = slots.get(`${left.group}|${left.lane}|${left.dayNo + gap}`)
      if (!slot || slot.next >= slot.ids.length) return true
      pairs.push([left.id, slot.ids[slot.next]!])
      slot.next += 1
      return false
    })
  }
  return pairs
}

/** 0, 1, −1, 2, −2 … : later first, since money mostly arrives after it left. */
const gaps = Array.from({ length: daysBetweenHalves * 2 + 1 }, (_, index) =>
  index % 2 === 1 ? (index + 1) / 2 : -index / 2,
)

const inOrder = (pieces: readonly Piece[]): Piece[] =>
  [...pieces].sort((one, other) => one.dayNo - other.dayNo || one.id - other.id)
