// Payments of tax in the books line by line, and what people said they count as.
import type { Day } from '#calendar/day.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import type { Outcome } from '#ledger/problem.ts'
import {
  isSameReading,
  isWorthSaying,
  type TaxMove,
  type TaxReading,
  withRefunds,
} from '#ledger/tax/tax-payment.ts'
import type { TaxOffice } from '#ledger/tax/tax-use.ts'
import type { Cents } from '#money/cents.ts'
import { sayReadings } from './say-readings.ts'

interface MoveRow {
  postingId: number
  entryNo: number
  day: Day
  payee: string
  memo: string
  account: string
  office: TaxOffice
  amountCents: Cents
  postedAt: string
  isKeptFromPay: 0 | 1
  use: TaxReading['use'] | null
  saidOffice: TaxOffice | null
  state: string | null
  taxYear: number | null
}

/** Every payment of tax that stands in the household's books, oldest first. What was taken back, and what opened the books, is none. */
export const taxMoves = (books: Books): TaxMove[] =>
  withRefunds(
    (books.sqlite.prepare(movesText).all({ household: householdSide }) as MoveRow[]).map(
      ({ isKeptFromPay, use, saidOffice, state, taxYear, ...move }) => ({
        ...move,
        isKeptFromPay: isKeptFromPay === 1,
        said: use === null ? null : { use, office: saidOffice!, state, taxYear: taxYear! },
      }),
    ),
  )

const movesText = `
  SELECT p.id AS postingId, e.no AS entryNo, p.day, e.payee, CASE WHEN p.memo = '' THEN e.memo ELSE p.memo END AS memo,
    a.name AS account, a.tax_kind AS office, p.amount_cents AS amountCents, e.posted_at AS postedAt,
    EXISTS (SELECT 1 FROM postings AS o JOIN accounts AS b ON b.id = o.account_id
      WHERE o.entry_no = e.no AND (b.purpose = 'pay' OR (p.amount_cents > 0 AND o.amount_cents < 0
        AND (b.kind = 'income' OR b.savings_kind IN ('traditional', 'roth'))))) AS isKeptFromPay,
    said.tax_use AS use, said.office AS saidOffice, said.state, said.tax_year AS taxYear
  FROM accounts AS a
  JOIN postings AS p ON p.account_id = a.id
  JOIN entries AS e ON e.no = p.entry_no
  LEFT JOIN posting_tax AS said ON said.posting_id = p.id
  WHERE a.side_id = @household AND a.kind = 'expense' AND a.tax_kind IN ('federal', 'state', 'local', 'payroll')
    AND e.source <> 'opening' AND +e.reverses_no IS NULL
    AND NOT EXISTS (SELECT 1 FROM entries AS back WHERE back.reverses_no = e.no)
  ORDER BY p.day, p.id`

/** Says as what payments count, all or none. What the books tell by themselves for sure is not kept, and what was said before then goes. */
export const sayTaxOf = (
  books: Books,
  act: Act,
  said: readonly { postingId: number; reading: TaxReading }[],
): Outcome<{ said: number }> =>
  sayReadings(books, act, said, {
    act: 'tax-payments.say',
    kind: 'tax-payments.said',
    summary: 'The year of tax payments was chosen',
    gone: 'One of these payments is no longer in the books. Open the page again',
    moves: () => taxMoves(books),
    isWorthSaying,
    isSame: isSameReading,
  })

/** What was said of a line goes on with the line of the same account that stands in for it. */
export const carryTaxSaid = (books: Books, originalNo: number, replacementNo: number): void => {
  books.sqlite.prepare(carryText).run({ originalNo, replacementNo })
}

/** One line an account: where an entry has two on the account, the one of the same amount is meant, else none. */
const carryText = `
  INSERT OR IGNORE INTO posting_tax (posting_id, tax_use, office, state, tax_year, said_at)
  SELECT n.id, said.tax_use, said.office, said.state, said.tax_year, said.said_at
  FROM posting_tax AS said
  JOIN postings AS o ON o.id = said.posting_id AND o.entry_no = @originalNo
  JOIN postings AS n ON n.entry_no = @replacementNo AND n.account_id = o.account_id
  WHERE n.amount_cents = o.amount_cents
    OR 1 = (SELECT count(*) FROM postings AS one WHERE one.entry_no = @replacementNo AND one.account_id = o.account_id)`
