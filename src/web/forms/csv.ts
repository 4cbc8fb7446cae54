// Tables as CSV (RFC 4180, with a header line), safe to open in a spreadsheet.

export interface CsvTable {
  header: readonly string[]
  /** Numbers go out as they are; text that a spreadsheet would run as a formula is led by an apostrophe. */
  rows: readonly (readonly (string | number | null | undefined)[])[]
}

export const csvText = ({ header, rows }: CsvTable): string =>
  [header, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')

const cell = (value: string | number | null | undefined): string => {
  if (value === null || value === undefined) return ''
  const text = String(value)
  const isPlainNumber = /^-?\d+(\.\d+)?$/.test(text)
  const safe = !isPlainNumber && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}
