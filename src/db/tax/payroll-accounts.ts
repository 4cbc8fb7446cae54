// The accounts that a farm's payroll needs, made at one press where they are missing.
import { addAccount, listAccounts } from '#db/ledger/account-store.ts'
import { type Act, once } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { farmSide } from '#ledger/account.ts'
import type { Outcome } from '#ledger/problem.ts'
import { payrollAccounts } from '#ledger/start-accounts.ts'

/** What plays the part of one of them already, whatever its name, is left as it is. */
export const addPayrollAccounts = (books: Books, act: Act): Outcome<{ added: number }> =>
  once(books, act, 'payroll-accounts.add', {}, () => {
    const there = listAccounts(books, { sideId: farmSide })
    const missing = payrollAccounts.filter(
      (one) => !there.some(({ kind, taxKind }) => kind === one.kind && taxKind === one.taxKind),
    )
    for (const { number: _, ...account } of missing) {
      const added = addAccount(
        books,
        { ...act, formId: `${act.formId}.${account.taxKind}.${account.kind}` },
        { sideId: farmSide, ...account },
      )
      if (!added.ok) return added
    }
    return { ok: true, result: { added: missing.length } }
  })
