// How a marketplace premium rises with age: factors on the premium of a 21-year-old under the federal default curve.
import type { Dated } from '../dated.ts'

/** Index = age in whole years at the start of the policy year; the last entry holds for 64 and older. */
export const federalAgeCurve: Dated<readonly number[]> = {
  rule: 'age curve of marketplace premiums, federal default',
  unit: 'factor on the premium at age 21',
  source:
    '45 CFR 147.102(e); CMS state-specific rating page, read in an open rules library (snapshot 2026-08-19); 0.765, 1.000, 1.278 and 3.000 read in a second source',
  obtained: 'secondHand',
  values: {
    // biome-ignore format: a table of figures reads better in full lines.
    2018: [
      0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765, 0.765,
      0.833, 0.859, 0.885, 0.913, 0.941, 0.97, 1, 1, 1, 1, 1.004, 1.024, 1.048, 1.087, 1.119,
      1.135, 1.159, 1.183, 1.198, 1.214, 1.222, 1.23, 1.238, 1.246, 1.262, 1.278, 1.302, 1.325, 1.357, 1.397,
      1.444, 1.5, 1.563, 1.635, 1.706, 1.786, 1.865, 1.952, 2.04, 2.135, 2.23, 2.333, 2.437, 2.548, 2.603,
      2.714, 2.81, 2.873, 2.952, 3,
    ],
  },
  after: { by: 'statute' },
  note: 'Some states set their own curve (MA, MN, UT and others) and New York and Vermont rate no age at all: enter the premium your state shows.',
}

/** Children under 21 in one family whose premiums count: the three oldest (45 CFR 147.102(c)(1)). */
export const ratedChildren = 3
