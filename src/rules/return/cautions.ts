// What a return leaves out or assumes, said only where it may matter for the household at hand.

import { marriedSeparate } from '../filing-status.ts'
import type { HouseholdYear } from '../household-year.ts'
import type { LawYear } from '../law-year.ts'
import { methodBracketed, methodUpToLine } from '../marketplace/deduction-and-credit.ts'
import type { ReturnLines } from './return-lines.ts'

export const cautionsFor = (law: LawYear, household: HouseholdYear, lines: ReturnLines): string[] => {
  const { cover, taxable, taxes, business, left } = lines
  const said: string[] = []
  const say = (when: boolean, text: string): void => {
    if (when) said.push(text)
  }
  say(
    law.basis === 'projected',
    `The law of ${law.year} is not fully published: ${law.projected.length} of its figures are carried forward.`,
  )
  say(
    cover.method === methodBracketed,
    'The premium credit and the health deduction have no exact common answer by repeated steps: they were enclosed to the cent and together stay within the premiums.',
  )
  say(
    cover.method === methodUpToLine,
    'The steps of Rev. Proc. 2014-41 never settle near the line where the premium credit ends: there is no credit, and the health deduction stops where it would bring the income back under that line (26 CFR 1.162(l)-1(a)(1)).',
  )
  say(
    household.status === marriedSeparate && household.coverMonths > 0,
    'Married filing separately has no premium credit, apart from abuse or abandonment relief.',
  )
  say(
    cover.cover.months > 0 && cover.credit > 0 && cover.povertyPercent < law.creditFromPercent,
    'Income is under the federal poverty level: the credit is allowed only because an advance was paid on a good estimate.',
  )
  say(
    taxable.itemized > taxable.standard &&
      taxes.minimumTax === 0 &&
      taxable.adjustedGrossIncome > minimumTaxRange,
    'Alternative minimum tax might apply: state and local taxes among the itemized deductions are not known here.',
  )
  say(
    business.excessLoss > 0,
    'The business loss is above the limit of 26 USC 461(l): the rest becomes a net operating loss of the next year.',
  )
  say(
    left.shortTermLoss + left.longTermLoss > 0,
    'The capital loss above the yearly limit is carried to later years.',
  )
  say(
    left.farmLoss > 0,
    'The farming loss may be carried back two years instead of forward (26 USC 172(b)(1)(B)); the refund is claimed on Form 1045 or an amended return.',
  )
  say(
    household.section1231 > 0,
    'A gain on business property is ordinary as far as losses on such property of the five years before were: those are not asked for here (26 USC 1231(c)).',
  )
  return said
}

/** In whole cents: below this a couple's or single filer's income is far under the minimum tax exemption's reach. */
const minimumTaxRange = 200_000_00
