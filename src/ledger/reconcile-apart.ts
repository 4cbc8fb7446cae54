// Why books and statement differ: which line by itself, or which two, would explain the whole of it. The usual mistakes, told to be looked at.
import { type Day, dayNumber } from '#calendar/day.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { plainPayee } from './statements/payee-text.ts'

/** A line of the books that may be on the statement. Ledger's sign, as all here. */
export interface BookedLine {
  postingId: number
  entryNo: number
  day: Day
  payee: string
  amountCents: Cents
  /** Counted into what is held against the statement. */
  isCounted: boolean
  /** A line of the bank's file stands for it: its amount is the bank's own. */
  isOfFile: boolean
}

/** A transaction of the bank's file that the books do not have. */
export interface UnbookedLine {
  lineId: number
  day: Day
  payee: string
  amountCents: Cents
  /** Set aside on purpose; else it waits to be sorted. */
  isSetAside: boolean
}

export interface Apart<Line extends BookedLine> {
  /** What the books have more than the statement. */
  cents: Cents
  lines: readonly Line[]
  unbooked: readonly UnbookedLine[]
  /** What the account held before its first transaction by what its files say, where the books never had it. */
  openingCents: Cents | null
}

export type Explanation<Line extends BookedLine = BookedLine> =
  /** In the file, not in the books. Several when all of them together are what is missing. */
  | { kind: 'missing'; unbooked: readonly UnbookedLine[] }
  /** In the books, not counted yet: one line, or two that belong together. */
  | { kind: 'uncounted'; lines: readonly Line[] }
  | { kind: 'opening'; cents: Cents }
  /** The first stays, the second is there once too often. */
  | { kind: 'twice'; lines: readonly [Line, Line] }
  /** The line went the other way. */
  | { kind: 'sign'; line: Line }
  /** Two neighboring figures changed places, or the decimal mark slipped: it should be so much. */
  | { kind: 'transposed' | 'slipped'; line: Line; shouldBe: Cents }
  /** In the books, not in the file. */
  | { kind: 'extra'; line: Line }

/** The likeliest first, at most five; none when nothing by itself explains the whole difference. */
export const explainApart = <Line extends BookedLine>(apart: Apart<Line>): Explanation<Line>[] =>
  apart.cents === 0
    ? []
    : [
        ...missing(apart),
        ...uncounted(apart),
        ...opening(apart),
        ...twice(apart),
        ...turned(apart),
        ...mistyped(apart),
        ...extra(apart),
      ].slice(0, mostExplanations)

const mostExplanations = 5

type Explain = <Line extends BookedLine>(apart: Apart<Line>) => Explanation<Line>[]

const missing: Explain = ({ cents: apart, unbooked }) => {
  const alone = unbooked.filter(({ amountCents }) => amountCents === -apart)
  if (alone.length > 0) return alone.slice(0, 2).map((line) => ({ kind: 'missing', unbooked: [line] }))
  const waiting = unbooked.filter(({ isSetAside }) => !isSetAside)
  for (const all of [waiting, unbooked])
    if (all.length > 1 && sumCents(all.map(({ amountCents }) => amountCents)) === -apart)
      return [{ kind: 'missing', unbooked: all }]
  return []
}

const uncounted: Explain = ({ cents: apart, lines }) => {
  const open = lines.filter(({ isCounted }) => !isCounted)
  const alone = open.filter(({ amountCents }) => amountCents === -apart)
  if (alone.length > 0) return alone.slice(0, 2).map((line) => ({ kind: 'uncounted', lines: [line] }))
  const byAmount = new Map(open.map((line) => [line.amountCents as number, line]))
  for (const line of open) {
    const other = byAmount.get(-apart - line.amountCents)
    if (other && other !== line) return [{ kind: 'uncounted', lines: [line, other] }]
  }
  return []
}

const opening: Explain = ({ cents: apart, openingCents }) =>
  openingCents !== null && openingCents === -apart ? [{ kind: 'opening', cents: openingCents }] : []

/** Typed by hand and then read from the file, or the other way round: mostly within a week, and of one payee. */
const mostDays = 7

const twice: Explain = ({ cents: apart, lines }) => {
  const alike = lines.filter(({ isCounted, amountCents }) => isCounted && amountCents === apart)
  return alike
    .flatMap((second, at) => {
      const first = alike.find(
        (one, place) =>
          place !== at &&
          (place < at || one.isOfFile) &&
          !(second.isOfFile && !one.isOfFile) &&
          Math.abs(dayNumber(one.day) - dayNumber(second.day)) <= mostDays &&
          (one.isOfFile !== second.isOfFile || plainPayee(one.payee) === plainPayee(second.payee)),
      )
      return first ? [{ kind: 'twice' as const, lines: [first, second] as const }] : []
    })
    .slice(0, 2)
}

/** What the bank's file gave has the bank's own sign and figures. */
const typedByHand = <Line extends BookedLine>({ lines }: Apart<Line>): Line[] =>
  lines.filter(({ isCounted, isOfFile }) => isCounted && !isOfFile)

const turned: Explain = (apart) =>
  typedByHand(apart)
    .filter(({ amountCents }) => amountCents * 2 === apart.cents)
    .slice(0, 2)
    .map((line) => ({ kind: 'sign', line }))

const mistyped: Explain = (apart) =>
  // Swapped figures and a slipped mark change an amount by a multiple of nine.
  apart.cents % 9 !== 0
    ? []
    : typedByHand(apart)
        .flatMap((line): Explanation<typeof line>[] => {
          const shouldBe = line.amountCents - apart.cents
          if (shouldBe === 0 || shouldBe < 0 !== line.amountCents < 0) return []
          const [was, is] = [String(Math.abs(line.amountCents)), String(Math.abs(shouldBe))]
          if (isSwapped(was, is)) return [{ kind: 'transposed', line, shouldBe: cents(shouldBe) }]
          return isSlipped(was, is) ? [{ kind: 'slipped', line, shouldBe: cents(shouldBe) }] : []
        })
        .slice(0, 2)

/** 1275 and 1725: the same but for two neighbors. A leading nought stands where the amount has a figure less. */
const isSwapped = (one: string, other: string): boolean => {
  const length = Math.max(one.length, other.length)
  const [some, others] = [one.padStart(length, '0'), other.padStart(length, '0')]
  const at = [...some].findIndex((figure, place) => figure !== others[place])
  return (
    at >= 0 &&
    some[at] === others[at + 1] &&
    some[at + 1] === others[at] &&
    some.slice(at + 2) === others.slice(at + 2)
  )
}

/** 1250 and 125000, or 12500: the mark a place or two off. */
const isSlipped = (one: string, other: string): boolean =>
  ['0', '00'].some((noughts) => one + noughts === other || other + noughts === one)

const extra: Explain = (apart) =>
  typedByHand(apart)
    .filter(({ amountCents }) => amountCents === apart.cents)
    .slice(0, 2)
    .map((line) => ({ kind: 'extra', line }))
