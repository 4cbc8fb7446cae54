// A figure of the return by the name that the worksheet prints.

/** Figures whose own name does not say enough. */
const longNames: Readonly<Record<string, string>> = {
  selfEmploymentTax: 'Self-employment tax',
  selfEmployedHealthDeduction: 'Self-employed health insurance deduction',
  qbiDeduction: 'Qualified business income deduction',
  saversCredit: 'Saver’s credit',
  netOperatingLossDeduction: 'Losses of other years taken off',
  'carried.netOperatingLoss': 'Left to later years: operating loss',
  'carried.farmLoss': 'Of it from farming, which may go back two years',
  'carried.qualifiedBusiness': 'Left to next year: business income below zero',
  'carried.shortTermLoss': 'Left to later years: short-term capital loss',
  'carried.longTermLoss': 'Left to later years: long-term capital loss',
  'carried.section179': 'Left to later years: section 179 deduction',
}

export const figureName = (figure: string): string => {
  const words = plainName(figure)
  return longNames[figure] ?? words.charAt(0).toUpperCase() + words.slice(1)
}

/** `adjustedGrossIncome` as words; `person1` as two. */
export const plainName = (name: string): string => name.replace(/([A-Z]|\d+)/g, ' $1').toLowerCase()
