// What sides and accounts are: the words that the books, the forms and the database share.
import type { Cents } from '#money/cents.ts'

export const sideKinds = ['farm', 'household', 'venture'] as const
export type SideKind = (typeof sideKinds)[number]
export type SideId = string
export const farmSide: SideId = 'farm'
export const householdSide: SideId = 'household'

export const accountKinds = ['asset', 'liability', 'equity', 'income', 'expense'] as const
export type AccountKind = (typeof accountKinds)[number]

/** spendable counts as spendable savings; cash is working cash that does not; other is money set aside (retirement); none is not money. */
export const cashRoles = ['spendable', 'cash', 'other', 'none'] as const
export type CashRole = (typeof cashRoles)[number]

/** What household money is for, so that premiums, care and taxes are told apart from living costs and pay from interest. */
export const accountPurposes = [
  'living',
  'premium',
  'care',
  'tax',
  'farm_food',
  'debt',
  'pay',
  'benefit',
  'interest',
  'retirement',
] as const
export type AccountPurpose = (typeof accountPurposes)[number]

/**
 * Which tax is paid, or collected and owed, on an account. `unrealized` is no tax but its absence: income no tax knows yet,
 * what investments gain or lose before they are sold.
 */
export const taxKinds = ['federal', 'state', 'local', 'sales', 'payroll', 'unrealized'] as const
export type TaxKind = (typeof taxKinds)[number]

/** What kind of savings money lies in: the plan taxes and spends each in its own way. */
export const savingsKinds = ['cash', 'taxable', 'traditional', 'roth', 'health'] as const
export type SavingsKind = (typeof savingsKinds)[number]

/**
 * What an account is to a loan on house or land: the loan, where its interest goes, or the property tax and insurance that are often
 * paid with it.
 */
export const propertyLoanParts = ['loan', 'interest', 'escrow'] as const
export type PropertyLoanPart = (typeof propertyLoanParts)[number]

/**
 * What an account holds that turns over within a year, so that it is current on the balance sheet: owed to us, paid ahead, on hand to be
 * used or sold, bills not yet paid, money that customers paid for goods still to come, what is borrowed until the crop is sold.
 */
export const currentKinds = [
  'receivable',
  'prepaid',
  'supplies',
  'crops',
  'market_stock',
  'payable',
  'customers',
  'operating_loan',
] as const
export type CurrentKind = (typeof currentKinds)[number]

/** What stands against what is owned and is nothing owned itself: the depreciation taken so far, a balance below zero. */
export const contraKinds = ['depreciation'] as const
export type ContraKind = (typeof contraKinds)[number]

/** Accounts that stand for another side. Draws, contributions, reimbursements and goods are equity; lent and borrowed are loans. */
export const crossingRoles = [
  'draws',
  'contributions',
  'reimbursements',
  'goods',
  'lent',
  'borrowed',
] as const
export type CrossingRole = (typeof crossingRoles)[number]

export const systemRoles = [
  'opening_balances',
  'unsorted_in',
  'unsorted_out',
  'goods_value',
  'goods_cost',
] as const
export type SystemRole = (typeof systemRoles)[number]

export interface Account {
  id: number
  sideId: SideId
  number: number
  name: string
  kind: AccountKind
  cashRole: CashRole
  scheduleLine: string | null
  purpose: AccountPurpose | null
  taxKind: TaxKind | null
  savingsKind: SavingsKind | null
  /** Whose pay, premiums or retirement savings these are, as the plan names its people. */
  personId: string | null
  propertyLoan: PropertyLoanPart | null
  currentKind: CurrentKind | null
  contraKind: ContraKind | null
  enterpriseId: string | null
  crossingRole: CrossingRole | null
  crossingSideId: SideId | null
  systemRole: SystemRole | null
  bankKey: string | null
  note: string
  archivedAt: string | null
}

/** Money on hand, of the bank or in the till, as a cash flow counts it. */
export const isCash = ({ cashRole }: Pick<Account, 'cashRole'>): boolean =>
  cashRole === 'spendable' || cashRole === 'cash'

/** Money of any kind: on hand, on a card, or set aside for retirement. */
export const isMoney = ({ cashRole }: Pick<Account, 'cashRole'>): boolean => cashRole !== 'none'

/** Spendable money of the household that may earn interest: at a bank or at home, no card and nothing invested. */
export const holdsCash = ({
  sideId,
  kind,
  cashRole,
  savingsKind,
}: Pick<Account, 'sideId' | 'kind' | 'cashRole' | 'savingsKind'>): boolean =>
  sideId === householdSide && kind === 'asset' && cashRole === 'spendable' && savingsKind !== 'taxable'

/** What a bank or card sends statements of, or a till that is counted: Reconcile offers it, and a close looks for it. */
export const isReconcilable = (account: Pick<Account, 'cashRole' | 'archivedAt'>): boolean =>
  isCash(account) && account.archivedAt === null

/** What is borrowed from others: no card, which is money, no other side, no tax collected for a state, no bill and no customer's money. */
export const isLoan = (
  account: Pick<Account, 'kind' | 'cashRole' | 'crossingRole' | 'taxKind' | 'currentKind'>,
): boolean =>
  account.kind === 'liability' &&
  !isMoney(account) &&
  account.crossingRole === null &&
  account.taxKind === null &&
  (account.currentKind === null || account.currentKind === 'operating_loan')

/** A loan over years. What is borrowed for a season is paid back out of its sales and is no term debt (Farm Financial Standards). */
export const isTermLoan = (account: Parameters<typeof isLoan>[0]): boolean =>
  isLoan(account) && account.currentKind === null

/** What is owned and is neither money on hand nor a claim on another side. */
export const isLasting = (
  account: Pick<Account, 'kind' | 'cashRole' | 'crossingRole' | 'contraKind'>,
): boolean =>
  account.kind === 'asset' && !isCash(account) && account.crossingRole === null && account.contraKind === null

/** Assets and expenses grow by debits, the rest by credits: the sign a person expects beside the name. */
export const growsByDebit = (kind: AccountKind): boolean => kind === 'asset' || kind === 'expense'

/** A balance in the ledger's sign (debits positive) as a person reads it: what is owed or earned is positive too. */
export const balanceAsRead = (kind: AccountKind, balance: Cents): Cents =>
  (growsByDebit(kind) || balance === 0 ? balance : -balance) as Cents
