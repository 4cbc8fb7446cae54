// The figures of one return under the names that the states' rules use, as one flat array that is filled again and again.

/** Figures of each filer: the return has their sum. */
export const personNames = [
  'wages',
  'selfEmployment',
  'pension',
  'ira',
  'socialSecurity',
  'socialSecurityTaxable',
  'interest',
  'dividends',
  'qualifiedDividends',
  'longTermGains',
  'shortTermGains',
  'usInterest',
  'exemptInterest',
  'rental',
  'other',
  'halfSeTax',
  'seTax',
  'ficaTax',
  'farmGains',
] as const

/** Figures of the return as a whole, most of them of the federal one. */
export const returnNames = [
  'federalAgi',
  'federalTaxable',
  'federalTax',
  'eitc',
  'childCredit',
  'childCreditRefundable',
  'qbi',
  'adjustments',
  'seniorDeduction',
  'propertyTax',
  'rent',
  'priorYearTax',
  'qualifiedProduction',
  'federalBasicDeduction',
  /** For each filer of 65, and again for each who is blind. */
  'federalAgedAddition',
  /** Of a person alone, and of each further one. */
  'povertyFirst',
  'povertyEach',
  'capitalLossLimit',
  'coupleAgedCount',
  'coupleAgiLessSocialSecurity',
] as const

/** Worked from those above; `derived-figures.ts` says how. */
export const derivedNames = [
  'one',
  'size',
  'agedCount',
  'agedBlindBoxes',
  'olderAge',
  'youngerAge',
  'age',
  'qualifyingChildren',
  'povertyLine',
  'povertyLineUpTo4',
  'federalStandardDeduction',
  'gains',
  'longNet',
  'earned',
  'retirement',
  'profit',
  'wagesAndProfit',
  'selfEmploymentLoss',
  'gross',
  'ownIncome',
  'householdGross',
  'grossPositive',
  'grossAllMoney',
  'grossFrom62',
  'retirementFrom62',
  'federalTaxNet',
  'federalTaxNetOfChild',
  'earnedOrAgi',
  'adjustmentsLessHalfSeTax',
  'investment',
  'halfSocialSecurity',
  'untaxedSocialSecurity',
  'householdIncome',
  'householdResources',
  'lesserEarned',
  'lesserGrossEarned',
  'lesserQualifying',
  'marriageIncome',
  'lesserMarriage',
  'pensionAndEarned',
  'lesserPensionAndEarned',
  'lesserOwnLessPension',
] as const

/** What the steps of the state's own return leave for later ones. */
const stepNames = [
  'stateGross',
  'subtractions',
  'stateAgi',
  'familySizeIncome',
  'deductions',
  'exemptions',
  'taxable',
  'creditIncome',
  'scheduleTax',
  'taxBefore',
  'tax',
] as const

const allNames = [...personNames, ...returnNames, ...derivedNames, ...stepNames] as const
export type FigureName = (typeof allNames)[number]

/** Where each figure stands: the return's, then the first and the second filer's. */
export const places = Object.fromEntries(allNames.map((name, i) => [name, 3 * i])) as Record<
  FigureName,
  number
>
export const firstFreePlace = 3 * allNames.length
export const personPlaces = personNames.map((name) => places[name])

export interface ReturnForm {
  v: Float64Array
  /** 0 single, 1 joint, 2 head of household, 3 separate. */
  status: number
  filers: number
  age: [number, number]
  /** 1 for blind. */
  blind: [number, number]
  dependants: number
  /** Ages of the dependants: as many as there are count, others are of an earlier filling. */
  dependantAge: number[]
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
  dependants: 0,
  dependantAge: [],
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
