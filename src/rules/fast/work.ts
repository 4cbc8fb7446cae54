// Scratch lines of the fast return, shared by its parts.

/** Lines of one run in whole cents, overwritten whole by every call: a thread works one return at a time. */
export const work = {
  wages: 0,
  profit: 0,
  business: 0,
  half: 0,
  selfEmploymentTax: 0,
  net: 0,
  earned: 0,
  withheldSocial: 0,
  earnedLimit: 0,
  gains: 0,
  preferred: 0,
  investment: 0,
  beforeBenefits: 0,
  benefits: 0,
  exempt: 0,
  adjustments: 0,
  healthDeduction: 0,
  excess: 0,
  adjusted: 0,
  taxable: 0,
  qbi: 0,
  beforeCredits: 0,
  others: 0,
  itemizing: 0,
}
