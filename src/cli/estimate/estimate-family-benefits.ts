// What a family is paid on the record that `estimate --kind social-security` was given: spouse, children, and all of them after a death.
import { z } from 'zod'
import { birthMonthByLaw } from '#rules/age-by-law.ts'
import { familyMaximumShares, familyShares } from '#rules/data/social-security.ts'
import { inForce } from '#rules/in-force.ts'
import type { Trace } from '#rules/return/trace.ts'
import { downToDime, downToDollar } from '#rules/rounding.ts'
import type { BenefitLaw } from '#rules/social-security/benefit-law.ts'
import {
  benefitBirthYear,
  childUntilMonths,
  claimFactor,
  inCareUntilMonths,
  spouseFactor,
  survivorFromMonths,
  survivorFullAgeMonths,
} from '#rules/social-security/claim-factors.ts'
import {
  type BenefitPerson,
  benefitPerson,
  householdBenefits,
  ofChildren,
  setPrimaryAmounts,
  survivorAmount,
} from '#rules/social-security/household-benefits.ts'
import { alive, type EarningsRecord, type PrimaryAmount } from '#rules/social-security/primary-amount.ts'
import { claimAgeInput, dayInput, dollarsInput, factLine, yearInput } from './estimate-fields.ts'

export const familyInput = {
  spouse: z
    .strictObject({
      born: dayInput(),
      ownPrimaryAmount: dollarsInput().default(0),
      claimAge: claimAgeInput(),
    })
    .optional(),
  children: z.array(dayInput()).max(12).default([]),
  diesIn: yearInput().optional(),
}

type Input = z.output<z.ZodObject<typeof familyInput>> & {
  born: string
  claimAge: { years: number; months: number }
}

const shares = inForce(familyShares, Number.POSITIVE_INFINITY)

export interface FamilyFigures {
  spousePart?: number
  survivorBenefit?: number
  familyMaximum: number
  /** Each child, and a parent who cares for one, in the month of the claim, whole dollars as paid. */
  eachChild?: number
  afterDeath?: AfterDeath
}

interface AfterDeath {
  primaryInsuranceAmount: number
  familyMaximum: number
  children: number
  eachChild: number
  /** The spouse in the January after the death: for a child in care, or as a widow or widower. */
  spouse: number
  /** A widow or widower alone, from 60 and from full age. */
  fromSixty: number
  atFullAge: number
}

/** `worked` null: the record has too few quarters. */
export const familyFigures = (
  input: Input,
  law: BenefitLaw,
  record: EarningsRecord,
  claimMonth: number,
  worked: PrimaryAmount | null,
): FamilyFigures => {
  const primary = worked?.amount ?? 0
  const out: FamilyFigures = { familyMaximum: worked?.familyMaximum ?? 0 }
  const worker = benefitPerson(record, birthMonthByLaw(input.born), claimMonth)
  worker.primary = primary
  worker.familyMaximum = out.familyMaximum
  if (input.spouse) {
    const bornYear = benefitBirthYear(input.spouse.born)
    const startAge = input.spouse.claimAge.years * 12 + input.spouse.claimAge.months
    const excess = Math.max(0, downToDime(shares.spouse! * primary) - input.spouse.ownPrimaryAmount)
    const factor = claimFactor(record.bornYear, claimMonth - worker.bornMonth)
    out.spousePart = downToDime(excess * spouseFactor(bornYear, startAge))
    out.survivorBenefit = survivorAmount(
      downToDime(primary * Math.max(1, factor)),
      primary,
      factor,
      bornYear,
      survivorFullAgeMonths(bornYear),
    )
  }
  const living = childrenIn(input, claimMonth)
  if (living.count > 0) out.eachChild = paidIn(worker, spouseOf(input), living, claimMonth).child
  if (input.diesIn !== undefined) out.afterDeath = afterDeath(input, law, worker, input.diesIn)
  return out
}

/** A death at the end of the year, the benefits of the next January. */
const afterDeath = (input: Input, law: BenefitLaw, worker: BenefitPerson, diesIn: number): AfterDeath => {
  const january = (diesIn + 1) * 12
  const dead = { ...worker, deathMonth: january - 1 }
  const spouse = spouseOf(input)
  setPrimaryAmounts(law, dead, spouse, diesIn + 1, true)
  const children = childrenIn(input, january)
  const paid = paidIn(dead, spouse, children, january)
  const factor =
    dead.claimMonth < january ? claimFactor(dead.record.bornYear, dead.claimMonth - dead.bornMonth) : 1
  const widowed = (age: number) =>
    spouse === null
      ? 0
      : survivorAmount(
          downToDime(dead.survivorPrimary * Math.max(1, factor)),
          dead.survivorPrimary,
          factor,
          spouse.record.bornYear,
          age,
        )
  return {
    primaryInsuranceAmount: dead.primary,
    familyMaximum: dead.familyMaximum,
    children: children.count,
    eachChild: paid.child,
    spouse: paid.spouse,
    fromSixty: widowed(survivorFromMonths),
    atFullAge: spouse === null ? 0 : widowed(survivorFullAgeMonths(spouse.record.bornYear)),
  }
}

const spouseOf = ({ spouse }: Input): BenefitPerson | null => {
  if (!spouse) return null
  const bornMonth = birthMonthByLaw(spouse.born)
  const claimMonth = bornMonth + spouse.claimAge.years * 12 + spouse.claimAge.months
  const record = { bornYear: benefitBirthYear(spouse.born), earnings: new Float64Array(0) }
  return { ...benefitPerson(record, bornMonth, claimMonth, alive), primary: spouse.ownPrimaryAmount }
}

const childrenIn = (input: Input, month: number) => {
  const below = (limit: number) =>
    input.children.filter((born) => {
      const age = month - birthMonthByLaw(born)
      return age >= 0 && age < limit
    }).length
  return { count: below(childUntilMonths), inCare: below(inCareUntilMonths) > 0 }
}

const paidIn = (
  worker: BenefitPerson,
  spouse: BenefitPerson | null,
  children: ReturnType<typeof childrenIn>,
  month: number,
) => {
  const out = new Float64Array(4)
  householdBenefits(worker, spouse, children, month, out)
  return { spouse: out[1]!, child: children.count > 0 ? downToDollar(out[ofChildren]! / children.count) : 0 }
}

export const familyTrace = (input: Input, family: FamilyFigures): Trace => [
  ...(input.spouse
    ? [
        factLine('spousePart', family.spousePart!, familyShares, {
          ownPrimaryAmount: input.spouse.ownPrimaryAmount,
        }),
        factLine('survivorBenefit', family.survivorBenefit!, familyShares, {
          startsAt: 'full age for survivors',
        }),
      ]
    : []),
  ...(family.eachChild === undefined ? [] : [factLine('eachChild', family.eachChild, familyShares, {})]),
  ...(family.afterDeath
    ? [
        factLine('afterDeath', family.afterDeath.familyMaximum, familyMaximumShares, {
          primaryInsuranceAmount: family.afterDeath.primaryInsuranceAmount,
          children: family.afterDeath.children,
        }),
      ]
    : []),
]
