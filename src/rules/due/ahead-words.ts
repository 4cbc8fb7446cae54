// What a day of estimated tax still asks for, in words: for every list of dates alike.
import { formatDollars } from '#money/format.ts'

/** What is still to be paid ahead on a day, after what the day is for; nothing where that is not known. */
export const aheadByBooks = (dollars: number | null): string => {
  if (dollars === null) return ''
  return `, ${dollars < 1 ? 'nothing' : formatDollars(dollars)} still to pay ahead by the books so far`
}
