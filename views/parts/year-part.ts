// How sums of a year are told of which the plan knows only some months.
import type { YearPart } from '#today/cover/cover-years.ts'

/** The amount, with the months it stands for where these are no whole year. */
export const inPart = (amount: string, part: YearPart | null, whole = ''): string =>
  `${amount}${part === null ? whole : ` ${part.says}`}`

/** Room counted from the income of some months is more than the year may have. */
export const partIncome = (name: string, part: YearPart): string =>
  `${name} is that ${part.says}, with what the plan’s taxes say came earlier in the year`
