// Waiting lines as rows of the desk: all of one payee, account, direction and proposal together, the largest first.

import { dayName } from '#calendar/day.ts'
import type { LineChoice } from '#db/statements/line-choices.ts'
import { namesNoOne, plainPayee } from '#ledger/statements/payee-text.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { formatCents } from '#money/format.ts'
import { type DeskGroup, linesPerRow } from '#views/books-sorting/group.tsx'
import type { DeskRow } from '#views/books-sorting/line-facts.tsx'
import { asProposed, type Choices, leftOut, type Shown } from './desk-choices.ts'

export const groupRows = (rows: readonly DeskRow[]): DeskRow[][] => {
  const groups = new Map<string, DeskRow[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const known = groups.get(key)
    if (known) known.push(row)
    else groups.set(key, [row])
  }
  return largestFirst([...groups.values()])
}

export const largestFirst = <Rows extends readonly DeskRow[]>(groups: readonly Rows[]): Rows[] =>
  [...groups].sort((a, b) => b.length - a.length)

/** A check names no payee, so that each stands by itself; the transfers between two accounts stand together. */
const keyOf = (row: DeskRow): string => {
  const { value = '', says = '', isSure = false } = row.proposal ?? {}
  if (value.startsWith('t:')) return `t|${says}|${isSure}`
  const payee = plainPayee(textOfLine(row))
  const name = namesNoOne(payee) ? `#${row.id}` : payee
  const to = value.startsWith('e:') ? 'e' : value
  return `${row.accountId}|${row.amount < 0}|${name}|${to}|${isSure}`
}

/** Entries and transfers are each line's own: a row of them goes as proposed. */
const isOneByOne = (row: DeskRow): boolean => /^[et]:/.test(row.proposal?.value ?? '')

/** As it is proposed, for each line of a row. */
export const proposedChoice = (row: DeskRow): LineChoice => ({
  take: row.proposal?.isSure ?? false,
  to: isOneByOne(row) ? asProposed : (row.proposal?.value ?? ''),
})

export const deskGroup = (
  rows: readonly DeskRow[],
  chosen: Choices,
  { isOpen, from, typed, asksPay }: Pick<DeskGroup, 'isOpen' | 'from' | 'typed' | 'asksPay'>,
): DeskGroup => {
  const choices = rows.map((row) => chosen.get(row.id) ?? proposedChoice(row))
  const isOut = (at: number) => choices[at]!.to === leftOut
  const placed = choices.filter((choice) => choice.to !== leftOut)
  const to = mostCommon((placed.length > 0 ? placed : [proposedChoice(rows[0]!)]).map((choice) => choice.to))
  const take = choices.some((choice) => choice.take && choice.to === to)
  const own = new Map(
    rows.flatMap((row, at) =>
      choices[at]!.to === to || isOut(at) ? [] : [[row.id, choices[at]!.to] as const],
    ),
  )
  const without = new Set(
    rows.flatMap((row, at) =>
      choices[at]!.take || (!take && !own.has(row.id) && !isOut(at)) ? [] : [row.id],
    ),
  )
  const [, base = to, enterprise = ''] = /^(a:\d+):(.+)$/.exec(to) ?? []
  return {
    rows,
    to: base,
    enterprise,
    take,
    own,
    without,
    isOpen,
    from: isOpen ? from : 0,
    // What is said of one of them is said where it is seen.
    shown: isOpen
      ? rows.slice(from, from + linesPerRow)
      : rows
          .filter(({ id }) => own.has(id) || without.has(id) || typed[id] !== undefined)
          .slice(0, linesPerRow),
    was: proposedChoice(rows[0]!),
    typed,
    asksPay,
  }
}

const mostCommon = (texts: readonly string[]): string => {
  const times = new Map<string, number>()
  for (const text of texts) times.set(text, (times.get(text) ?? 0) + 1)
  return [...times].reduce((best, each) => (each[1] > best[1] ? each : best))[0]
}

/** Whether a line is among those that are looked for: by words, day or sum, and by what is left to do for it. */
export const isShown = (row: DeskRow, find: string, show: Shown, choice: LineChoice): boolean =>
  (find.trim() === '' || saysAll(allOf(row), find)) && fitsKind(row, show, choice)

const fitsKind = (row: DeskRow, show: Shown, choice: LineChoice): boolean => {
  if (show === 'open') return choice.to === '' || choice.to === leftOut
  if (show === 'check') return row.proposal !== null && !row.proposal.isSure
  if (show === 'sure') return row.proposal?.isSure ?? false
  return show === 'ticked' ? choice.take : true
}

/** Whether each of the words stands in the text, capitals aside. */
export const saysAll = (text: string, words: string): boolean => {
  const said = text.toLowerCase()
  return words
    .toLowerCase()
    .split(/\s+/)
    .every((word) => said.includes(word))
}

const allOf = (row: DeskRow): string =>
  `${row.payee} ${row.memo} ${row.checkNumber} ${row.account} ${dayName(row.day)} ${row.day} ${formatCents(row.amount)}`
