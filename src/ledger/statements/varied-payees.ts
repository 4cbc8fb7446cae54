// Payees whose lines went to several accounts: what was chosen last says little of the next one.
import type { HistoryLine } from './dry-run.ts'
import { plainPayee } from './payee-text.ts'
import { type SortableLine, sameTarget } from './sorting.ts'

/** So many of a payee's newest lines are looked at: a habit that changed long ago is a habit. */
const newest = 6

/** A function from a line to whether the newest lines like it went to more than one target. `history` is newest first. */
export const variedPayees = (history: readonly HistoryLine[]): ((line: SortableLine) => boolean) => {
  const seen = new Map<string, HistoryLine[]>()
  for (const line of history) {
    if (line.went === null) continue
    const key = keyOf(line)
    const lines = seen.get(key)
    if (!lines) seen.set(key, [line])
    else if (lines.length < newest) lines.push(line)
  }
  const varied = new Set(
    [...seen].filter(([, lines]) => lines.some((line) => !sameWay(line, lines[0]!))).map(([key]) => key),
  )
  return (line) => varied.has(keyOf(line))
}

const sameWay = (one: HistoryLine, other: HistoryLine): boolean =>
  one.went === 'other' || other.went === 'other'
    ? one.went === other.went
    : sameTarget(one.went!, other.went!)

const keyOf = (line: SortableLine): string =>
  `${line.accountId}|${line.amount < 0 ? 'out' : 'in'}|${plainPayee(line.text)}`
