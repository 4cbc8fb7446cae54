// What the rollups cannot tell of a side's months: what opening balances posted, what loans brought in beside what was paid on them, and
// the tax that was kept from pay.
import type { Day } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import type { Books } from '#db/open.ts'
import type { SideId } from '#ledger/account.ts'
import type { Cents } from '#money/cents.ts'

interface Days {
  from: Day
  to: Day
}

/** Sums by account and month of the entries that hold opening balances, of one side or of all, in the ledger's sign. */
export const openingSums = (
  books: Books,
  sideId: SideId | null,
  days: Days,
): { accountId: number; month: Month; sumCents: Cents }[] =>
  books.sqlite.prepare(openingText).all({ sideId, ...days }) as ReturnType<typeof openingSums>

/**
 * Tax that was kept from pay, a pension or other income before it came, by account and month, and with the other sign the same on the
 * income it was kept from: the house had neither. What is withheld from benefits or from savings is left in both, as a plan has it.
 */
export const keptFromPay = (
  books: Books,
  sideId: SideId,
  days: Days,
): { accountId: number; month: Month; sumCents: Cents }[] =>
  books.sqlite.prepare(keptFromPayText).all({ sideId, ...days }) as ReturnType<typeof keptFromPay>

/** By month, what loans brought in. A payment taken back counts against payments, a loan taken back against loans. */
export const loansDrawn = (books: Books, loans: readonly { id: number }[], days: Days): Map<Month, Cents> => {
  if (loans.length === 0) return new Map()
  const rows = books.sqlite
    .prepare(drawnText)
    .all({ loans: JSON.stringify(loans.map(({ id }) => id)), ...days }) as { month: Month; drawn: Cents }[]
  return new Map(rows.map(({ month, drawn }) => [month, drawn]))
}

/** By account, the principal paid on loans. */
export const principalPaid = (
  books: Books,
  loans: readonly { id: number }[],
  days: Days,
): Map<number, Cents> => {
  if (loans.length === 0) return new Map()
  const rows = books.sqlite
    .prepare(paidText)
    .all({ loans: JSON.stringify(loans.map(({ id }) => id)), ...days }) as {
    accountId: number
    paid: Cents
  }[]
  return new Map(rows.map(({ accountId, paid }) => [accountId, paid]))
}

/** By account for interest, what of it was booked in one entry with principal of these loans. */
export const interestWithPrincipal = (
  books: Books,
  loans: readonly { id: number }[],
  interest: readonly { id: number }[],
  days: Days,
): Map<number, Cents> => {
  if (loans.length === 0 || interest.length === 0) return new Map()
  const idsOf = (accounts: readonly { id: number }[]) => JSON.stringify(accounts.map(({ id }) => id))
  const rows = books.sqlite
    .prepare(interestText)
    .all({ loans: idsOf(loans), interest: idsOf(interest), ...days }) as { accountId: number; paid: Cents }[]
  return new Map(rows.map(({ accountId, paid }) => [accountId, paid]))
}

/** By account, the sums of the entries that touch only these accounts. */
export const keptAmong = (
  books: Books,
  accounts: readonly { id: number }[],
  days: Days,
): Map<number, Cents> => {
  const rows = books.sqlite
    .prepare(keptText)
    .all({ accounts: JSON.stringify(accounts.map(({ id }) => id)), ...days }) as {
    accountId: number
    kept: Cents
  }[]
  return new Map(rows.map(({ accountId, kept }) => [accountId, kept]))
}

/** By account, what was taken off it otherwise than in one entry with these costs, unless that entry has an account of `beside` too. */
export const takenOff = (
  books: Books,
  accounts: readonly { id: number }[],
  apartFrom: readonly { id: number }[],
  beside: readonly { id: number }[],
  days: Days,
): Map<number, Cents> => {
  const idsOf = (some: readonly { id: number }[]) => JSON.stringify(some.map(({ id }) => id))
  const rows = books.sqlite
    .prepare(takenText)
    .all({ accounts: idsOf(accounts), apartFrom: idsOf(apartFrom), beside: idsOf(beside), ...days }) as {
    accountId: number
    taken: Cents
  }[]
  return new Map(rows.map(({ accountId, taken }) => [accountId, taken]))
}

const monthOf = `(CAST(substr(p.day, 1, 4) AS INTEGER) * 12 + CAST(substr(p.day, 6, 2) AS INTEGER) - 1)`

const openingText = `
  SELECT p.account_id AS accountId, ${monthOf} AS month, sum(p.amount_cents) AS sumCents
  FROM postings AS p
  WHERE p.entry_no IN (
    SELECT o.entry_no FROM postings AS o
    WHERE o.account_id IN (SELECT id FROM accounts WHERE (@sideId IS NULL OR side_id = @sideId) AND system_role = 'opening_balances')
      AND o.day BETWEEN @from AND @to)
  GROUP BY p.account_id, month`

/** Of the incomes of one entry it is kept from pay before others, from the largest. An entry that takes another back has both signs turned. */
const keptFromPayText = `
  WITH kept AS (
    SELECT p.account_id AS tax, ${monthOf} AS month, p.amount_cents AS cents,
      (SELECT b.id FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
        WHERE o.entry_no = p.entry_no AND b.side_id = @sideId AND b.kind = 'income'
          AND (b.purpose = 'pay' OR (coalesce(b.purpose, '') NOT IN ('interest', 'benefit')
            AND (p.amount_cents > 0) <> (o.amount_cents > 0)))
        ORDER BY b.purpose = 'pay' DESC, abs(o.amount_cents) DESC, o.id LIMIT 1) AS pay
    FROM accounts AS a JOIN postings AS p ON p.account_id = a.id
    WHERE a.side_id = @sideId AND a.kind = 'expense' AND a.purpose = 'tax' AND p.day BETWEEN @from AND @to)
  SELECT tax AS accountId, month, sum(cents) AS sumCents FROM kept WHERE pay IS NOT NULL GROUP BY tax, month
  UNION ALL
  SELECT pay AS accountId, month, -sum(cents) AS sumCents FROM kept WHERE pay IS NOT NULL GROUP BY pay, month`

const ofLoans = `
  FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
  WHERE p.account_id IN (SELECT value FROM json_each(@loans)) AND p.day BETWEEN @from AND @to
    AND NOT EXISTS (
      SELECT 1 FROM postings AS o JOIN accounts AS a ON a.id = o.account_id
      WHERE o.entry_no = p.entry_no AND a.system_role = 'opening_balances')`

/** Debits are what was paid; in an entry that takes another back it is the other way round. */
const drawnText = `
  SELECT ${monthOf} AS month, -sum(p.amount_cents) AS drawn ${ofLoans}
    AND (p.amount_cents < 0) = (e.reverses_no IS NULL)
  GROUP BY month`

const paidText = `
  SELECT p.account_id AS accountId, sum(p.amount_cents) AS paid ${ofLoans}
    AND (p.amount_cents > 0) = (e.reverses_no IS NULL)
  GROUP BY p.account_id`

const interestText = `
  SELECT p.account_id AS accountId, sum(p.amount_cents) AS paid FROM postings AS p
  WHERE p.account_id IN (SELECT value FROM json_each(@interest)) AND p.day BETWEEN @from AND @to
    AND EXISTS (SELECT 1 FROM postings AS o
      WHERE o.entry_no = p.entry_no AND o.account_id IN (SELECT value FROM json_each(@loans)))
  GROUP BY p.account_id`

const keptText = `
  SELECT p.account_id AS accountId, sum(p.amount_cents) AS kept FROM postings AS p
  WHERE p.account_id IN (SELECT value FROM json_each(@accounts)) AND p.day BETWEEN @from AND @to
    AND NOT EXISTS (SELECT 1 FROM postings AS o
      WHERE o.entry_no = p.entry_no AND o.account_id NOT IN (SELECT value FROM json_each(@accounts)))
  GROUP BY p.account_id`

const takenText = `
  SELECT p.account_id AS accountId, -sum(p.amount_cents) AS taken FROM postings AS p JOIN entries AS e ON e.no = p.entry_no
  WHERE p.account_id IN (SELECT value FROM json_each(@accounts)) AND p.day BETWEEN @from AND @to
    AND (p.amount_cents < 0) = (e.reverses_no IS NULL)
    AND (
      NOT EXISTS (SELECT 1 FROM postings AS o
        WHERE o.entry_no = p.entry_no AND o.account_id IN (SELECT value FROM json_each(@apartFrom)))
      OR EXISTS (SELECT 1 FROM postings AS o
        WHERE o.entry_no = p.entry_no AND o.account_id IN (SELECT value FROM json_each(@beside)))
    )
  GROUP BY p.account_id`
