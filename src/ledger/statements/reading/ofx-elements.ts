// Cuts OFX, SGML or XML, into elements in one pass: enough of both grammars for what banks really write, no tree.
// Own code because the parsers tried failed on elements left empty, end tags left out and a bare `<`, and gave no line numbers.

export interface OfxElement {
  /** Upper case, without a namespace prefix; an end tag keeps its slash: `/STMTTRN`. */
  name: string
  /** Text up to the next tag, unescaped and trimmed; `''` for an aggregate. */
  value: string
  /** Line of the file, from 1. */
  fileLine: number
}

/** Calls `visit` with each element in order; stops when `visit` returns false. Linear in the length of the text. */
export const visitElements = (text: string, visit: (element: OfxElement) => boolean): void => {
  const lineAt = lineCounter(text)
  let at = nextTag(text, 0)
  while (at >= 0) {
    if (text.startsWith('<!--', at)) {
      at = skipPast(text, '-->', at)
      continue
    }
    const end = text.indexOf('>', at)
    if (end < 0) return
    if (text[at + 1] === '?' || text[at + 1] === '!') {
      at = nextTag(text, end + 1)
      continue
    }
    const { value, next } = valueFrom(text, end + 1)
    if (!visit({ name: tagName(text, at + 1, end), value, fileLine: lineAt(at) })) return
    at = next
  }
}

/** A `<` opens a tag only before a letter, a slash and a letter, `?` or `!`: banks write `A < B` in memos. */
const nextTag = (text: string, from: number): number => {
  let at = text.indexOf('<', from)
  while (at >= 0 && !isTagStart(text, at)) at = text.indexOf('<', at + 1)
  return at
}

const isTagStart = (text: string, at: number): boolean => {
  const next = text.charCodeAt(at + 1)
  if (next === 0x3f || next === 0x21) return true
  return isLetter(next === 0x2f ? text.charCodeAt(at + 2) : next)
}

const isLetter = (code: number): boolean => (code >= 65 && code <= 90) || (code >= 97 && code <= 122)

const tagName = (text: string, from: number, to: number): string => {
  const slash = text.charCodeAt(from) === 0x2f
  let start = slash ? from + 1 : from
  let end = start
  while (end < to) {
    const code = text.charCodeAt(end)
    if (code === 0x3a) start = end + 1
    else if (code === 0x2f || code <= 0x20) break
    end += 1
  }
  const name = text.slice(start, end).toUpperCase()
  return slash ? `/${name}` : name
}

const valueFrom = (text: string, from: number): { value: string; next: number } => {
  let next = nextTag(text, from)
  let raw = text.slice(from, next < 0 ? text.length : next)
  if (next >= 0 && text.startsWith('<![CDATA[', next)) {
    const close = text.indexOf(']]>', next)
    const stop = close < 0 ? text.length : close
    const quoted = text.slice(next + 9, stop)
    next = close < 0 ? -1 : nextTag(text, close + 3)
    return { value: `${unescapeText(raw).trimStart()}${quoted}`.trim(), next }
  }
  raw = raw.trim()
  return { value: raw.includes('&') ? unescapeText(raw) : raw, next }
}

const skipPast = (text: string, mark: string, from: number): number => {
  const found = text.indexOf(mark, from)
  return found < 0 ? -1 : nextTag(text, found + mark.length)
}

const named: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ' }

/** A lone `&` stays as it is: SGML writers seldom escape it. */
const unescapeText = (text: string): string =>
  text.replace(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(\w{2,4}));/gi, (whole, decimal, hex, name) => {
    if (name) return named[String(name).toLowerCase()] ?? whole
    const code = Number.parseInt(decimal ?? hex, decimal ? 10 : 16)
    return code >= 32 && code <= 0x10ffff ? String.fromCodePoint(code) : ' '
  })

const lineCounter = (text: string): ((at: number) => number) => {
  let line = 1
  let next = text.indexOf('\n')
  return (at) => {
    while (next >= 0 && next < at) {
      line += 1
      next = text.indexOf('\n', next + 1)
    }
    return line
  }
}
