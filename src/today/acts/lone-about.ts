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

/** Settings by their key, as the page on which each is set calls it. */
const settingsSaid: Readonly<Record<string, { says: string; href: string }>> = {
  'access.passphrase': { says: 'Passphrase', href: '/settings/passphrase' },
  'browser.names': { says: 'Who writes in which browser', href: '/settings' },
  'card-credits': { says: 'What a credit on a card is', href: '/books/sorting' },
  'commingling.waived': { says: 'What is said not to be mixed up', href: '/books' },
  'cover-papers': { says: 'Form 1095-A', href: '/year-pack/cover-papers' },
  'first-steps': { says: 'First steps that are not for us', href: '/now' },
  'papers-received': { says: 'Papers that come to you', href: '/year-pack/people' },
  'plan.current': { says: 'The plan in use', href: '/runway/compare' },
  'refund-applied': { says: 'Refund left for the next year', href: '/year-pack/payments' },
  'sales-tax': { says: 'Sales tax', href: '/settings/calendar' },
  'schedule-c': { says: 'Schedule C', href: '/year-pack' },
  'schedule-f': { says: 'Schedule F', href: '/year-pack/schedule-f' },
  'year-pack': { says: 'Year-end values', href: '/year-pack/inputs' },
}

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
  setting: (_, subject) => settingsSaid[subject.split(' ')[0]!] ?? { says: '', href: '/settings' },
  side: at('/settings/accounts'),
  standing: (books, subject) => ({
    says: findStanding(books, subject)?.name ?? '',
    href: '/crossings/standing',
  }),
  'statement.taken-back': at('/books/statements'),
  'tax-payments': at('/year-pack/payments'),
}
