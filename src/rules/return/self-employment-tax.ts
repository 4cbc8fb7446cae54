// Self-employment tax of one person (26 USC 1401, 1402; Schedule SE), with the farm and nonfarm optional methods. Whole cents.
import type { LawYear } from '../law-year.ts'
import { atRate } from '../rounding.ts'

/** Whole cents; `wages` are wages under Social Security, which use up the wage base first. */
export interface SelfEmployment {
  wages: number
  farmProfit: number
  otherProfit: number
  useFarmOptional: boolean
  farmGross: number
  useNonfarmOptional: boolean
  nonfarmGross: number
}

/** Whole cents. `farmOptional` and `nonfarmOptional` are the amounts reported by those methods, 0 when not used or not open. */
export interface SelfEmploymentTax {
  netEarnings: number
  socialSecurityPart: number
  medicarePart: number
  tax: number
  half: number
  farmOptional: number
  nonfarmOptional: number
  /** What the earned income credit counts before the half deduction: profits, or the optional amounts in their place. */
  earned: number
}

export const selfEmploymentTax = (law: LawYear, person: SelfEmployment): SelfEmploymentTax => {
  const out = noSelfEmploymentTax()
  workSelfEmployment(law, person, out)
  return out
}

export const noSelfEmploymentTax = (): SelfEmploymentTax => ({
  netEarnings: 0,
  socialSecurityPart: 0,
  medicarePart: 0,
  tax: 0,
  half: 0,
  farmOptional: 0,
  nonfarmOptional: 0,
  earned: 0,
})

/** The same written into `out`, for callers that work many returns. */
export const workSelfEmployment = (law: LawYear, person: SelfEmployment, out: SelfEmploymentTax): void => {
  const farmOptional = farmOptionalAmount(law, person)
  const nonfarmOptional = nonfarmOptionalAmount(law, person, farmOptional)
  const regular = (farmOptional > 0 ? 0 : person.farmProfit) + (nonfarmOptional > 0 ? 0 : person.otherProfit)
  const counted = regular > 0 ? atRate(regular, law.selfEmploymentFactor) : regular
  const reached = counted + farmOptional + nonfarmOptional
  out.netEarnings = reached < law.selfEmploymentMinimum * 100 ? 0 : reached
  const baseLeft = Math.max(0, law.wageBase * 100 - person.wages)
  out.socialSecurityPart = atRate(Math.min(out.netEarnings, baseLeft), law.selfEmploymentSocialSecurityRate)
  out.medicarePart = atRate(out.netEarnings, law.selfEmploymentMedicareRate)
  out.tax = out.socialSecurityPart + out.medicarePart
  out.half = atRate(out.tax, 0.5)
  out.farmOptional = farmOptional
  out.nonfarmOptional = nonfarmOptional
  out.earned = regular + farmOptional + nonfarmOptional
}

/** Two thirds of gross farm income up to the maximum, when gross or net farm income is low enough; else 0. */
const farmOptionalAmount = (law: LawYear, person: SelfEmployment): number => {
  if (!person.useFarmOptional || person.farmGross <= 0) return 0
  const open =
    person.farmGross <= law.farmOptionalGrossLimit * 100 || person.farmProfit < law.optionalNetLimit * 100
  return open ? Math.min(twoThirds(person.farmGross), law.optionalMethodMax * 100) : 0
}

/** The same for other self-employment: net profit low in dollars and against gross; the farm amount uses up the maximum first. */
const nonfarmOptionalAmount = (law: LawYear, person: SelfEmployment, farmOptional: number): number => {
  if (!person.useNonfarmOptional || person.nonfarmGross <= 0) return 0
  const open =
    person.otherProfit < law.optionalNetLimit * 100 &&
    person.otherProfit < atRate(person.nonfarmGross, law.nonfarmOptionalShareLimit)
  if (!open) return 0
  return Math.max(0, Math.min(twoThirds(person.nonfarmGross), law.optionalMethodMax * 100 - farmOptional))
}

const twoThirds = (cents: number): number => Math.floor((cents * 2) / 3 + 0.5)
