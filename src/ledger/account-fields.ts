// What each account can be said to be, by its side and kind: its purpose, whose tax it holds, what kind of savings it is, its part of a loan.
import {
  type Account,
  type AccountKind,
  type AccountPurpose,
  type ContraKind,
  type CurrentKind,
  contraKinds,
  isLoan,
  isMoney,
  type PropertyLoanPart,
  type SavingsKind,
  type SideKind,
  savingsKinds,
  type TaxKind,
} from './account.ts'
import type { FieldProblem } from './problem.ts'
import { lineFault } from './schedule-lines.ts'

export const purposesFor = (side: SideKind, kind: AccountKind): readonly AccountPurpose[] => {
  if (side !== 'household') return []
  if (kind === 'income') return ['pay', 'benefit', 'interest']
  return kind === 'expense' ? ['living', 'premium', 'care', 'tax', 'farm_food', 'debt', 'retirement'] : []
}

export const taxKindsFor = (side: SideKind, kind: AccountKind): readonly TaxKind[] => {
  if (kind === 'liability') return ['federal', 'state', 'local', 'sales', 'payroll']
  if (side === 'household')
    return kind === 'income'
      ? ['unrealized']
      : kind === 'expense'
        ? ['federal', 'state', 'local', 'payroll']
        : []
  return kind === 'expense' ? ['state', 'local', 'sales', 'payroll'] : []
}

export const savingsKindsFor = (side: SideKind, kind: AccountKind): readonly SavingsKind[] =>
  side === 'household' && kind === 'asset' ? savingsKinds : []

/** The farm's interest and property tax are found by their lines of Schedule F. */
export const propertyLoanPartsFor = (side: SideKind, kind: AccountKind): readonly PropertyLoanPart[] => {
  if (side !== 'venture' && kind === 'liability') return ['loan']
  return side === 'household' && kind === 'expense' ? ['interest', 'escrow'] : []
}

/** Money, tax and what stands for another side are classed already; the rest of what is owned lasts, the rest of what is owed is lent. */
export const currentKindsFor = (kind: AccountKind): readonly CurrentKind[] => {
  if (kind === 'asset') return ['receivable', 'prepaid', 'supplies', 'crops', 'market_stock']
  return kind === 'liability' ? ['payable', 'customers', 'operating_loan'] : []
}

/** The household writes nothing off. */
export const contraKindsFor = (side: SideKind, kind: AccountKind): readonly ContraKind[] =>
  side !== 'household' && kind === 'asset' ? contraKinds : []

type Described = Pick<
  Account,
  | 'kind'
  | 'cashRole'
  | 'scheduleLine'
  | 'purpose'
  | 'taxKind'
  | 'savingsKind'
  | 'propertyLoan'
  | 'currentKind'
  | 'contraKind'
  | 'crossingRole'
>

/** What an account is said to be and cannot be, at its field. */
export const accountFaults = (side: SideKind, account: Described): FieldProblem[] => {
  const { kind, purpose, savingsKind } = account
  const faults: [keyof Described, string | null][] = [
    ['scheduleLine', lineFault(side, account)],
    ['purpose', purpose === null || purposesFor(side, kind).includes(purpose) ? null : notFor(side, kind)],
    ['taxKind', taxFault(side, account)],
    [
      'savingsKind',
      savingsKind === null || (savingsKindsFor(side, kind).includes(savingsKind) && isMoney(account))
        ? null
        : 'Only money that the household owns is savings. Leave it empty, or say above that money lies here',
    ],
    ['propertyLoan', propertyLoanFault(side, account)],
    ['currentKind', currentKindFault(side, account)],
    ['contraKind', contraKindFault(side, account)],
  ]
  return faults.flatMap(([path, message]) => (message === null ? [] : [{ path, message }]))
}

const taxFault = (side: SideKind, { kind, purpose, taxKind }: Described): string | null => {
  if (purpose === 'tax' && taxKind === null)
    return 'Say whose tax it is: what is set aside and what is due hang on it'
  if (taxKind === null) return null
  if (!taxKindsFor(side, kind).includes(taxKind)) return notFor(side, kind)
  return side === 'household' && kind === 'expense' && purpose !== 'tax'
    ? 'This account is not for income taxes. Choose “income taxes” as what it is for, or leave the tax empty'
    : null
}

const propertyLoanFault = (side: SideKind, account: Described): string | null => {
  const { kind, propertyLoan, purpose } = account
  if (propertyLoan === null) return null
  if (!propertyLoanPartsFor(side, kind).includes(propertyLoan)) return notFor(side, kind)
  if (propertyLoan === 'loan')
    return isLoan(account)
      ? null
      : 'A card, a tax that is owed or a debt to another side is no loan on house or land. Leave it empty'
  const needed = propertyLoan === 'interest' ? 'debt' : 'living'
  return purpose === needed
    ? null
    : `This needs “${needed}” as what the account is for. Choose that above, or leave this empty`
}

const currentKindFault = (side: SideKind, account: Described): string | null => {
  const { kind, currentKind, crossingRole, taxKind } = account
  if (currentKind === null) return null
  if (!currentKindsFor(kind).includes(currentKind)) return notFor(side, kind)
  return isMoney(account) || crossingRole !== null || taxKind !== null
    ? 'Money, a tax that is owed and what lies between two sides are current as they are. Leave this empty'
    : null
}

const contraKindFault = (side: SideKind, account: Described): string | null => {
  const { kind, contraKind, currentKind, crossingRole } = account
  if (contraKind === null) return null
  if (!contraKindsFor(side, kind).includes(contraKind)) return notFor(side, kind)
  return isMoney(account) || crossingRole !== null || currentKind !== null
    ? 'Money, and what is settled within a year, is not written off. Leave this empty'
    : null
}

const notFor = (side: SideKind, kind: AccountKind): string =>
  `${kindWords[kind]} of the ${side} cannot be this. Choose another one, or leave it empty`

const kindWords: Record<AccountKind, string> = {
  asset: 'What is owned',
  liability: 'What is owed',
  equity: 'Equity',
  income: 'Income',
  expense: 'A cost',
}
