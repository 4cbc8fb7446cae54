// An account of income about which nothing is said, for tests that say one thing of it.
import type { Account } from '#ledger/account.ts'

export const blankAccount: Account = {
  id: 0,
  sideId: 'farm',
  number: 4000,
  name: '',
  kind: 'income',
  cashRole: 'none',
  scheduleLine: null,
  purpose: null,
  taxKind: null,
  savingsKind: null,
  propertyLoan: null,
  currentKind: null,
  contraKind: null,
  personId: null,
  enterpriseId: null,
  crossingRole: null,
  crossingSideId: null,
  systemRole: null,
  bankKey: null,
  note: '',
  archivedAt: null,
}
