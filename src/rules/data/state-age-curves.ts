// Age curves of states that set their own, and the family tiers of the two states that rate no age at all.
import type { Dated } from '../dated.ts'

const source =
  'CMS, State Specific Age Curve Variations (May 31, 2017, still the latest edition), read in two public transcriptions that agree; 45 CFR 147.102(e)'

/** Ages from which each factor holds, and the factors; the last pair holds for all older ages. */
export interface AgeCurve {
  readonly from: readonly number[]
  readonly factor: readonly number[]
  readonly [name: string]: readonly number[]
}

/** Factor for everyone under 21 where only that one differs from the federal curve. */
export const childFactor: Dated<Readonly<Record<string, number>>> = {
  rule: 'child factor of states that otherwise use the federal age curve',
  unit: 'factor on the premium at age 21',
  source,
  obtained: 'read',
  values: { 2018: { AL: 0.635, MS: 0.635, OR: 0.635, MN: 0.89 } },
  after: { by: 'statute' },
  note: 'One flat factor from birth to 20; from 21 the federal curve holds.',
}

export const stateAgeCurves: Dated<Readonly<Record<string, AgeCurve>>> = {
  rule: 'age curves of the District of Columbia, Massachusetts and Utah',
  unit: 'age in years from which each factor on the state’s base premium holds',
  source,
  obtained: 'read',
  values: {
    // biome-ignore format: a table of figures reads better in full lines.
    2018: {
      DC: {
        from: [0, 21, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50,
          51, 52, 53, 54, 55, 56, 57, 58, 59, 60, 61],
        factor: [0.654, 0.727, 0.744, 0.76, 0.779, 0.799, 0.817, 0.836, 0.856, 0.876, 0.896, 0.916, 0.927, 0.938,
          0.975, 1.013, 1.053, 1.094, 1.137, 1.181, 1.227, 1.275, 1.325, 1.377, 1.431, 1.487, 1.545, 1.605, 1.668,
          1.733, 1.801, 1.871, 1.944, 2.02, 2.099, 2.181],
      },
      MA: {
        from: [0, 21, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49,
          50, 51, 52, 53, 54, 55, 56, 57, 58, 59, 60],
        factor: [0.751, 1.183, 1.22, 1.25, 1.275, 1.287, 1.305, 1.323, 1.334, 1.346, 1.352, 1.358, 1.363, 1.369,
          1.381, 1.393, 1.41, 1.427, 1.45, 1.478, 1.511, 1.55, 1.593, 1.641, 1.688, 1.741, 1.792, 1.847, 1.902,
          1.961, 2.019, 2.08, 2.142, 2.206, 2.28, 2.365],
      },
      UT: {
        from: [0, 21, 22, 23, 24, 25, 26, 27, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50, 51, 52, 53,
          54, 55, 56, 57, 58, 59],
        factor: [0.793, 1, 1.05, 1.113, 1.191, 1.298, 1.363, 1.39, 1.404, 1.425, 1.45, 1.479, 1.516, 1.562, 1.616,
          1.681, 1.748, 1.818, 1.891, 1.966, 2.045, 2.127, 2.212, 2.3, 2.392, 2.488, 2.588, 2.691, 2.799, 2.911, 3],
      },
    },
  },
  after: { by: 'statute' },
}

/** Where the family is rated, children count as children until this age; where ages are rated, until 21. */
export const tierChildBelow: Dated<number> = {
  rule: 'age under which a dependent counts as a child in New York’s and Vermont’s family tiers',
  unit: 'years',
  source:
    'NY State of Health, benchmark rates by county 2025, as cited in an open rules library; 45 CFR 147.120',
  obtained: 'secondHand',
  values: { 2018: 26 },
  after: { by: 'statute' },
}

/** Premium of a family over that of one adult, where age does not count. */
export const familyTiers: Dated<Readonly<Record<string, Readonly<Record<string, number>>>>> = {
  rule: 'family tiers of New York and Vermont, which rate no age',
  unit: 'factor on the premium of one adult',
  source: 'CMS state-specific rating variations (2021-12-10), read in an open rules library',
  obtained: 'secondHand',
  values: {
    2018: {
      NY: {
        oneAdult: 1,
        twoAdults: 2,
        oneAdultWithChildren: 1.7,
        twoAdultsWithChildren: 2.85,
        childOnly: 0.412,
      },
      VT: { oneAdult: 1, twoAdults: 2, oneAdultWithChildren: 1.93, twoAdultsWithChildren: 2.81 },
    },
  },
  after: { by: 'statute' },
}
