// Form 8995 line by line: what each business brings to the qualified business income deduction, and how the deduction comes of it.
import { allocate } from '#money/allocate.ts'
import { cents } from '#money/cents.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { businessOfPlan } from '../return/earned-income-limit.ts'
import { incomeLimit, isOverThreshold, qualifiedFifth } from '../return/qualified-business.ts'
import type { ReturnLines } from '../return/return-lines.ts'
import { wholeCents } from '../rounding.ts'

/** One business of one of those who sign; `owner` is their place. */
export interface OwnedBusiness {
  name: string
  owner: 0 | 1
  isFarm: boolean
  /** Whole cents, below 0 for a loss. */
  profit: number
}

/** Line 1, whole cents: profit, what it lost or gained on property, and what comes off; `income` is column (c). */
export interface QualifiedLine {
  line: string
  name: string
  profit: number
  half: number
  health: number
  plans: number
  income: number
}

/** Whole cents. */
export interface Form8995Line {
  line: string
  says: string
  amount: number
}

export interface Form8995 {
  businesses: QualifiedLine[]
  lines: Form8995Line[]
  /** Income is over the threshold: Form 8995-A takes the place of this one, and only lines that it shares are told. */
  isOverThreshold: boolean
}

/**
 * Null where there is no business and none left a loss. Half of the tax goes by the profits of its owner, contributions to plans by
 * all profits, premiums to the business under which the cover stands. Dividends of real estate trusts (lines 6 to 9) are not asked here.
 */
export const form8995 = (
  law: LawYear,
  household: HouseholdYear,
  lines: ReturnLines,
  owned: readonly OwnedBusiness[],
): Form8995 | null => {
  const { taxable, left } = lines
  const carried = wholeCents(household.carried.qualifiedBusiness)
  const businesses = businessLines(household, lines, owned)
  if (businesses.length === 0 && carried === 0) return null
  const total = taxable.business.income - taxable.qualifiedLoss + carried
  const isOver = isOverThreshold(law, household.status, taxable.business)
  const { taxableBefore, gains } = taxable.business
  const fifth = qualifiedFifth(law, taxable.business)
  const overall = incomeLimit(law, taxable.business)
  const least = taxable.qbiDeduction > Math.min(fifth, overall)
  return {
    businesses,
    isOverThreshold: isOver,
    lines: [
      { line: '2', says: 'Income or loss of all businesses', amount: total },
      { line: '3', says: 'Loss of earlier years', amount: -carried },
      { line: '4', says: 'Lines 2 and 3 together, never below 0', amount: taxable.business.income },
      ...(isOver
        ? []
        : [
            { line: '5', says: 'A fifth of line 4', amount: fifth },
            { line: '10', says: 'Deduction before the income limitation', amount: fifth },
          ]),
      { line: '11', says: 'Taxable income before this deduction', amount: taxableBefore },
      { line: '12', says: 'Net capital gain and qualified dividends', amount: gains },
      { line: '13', says: 'Line 11 less line 12, never below 0', amount: Math.max(0, taxableBefore - gains) },
      { line: '14', says: 'Income limitation: a fifth of line 13', amount: overall },
      {
        line: '15',
        says: isOver
          ? 'Deduction after the limits of wages and property, worked as on Form 8995-A'
          : least
            ? 'Deduction: the least for active business income (26 USC 199A(i)), more than line 10 or 14'
            : 'Deduction: line 10 or 14, whichever is less',
        amount: taxable.qbiDeduction,
      },
      { line: '16', says: 'Loss for the next year', amount: -left.qualifiedBusiness },
    ],
  }
}

const businessLines = (
  household: HouseholdYear,
  { business, cover }: ReturnLines,
  owned: readonly OwnedBusiness[],
): QualifiedLine[] => {
  const plans = wholeCents(household.sep)
  const parts = owned.map(({ profit }) => Math.max(0, profit))
  const ofPlans = sharedBy(plans, parts, 0)
  const halves = [0, 1].map((place) =>
    sharedBy(
      business.people[place]!.half,
      parts.map((part, i) => (owned[i]!.owner === place ? part : 0)),
      owned.findIndex(({ owner }) => owner === place),
    ),
  )
  const insured = placeOfCover(businessOfPlan(business.people, plans), owned)
  const sold = business.section1231Loss + wholeCents(household.businessGains)
  const rows = [
    ...owned.map(({ name, profit, owner }, i) => ({
      name,
      profit,
      half: halves[owner]![i]!,
      health: i === insured ? cover.healthDeduction : 0,
      plans: ofPlans[i]!,
    })),
    ...(sold === 0
      ? []
      : [{ name: 'Property of businesses sold, Form 4797', profit: sold, half: 0, health: 0, plans: 0 }]),
  ]
  return rows.map((row, i) => ({
    line: `1${numerals[i] ?? i + 1}`,
    ...row,
    income: row.profit - row.half - row.health - row.plans,
  }))
}

/** By the parts; all to place `other` where no part is above 0, as under an optional method. */
const sharedBy = (amount: number, parts: readonly number[], other: number): number[] =>
  parts.some((part) => part > 0)
    ? allocate(cents(amount), parts)
    : parts.map((_, i) => (i === other ? amount : 0))

/** Of an owner's several businesses of one form, the one with the most profit. */
const placeOfCover = (under: ReturnType<typeof businessOfPlan>, owned: readonly OwnedBusiness[]): number => {
  if (under === null) return -1
  let place = -1
  owned.forEach(({ owner, isFarm, profit }, i) => {
    if (owner === under.place && isFarm === under.isFarm && (place < 0 || profit > owned[place]!.profit))
      place = i
  })
  return place
}

const numerals = ['i', 'ii', 'iii', 'iv', 'v']
