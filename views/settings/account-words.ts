// What an account can be said to be, in the words of the pages.
import type {
  AccountPurpose,
  ContraKind,
  CurrentKind,
  PropertyLoanPart,
  SavingsKind,
  TaxKind,
} from '#ledger/account.ts'

export const purposeWords = {
  living: 'living',
  premium: 'health premiums',
  care: 'care',
  tax: 'income taxes',
  farm_food: 'food from the farm',
  debt: 'debt',
  pay: 'off-farm pay',
  benefit: 'benefits',
  interest: 'interest',
  retirement: 'retirement',
} as const satisfies Record<AccountPurpose, string>

export const taxWords = {
  federal: 'federal tax on income and self-employment',
  state: 'state income tax, with local tax paid in it',
  local: 'local tax: city, county or school',
  sales: 'sales tax',
  payroll: 'Social Security and Medicare, of workers or kept from pay',
  unrealized: 'not taxed yet: gained or lost in value, not sold',
} as const satisfies Record<TaxKind, string>

export const savingsWords = {
  cash: 'cash and savings',
  taxable: 'taxable investments',
  traditional: 'traditional retirement',
  roth: 'Roth retirement',
  health: 'health savings',
} as const satisfies Record<SavingsKind, string>

export const currentKindWords = {
  receivable: 'owed to us',
  prepaid: 'paid ahead',
  supplies: 'supplies on hand',
  crops: 'crops and produce on hand',
  market_stock: 'stock for sale',
  payable: 'bills not yet paid',
  customers: 'taken from customers for goods still to come',
  operating_loan: 'a loan for the season, paid back within the year',
} as const satisfies Record<CurrentKind, string>

export const contraKindWords = {
  depreciation: 'depreciation taken so far',
} as const satisfies Record<ContraKind, string>

export const propertyLoanWords = {
  loan: 'the loan on house or land',
  interest: 'interest of the loan on the house',
  escrow: 'property tax and insurance of the house',
} as const satisfies Record<PropertyLoanPart, string>
