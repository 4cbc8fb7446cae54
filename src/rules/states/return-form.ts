// The figures of one return under the names that the states' rules use, as one flat array that is filled again and again.

// Where each figure stands: the return's, then the first and the second filer's. Written as literals, which the engine reads quickest.
let last = -3
const next = (): number => {
  last += 3
  return last
}

/** Figures of each filer: the return has their sum. */
export const person = {
  wages: next(),
  selfEmployment: next(),
  pension: next(),
  ira: next(),
  socialSecurity: next(),
  socialSecurityTaxable: next(),
  interest: next(),
  dividends: next(),
  qualifiedDividends: next(),
  longTermGains: next(),
  shortTermGains: next(),
  usInterest: next(),
  exemptInterest: next(),
  rental: next(),
  other: next(),
  halfSeTax: next(),
  seTax: next(),
  ficaTax: next(),
  farmGains: next(),
  /** Of `ira`, out of accounts that were inherited. */
  iraInherited: next(),
}

/** Figures of the return as a whole, most of them of the federal one. */
export const whole = {
  federalAgi: next(),
  federalTaxable: next(),
  federalTax: next(),
  eitc: next(),
  childCredit: next(),
  childCreditRefundable: next(),
  qbi: next(),
  adjustments: next(),
  seniorDeduction: next(),
  propertyTax: next(),
  rent: next(),
  priorYearTax: next(),
  qualifiedProduction: next(),
  /** Put into health savings and deducted on the federal return. */
  healthSavings: next(),
  federalBasicDeduction: next(),
  /** For each filer of 65, and again for each who is blind. */
  federalAgedAddition: next(),
  /** Of a person alone, and of each further one. */
  povertyFirst: next(),
  povertyEach: next(),
  capitalLossLimit: next(),
  coupleAgedCount: next(),
  coupleAgiLessSocialSecurity: next(),
}

/** Worked from those above; `derived-figures.ts` says how. */
export const derived = {
  one: next(),
  size: next(),
  agedCount: next(),
  agedBlindBoxes: next(),
  olderAge: next(),
  youngerAge: next(),
  age: next(),
  qualifyingChildren: next(),
  povertyLine: next(),
  povertyLineUpTo4: next(),
  federalStandardDeduction: next(),
  gains: next(),
  longNet: next(),
  earned: next(),
  retirement: next(),
  iraOwn: next(),
  profit: next(),
  wagesAndProfit: next(),
  selfEmploymentLoss: next(),
  gross: next(),
  ownIncome: next(),
  householdGross: next(),
  grossPositive: next(),
  grossAllMoney: next(),
  grossFrom62: next(),
  retirementFrom62: next(),
  federalTaxNet: next(),
  federalTaxNetOfChild: next(),
  earnedOrAgi: next(),
  adjustmentsLessHalfSeTax: next(),
  investment: next(),
  halfSocialSecurity: next(),
  untaxedSocialSecurity: next(),
  householdIncome: next(),
  householdResources: next(),
  lesserEarned: next(),
  lesserGrossEarned: next(),
  lesserQualifying: next(),
  marriageIncome: next(),
  lesserMarriage: next(),
  pensionAndEarned: next(),
  lesserPensionAndEarned: next(),
  lesserOwnLessPension: next(),
}

/** What the steps of the state's own return leave for later ones. */
export const step = {
  stateGross: next(),
  subtractions: next(),
  stateAgi: next(),
  familySizeIncome: next(),
  deductions: next(),
  exemptions: next(),
  taxable: next(),
  creditIncome: next(),
  scheduleTax: next(),
  /** Before and after what a couple's two incomes make of it; then what they give as a credit. */
  taxOfWhole: next(),
  taxBefore: next(),
  spousesCredit: next(),
  tax: next(),
}

/** Every figure's place by its name. */
export const places = { ...person, ...whole, ...derived, ...step }
export type FigureName = keyof typeof places
export const firstFreePlace = next()
export const personPlaces = Object.values(person)

export interface ReturnForm {
  v: Float64Array
  /** 0 single, 1 joint, 2 head of household, 3 separate. */
  status: number
  filers: number
  age: [number, number]
  /** 1 for blind. */
  blind: [number, number]
  dependents: number
  /** Ages of the dependents: as many as there are count, others are of an earlier filling. */
  dependentAge: number[]
  /** Children for the federal earned income credit. */
  children: number
  /** By scale: how far amounts have moved with prices since they were published. See `scale.ts`. */
  index: [number, number, number]
  /** Years since the newest rules: what is told by year of birth is so much older. */
  yearsOn: number
}

/** `length` is 3 for every name. */
export const emptyReturnForm = (length: number): ReturnForm => ({
  v: new Float64Array(length),
  status: 0,
  filers: 1,
  age: [0, 0],
  blind: [0, 0],
  dependents: 0,
  dependentAge: [],
  children: 0,
  index: [1, 1, 1],
  yearsOn: 0,
})

/** A figure of the return; each filer reads the same. */
export const setFigure = ({ v }: ReturnForm, place: number, amount: number): void => {
  v[place] = amount
  v[place + 1] = amount
  v[place + 2] = amount
}

/** A figure of each filer, and their sum. */
export const setEach = ({ v }: ReturnForm, place: number, first: number, second: number): void => {
  v[place] = first + second
  v[place + 1] = first
  v[place + 2] = second
}
