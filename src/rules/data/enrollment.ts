// Facts of enrollment windows: marketplace open enrollment by plan year, and Medicare's windows. Days are month × 100 + day.
import type { Dated } from '../dated.ts'

/** Keyed by plan year: opens in the year before; a last day under 1000 lies in the plan year itself. */
export const openEnrollment: Dated<{
  readonly opens: number
  readonly forJanuary: number
  readonly closes: number
}> = {
  rule: 'Marketplace open enrollment: first day, last day for coverage from January, last day',
  unit: 'month × 100 + day',
  source:
    '45 CFR 155.410(e): from November 1 to January 15; for 2027 the rule of 90 FR 27074 that ended it on December 15 was vacated on June 12, 2026 (City of Columbus v. Kennedy, D. Md. 1:25-cv-02114), second hand from the docket and pages of two publishers',
  obtained: 'secondHand',
  obtainedIn: { 2024: 'memory' },
  note: 'An appeal (4th Cir. 26-1938) was pending on October 1, 2026. Cover from January needs December 15 either way. States with their own marketplace set their own dates.',
  values: {
    2024: { opens: 1101, forJanuary: 1215, closes: 116 },
    2025: { opens: 1101, forJanuary: 1215, closes: 115 },
    2026: { opens: 1101, forJanuary: 1215, closes: 115 },
    2027: { opens: 1101, forJanuary: 1215, closes: 115 },
  },
  after: { by: 'held' },
}

export const medicareWindows: Dated<{ readonly [window: string]: number }> = {
  rule: 'Medicare: months before and after the month of 65 to enroll, yearly plan change, general enrollment',
  unit: 'months; month × 100 + day',
  source:
    '42 CFR 422.62(a)(2)(iii) and 423.38(b)(3), texts read; 42 CFR 407.14 and 407.15 as described in public text',
  obtained: 'read',
  values: {
    2023: {
      monthsBefore: 3,
      monthsAfter: 3,
      planChangeOpens: 1015,
      planChangeCloses: 1207,
      generalOpens: 101,
      generalCloses: 331,
    },
  },
  after: { by: 'statute' },
}
