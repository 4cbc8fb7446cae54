// The law of seeing things twice: which lines of a file are new, which the books have seen, and which only a person can tell.
import type { Day } from '#calendar/day.ts'
import type { Cents } from '#money/cents.ts'
import { type StatementLine, textOfLine } from './statement.ts'

/** A line already kept for the account. `text` is payee and memo as `textOfLine` gives them. */
export interface KeptLine {
  lineKey: string
  bankNumber: string
  day: Day
  amount: Cents
  text: string
}

export type Verdict = 'new' | 'seen' | 'doubtful'

export interface JudgedLine {
  line: StatementLine
  /** Under which the line is kept; no account ever holds a key twice. */
  lineKey: string
  verdict: Verdict
  /** For a person to read, `''` for new lines. */
  why: string
}

/**
 * Judges a file's lines, in file order, against the lines kept for the same account: those of the days the file covers,
 * and those that bear one of its numbers. With bank numbers (FITID) a line is the number and its content; without, its day, amount,
 * text and how many like it the day already has in the file. So two like lines of one day both count, and again do not.
 */
export const judgeLines = (lines: readonly StatementLine[], kept: readonly KeptLine[]): JudgedLine[] => {
  const byKey = new Map(kept.map((line) => [line.lineKey, contentOf(line)]))
  const judged = identify(lines, byKey)
  const claimed = new Set(judged.filter((each) => each.verdict === 'seen').map((each) => each.lineKey))
  const twins = new TwinPool(kept.filter((line) => !claimed.has(line.lineKey)))
  const isInner = innerDays(lines)
  const doubt = (each: JudgedLine, why: string | null): boolean => {
    if (why === null) return false
    each.verdict = 'doubtful'
    each.why = why
    return true
  }
  let numbersAnew = false
  for (const each of judged) {
    if (each.verdict !== 'new') continue
    if (isInner(each.line.day) && doubt(each, twins.renumbered(each.line))) numbersAnew = true
    else doubt(each, twins.fromOtherKind(each.line))
  }
  if (numbersAnew)
    for (const each of judged) if (each.verdict === 'new') doubt(each, twins.renumbered(each.line))
  return judged
}

/**
 * A file's first and last day may be cut short, so that a like line of theirs may well be another one. The days between are
 * whole: a kept line of such a day that the file does not know by its number has been numbered anew.
 */
const innerDays = (lines: readonly StatementLine[]): ((day: Day) => boolean) => {
  let [first, last] = [lines[0]?.day ?? '', lines[0]?.day ?? '']
  for (const { day } of lines) {
    if (day < first) first = day
    if (day > last) last = day
  }
  return (day) => day > first && day < last
}

/** The keys under which a file's lines may already be kept: for looking them up before judging. */
export const numberKeysOf = (lines: readonly StatementLine[]): string[] =>
  lines.flatMap((line) => (hasNumber(line.bankNumber) ? [numberKey(line.bankNumber)] : []))

const identify = (lines: readonly StatementLine[], byKey: ReadonlyMap<string, string>): JudgedLine[] => {
  const inFile = new Map<string, string>()
  const occurrences = new Map<string, number>()
  return lines.map((line) => {
    const content = contentOf({ ...line, text: textOfLine(line) })
    if (!hasNumber(line.bankNumber)) {
      const occurrence = (occurrences.get(content) ?? 0) + 1
      occurrences.set(content, occurrence)
      const lineKey = `t:${content}|${occurrence}`
      const seen = byKey.has(lineKey)
      return { line, lineKey, verdict: seen ? 'seen' : 'new', why: seen ? 'Already in the books' : '' }
    }
    return identifyNumbered(line, content, byKey, inFile)
  })
}

const identifyNumbered = (
  line: StatementLine,
  content: string,
  byKey: ReadonlyMap<string, string>,
  inFile: Map<string, string>,
): JudgedLine => {
  const lineKey = numberKey(line.bankNumber)
  const earlier = byKey.get(lineKey)
  const above = inFile.get(lineKey)
  if (earlier === undefined && above === undefined) {
    inFile.set(lineKey, content)
    return { line, lineKey, verdict: 'new', why: '' }
  }
  if (above === content) return { line, lineKey, verdict: 'seen', why: 'Twice in this file, word for word' }
  if (earlier === content) return { line, lineKey, verdict: 'seen', why: 'Already in the books' }
  // The bank used one number for two movements, or changed a movement after it was first read.
  const variant = `${lineKey}|${content}`
  if (byKey.has(variant)) return { line, lineKey: variant, verdict: 'seen', why: 'Already in the books' }
  if (inFile.has(variant))
    return { line, lineKey: variant, verdict: 'seen', why: 'Twice in this file, word for word' }
  inFile.set(variant, content)
  return {
    line,
    lineKey: variant,
    verdict: 'doubtful',
    why: `The bank’s number ${line.bankNumber} already belongs to another line, with another day, amount or text`,
  }
}

/** Kept lines that no line of the file answered to: a new line that looks like one of them may be the same movement. */
class TwinPool {
  #byContent = new Map<string, KeptLine[]>()
  #byMoney = new Map<string, KeptLine[]>()
  #taken = new Set<KeptLine>()

  constructor(kept: readonly KeptLine[]) {
    for (const line of kept) {
      push(this.#byContent, contentOf(line), line)
      push(this.#byMoney, `${line.day}|${line.amount}`, line)
    }
  }

  /** The same day, amount and text under another bank number. */
  renumbered(line: StatementLine): string | null {
    if (!hasNumber(line.bankNumber)) return null
    const same = this.#byContent
      .get(contentOf({ ...line, text: textOfLine(line) }))
      ?.filter((each) => hasNumber(each.bankNumber))
    return this.#next(same)
      ? 'A line of the same day, amount and text is in the books under another bank number'
      : null
  }

  /** A file with numbers and one without (OFX and CSV of one account) word the same movement differently. */
  fromOtherKind(line: StatementLine): string | null {
    const numbered = hasNumber(line.bankNumber)
    const other = this.#byMoney
      .get(`${line.day}|${line.amount}`)
      ?.filter((each) => hasNumber(each.bankNumber) !== numbered)
    const same = this.#next(other)
    return same
      ? `“${same.text}”, of the same day and amount, is in the books from another kind of file`
      : null
  }

  #next(lines: KeptLine[] | undefined): KeptLine | null {
    const free = lines?.find((each) => !this.#taken.has(each)) ?? null
    if (free) this.#taken.add(free)
    return free
  }
}

const push = (map: Map<string, KeptLine[]>, key: string, line: KeptLine): void => {
  const list = map.get(key)
  if (list) list.push(line)
  else map.set(key, [line])
}

const numberKey = (bankNumber: string): string => `n:${bankNumber}`

/** Fillers that banks write where they have no number. */
const hasNumber = (bankNumber: string): boolean =>
  bankNumber !== '' && !/^(0+|none|null|nonref|n\/?a|-+)$/i.test(bankNumber)

const contentOf = (line: { day: Day; amount: Cents; text: string }): string =>
  `${line.day}|${line.amount}|${line.text.toLowerCase()}`
