// Which edition of a form a year's sheets cite, and the lines that moved between editions.

/** The newest edition whose lines are kept here, and where it was told. */
const newestEdition = {
  year: 2025,
  obtained: 'read in secondary text, lines that are not named below from memory',
}

/** `Schedule C (Form 1040) 2025`: of the year itself, or, before its form is known here, of the newest one, and so said. */
export const formOfYear = (form: string, year: number): string =>
  year <= newestEdition.year
    ? `${form} ${year}`
    : `${form} ${newestEdition.year}, the newest known here: lines of ${year} may differ`

/** Lines of Schedule C that hold the sum of Part V, by the first edition that has them; read in secondary text, the earlier one from memory. */
const otherCostsSums: Readonly<Record<string, string>> = { 2011: '27a', 2024: '27b' }

/** The line for the sum of Part V in the edition of the year. */
export const otherCostsSum = (year: number): string =>
  Object.entries(otherCostsSums).findLast(([first]) => Number(first) <= year)?.[1] ?? '27'
