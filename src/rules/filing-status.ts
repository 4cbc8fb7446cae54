// Filing statuses as words for people and as small whole numbers for the tables of the law.

/** In this order in every list of the law; the data have the first four (see `law.ts` for a surviving spouse, 26 USC 2(a)). */
export const filingStatuses = [
  'single',
  'married_joint',
  'head_of_household',
  'married_separate',
  'surviving_spouse',
] as const
export type FilingStatus = (typeof filingStatuses)[number]

export const single = 0
export const marriedJoint = 1
export const headOfHousehold = 2
export const marriedSeparate = 3
export const survivingSpouse = 4

export const statusIndex = (status: FilingStatus): number => filingStatuses.indexOf(status)

export const filingStatusNames: Record<FilingStatus, string> = {
  single: 'single',
  married_joint: 'married filing jointly',
  head_of_household: 'head of household',
  married_separate: 'married filing separately',
  surviving_spouse: 'qualifying surviving spouse',
}

/** Poverty lines differ by region; in this order in every list of the law. */
export const regions = ['contiguous', 'alaska', 'hawaii'] as const
export type Region = (typeof regions)[number]

export const regionIndex = (region: Region): number => regions.indexOf(region)
