// How sums of a year are told of which the plan knows only some months.
import type { YearPart } from '#today/cover/cover-years.ts'

/** The amount, with the months it stands for where these are no whole year. */
export const inPart = (amount: string, part: YearPart | null, whole = ''): string =>
  `${amount}${part === null ? whole : ` ${part.says}`}`
