// Text as JSON, or where it stops being JSON, in one line.

export type ReadJson = { ok: true; value: unknown } | { ok: false; message: string }

/** A byte-order mark, as some editors put before a text, is no fault. */
export const readJsonText = (text: string): ReadJson => {
  const plain = text.replace(/^\uFEFF/, '')
  if (plain.trim() === '') return { ok: false, message: 'There is nothing in it. Give JSON' }
  try {
    return { ok: true, value: JSON.parse(plain) }
  } catch (error) {
    return {
      ok: false,
      message: `It is not JSON${placeOf(plain, error as Error)}. Look for a missing comma, quotation mark or bracket`,
    }
  }
}

/** Node names the place as a count of letters, and an early end by no place at all. */
const placeOf = (text: string, { message }: Error): string => {
  const at = /at position (\d+)/.exec(message)
  const end = /end of JSON/.test(message) ? text.length : null
  const position = at ? Number.parseInt(at[1]!, 10) : end
  if (position === null) return nearOf(message)
  const lines = text.slice(0, position).split('\n')
  return `: line ${lines.length}, letter ${lines.at(-1)!.length + 1}`
}

const nearOf = (message: string): string => {
  const token = /token '(.)'/u.exec(message)
  return token ? ` near “${token[1]}”` : ''
}
