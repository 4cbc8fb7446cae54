// Books of a made-up year by sums of accounts, as the reports take them.
import { type Account, type CrossingRole, isLoan, type SideKind } from '#ledger/account.ts'
import type { AccountYear, BookYear } from '#ledger/reports/book-year.ts'
import { isOfAssets } from '#ledger/reports/cash-flow.ts'
import { startAccounts } from '#ledger/start-accounts.ts'
import { cents } from '#money/cents.ts'

/** Books of a farm and a household with their start accounts and the accounts that stand for each other. */
export class MadeBooks {
  readonly rows = new Map<
    string,
    { account: Account; opening: number; months: number[]; withoutMoney: number }
  >()
  private nextId = 1

  constructor() {
    for (const kind of ['farm', 'household'] as const) {
      for (const account of startAccounts(kind)) this.add(kind, account)
      const other = kind === 'farm' ? 'household' : 'farm'
      for (const role of ['draws', 'contributions', 'reimbursements', 'goods'] as const)
        this.add(kind, { number: 3100, name: role, kind: 'equity' }, role, other)
      this.add(kind, { number: 1900, name: 'lent', kind: 'asset' }, 'lent', other)
      this.add(kind, { number: 2900, name: 'borrowed', kind: 'liability' }, 'borrowed', other)
    }
  }

  /** Month 0 is before the year, 1 to 12 in it. Amounts in dollars, debit first. */
  post(side: SideKind, month: number, debit: string, credit: string, dollars: number): void {
    this.change(`${side}/${debit}`, month, Math.round(dollars * 100))
    this.change(`${side}/${credit}`, month, -Math.round(dollars * 100))
    const [from, to] = [this.rows.get(`${side}/${debit}`)!, this.rows.get(`${side}/${credit}`)!]
    if (month === 0 || !isOfAssets(from.account) || !isOfAssets(to.account)) return
    from.withoutMoney += Math.round(dollars * 100)
    to.withoutMoney -= Math.round(dollars * 100)
  }

  side(kind: 'farm' | 'household'): BookYear {
    const accounts = [...this.rows.values()]
      .filter(({ account }) => account.sideId === kind)
      .map(
        ({ account, opening, months, withoutMoney }): AccountYear => ({
          account,
          openingCents: cents(opening),
          monthsCents: months.map(cents),
          paidDownCents: cents(
            isLoan(account)
              ? Math.max(
                  0,
                  months.reduce((a, b) => a + b, 0),
                )
              : 0,
          ),
          termInterestCents: cents(0),
          withoutMoneyCents: cents(withoutMoney),
        }),
      )
    return {
      sideId: kind,
      kind,
      name: kind === 'farm' ? 'Lantern Hollow' : 'The house',
      year: 2026,
      accounts,
    }
  }

  private change(key: string, month: number, amount: number): void {
    const row = this.rows.get(key)
    if (!row) throw new Error(`No account ${key}`)
    if (month === 0) row.opening += amount
    else row.months[month - 1]! += amount
  }

  add(
    side: string,
    account: Partial<Account> & { name: string },
    role: CrossingRole | null = null,
    other: string | null = null,
  ): void {
    const whole = {
      id: this.nextId++,
      sideId: side,
      cashRole: 'none',
      scheduleLine: null,
      purpose: null,
      taxKind: null,
      savingsKind: null,
      personId: null,
      propertyLoan: null,
      currentKind: null,
      contraKind: null,
      enterpriseId: null,
      systemRole: null,
      bankKey: null,
      note: '',
      archivedAt: null,
      ...account,
      crossingRole: role,
      crossingSideId: other,
    } as Account
    this.rows.set(`${side}/${account.name}`, {
      account: whole,
      opening: 0,
      withoutMoney: 0,
      months: Array.from({ length: 12 }, () => 0),
    })
  }
}
