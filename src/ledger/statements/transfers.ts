// Finds the halves of one transfer in two accounts' statements: opposite amounts, days in order, and words or an amount that bear it.
import { type Day, dayNumber } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { daysBetweenHalves } from './matching.ts'
import { type Bearing, bearingOf, type OwnAccount } from './transfer-words.ts'

export interface TransferLine {
  id: number
  accountId: number
  day: Day
  /** Into the account positive. */
  amount: Cents
  /** Payee and memo. */
  text: string
  /** Set when a rule sends the line to another account of one's own: only that one may hold its other half. */
  onlyWith?: number
  /** That rule is of this very payee: it tells the transfer as its words would. */
  isLearned?: boolean
}

export interface TransferPair {
  outLineId: number
  inLineId: number
  /** The words say so, or what was confirmed before. Else only an uncommon amount does, and a person must look. */
  isTold: boolean
  /** By what was confirmed before, where the words alone would not say it. */
  isLearned: boolean
}

/** Each line once; pairs whose words tell go first, then nearest days. Money arrives on the day it leaves or later. */
export const pairTransfers = (
  lines: readonly TransferLine[],
  accounts: ReadonlyMap<number, OwnAccount>,
): TransferPair[] => {
  const match = new Matcher(lines, accounts)
  const pairs: TransferPair[] = []
  for (const isTold of [true, false])
    for (const gap of gaps)
      for (const out of match.openOuts()) {
        const into = match.find(out, gap, isTold)
        if (!into) continue
        const isLearned = isTold && out.isLearned === true && into.isLearned === true
        pairs.push({ outLineId: out.id, inLineId: into.id, isTold, isLearned })
      }
  return pairs
}

/** 0 to 5 days later; a card writes the payment some days before the bank does (common practice). */
const daysEarlierOnCard = 3
const gaps = [
  ...Array.from({ length: daysBetweenHalves + 1 }, (_, gap) => gap),
  ...Array.from({ length: daysEarlierOnCard }, (_, index) => -1 - index),
]

class Matcher {
  readonly #accounts: ReadonlyMap<number, OwnAccount>
  readonly #all: OwnAccount[]
  readonly #outs: TransferLine[]
  readonly #ins = new Map<string, TransferLine[]>()
  readonly #used = new Set<number>()
  readonly #bearings = new Map<string, Bearing>()
  readonly #perAmount = new Map<number, TransferLine[]>()

  constructor(lines: readonly TransferLine[], accounts: ReadonlyMap<number, OwnAccount>) {
    this.#accounts = accounts
    this.#all = [...accounts.values()]
    const sorted = [...lines].sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : a.id - b.id))
    this.#outs = sorted.filter((line) => line.amount < 0)
    for (const line of sorted) {
      if (line.amount > 0) push(this.#ins, slotOf(line.amount, dayNumber(line.day)), line)
      push(this.#perAmount, Math.abs(line.amount), line)
    }
  }

  openOuts(): TransferLine[] {
    return this.#outs.filter((line) => !this.#used.has(line.id))
  }

  find(out: TransferLine, gap: number, isTold: boolean): TransferLine | null {
    const slot = this.#ins.get(slotOf(-out.amount, dayNumber(out.day) + gap))
    const at = slot?.findIndex((into) => this.#fits(out, into, gap, isTold)) ?? -1
    if (!slot || at < 0) return null
    const [into] = slot.splice(at, 1)
    this.#used.add(out.id)
    return into!
  }

  #fits(out: TransferLine, into: TransferLine, gap: number, isTold: boolean): boolean {
    if (out.accountId === into.accountId) return false
    if ((out.onlyWith ?? into.accountId) !== into.accountId) return false
    if ((into.onlyWith ?? out.accountId) !== out.accountId) return false
    if (gap < 0 && !this.#accounts.get(into.accountId)?.isOwed) return false
    const bearings = [this.#bearing(out, into.accountId), this.#bearing(into, out.accountId)]
    if (bearings.includes('elsewhere')) return false
    const told = bearings.includes('told') && !bearings.includes('other')
    return isTold ? told : !told && gap >= 0 && this.#isTelling(out, into)
  }

  /** Not a round sum, and on these days in no other line of any account. */
  #isTelling(out: TransferLine, into: TransferLine): boolean {
    const size = into.amount
    if (size < 1000 || size % 500 === 0) return false
    return (this.#perAmount.get(size) ?? []).every(
      (line) =>
        line === out ||
        line === into ||
        Math.abs(dayNumber(line.day) - dayNumber(out.day)) > 2 * daysBetweenHalves,
    )
  }

  #bearing(line: TransferLine, otherId: number): Bearing {
    const key = `${line.id}|${otherId}`
    const known = this.#bearings.get(key)
    if (known) return known
    const [own, other] = [this.#accounts.get(line.accountId), this.#accounts.get(otherId)]
    if (line.isLearned && line.onlyWith === otherId) return 'told'
    const bearing = own && other ? bearingOf(line.text, own, other, this.#all) : 'other'
    this.#bearings.set(key, bearing)
    return bearing
  }
}

const slotOf = (amount: number, dayNo: number): string => `${amount}|${dayNo}`

const push = <Key>(map: Map<Key, TransferLine[]>, key: Key, line: TransferLine): void => {
  const list = map.get(key)
  if (list) list.push(line)
  else map.set(key, [line])
}
