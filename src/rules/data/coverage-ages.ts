// Facts of Medicaid and the children's program: from which age on someone counts as what, and how long a birth counts.
import type { Dated } from '../dated.ts'

export const coverageAges: Dated<{ readonly [line: string]: number }> = {
  rule: 'Medicaid and the children’s program: ages at which an infant, a young child, a child and an adult pass to the next line',
  unit: 'months',
  source: '42 CFR 435.116 to 435.119, 457.310 and 457.320',
  obtained: 'memory',
  values: { 2014: { infant: 12, young: 72, child: 228, adult: 780 } },
  after: { by: 'statute' },
}

export const monthsAfterBirth: Dated<number> = {
  rule: 'Months after a birth in which its mother counts as in pregnancy',
  unit: 'months',
  source: '42 USC 1396a(e)(16), taken up by nearly all states; 60 days where it is not',
  obtained: 'memory',
  values: { 2022: 12 },
  after: { by: 'statute' },
}
