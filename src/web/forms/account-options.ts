// Accounts as choices in forms: where money lies, what it was for, each list under headings a person expects.
import { type Account, type AccountKind, isMoney, type SideId, type SideKind } from '#ledger/account.ts'
import type { Option } from '#views/parts/field.tsx'

export interface SideName {
  id: SideId
  name: string
}

/** The order in which sides are shown side by side: the house, the farm, then ventures. */
export const houseFirst = <Sided extends { kind: SideKind }>(sides: readonly Sided[]): Sided[] =>
  sides.toSorted((a, b) => sideOrder.indexOf(a.kind) - sideOrder.indexOf(b.kind))

const sideOrder: readonly SideKind[] = ['household', 'farm', 'venture']

/** Bank accounts, cash boxes and cards: what a purchase is paid from. */
export const moneyAccounts = (accounts: readonly Account[]): Account[] =>
  accounts.filter((account) => isMoney(account) && isOpenAccount(account))

/** What money can be spent on or come from: all but where money lies and what only crossings fill. */
export const reasonAccounts = (accounts: readonly Account[]): Account[] =>
  accounts.filter((account) => !isMoney(account) && isOpenAccount(account))

/** Every account an entry by debits and credits may touch. */
export const openAccounts = (accounts: readonly Account[]): Account[] => accounts.filter(isOpenAccount)

export const isOpenAccount = (account: Account): boolean =>
  account.crossingRole === null && account.archivedAt === null

/** Options under the names of the kinds; the kinds in `first` lead. */
export const optionsByKind = (accounts: readonly Account[], first: readonly AccountKind[] = []): Option[] => {
  const order = [...first, ...kindOrder.filter((kind) => !first.includes(kind))]
  return order.flatMap((kind) =>
    accounts
      .filter((account) => account.kind === kind)
      .map((account) => ({ value: String(account.id), label: account.name, group: kindNames[kind] })),
  )
}

/** Options under the names of the sides, for choices that span them. */
export const optionsBySide = (accounts: readonly Account[], sides: readonly SideName[]): Option[] =>
  sides.flatMap((side) =>
    accounts
      .filter((account) => account.sideId === side.id)
      .map((account) => ({ value: String(account.id), label: account.name, group: side.name })),
  )

export const kindNames: Record<AccountKind, string> = {
  asset: 'What is owned',
  liability: 'What is owed',
  equity: 'Equity',
  income: 'Income',
  expense: 'Costs',
}

const kindOrder: readonly AccountKind[] = ['expense', 'income', 'asset', 'liability', 'equity']
