// Of which sides the pack has statements: four sheets of zeros say nothing that a sentence does not.

import type { SideStatements, YearPackFigures } from '#today/year-pack/figures.ts'
import { cashSections } from '../statement-rows.ts'

/** Sides with something in the year, and all of them as one where more than one has. */
export const withStatements = ({ sides, together }: YearPackFigures): SideStatements[] => {
  const told = sides.filter((side) => !isBlank(side))
  if (told.length === sides.length) return together ? [...told, together] : told
  return told.length > 1 && together ? [...told, together] : told
}

/** What has no sheet, so that nobody looks for it; empty where all has. */
export const leftOutWords = (figures: YearPackFigures): string => {
  const blank = figures.sides.filter(isBlank).map(({ name }) => name)
  const crossed =
    figures.sides.length > 1 && !hasCrossed(figures) ? ' Nothing crossed between these books.' : ''
  return blank.length === 0 ? crossed : `${crossed} No entries and no balances: ${blank.join('; ')}.`
}

/** Whether anything moved between sides. */
export const hasCrossed = ({ crossings }: YearPackFigures): boolean =>
  crossings.some(({ draws, contributions, reimbursements, goods, borrowed }) =>
    [draws, contributions, reimbursements, goods, borrowed].some((months) => months.some((sum) => sum !== 0)),
  )

const isBlank = ({ income, begin, end, cash }: SideStatements): boolean =>
  [begin, end].every(({ totalAssets, totalLiabilities }) =>
    [totalAssets, totalLiabilities].every(
      ({ costCents, marketCents }) => costCents === 0 && marketCents === 0,
    ),
  ) &&
  [
    income.revenue,
    income.expenses,
    income.depreciation,
    income.interest,
    income.capital,
    ...cashSections(cash),
  ].every(({ lines }) => lines.length === 0)
