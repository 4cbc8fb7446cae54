// Facts of enrollment windows: marketplace open enrollment by plan year, and Medicare's windows. Days are month × 100 + day.
import type { Dated } from '../dated.ts'

/** Keyed by plan year: opens in the year before; a last day under 1000 lies in the plan year itself. */
export const openEnrollment: Dated<{
  readonly opens: number
  readonly forJanuary: number
  readonly closes: number
}> = {
  rule: 'Marketplace open enrollment: first day, last day for cover from January, last day',
  unit: 'month × 100 + day',
  source: '45 CFR 155.410(e), federal marketplace; the end in December by the marketplace rule of June 2025',
  obtained: 'memory',
  note: 'Not read. States with their own marketplace set their own dates; a court or a later rule may have changed these.',
  values: {
    2024: { opens: 1101, forJanuary: 1215, closes: 116 },
    2025: { opens: 1101, forJanuary: 1215, closes: 115 },
    2026: { opens: 1101, forJanuary: 1215, closes: 115 },
    2027: { opens: 1101, forJanuary: 1215, closes: 1215 },
  },
  after: { by: 'held' },
}

export const medicareWindows: Dated<{ readonly [window: string]: number }> = {
  rule: 'Medicare: months before and after the month of 65 to enroll, yearly plan change, general enrollment',
  unit: 'months; month × 100 + day',
  source: '42 CFR 407.14, 407.15, 423.38',
  obtained: 'memory',
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
