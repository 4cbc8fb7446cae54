// What was taken off pay before tax in a year: by the account it went to, and by the pay it was taken from.
import { firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import type { Account } from '#ledger/account.ts'
import type { AccountYear } from '#ledger/reports/book-year.ts'
import { isWages, takenBeforeTax } from '#ledger/tax/pay-before-tax.ts'
import { type Cents, cents, zeroCents } from '#money/cents.ts'

/** By account, what its row of the year says of it. */
export const payBeforeTax = (
  books: Books,
  accounts: readonly Account[],
  year: number,
): Map<number, Pick<AccountYear, 'beforeTaxCents' | 'fromPayCents'>> => {
  const kinds = new Map(accounts.map((account) => [account.id, takenBeforeTax(account)]))
  const idsOf = (some: readonly Account[]) => JSON.stringify(some.map(({ id }) => id))
  const taken = accounts.filter(({ id }) => kinds.get(id) !== null)
  const rows = books.sqlite.prepare(takenText).all({
    taken: idsOf(taken),
    pay: idsOf(accounts.filter(isWages)),
    from: firstDayOfYear(year),
    to: lastDayOfYear(year),
  }) as { accountId: number; payId: number; month: number; sumCents: Cents }[]
  const said = new Map<number, Pick<AccountYear, 'beforeTaxCents' | 'fromPayCents'>>()
  for (const { accountId, payId, month, sumCents } of rows) {
    const kind = kinds.get(accountId)!
    const { beforeTaxCents = { premium: blank(), deferred: blank() } } = said.get(payId) ?? {}
    said.set(payId, {
      beforeTaxCents: { ...beforeTaxCents, [kind]: added(beforeTaxCents[kind], month, sumCents) },
    })
    if (kind === 'premium')
      said.set(accountId, {
        fromPayCents: added(said.get(accountId)?.fromPayCents ?? blank(), month, sumCents),
      })
  }
  return said
}

const blank = (): Cents[] => Array.from({ length: 12 }, () => zeroCents)

const added = (months: readonly Cents[], month: number, sum: Cents): Cents[] =>
  months.map((before, at) => (at === month - 1 ? cents(before + sum) : before))

/** Of several kinds of pay in one entry it is taken from the largest. An entry that takes another back has both signs turned. */
const takenText = `
  WITH kept AS (
    SELECT p.account_id AS accountId, CAST(substr(p.day, 6, 2) AS INTEGER) AS month, p.amount_cents AS cents,
      (SELECT o.account_id FROM postings AS o
        WHERE o.entry_no = p.entry_no AND o.account_id IN (SELECT value FROM json_each(@pay))
          AND (o.amount_cents > 0) <> (p.amount_cents > 0)
        ORDER BY abs(o.amount_cents) DESC, o.id LIMIT 1) AS payId
    FROM postings AS p
    WHERE p.account_id IN (SELECT value FROM json_each(@taken)) AND p.day BETWEEN @from AND @to)
  SELECT accountId, payId, month, sum(cents) AS sumCents FROM kept WHERE payId IS NOT NULL GROUP BY accountId, payId, month`
