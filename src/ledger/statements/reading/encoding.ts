// Bytes of a bank file to text, by its byte-order mark, its own header, or else by whether it is valid UTF-8; line ends become `\n`.
import iconv from 'iconv-lite'

/** Text with `\n` line ends and no byte-order mark, and the name of the encoding it was read in. Never fails. */
export const decodeStatement = (bytes: Uint8Array): { text: string; encoding: string } => {
  const encoding = encodingOf(bytes)
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const text = encoding === 'utf-8' ? new TextDecoder('utf-8').decode(bytes) : iconv.decode(buffer, encoding)
  return { text: withPlainLineEnds(text.startsWith('\ufeff') ? text.slice(1) : text), encoding }
}

/** Old systems end lines with CR alone, others with CR LF. */
const withPlainLineEnds = (text: string): string =>
  text.includes('\r') ? text.replace(/\r\n?/g, '\n') : text

const encodingOf = (bytes: Uint8Array): string => {
  const marked = byMark(bytes)
  if (marked) return marked
  const head = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.byteLength, 1024)).toString(
    'latin1',
  )
  const declared = declaredEncoding(head)
  // Headers are often copied from another bank's file: valid UTF-8 with letters beyond ASCII is UTF-8 whatever it claims.
  if (isUtf8(bytes)) return 'utf-8'
  return declared && declared !== 'utf-8' && iconv.encodingExists(declared) ? declared : 'windows-1252'
}

const byMark = (bytes: Uint8Array): string | null => {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return 'utf-8'
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le'
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be'
  // No mark, but every other byte of the first ASCII letters is nought.
  if (bytes.length > 3 && bytes[0] !== 0 && bytes[1] === 0 && bytes[3] === 0) return 'utf-16le'
  if (bytes.length > 3 && bytes[0] === 0 && bytes[1] !== 0 && bytes[2] === 0) return 'utf-16be'
  return null
}

/** `CHARSET:1252` with `ENCODING:USASCII` (OFX 1), or the XML declaration (OFX 2). */
const declaredEncoding = (head: string): string | null => {
  const xml = /<\?xml[^>]*\bencoding\s*=\s*["']([\w.:-]+)["']/i.exec(head)
  if (xml) return xml[1]!.toLowerCase()
  const charset = /^\s*CHARSET\s*:\s*([\w-]+)/im.exec(head) ?? /\bCHARSET:([\w-]+)/i.exec(head)
  if (charset && !/^none$/i.test(charset[1]!)) {
    const name = charset[1]!.toLowerCase()
    return /^125\d$/.test(name) ? `windows-${name}` : name.startsWith('8859') ? `iso-${name}` : name
  }
  return /\bENCODING\s*:\s*(UTF-?8|UNICODE)/i.test(head) ? 'utf-8' : null
}

const isUtf8 = (bytes: Uint8Array): boolean => {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}
