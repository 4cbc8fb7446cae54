// Cuts a CSV text into rows and cells (RFC 4180, and what banks make of it) in time that grows with its length, whatever it holds.
import { longestRow } from './csv-bounds.ts'

export type CutRows =
  | { ok: true; rows: string[][] }
  | { ok: false; line: number; why: 'open-quote' | 'long-row' }

/** Lines end with `\n`. A quotation mark within a cell that did not begin with one, or after its end, is a letter. */
export const cutRows = (text: string, delimiter: string, most = Number.POSITIVE_INFINITY): CutRows => {
  const rows: string[][] = []
  const cell = cellsOf(text, delimiter)
  let at = 0
  while (at < text.length && rows.length < most) {
    const begun = at
    const cells: string[] = []
    for (;;) {
      const read = cell(at)
      if (read === null) return { ok: false, line: lineOf(text, at), why: 'open-quote' }
      cells.push(read.text)
      at = read.end
      if (at - begun > longestRow) return { ok: false, line: lineOf(text, begun), why: 'long-row' }
      const isMore = text[at] === delimiter
      at += 1
      if (!isMore) break
    }
    rows.push(cells)
  }
  return { ok: true, rows }
}

type ReadCell = (at: number) => { text: string; end: number } | null

/** Each mark is looked for once only, from where the last one was found: a text without any is not searched again and again. */
const cellsOf = (text: string, delimiter: string): ReadCell => {
  const [nextDelimiter, nextLine, nextQuote] = [delimiter, '\n', '"'].map((mark) => finder(text, mark)) as [
    Finder,
    Finder,
    Finder,
  ]
  const endFrom = (at: number) => Math.min(nextDelimiter(at), nextLine(at), text.length)
  const isEnd = (at: number) => at >= text.length || text[at] === delimiter || text[at] === '\n'
  return (at) => {
    if (text[at] !== '"') {
      const end = endFrom(at)
      return { text: text.slice(at, end), end }
    }
    let inside = ''
    for (let from = at + 1; ; ) {
      const quote = nextQuote(from)
      if (quote === Number.POSITIVE_INFINITY) return null
      inside += text.slice(from, quote)
      if (isEnd(quote + 1)) return { text: inside, end: quote + 1 }
      if (text[quote + 1] !== '"') {
        const end = endFrom(quote)
        return { text: `"${inside}${text.slice(quote, end)}`, end }
      }
      inside += '"'
      from = quote + 2
    }
  }
}

type Finder = (from: number) => number

const finder = (text: string, mark: string): Finder => {
  let found = -1
  return (from) => {
    if (found < from) {
      const at = text.indexOf(mark, from)
      found = at < 0 ? Number.POSITIVE_INFINITY : at
    }
    return found
  }
}

const lineOf = (text: string, at: number): number => text.slice(0, at).split('\n').length
