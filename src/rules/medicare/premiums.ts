// Medicare premiums of one person by the income tier of the return two years back.
/** One year's premiums, dollars per person and month. Built by `medicareYear`. */
export interface MedicareYear {
  year: number
  /** True past the last published year. */
  projected: boolean
  standardPartB: number
  basePartD: number
  /** Part B deductible, dollars a year. */
  deductiblePartB: number
  /** Income above which each of the five tiers begins, by column: 0 single, 1 joint, 2 separate but living together. */
  tierStarts: readonly [Float64Array, Float64Array, Float64Array]
  /** What each tier adds to Part B and Part D; index 0 is no addition. The separate column skips to the last two. */
  addedPartB: Float64Array
  addedPartD: Float64Array
}

/** 0: single, head of household, surviving spouse, separate and living apart all year. 1: joint. 2: separate, lived together. */
export type MedicareColumn = 0 | 1 | 2

/**
 * The income tier, 0 to 5: a tier is reached one cent over its line, the top one at its line (42 USC 1395r(i)).
 * `incomeTwoYearsBack` is adjusted gross income plus tax-exempt interest of the return two years before the premium year.
 */
export const medicareTier = (
  law: MedicareYear,
  incomeTwoYearsBack: number,
  column: MedicareColumn,
): number => {
  const starts = law.tierStarts[column]
  const top = starts.length - 1
  if (incomeTwoYearsBack >= starts[top]!) return top + 1
  let tier = 0
  while (tier < top && incomeTwoYearsBack > starts[tier]!) tier += 1
  return tier
}

/** Part B with its income-related addition, dollars per person and month. */
export const partBMonthly = (law: MedicareYear, incomeTwoYearsBack: number, column: MedicareColumn): number =>
  law.standardPartB + law.addedPartB[medicareTier(law, incomeTwoYearsBack, column)]!

/**
 * Parts B and D for one person, dollars a month: standard B, the plan's own D premium (the national base premium when the
 * plan names none), and both income-related additions. Each spouse on Medicare pays it.
 */
export const medicarePremiumMonthly = (
  law: MedicareYear,
  incomeTwoYearsBack: number,
  column: MedicareColumn,
  partDPlanMonthly: number = law.basePartD,
): number => {
  const tier = medicareTier(law, incomeTwoYearsBack, column)
  return law.standardPartB + law.addedPartB[tier]! + partDPlanMonthly + law.addedPartD[tier]!
}
