// The accounts new books start with: a direct-market farm with its Schedule F lines, a household, and a plain side venture.
// Lines: Schedule F (Form 1040) for the farm, Schedule C for a venture, as schedule-lines.ts lists them.
import type { Account, PropertyLoanPart, SavingsKind, SideKind } from './account.ts'
import { assetSales } from './schedule-f-lines.ts'

export type StartAccount = Pick<Account, 'number' | 'name' | 'kind'> &
  Partial<
    Pick<
      Account,
      | 'cashRole'
      | 'scheduleLine'
      | 'purpose'
      | 'taxKind'
      | 'savingsKind'
      | 'propertyLoan'
      | 'currentKind'
      | 'contraKind'
      | 'systemRole'
    >
  >

export const startAccounts = (kind: SideKind): readonly StartAccount[] =>
  kind === 'farm' ? farm : kind === 'household' ? household : venture

const asset = (number: number, name: string, cashRole: Account['cashRole'] = 'none'): StartAccount => ({
  number,
  name,
  kind: 'asset',
  cashRole,
})
const savings = (
  number: number,
  name: string,
  savingsKind: SavingsKind,
  cashRole: Account['cashRole'],
): StartAccount => ({ ...asset(number, name, cashRole), savingsKind })
const liability = (number: number, name: string, cashRole: Account['cashRole'] = 'none'): StartAccount => ({
  number,
  name,
  kind: 'liability',
  cashRole,
})
const withLine = (
  number: number,
  name: string,
  kind: 'income' | 'expense',
  scheduleLine: string | null,
): StartAccount => ({ number, name, kind, scheduleLine })
/** What was written off so far: it stands below zero beside what it is of. */
const depreciationTaken = (number: number): StartAccount => ({
  ...asset(number, 'Depreciation taken'),
  contraKind: 'depreciation',
})
/** Farm income and costs carry their line; `null` is what does not belong on Schedule F. */
const farmIncome = (number: number, name: string, scheduleLine: string | null): StartAccount =>
  withLine(number, name, 'income', scheduleLine)
const farmCost = (number: number, name: string, scheduleLine: string | null): StartAccount =>
  withLine(number, name, 'expense', scheduleLine)
const earned = (number: number, name: string, purpose: Account['purpose']): StartAccount => ({
  number,
  name,
  kind: 'income',
  purpose,
})
const cost = (number: number, name: string, purpose: Account['purpose']): StartAccount => ({
  number,
  name,
  kind: 'expense',
  purpose,
})

const onProperty = (part: PropertyLoanPart, account: StartAccount): StartAccount => ({
  ...account,
  propertyLoan: part,
})

const shared: StartAccount[] = [
  { number: 3000, name: 'Opening balances', kind: 'equity', systemRole: 'opening_balances' },
  { number: 4990, name: 'Money in, to be sorted', kind: 'income', systemRole: 'unsorted_in' },
  { number: 9990, name: 'Money out, to be sorted', kind: 'expense', systemRole: 'unsorted_out' },
]

/** What a farm's payroll needs beside wages: what is kept back, what is owed with it, and the employer's own part. */
export const payrollAccounts: readonly StartAccount[] = [
  { number: 2310, name: 'Income tax kept back from pay', kind: 'liability', taxKind: 'federal' },
  { number: 2320, name: 'Social Security and Medicare owed', kind: 'liability', taxKind: 'payroll' },
  { ...farmCost(5295, 'Employer’s payroll taxes', '29'), taxKind: 'payroll' },
]

const farm: StartAccount[] = [
  ...shared,
  asset(1000, 'Farm checking', 'cash'),
  asset(1010, 'Cash box', 'cash'),
  asset(1020, 'Farm reserve', 'cash'),
  asset(1500, 'Machinery and equipment'),
  depreciationTaken(1510),
  asset(1520, 'Buildings and fences'),
  asset(1540, 'Breeding stock'),
  asset(1560, 'Land'),
  liability(2000, 'Farm card', 'cash'),
  { ...liability(2100, 'Operating loan'), currentKind: 'operating_loan' },
  liability(2200, 'Term loan'),
  { number: 2300, name: 'Sales tax collected', kind: 'liability', taxKind: 'sales' },
  ...payrollAccounts,
  farmIncome(4000, 'Vegetables and fruit sold', '2'),
  farmIncome(4010, 'Cut flowers sold', '2'),
  farmIncome(4020, 'Honey and hive goods sold', '2'),
  farmIncome(4030, 'Raised livestock and meat sold', '2'),
  farmIncome(4040, 'Eggs and poultry sold', '2'),
  farmIncome(4050, 'CSA shares', '2'),
  farmIncome(4060, 'Milk and cheese sold', '2'),
  farmIncome(4070, 'Tree fruit and nuts sold', '2'),
  farmIncome(4100, 'Livestock bought for resale, sold', '1a'),
  farmIncome(4200, 'Cooperative distributions', '3a'),
  farmIncome(4210, 'Farm program payments', '4a'),
  farmIncome(4220, 'Crop insurance received', '6a'),
  farmIncome(4230, 'Custom work for others', '7'),
  farmIncome(4240, 'Other farm income', '8'),
  // Goods used at home are a value for the books, not a sale.
  farmIncome(4300, 'Breeding stock and equipment sold', assetSales),
  { number: 4900, name: 'Value of goods used at home', kind: 'income', systemRole: 'goods_value' },
  farmCost(5000, 'Cost of livestock bought for resale', '1b'),
  farmCost(5100, 'Car and truck', '10'),
  farmCost(5110, 'Chemicals', '11'),
  farmCost(5120, 'Conservation', '12'),
  farmCost(5130, 'Custom hire', '13'),
  farmCost(5140, 'Depreciation', '14'),
  farmCost(5150, 'Employee benefits', '15'),
  farmCost(5160, 'Feed', '16'),
  farmCost(5170, 'Fertilizer and lime', '17'),
  farmCost(5180, 'Freight and trucking', '18'),
  farmCost(5190, 'Fuel and oil', '19'),
  farmCost(5200, 'Farm insurance', '20'),
  farmCost(5210, 'Mortgage interest', '21a'),
  farmCost(5215, 'Other interest', '21b'),
  farmCost(5220, 'Hired labor', '22'),
  farmCost(5230, 'Pension plans for workers', '23'),
  farmCost(5240, 'Equipment rent', '24a'),
  farmCost(5245, 'Land rent', '24b'),
  farmCost(5250, 'Repairs and upkeep', '25'),
  farmCost(5260, 'Seeds and plants', '26'),
  farmCost(5270, 'Storage', '27'),
  farmCost(5280, 'Supplies', '28'),
  farmCost(5290, 'Taxes and licenses', '29'),
  farmCost(5300, 'Farm utilities', '30'),
  farmCost(5310, 'Veterinary, breeding, medicine', '31'),
  farmCost(5320, 'Market fees and dues', '32a'),
  farmCost(5321, 'Packaging', '32b'),
  farmCost(5322, 'Card and bank fees', '32c'),
  farmCost(5323, 'Advertising', '32d'),
  farmCost(5324, 'Training and advice', '32e'),
  farmCost(5325, 'Other farm costs', '32f'),
]

const household: StartAccount[] = [
  ...shared,
  savings(1000, 'Household checking', 'cash', 'spendable'),
  savings(1010, 'Cash at home', 'cash', 'spendable'),
  savings(1100, 'Savings', 'cash', 'spendable'),
  savings(1200, 'Taxable investments', 'taxable', 'spendable'),
  savings(1300, 'Retirement, traditional', 'traditional', 'other'),
  savings(1310, 'Retirement, Roth', 'roth', 'other'),
  savings(1320, 'Health savings', 'health', 'other'),
  asset(1500, 'Home'),
  asset(1510, 'Vehicles'),
  // What is owed on a card is spent already, so it counts against spendable savings.
  liability(2000, 'Household card', 'spendable'),
  onProperty('loan', liability(2100, 'Mortgage')),
  liability(2200, 'Other loans'),
  earned(4000, 'Off-farm pay', 'pay'),
  earned(4100, 'Interest and dividends', 'interest'),
  { ...earned(4110, 'Change in value of investments', 'interest'), taxKind: 'unrealized' },
  earned(4200, 'Benefits and credits', 'benefit'),
  earned(4300, 'Other income', null),
  cost(5000, 'Groceries', 'living'),
  {
    number: 5010,
    name: 'Food from the farm',
    kind: 'expense',
    purpose: 'farm_food',
    systemRole: 'goods_cost',
  },
  cost(5100, 'Rent', 'living'),
  cost(5110, 'Home repairs', 'living'),
  onProperty('escrow', cost(5120, 'Home insurance and property tax', 'living')),
  onProperty('interest', cost(5130, 'Mortgage interest', 'debt')),
  cost(5140, 'Other loan interest', 'debt'),
  cost(5200, 'Utilities', 'living'),
  cost(5210, 'Telephone and internet', 'living'),
  cost(5300, 'Vehicles and travel', 'living'),
  cost(5310, 'Vehicle insurance', 'living'),
  cost(5400, 'Clothing', 'living'),
  cost(5410, 'Household goods', 'living'),
  cost(5420, 'Children', 'living'),
  cost(5430, 'Gifts and giving', 'living'),
  cost(5440, 'Free time', 'living'),
  cost(5450, 'Other living costs', 'living'),
  cost(5500, 'Health premiums', 'premium'),
  cost(5510, 'Care and medicine', 'care'),
  { ...cost(5600, 'Federal taxes', 'tax'), taxKind: 'federal' },
  { ...cost(5610, 'State and local income taxes', 'tax'), taxKind: 'state' },
  { ...cost(5620, 'Social Security and Medicare from pay', 'tax'), taxKind: 'payroll' },
]

const venture: StartAccount[] = [
  ...shared,
  asset(1000, 'Venture checking', 'cash'),
  asset(1500, 'Equipment'),
  depreciationTaken(1510),
  liability(2000, 'Venture card', 'cash'),
  withLine(4000, 'Sales and fees earned', 'income', '1'),
  withLine(4100, 'Other venture income', 'income', '6'),
  withLine(4300, 'Equipment sold', 'income', assetSales),
  { number: 4900, name: 'Value of goods used at home', kind: 'income', systemRole: 'goods_value' },
  withLine(4950, 'Returned goods and money given back', 'expense', '2'),
  withLine(4960, 'Goods bought to sell', 'expense', '36'),
  withLine(5000, 'Supplies', 'expense', '22'),
  withLine(5010, 'Advertising', 'expense', '8'),
  withLine(5020, 'Car and truck', 'expense', '9'),
  withLine(5030, 'Contract labor', 'expense', '11'),
  withLine(5040, 'Depreciation', 'expense', '13'),
  withLine(5100, 'Travel', 'expense', '24a'),
  withLine(5200, 'Fees and dues', 'expense', '48'),
  withLine(5300, 'Insurance', 'expense', '15'),
  withLine(5310, 'Taxes and licenses', 'expense', '23'),
  withLine(5400, 'Other venture costs', 'expense', '48'),
]
