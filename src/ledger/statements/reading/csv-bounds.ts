// Bounds of a bank's CSV, looked at before any parser does: what lies beyond them is no statement and would only eat time.
import { type BrokenFile, brokenFile } from '../statement.ts'

const mostLines = 200_000
/** In letters; a row within quotation marks may be of several lines. */
export const longestRow = 100_000
export const longRowWords = 'A row is longer than 100,000 characters: this is no bank’s CSV'
const mostCells = 500
const [newline, tab, comma, semicolon, bar] = [10, 9, 44, 59, 124]

/** One pass; null when all is within bounds. A thousand movements a week would take four years to reach them. */
export const csvBoundsBroken = (text: string): BrokenFile | null => {
  let line = 1
  let begun = 0
  let cells = 1
  for (let at = 0; at <= text.length; at += 1) {
    const letter = at === text.length ? newline : text.charCodeAt(at)
    if (letter === comma || letter === semicolon || letter === tab || letter === bar) {
      cells += 1
      if (cells > mostCells)
        return brokenFile(line, `A row has more than ${mostCells} columns: this is no bank’s CSV`)
    }
    if (letter !== newline || (at === text.length && at === begun)) continue
    if (at - begun > longestRow) return brokenFile(line, longRowWords)
    if (line > mostLines)
      return brokenFile(line, 'The file has more than 200,000 rows. Ask the bank for a shorter span')
    line += 1
    begun = at + 1
    cells = 1
  }
  return null
}
