// Files that people try and that are neither OFX nor CSV, by what they begin with: told by name, so that one knows what to ask the bank for.
import { looksLikeOfx } from './ofx.ts'

/** `null` when it may be OFX or CSV. Beginnings as their standards give them (from memory). */
export const foreignKind = (bytes: Uint8Array, text: string): string | null => {
  const start = String.fromCharCode(...bytes.slice(0, 8))
  const packed = packedKinds.find(([mark]) => start.startsWith(mark))
  if (packed) return packed[1]
  if (looksLikeOfx(text)) return null
  const head = text.slice(0, 4000).trimStart()
  return writtenKinds.find(([pattern]) => pattern.test(head))?.[1] ?? null
}

const packedKinds: readonly [string, string][] = [
  ['%PDF', 'a PDF'],
  ['PK\u0003\u0004', 'a zip archive or a spreadsheet'],
  ['\u00d0\u00cf\u0011\u00e0', 'an old spreadsheet'],
  ['\u001f\u008b', 'a compressed file (gzip)'],
  ['\u0089PNG', 'a picture'],
  ['\u00ff\u00d8\u00ff', 'a picture'],
  ['SQLite f', 'a database'],
  ['{\\rtf', 'a document (RTF)'],
]

const writtenKinds: readonly [RegExp, string][] = [
  [/^<(!doctype html|html)\b/i, 'a web page (HTML), perhaps the bank’s sign-in page,'],
  [/^<\?xml[\s\S]*?<(\w+:)?Document\b[^>]*camt\.05\d/i, 'a bank statement in ISO 20022 (CAMT)'],
  [/^<\?xml[\s\S]*?<(html)\b/i, 'a web page (HTML), perhaps the bank’s sign-in page,'],
  [/^<\?xml\b/i, 'an XML file of another kind'],
  [/^(\{1:|:20:)[\s\S]*:6[01]F?:|^:20:/, 'a bank statement in SWIFT’s format (MT940)'],
  [/^(\{\s*"|\[\s*[{["\d])/, 'data for programs (JSON)'],
  [/^!(type|account|option)[:\s]/i, 'a file of the interchange format QIF'],
]

/** A bank's file may hold a stray control character; where one letter in fifty is one, nobody wrote it. */
export const isText = (text: string): boolean => {
  const head = text.slice(0, 4000)
  let controls = 0
  for (let at = 0; at < head.length; at += 1) {
    const letter = head.charCodeAt(at)
    if ((letter < space && !blanks.has(letter)) || letter === replacement) controls += 1
  }
  return controls * 50 < head.length
}

const space = 0x20
const replacement = 0xfffd
/** Tab, line feed, form feed, carriage return. */
const blanks: ReadonlySet<number> = new Set([9, 10, 12, 13])
