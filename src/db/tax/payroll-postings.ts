// What businesses booked on their accounts of payroll taxes up to a day.
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { householdSide } from '#ledger/account.ts'
import type { PayrollPosting } from '#ledger/tax/employer-tax.ts'

/** In the order of their days, then of their entries. */
export const payrollPostings = (books: Books, to: Day): PayrollPosting[] =>
  books.sqlite.prepare(postingsText).all({ household: householdSide, to }) as PayrollPosting[]

const postingsText = `
  SELECT p.entry_no AS entryNo, a.side_id AS sideId, a.id AS accountId, a.kind, p.amount_cents AS amountCents
  FROM accounts AS a JOIN postings AS p ON p.account_id = a.id
  WHERE a.tax_kind = 'payroll' AND a.kind IN ('liability', 'expense') AND a.side_id <> @household AND p.day <= @to
  ORDER BY p.day, p.entry_no`
