// How sums of a year are told of which the plan knows only some months.
import type { YearPart } from '#today/cover/cover-year.ts'

/** The amount, with the months it stands for where these are no whole year. */
export const inPart = (amount: string, part: YearPart | null, whole = ''): string =>
  `${amount}${part === null ? whole : ` ${part.says}`}`

/** The year in a heading, or those of its months that the plan knows. */
export const yearOrPart = (year: number, part: YearPart | null): string =>
  part === null ? String(year) : part.says.replace(/^for /, '')

/** Of income it says besides that earlier months count as far as they are known: room is counted from both. */
export const incomeInPart = (name: string, part: YearPart | null): string =>
  part === null ? name : `${inPart(name, part)}, with what the plan’s taxes say came earlier in the year`
