// Of what an act was that has no opposite act, with the page on which it is changed back.
import type { Change } from '#db/change-log.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { findBatch } from '#db/notebook/batch-store.ts'
import type { Books } from '#db/open.ts'
import { findReconciliation } from '#db/reconcile/reconcile-reader.ts'
import { findStanding } from '#db/transfers/standing-store.ts'

/** Null for an act of another kind; without words where the page says it all. */
export const loneAbout = (
  books: Books,
  { kind, subject }: Pick<Change, 'kind' | 'subject'>,
): { says: string; href: string } | null => {
  const [of = ''] = kind.split('.')
  const teller = tellers[kind] ?? tellers[of]
  return teller?.(books, subject) ?? null
}

type Teller = (books: Books, subject: string) => { says: string; href: string }

const at =
  (href: string): Teller =>
  () => ({ says: '', href })

const tellers: Record<string, Teller> = {
  account: (books, subject) => {
    const id = Number(subject.replace('account ', ''))
    const account = findAccount(books, id)
    return account
      ? { says: account.name, href: `/settings/accounts/${id}` }
      : { says: '', href: '/settings/accounts' }
  },
  accrual: at('/year-pack/inputs'),
  batch: (books, subject) => {
    const batch = findBatch(books, subject)
    return batch
      ? { says: batch.name, href: `/farm/batches/${subject}` }
      : { says: '', href: '/farm/batches' }
  },
  clock: at('/farm/hours'),
  contributions: at('/year-pack/contributions'),
  holding: (_, subject) => ({ says: '', href: `/year-pack/holdings/${subject.replace('holding ', '')}` }),
  'holding.removed': at('/year-pack/inputs'),
  'holding-values': at('/year-pack/inputs'),
  'line.taken-up': at('/books/sorting'),
  'market-values': at('/year-pack/inputs'),
  'month.reopened': at('/books/close'),
  'note.removed': at('/farm/notebook'),
  payees: at('/year-pack/people'),
  plan: at('/runway/revisions'),
  reconciliation: (books, subject) => {
    const one = findReconciliation(books, subject)
    const account = one && findAccount(books, one.accountId)
    return account
      ? { says: account.name, href: `/books/reconcile/${subject}` }
      : { says: '', href: '/books/reconcile' }
  },
  rule: at('/books/sorting/rules'),
  setting: at('/settings'),
  side: at('/settings/accounts'),
  standing: (books, subject) => ({
    says: findStanding(books, subject)?.name ?? '',
    href: '/crossings/standing',
  }),
  'statement.taken-back': at('/books/statements'),
  'tax-payments': at('/year-pack/payments'),
}
