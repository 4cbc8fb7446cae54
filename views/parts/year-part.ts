// How sums of a year are told of which the plan knows only some months.
import type { YearPart } from '#today/cover/cover-year.ts'

/** The amount, with the months it stands for where these are no whole year. */
export const inPart = (amount: string, part: YearPart | null, whole = ''): string =>
  `${amount}${part === null ? whole : ` ${part.says}`}`

/** The year in a heading, or those of its months that the plan knows. */
export const yearOrPart = (year: number, part: YearPart | null): string =>
  part === null ? String(year) : part.says.replace(/^for /, '')

/**
 * Of income it says besides where its months come from, as far as they are known: room is counted from all of them. `goesOnFrom` is the
 * first month that the plan goes on from within the year, null where it runs all of it.
 */
export const incomeInPart = (name: string, part: YearPart | null, goesOnFrom: string | null): string =>
  [
    inPart(name, part),
    goesOnFrom === null
      ? ''
      : `: before ${goesOnFrom} by the books, as planned where they hold nothing, and from then on by the plan`,
    part === null ? '' : ', with what the plan’s taxes say came earlier in the year',
  ].join('')
