// The law of seeing things twice: which lines of a file are new, which the books have seen, and which only a person can tell.
import type { Day } from '#calendar/day.ts'
import { dayName, dayNumber } from '#calendar/day.ts'
import { eachInTurns, type InTurns } from '#kept/in-turns.ts'
import { formatCents } from '#money/format.ts'
import type { KeptLine } from './kept-line.ts'
import { earlierFormOf } from './pending-lines.ts'
import { doubledRows } from './running-balance.ts'
import { type StatementLine, textOfLine } from './statement.ts'
import { contentOf, hasNumber, TwinPool } from './twin-lines.ts'

/** `replaces`: the line takes the place of a kept one, which was the same movement in an earlier form. */
export type Verdict = 'new' | 'seen' | 'doubtful' | 'replaces'

export interface JudgedLine {
  line: StatementLine
  /** Under which the line is kept; no account ever holds a key twice. */
  lineKey: string
  verdict: Verdict
  /** For a person to read, `''` for new lines. */
  why: string
  /** The kept line that this one replaces, or may. */
  earlier?: KeptLine
}

/** The days within which lines come in unasked: from the opening balances to today. */
export interface Bounds {
  from: Day | null
  through: Day | null
}

const unbounded: Bounds = { from: null, through: null }

/**
 * Judges a file's lines, in file order, against the lines kept for the same account: those of the days the file covers,
 * and those that bear one of its numbers. With bank numbers (FITID) a line is the number and its content; without, its day, amount,
 * text and how many like it the day already has in the file. So two like lines of one day both count, and again do not. A hundred
 * thousand lines take most of a second, so that it stops now and then.
 */
export function* judging(
  lines: readonly StatementLine[],
  kept: readonly KeptLine[],
  bounds: Bounds = unbounded,
): InTurns<JudgedLine[]> {
  const span = spanOf(lines)
  const judged = yield* identify(lines, kept, span)
  const doubled = doubledRows(lines)
  const claimed = new Set<string>()
  yield* eachInTurns(judged, ({ verdict, lineKey, earlier }) => {
    if (verdict === 'seen') claimed.add(lineKey)
    if (earlier) claimed.add(earlier.lineKey)
  })
  const open = kept.filter((line) => !claimed.has(line.lineKey))
  const left = yield* doubtTwins(judged, open, span)
  yield* replaceEarlierForms(judged, left, span)
  yield* eachInTurns(judged, (each) => {
    const why =
      each.verdict !== 'new'
        ? null
        : (outOfBounds(each.line.day, bounds) ?? (doubled.has(each.line) ? standsTwice : null))
    if (why !== null) Object.assign(each, { verdict: 'doubtful', why })
  })
  return judged
}

/** The keys under which a file's lines may already be kept: for looking them up before judging. */
export const numberKeysOf = (lines: readonly StatementLine[]): string[] =>
  lines.flatMap(({ bankNumber, correction }) =>
    [bankNumber, correction?.bankNumber ?? ''].filter(hasNumber).map(numberKey),
  )

const standsTwice = 'Twice in this file, with the same balance after it: it may have happened once'

interface Span {
  first: string
  last: string
}

const spanOf = (lines: readonly StatementLine[]): Span => {
  const span = { first: lines[0]?.day as string, last: lines[0]?.day as string }
  for (const { day } of lines) {
    if (day < span.first) span.first = day
    if (day > span.last) span.last = day
  }
  return span
}

/**
 * A file's first and last day may be cut short, so that a like line of theirs may well be another one. The days between are
 * whole: a kept line of such a day that the file does not have any more has been numbered anew, or was not final.
 */
const isInner = (day: Day, { first, last }: Span): boolean => day > first && day < last

function* doubtTwins(judged: JudgedLine[], open: readonly KeptLine[], span: Span): InTurns<KeptLine[]> {
  const twins = new TwinPool()
  yield* eachInTurns(open, (line) => twins.add(line))
  const doubt = (each: JudgedLine, why: string | null): boolean => {
    if (why === null) return false
    each.verdict = 'doubtful'
    each.why = why
    return true
  }
  let numbersAnew = false
  yield* eachInTurns(judged, (each) => {
    if (each.verdict !== 'new') return
    if (isInner(each.line.day, span) && doubt(each, twins.renumbered(each.line))) numbersAnew = true
    else doubt(each, twins.fromOtherKind(each.line))
  })
  if (numbersAnew)
    yield* eachInTurns(judged, (each) => {
      if (each.verdict === 'new') doubt(each, twins.renumbered(each.line))
    })
  return open.filter((line) => !twins.hasTaken(line))
}

/** Kept lines of whole days that the file no longer has: pending ones come back with another day or text. */
function* replaceEarlierForms(judged: JudgedLine[], open: readonly KeptLine[], span: Span): InTurns<void> {
  const gone = new Set(open.filter((line) => line.state !== 'aside' && isInner(line.day, span)))
  if (gone.size === 0) return
  yield* eachInTurns(judged, (each) => {
    if (each.verdict !== 'new') return
    const found = earlierFormOf(each.line, gone)
    if (!found) return
    gone.delete(found.earlier)
    Object.assign(each, replacing(found.earlier, each.line, found.isSure))
  })
}

const replacing = (earlier: KeptLine, line: StatementLine, isSure: boolean): Partial<JudgedLine> => {
  const was = `${earlier.text || 'a transaction without text'}, ${dayName(earlier.day)}, ${formatCents(earlier.amount)}`
  // What is booked under another amount is changed by a person.
  const isFree = earlier.state !== 'booked' || earlier.amount === line.amount
  return isSure && isFree
    ? { verdict: 'replaces', earlier, why: `Takes the place of ${was}` }
    : { verdict: 'doubtful', earlier, why: `May be what the books have as ${was}` }
}

const outOfBounds = (day: Day, { from, through }: Bounds): string | null => {
  if (from !== null && day < from)
    return `Before the opening balances of ${dayName(from)}, which hold it already`
  if (through !== null && day > through)
    return `Its day had not come when it was read in on ${dayName(through)}`
  return null
}

function* identify(
  lines: readonly StatementLine[],
  kept: readonly KeptLine[],
  span: Span,
): InTurns<JudgedLine[]> {
  const byKey = new Map<string, KeptLine>()
  yield* eachInTurns(kept, (line) => void byKey.set(line.lineKey, line))
  const inFile = new Map<string, string>()
  const occurrences = new Map<string, number>()
  const occurrence = (of: string): number => {
    const count = (occurrences.get(of) ?? 0) + 1
    occurrences.set(of, count)
    return count
  }
  const judged = (line: StatementLine): JudgedLine => {
    const content = contentOf({ ...line, text: textOfLine(line) })
    if (line.correction) return identifyCorrection(line, content, byKey, kept)
    if (hasNumber(line.bankNumber)) return identifyNumbered(line, content, byKey, inFile, occurrence, span)
    const lineKey = `t:${content}|${occurrence(content)}`
    return byKey.has(lineKey) ? seen(line, lineKey) : { line, lineKey, verdict: 'new', why: '' }
  }
  const all: JudgedLine[] = []
  yield* eachInTurns(lines, (line) => void all.push(judged(line)))
  return all
}

const seen = (line: StatementLine, lineKey: string): JudgedLine => ({
  line,
  lineKey,
  verdict: 'seen',
  why: 'Already in the books',
})

/** The bank names the line it corrects (CORRECTFITID). */
const identifyCorrection = (
  line: StatementLine,
  content: string,
  byKey: ReadonlyMap<string, KeptLine>,
  kept: readonly KeptLine[],
): JudgedLine => {
  const { bankNumber, action } = line.correction!
  const lineKey = hasNumber(line.bankNumber) ? numberKey(line.bankNumber) : `c:${bankNumber}|${content}`
  if (byKey.has(lineKey)) return seen(line, lineKey)
  const earlier = kept.find((each) => each.bankNumber === bankNumber && each.state !== 'aside')
  if (action === 'replace')
    return earlier
      ? { line, lineKey, verdict: 'new', why: '', ...replacing(earlier, line, true) }
      : { line, lineKey, verdict: 'new', why: '' }
  if (!earlier)
    return {
      line,
      lineKey,
      verdict: 'seen',
      why: 'The bank reverses a transaction that the books do not have',
    }
  return earlier.state === 'booked'
    ? {
        line,
        lineKey,
        verdict: 'doubtful',
        earlier,
        why: 'The bank takes this transaction back, but it is booked',
      }
    : { line, lineKey, verdict: 'replaces', earlier, why: 'The bank takes this transaction back' }
}

const identifyNumbered = (
  line: StatementLine,
  content: string,
  byKey: ReadonlyMap<string, KeptLine>,
  inFile: Map<string, string>,
  occurrence: (of: string) => number,
  span: Span,
): JudgedLine => {
  const firstKey = numberKey(line.bankNumber)
  const earlier = byKey.get(firstKey)
  const above = inFile.get(firstKey)
  const isFirst = above === undefined || above === content
  const known = earlier === undefined ? null : contentOf(earlier)
  if (above === undefined) inFile.set(firstKey, content)
  // Two like purchases under one number are two: the second waits for a person under a key of its own.
  const base = isFirst && (known === null || known === content) ? firstKey : `${firstKey}|${content}`
  const count = occurrence(base)
  const lineKey = count === 1 ? base : `${base}|${count}`
  if (byKey.has(lineKey)) return seen(line, lineKey)
  const judged: JudgedLine = { line, lineKey, verdict: 'new', why: '' }
  if (count > 1)
    return { ...judged, verdict: 'doubtful', why: 'Twice in this file under one number, word for word' }
  if (base === firstKey) return judged
  if (isFirst && earlier && startsAnew(line, earlier, span)) return judged
  if (isFirst && earlier && earlier.state !== 'aside' && isNear(line, earlier))
    return { ...judged, ...sameNumber(line, replacing(earlier, line, earlier.amount === line.amount)) }
  return {
    ...judged,
    verdict: 'doubtful',
    why: `The bank’s number ${line.bankNumber} already belongs to another transaction, with another day, amount or text`,
  }
}

const sameNumber = (line: StatementLine, found: Partial<JudgedLine>): Partial<JudgedLine> =>
  found.verdict === 'replaces'
    ? found
    : {
        ...found,
        why: `The bank’s number ${line.bankNumber} already belongs to another transaction. ${found.why}`,
      }

/** Banks that count from 1 each month: the line that had the number lies outside the file, or well away from this one. */
const startsAnew = (line: StatementLine, earlier: KeptLine, { first, last }: Span): boolean =>
  !isNear(line, earlier) || (line.amount !== earlier.amount && (earlier.day < first || earlier.day > last))

const isNear = (line: StatementLine, earlier: KeptLine): boolean =>
  Math.abs(dayNumber(line.day) - dayNumber(earlier.day)) <= 7

const numberKey = (bankNumber: string): string => `n:${bankNumber}`
