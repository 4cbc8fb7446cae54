// A Social Security earnings record as text, a year and its amount a line, and the years in it that are missing.
import { parseQuantity } from '#money/parse.ts'
import { averageWageIndex } from '#rules/data/social-security.ts'
import { yearsOf } from '#rules/dated.ts'
import type { Person } from './household-plan.ts'

export type EarningsYear = Person['earnings'][number]

/** A line as it was read: without an amount, the year is missing. */
export interface RecordLine {
  year: number
  amount: number | null
  estimated: boolean
}

/** Neither a record nor the agency's own estimate: the benefit then counts only what the plan itself has earned. An estimate goes before a record. */
export const lacksRecord = (person: Person): boolean => person.earnings.length === 0 && !hasEstimate(person)

/** Its benefit goes by the monthly estimate of the agency's statement, whatever record there is. */
export const hasEstimate = ({ statementBenefit = 0 }: Person): boolean => statementBenefit > 0

export const recordText = (record: readonly (EarningsYear | RecordLine)[]): string =>
  record
    .map(({ year, amount, estimated }) =>
      [year, amount ?? '', estimated ? 'estimate' : ''].filter((word) => word !== '').join(' '),
    )
    .join('\n')

export type ReadRecord = { ok: true; lines: RecordLine[] } | { ok: false; message: string }

/** Records and the wages that index them begin here. */
const firstYear = yearsOf(averageWageIndex).first

/**
 * Lines of year and amount, also as copied out of a table: `2019 41250`, `2019<tab>$41,250`. What follows the amount is a column of
 * another kind and left out, but for the word `estimate`. Lines without a digit are headings. Sorted by year.
 */
export const readRecord = (text: string, lastYear: number): ReadRecord => {
  const lines: RecordLine[] = []
  for (const [place, line] of text.split(/\r?\n/).entries()) {
    if (!/\d/.test(line)) continue
    const [, year, rest] = /^\s*(\d{4})(?:[\s,;:]+(.*))?$/.exec(line) ?? []
    const at = `Line ${place + 1}`
    if (year === undefined) return { ok: false, message: `${at}: begin with the year, like 2019 41250` }
    if (Number(year) < firstYear || Number(year) > lastYear)
      return { ok: false, message: `${at}: enter a year from ${firstYear} to ${lastYear}` }
    if (lines.some((one) => one.year === Number(year)))
      return { ok: false, message: `${at}: ${year} is here twice` }
    const [, said] = /^(\S*\d\S*)/.exec(rest?.trim() ?? '') ?? []
    const amount = said === undefined ? null : parseQuantity(said.replace(/^\$|,$/g, ''))
    if (amount !== null && (!amount.ok || amount.value < 0))
      return { ok: false, message: `${at}: after the year comes an amount, like 2019 41250` }
    lines.push({
      year: Number(year),
      amount: amount === null ? null : amount.value,
      estimated: /\bestimated?\b/i.test(rest ?? ''),
    })
  }
  return { ok: true, lines: lines.sort((a, b) => a.year - b.year) }
}

/**
 * The lines as a record, once every line has an amount. Lines that say what the saved record says are that record, in its order.
 */
export const recordOf = (
  lines: readonly RecordLine[],
  saved: readonly EarningsYear[],
): readonly EarningsYear[] => {
  const inOrder = saved.toSorted((a, b) => a.year - b.year)
  if (recordText(inOrder) === recordText(lines)) return saved
  return lines.map(({ year, amount, estimated }) => ({
    year,
    amount: amount ?? 0,
    ...(estimated ? { estimated } : {}),
  }))
}

/** Years between the first and the last that have no amount. */
export const missingYears = (lines: readonly RecordLine[]): number[] => {
  const known = new Map(lines.map((one) => [one.year, one.amount]))
  const [first, last] = [lines[0]?.year ?? 0, lines.at(-1)?.year ?? -1]
  const years = Array.from({ length: Math.max(0, last - first + 1) }, (_, k) => first + k)
  return years.filter((year) => (known.get(year) ?? null) === null)
}

/**
 * The lines with every missing year estimated: what the nearest years before and after earned as parts of the wages of their
 * years, weighted by how near they are, times the wages of the missing year. Whole dollars, marked as estimates.
 */
export const withEstimates = (
  lines: readonly RecordLine[],
  wagesOf: (year: number) => number,
): RecordLine[] => {
  const known = lines.filter((one): one is RecordLine & { amount: number } => one.amount !== null)
  const missing = known.length === 0 ? [] : missingYears(lines)
  const estimates = missing.map((year): RecordLine => {
    const before = known.findLast((one) => one.year < year)
    const after = known.find((one) => one.year > year)
    const part = ({ year: at, amount }: { year: number; amount: number }) => amount / wagesOf(at)
    const share =
      before && after
        ? (part(before) * (after.year - year) + part(after) * (year - before.year)) /
          (after.year - before.year)
        : part((before ?? after)!)
    return { year, amount: Math.round(share * wagesOf(year)), estimated: true }
  })
  return [...lines.filter(({ year }) => !missing.includes(year)), ...estimates].sort(
    (a, b) => a.year - b.year,
  )
}
