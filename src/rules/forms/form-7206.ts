// Form 7206 line by line: premiums of health cover, what the business under which they stand leaves for them, and the deduction.

import { cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { HouseholdYear } from '../household-year.ts'
import { businessOfPlan } from '../return/earned-income-limit.ts'
import type { ReturnLines } from '../return/return-lines.ts'
import { wholeCents } from '../rounding.ts'

/** Whole cents; line 6 is a fraction. */
export interface Form7206Line {
  line: string
  says: string
  amount: number
  isShare?: true
}

/**
 * Lines of Form 7206; empty where nobody paid premiums or has a business. Long-term care cover (line 2), corporations (line 11) and
 * income from abroad (line 12) are not asked here. Marketplace premiums come in by what Pub. 974 lets in beside their credit.
 */
export const form7206 = (
  household: Pick<HouseholdYear, 'otherHealthPremiums' | 'sep'>,
  { business, cover }: Pick<ReturnLines, 'business' | 'cover'>,
): Form7206Line[] => {
  const under = businessOfPlan(business.people, wholeCents(household.sep))
  const other = wholeCents(household.otherHealthPremiums)
  if (under === null || other + cover.from.deductiblePremium === 0) return []
  const { owner, profit, isOptional } = under
  const rows: Form7206Line[] = [
    { line: '1', says: 'Premiums of other cover than the marketplace’s', amount: other },
    ...(cover.from.deductiblePremium === 0
      ? []
      : [
          {
            line: '1',
            says: `Marketplace premiums, of ${formatCentsPlain(cents(cover.from.deductiblePremium))}, as far as credit and income leave them (Pub. 974)`,
            amount: cover.deduction,
          },
        ]),
    { line: '3', says: 'Premiums that count', amount: other + cover.deduction },
    {
      line: '4',
      says: isOptional
        ? 'Earned in the business, as an optional method reports it'
        : 'Profit of the business under which the cover stands',
      amount: profit,
    },
  ]
  const ends = [
    { line: '13', says: 'What the business leaves for premiums', amount: business.earnedLimit },
    {
      line: '14',
      says: 'Deduction: line 3 or 13, whichever is less, to Schedule 1 line 17',
      amount: cover.healthDeduction,
    },
  ]
  if (isOptional) return [...rows, ...ends]
  return [
    ...rows,
    { line: '5', says: 'Profits of all businesses of the same person', amount: owner.profits },
    { line: '6', says: 'Line 4 as a part of line 5', amount: profit / owner.profits, isShare: true },
    { line: '7', says: 'Half of self-employment tax, by that part', amount: owner.half },
    { line: '8', says: 'Line 4 less line 7', amount: profit - owner.half },
    { line: '9', says: 'Put into plans of the business, its part', amount: owner.plan },
    { line: '10', says: 'Line 8 less line 9', amount: profit - owner.half - owner.plan },
    ...ends,
  ]
}
