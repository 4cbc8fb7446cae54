// Lengths and spans of time in words: 1 month, 11 months, 1 year and 1 month; May 2026 to July 2027; and the day months are counted from.
import { type Month, monthNames, monthOfYear } from './month.ts'

export const monthsWords = (count: number): string => `${count} ${count === 1 ? 'month' : 'months'}`

/** Whole months. From `inYearsFrom` months on a spell is said in years, and in months only where some are left over. */
export const spell = (months: number, inYearsFrom = 12): string => {
  if (months < inYearsFrom) return monthsWords(months)
  const [years, rest] = [Math.floor(months / 12), months % 12]
  const inYears = `${years} ${years === 1 ? 'year' : 'years'}`
  return years === 0 ? monthsWords(rest) : rest === 0 ? inYears : `${inYears} and ${monthsWords(rest)}`
}

/** How long savings last: months as the large figures have them, so that they compare; in years from where nobody pictures them. */
export const longSpell = (months: number): string => spell(months, 120)

/** Months left are counted from the first of a month, on its last day too: savings are known and projected by whole months. */
export const countedFrom = (month: Month): string => `counted from ${monthNames[monthOfYear(month) - 1]} 1`

/** From one to another, days, months or years as they are told; only the one where both are told alike. */
export const fromTo = (from: string, to: string): string => (from === to ? from : `${from} to ${to}`)

/** An age as a law has it: 67, or 66 and 1 month. */
export const ageInWords = ({ years, months }: { years: number; months: number }): string =>
  months === 0 ? String(years) : `${years} and ${monthsWords(months)}`

const endings: Readonly<Record<number, string>> = { 1: 'st', 2: 'nd', 3: 'rd' }

/** 2 as 2nd, 3 as 3rd, 12 as 12th, 22 as 22nd. */
export const nth = (count: number): string => {
  const isTeen = Math.floor(count / 10) % 10 === 1
  return `${count}${isTeen ? 'th' : (endings[count % 10] ?? 'th')}`
}
