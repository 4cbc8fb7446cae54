// The farm finance measures of the Farm Financial Standards, from a balance sheet, an income statement and the household's claims.
import type { Cents } from '#money/cents.ts'
import {
  type MeasureArea,
  type MeasureId,
  measureDefinitions,
  measureIds,
  type PartId,
  partNames,
} from './measure-definitions.ts'

export type { MeasureId } from './measure-definitions.ts'

export interface Position {
  currentAssets: Cents
  totalAssets: Cents
  /** With the part of term debt that falls due within twelve months. */
  currentLiabilities: Cents
  totalLiabilities: Cents
}

/** One farm year in cents. Text in place of an amount says why it cannot be told; whatever needs it then cannot be told either. */
export interface MeasureInput {
  /** Null: nothing is known of the year's beginning. */
  begin: Position | null
  end: Position
  /** Set where nobody said what of a loan falls due within twelve months. */
  dueUnknown: string | null
  grossRevenue: Cents
  /** Without interest and depreciation. */
  operatingExpense: Cents
  depreciation: Cents
  interest: Cents
  /** Gain or loss on capital sales, part of net farm income. */
  capitalGain: Cents
  /** Value of unpaid family labor and management; null when not estimated. */
  unpaidLabor: Cents | null
  repayment: RepaymentInput | null
}

/** What debt repayment rests on; null when the household's figures are not in the books. */
export interface RepaymentInput {
  offFarmIncome: Cents
  incomeAndSelfEmploymentTax: Cents
  familyLiving: Cents
  /** Whether any term debt was owed in the year. */
  hasTermDebt: boolean
  termPrincipal: Cents
  termInterest: Cents
  unpaidOperatingDebt: Cents
  /** Null when not said. */
  replacement: Cents | null
}

export interface MeasurePart {
  name: string
  /** Null when it cannot be told. */
  cents: number | null
}

export interface Measure {
  id: MeasureId
  area: MeasureArea
  name: string
  formula: string
  unit: 'ratio' | 'fraction' | 'cents'
  obtained: 'read' | 'memory'
  parts: readonly MeasurePart[]
  /** Null when it cannot be told; `missing` says why. */
  value: number | null
  missing?: string
}

/** All measures in the order of the standards. */
export const financeMeasures = (input: MeasureInput): Measure[] => {
  const told = partsOf(input)
  return measureIds.map((id) => {
    const { work, parts, ...definition } = measureDefinitions[id]
    const shown = parts.map((part) => ({ name: partNames[part], cents: amountOrNull(told[part]) }))
    const value = worked(told, parts, work)
    return typeof value === 'number'
      ? { id, ...definition, parts: shown, value }
      : { id, ...definition, parts: shown, value: null, missing: value }
  })
}

/** An amount, the reason there is none, or an amount by which nothing can be worked, with the reason. */
type Told = number | string | { cents: number; why: string }
type ToldParts = Record<PartId, Told>

const amountOrNull = (told: Told): number | null => {
  if (typeof told === 'string') return null
  return typeof told === 'number' ? told : told.cents
}

const whyNot = (told: Told): string | undefined => {
  if (typeof told === 'number') return undefined
  return typeof told === 'string' ? told : told.why
}

const worked = (
  told: ToldParts,
  parts: readonly PartId[],
  work: (...amounts: number[]) => number | string,
): number | string => {
  const missing = parts.map((part) => whyNot(told[part])).find((why) => why !== undefined)
  if (missing !== undefined) return missing
  const value = work(...parts.map((part) => told[part] as number))
  return typeof value === 'string' || Number.isFinite(value) ? value : 'What it is divided by is zero'
}

const partsOf = (input: MeasureInput): ToldParts => {
  const { begin, end } = input
  const average = (of: (position: Position) => number): Told =>
    begin === null
      ? 'The books say nothing of the beginning, so there is no average of the year'
      : (of(begin) + of(end)) / 2
  const currentLiabilities = input.dueUnknown ?? end.currentLiabilities
  const fromOperations = input.grossRevenue - input.operatingExpense - input.depreciation - input.interest
  return {
    currentAssets: end.currentAssets,
    currentLiabilities,
    workingCapital:
      typeof currentLiabilities === 'string' ? currentLiabilities : end.currentAssets - currentLiabilities,
    totalAssets: end.totalAssets,
    totalLiabilities: end.totalLiabilities,
    equity: end.totalAssets - end.totalLiabilities,
    averageAssets: average(({ totalAssets }) => totalAssets),
    averageEquity: average(({ totalAssets, totalLiabilities }) => totalAssets - totalLiabilities),
    grossRevenue: input.grossRevenue,
    operatingExpense: input.operatingExpense,
    depreciation: input.depreciation,
    interest: input.interest,
    capitalGain: input.capitalGain,
    fromOperations,
    netFarmIncome: fromOperations + input.capitalGain,
    unpaidLabor: input.unpaidLabor ?? 'Enter what your own unpaid work is worth',
    ...repaymentParts(input, fromOperations),
  }
}

const noHousehold = 'The household’s income and living costs are not in these books'

type Repayment = Pick<
  ToldParts,
  | 'offFarmIncome'
  | 'incomeTax'
  | 'familyLiving'
  | 'termInterest'
  | 'operatingInterest'
  | 'termPayments'
  | 'duePayments'
  | 'unpaidOperatingDebt'
  | 'replacement'
  | 'capacity'
  | 'margin'
>

const noRepayment: Repayment = {
  offFarmIncome: noHousehold,
  incomeTax: noHousehold,
  familyLiving: noHousehold,
  termInterest: noHousehold,
  operatingInterest: noHousehold,
  termPayments: noHousehold,
  duePayments: noHousehold,
  unpaidOperatingDebt: noHousehold,
  replacement: noHousehold,
  capacity: noHousehold,
  margin: noHousehold,
}

const repaymentParts = (
  { repayment, depreciation, interest }: MeasureInput,
  fromOperations: number,
): Repayment => {
  if (repayment === null) return noRepayment
  const termPayments = repayment.termPrincipal + repayment.termInterest
  const capacity =
    fromOperations +
    repayment.offFarmIncome +
    depreciation +
    repayment.termInterest -
    repayment.incomeAndSelfEmploymentTax -
    repayment.familyLiving
  return {
    offFarmIncome: repayment.offFarmIncome,
    incomeTax: repayment.incomeAndSelfEmploymentTax,
    familyLiving: repayment.familyLiving,
    termInterest: repayment.termInterest,
    operatingInterest: interest - repayment.termInterest,
    termPayments,
    // The same amount as in the rows beside it: nothing was paid, which is known.
    duePayments:
      termPayments > 0
        ? termPayments
        : {
            cents: termPayments,
            why: repayment.hasTermDebt
              ? 'Term debt is owed, and no payment on it was made in the year'
              : 'There is no term debt',
          },
    unpaidOperatingDebt: repayment.unpaidOperatingDebt,
    replacement: repayment.replacement ?? 'Enter the cash needed a year to replace what wears out',
    capacity,
    margin: capacity - termPayments - repayment.unpaidOperatingDebt,
  }
}
