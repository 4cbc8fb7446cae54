// A planned change of several entries in words and amounts: what is booked, what stays and why, what balances do.
import { listAccounts } from '#db/ledger/account-store.ts'
import type { EntryRecord } from '#db/ledger/entry-reader.ts'
import type { PlannedChange } from '#db/ledger/ledger-bulk.ts'
import type { Books } from '#db/open.ts'
import { type Account, balanceAsRead } from '#ledger/account.ts'
import type { Replacement } from '#ledger/bulk-change.ts'
import { addCents, type Cents, negateCents, sumCents, zeroCents } from '#money/cents.ts'
import type { ChangePreview } from '#views/books/change-figures.ts'
import { findEnterprises } from '#web/forms/enterprise-options.ts'

export const previewFigures = (
  books: Books,
  register: Account,
  planned: readonly PlannedChange[],
): ChangePreview => {
  const accounts = new Map(
    listAccounts(books, { withArchived: true }).map((account) => [account.id, account]),
  )
  const enterprises = new Map(findEnterprises(books).map(({ value, label }) => [value, label]))
  const words: Words = {
    account: (id) => accounts.get(id)?.name ?? '',
    enterprise: (id) => (id === null ? 'none' : (enterprises.get(id) ?? id)),
  }
  const looked = ({ entry, postingIds }: PlannedChange) => ({
    entryNo: entry.no,
    day: entry.day,
    payee: entry.payee || entry.memo,
    amountCents: balanceAsRead(
      register.kind,
      sumCents(
        entry.lines.filter((line) => postingIds.includes(line.postingId)).map((line) => line.amountCents),
      ),
    ),
  })
  return {
    booked: planned.flatMap((change) =>
      change.fate.ok
        ? [
            {
              ...looked(change),
              postingIds: change.postingIds,
              says: saysOf(change.entry, change.fate.replacement, words),
            },
          ]
        : [],
    ),
    staying: planned.flatMap((change) =>
      change.fate.ok ? [] : [{ ...looked(change), why: change.fate.why }],
    ),
    effects: effectsOf(planned).map(({ accountId, changeCents }) => ({
      accountId,
      name: words.account(accountId),
      changeCents: balanceAsRead(accounts.get(accountId)!.kind, changeCents),
    })),
  }
}

interface Words {
  account(id: number): string
  enterprise(id: string | null): string
}

const saysOf = (before: EntryRecord, after: Replacement, words: Words): string[] => {
  const says = before.lines.flatMap((line, index) => {
    const then = after.lines[index]!
    return [
      line.accountId === then.accountId
        ? ''
        : `From ${words.account(line.accountId)} to ${words.account(then.accountId)}`,
      line.enterpriseId === (then.enterpriseId ?? null)
        ? ''
        : `Enterprise ${words.enterprise(line.enterpriseId)} becomes ${words.enterprise(then.enterpriseId ?? null)}`,
      line.memo === then.memo ? '' : `Note becomes “${then.memo}”`,
    ]
  })
  if (before.payee !== after.payee) says.push(`With whom becomes “${after.payee}”`)
  if (before.memo !== after.memo) says.push(`Note becomes “${after.memo}”`)
  return [...new Set(says)].filter(Boolean)
}

/** In the ledger's sign, by account number of the books; what nets to nothing is left out. */
const effectsOf = (planned: readonly PlannedChange[]): { accountId: number; changeCents: Cents }[] => {
  const sums = new Map<number, Cents>()
  const add = (accountId: number, amount: Cents) =>
    sums.set(accountId, addCents(sums.get(accountId) ?? zeroCents, amount))
  for (const { entry, fate } of planned) {
    if (!fate.ok) continue
    for (const line of entry.lines) add(line.accountId, negateCents(line.amountCents))
    for (const line of fate.replacement.lines) add(line.accountId, line.amountCents)
  }
  return [...sums]
    .filter(([, changeCents]) => changeCents !== 0)
    .map(([accountId, changeCents]) => ({ accountId, changeCents }))
}
