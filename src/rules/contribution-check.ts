// Whether the contributions of a return are within the year's limits, and how much of a traditional IRA may be deducted.
import {
  type ContributionLimits,
  contributionLimits,
  deductibleIra,
  rothAllowed,
} from './contribution-limits.ts'
import type { Indexing } from './dated.ts'
import { type HouseholdYear, householdSize } from './household-year.ts'
import type { LawYear } from './law-year.ts'
import { type OwnPlanKind, ownPlanKinds, ownPlanLimit } from './own-plan-limits.ts'
import { emptyReturnLines, type ReturnLines, workReturn } from './return/return-lines.ts'

export interface ContributionFault {
  field: 'traditionalIra' | 'rothIra' | OwnPlanKind | 'hsa'
  /** The most that may be contributed, dollars. */
  most: number
  /** Why, as a sentence that can stand at the field. */
  says: string
}

/** 404(a)(8) from memory. */
const ownPlanReasons: Readonly<Record<OwnPlanKind, string>> = {
  sep: 'a fifth of profit less half of its tax, for each of you (26 USC 404(a)(8))',
  simple: 'the year’s deferral and a match of net earnings, for each of you (26 USC 408(p))',
  solo401k:
    'a fifth of profit less half of its tax, and the year’s deferral, for each of you (26 USC 402(g), 415(c))',
}

/**
 * Contributions over a limit of the year; empty when all are within. Sums of everyone on the return; `own`: into which plan of the
 * own business how much of `household.sep` goes.
 */
export const contributionFaults = (
  law: LawYear,
  household: HouseholdYear,
  own: Readonly<Record<OwnPlanKind, number>>,
  indexing: Indexing,
): ContributionFault[] => {
  const lines = linesOf(law, household)
  const limits = limitsOf(law, household, indexing)
  const faults: ContributionFault[] = []
  const check = (field: ContributionFault['field'], amount: number, most: number, because: string): void => {
    const cents = Math.round(most * 100) / 100
    if (amount > cents + 0.005)
      faults.push({ field, most: cents, says: `Enter at most ${cents} for ${law.year}: ${because}` })
  }
  for (const kind of ownPlanKinds) {
    const most = sum(limits.map((one, place) => ownPlanMost(kind, lines, place, one)))
    check(kind, own[kind], most, ownPlanReasons[kind])
  }
  check(
    'hsa',
    household.hsa,
    hsaMost(household, limits),
    'the year’s limit of health savings accounts (26 USC 223(b))',
  )
  const compensation = compensationOf(lines, household)
  const ira = Math.min(sum(limits.map((one) => one.ira)), compensation)
  const both =
    'traditional and Roth together up to the year’s limit and to what was earned (26 USC 219(b), (c))'
  check('traditionalIra', household.traditionalIra, ira, both)
  check('rothIra', household.rothIra, Math.max(0, ira - household.traditionalIra), both)
  const roth = sum(limits.map((one) => rothOf(law, household, one, lines)))
  check('rothIra', household.rothIra, roth, 'Roth contributions end at this income (26 USC 408A(c)(3))')
  return faults.filter((fault, at) => faults.findIndex(({ field }) => field === fault.field) === at)
}

/** The most of each person on the return, cents rounded, dollars: into IRAs of both kinds, and into each plan of the own business. */
export const roomsByPerson = (
  law: LawYear,
  household: HouseholdYear,
  indexing: Indexing,
): { ira: number; own: Record<OwnPlanKind, number> }[] => {
  const lines = linesOf(law, household)
  return limitsOf(law, household, indexing).map((limits, place) => ({
    ira: limits.ira,
    own: Object.fromEntries(
      ownPlanKinds.map((kind) => [kind, Math.round(ownPlanMost(kind, lines, place, limits) * 100) / 100]),
    ) as Record<OwnPlanKind, number>,
  }))
}

/**
 * The part of `household.traditionalIra` that may be deducted (26 USC 219(g)), dollars. `covered`: by person, whether a plan at
 * work or of the own business counts; the money is taken to lie where it can be deducted. Income is that of the return without
 * the deduction.
 */
export const deductibleTraditionalIra = (
  law: LawYear,
  household: HouseholdYear,
  covered: readonly boolean[],
  indexing: Indexing,
): number => {
  const income = incomeWithoutIra(law, household)
  const limits = limitsOf(law, household, indexing)
  const most = limits.map((one, place) =>
    deductibleIra(
      law,
      household.status,
      one.ira,
      income,
      covered[place] ?? false,
      covered[1 - place] ?? false,
    ),
  )
  return Math.min(household.traditionalIra, sum(most))
}

const linesOf = (law: LawYear, household: HouseholdYear): ReturnLines => {
  const lines = emptyReturnLines()
  workReturn(law, household, lines, false)
  return lines
}

const limitsOf = (law: LawYear, household: HouseholdYear, indexing: Indexing): ContributionLimits[] =>
  household.age.slice(0, household.people).map((age) => contributionLimits(law.year, age, indexing))

/** Wages and net profit after half of its tax and the plan contributions; on a joint return either may use the other's. */
const compensationOf = ({ business }: ReturnLines, household: HouseholdYear): number => {
  const earned = business.people.map((one) => Math.max(0, one.farmProfit + one.otherProfit - one.half))
  return business.wages / 100 + Math.max(0, sum(earned) / 100 - household.sep)
}

const ownPlanMost = (
  kind: OwnPlanKind,
  { business }: ReturnLines,
  place: number,
  limits: ContributionLimits,
): number => {
  const { farmProfit, otherProfit, netEarnings, half } = business.people[place]!
  return ownPlanLimit(kind, limits, (farmProfit + otherProfit) / 100, netEarnings / 100, half / 100)
}

/** Family cover wherever more than one person belongs to the household; each catch-up in an account of its own. */
const hsaMost = (household: HouseholdYear, limits: readonly ContributionLimits[]): number => {
  const [first, second] = limits
  if (householdSize(household) === 1) return first!.hsaSelfOnly
  return first!.hsaFamily + (second?.hsaCatchUp ?? 0)
}

const rothOf = (
  law: LawYear,
  household: HouseholdYear,
  limits: ContributionLimits,
  { taxable }: ReturnLines,
): number => {
  const income = taxable.adjustedGrossIncome / 100 + household.traditionalIra
  return rothAllowed(law, household.status, limits.ira, income)
}

const incomeWithoutIra = (law: LawYear, household: HouseholdYear): number => {
  const { taxable } = linesOf(law, { ...household, traditionalIra: 0 })
  return taxable.adjustedGrossIncome / 100
}

const sum = (amounts: readonly number[]): number => amounts.reduce((all, one) => all + one, 0)
