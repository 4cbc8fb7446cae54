// What a kept table holds, as people write it: amounts, and measures by their unit.
import { formatPercent } from '#money/format.ts'
import { plainAmounts } from './plain-amounts.ts'

/** The text of one cell. */
export const shownValue = (header: readonly string[], row: readonly string[], i: number): string => {
  const cell = row[i]!
  const isFraction = row[header.indexOf(unitColumn)] === 'fraction' && isNumber(cell)
  return isFraction ? formatPercent(Number(cell), 1) : plainAmounts(cell)
}

/** Says of a measure how its values are meant: told by how they are written here. */
export const unitColumn = 'unit'

export const isNumber = (cell: string): boolean => /^-?\d+\.\d+$/.test(cell)
