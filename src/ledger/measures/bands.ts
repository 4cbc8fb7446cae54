// Published bands and targets for the farm finance measures, each with its source and whether it was read or recalled.
import { type MeasureId, measureDefinitions } from './measure-definitions.ts'

/** `good` and `weak` are the inner limits: beyond `good` is the first label, beyond `weak` the last, between the middle one. */
export interface Band {
  measure: MeasureId
  better: 'higher' | 'lower'
  good: number
  /** Null for a single target. */
  weak: number | null
  obtained: 'read' | 'memory'
}

export interface BandSet {
  source: string
  /** For beyond `good`, between, beyond `weak`. A set of targets uses the first and the last. */
  labels: readonly [string, string, string]
  bands: readonly Band[]
  note?: string
}

const higher = (measure: MeasureId, good: number, weak: number | null = null): Omit<Band, 'obtained'> => ({
  measure,
  better: 'higher',
  good,
  weak,
})
const lower = (measure: MeasureId, good: number, weak: number | null = null): Omit<Band, 'obtained'> => ({
  measure,
  better: 'lower',
  good,
  weak,
})
const marked = (obtained: Band['obtained'], bands: readonly Omit<Band, 'obtained'>[]): Band[] =>
  bands.map((band) => ({ ...band, obtained }))

/** Bands differ between publications and kinds of farm: none is a rule, and small direct-market farms are rarely among those they were drawn from. */
export const bandSets: readonly BandSet[] = [
  {
    source: 'Cornell Small Farms Program, financial scorecard page',
    labels: ['comfort', 'caution', 'danger'],
    bands: marked('read', [
      higher('currentRatio', 2, 1.3),
      higher('workingCapitalToRevenue', 0.3, 0.1),
      lower('debtToAsset', 0.3, 0.6),
    ]),
  },
  {
    source: 'a Farm Credit lender’s education page, measures of financial performance',
    labels: ['desirable', '', 'short of desirable'],
    bands: marked('read', [
      higher('currentRatio', 2),
      lower('debtToAsset', 0.4, 0.5),
      higher('equityToAsset', 0.6),
      lower('debtToEquity', 0.66),
      higher('returnOnAssets', 0.06),
      higher('operatingProfitMargin', 0.3),
      higher('termDebtCoverage', 1.5),
    ]),
    note: 'Takes family living as the charge for labor and management.',
  },
  {
    source: 'Michigan State University targets, as quoted on a farm accounting page (2023)',
    labels: ['on target', '', 'off target'],
    bands: marked('read', [
      higher('currentRatio', 1.5),
      lower('debtToEquity', 1),
      lower('debtToAsset', 0.3),
      higher('equityToAsset', 0.7),
      higher('assetTurnover', 0.45),
      lower('interestRatio', 0.05),
      higher('netIncomeRatio', 0.2),
      higher('operatingProfitMargin', 0.25),
      higher('returnOnEquity', 0.1),
      higher('returnOnAssets', 0.1),
      lower('operatingExpenseRatio', 0.6),
    ]),
  },
  {
    source: 'Alberta Agriculture, liquidity chapter (bus14725)',
    labels: ['low risk', 'medium risk', 'high risk'],
    bands: marked('read', [higher('currentRatio', 1.5, 1), higher('workingCapitalToExpense', 0.5)]),
  },
  {
    source: 'Farm financial ratios and guidelines, state extension sheet quoted on public pages',
    labels: ['strong', 'stable', 'weak'],
    bands: [
      ...marked('read', [lower('debtToEquity', 0.42, 2.3)]),
      ...marked('memory', [
        higher('currentRatio', 1.5, 1),
        lower('debtToAsset', 0.3, 0.7),
        higher('equityToAsset', 0.7, 0.3),
        higher('returnOnAssets', 0.05, 0.01),
        higher('operatingProfitMargin', 0.25, 0.1),
        higher('termDebtCoverage', 1.5, 1.1),
      ]),
    ],
    note: 'Return and margin rows are those for mostly owned land.',
  },
  {
    source: 'Iowa State University Extension, Financial Performance Measures for Iowa Farms (C3-55)',
    labels: ['high profit', 'usual', 'low profit'],
    bands: marked('read', [higher('returnOnAssets', 0.12, 0.02)]),
    note: 'Also: a current ratio of 3 is typical of good liquidity, and debt to asset of 10 to 30 percent is common.',
  },
  {
    source:
      'University of Minnesota, farm finance scorecard, read in a public copy; current ratio, working capital and debt to asset also read in a second scorecard of a state university',
    labels: ['strong', 'middle', 'vulnerable'],
    bands: marked('read', [
      higher('currentRatio', 2, 1.3),
      higher('workingCapitalToRevenue', 0.3, 0.1),
      lower('debtToAsset', 0.3, 0.6),
      higher('returnOnAssets', 0.08, 0.04),
      higher('returnOnEquity', 0.1, 0.03),
      higher('operatingProfitMargin', 0.25, 0.15),
      higher('assetTurnover', 0.45, 0.3),
      higher('termDebtCoverage', 1.75, 1.25),
      lower('operatingExpenseRatio', 0.6, 0.8),
      lower('interestRatio', 0.05, 0.1),
      higher('netIncomeRatio', 0.2, 0.1),
    ]),
  },
]

export interface BandReading {
  source: string
  obtained: Band['obtained']
  label: string
  /** The band in words: `good over 2, weak under 1.3`. */
  limits: string
}

/** How each publication that has a band for the measure would call the value. */
export const bandReadings = (measure: MeasureId, value: number): BandReading[] =>
  bandSets.flatMap(({ source, labels, bands }) =>
    bands
      .filter((band) => band.measure === measure)
      .map((band) => ({
        source,
        obtained: band.obtained,
        label: labelOf(band, labels, value),
        limits: limitsOf(band, labels),
      })),
  )

const labelOf = (band: Band, labels: BandSet['labels'], value: number): string => {
  const beyond = (limit: number, up: boolean) => (up ? value > limit : value < limit)
  const up = band.better === 'higher'
  if (beyond(band.good, up)) return labels[0]
  if (band.weak === null || beyond(band.weak, !up)) return labels[2]
  return labels[1] || `between ${labels[0]} and ${labels[2]}`
}

/** A band in words: `comfort over 2, danger under 1.3`. */
export const limitsOf = (band: Band, labels: BandSet['labels']): string => {
  const [over, under] = band.better === 'higher' ? ['over', 'under'] : ['under', 'over']
  const shown = (limit: number) =>
    measureDefinitions[band.measure].unit === 'ratio' ? String(limit) : `${Math.round(limit * 1000) / 10}%`
  const good = `${labels[0]} ${over} ${shown(band.good)}`
  return band.weak === null ? good : `${good}, ${labels[2]} ${under} ${shown(band.weak)}`
}
