// The balances that files state: where the last one ended, for the next file and for reconciling.
import { and, desc, eq, isNotNull } from 'drizzle-orm'
import type { Day } from '#calendar/day.ts'
import type { Books } from '#db/open.ts'
import { statements } from '#db/schema-statements.ts'
import type { Cents } from '#money/cents.ts'

export interface FileBalance {
  /** As the file writes it. */
  balance: Cents
  day: Day
}

/** The newest balance that a file of the account states. */
export const latestFileBalance = (books: Books, accountId: number): FileBalance | null => {
  const row = books.db
    .select({ balance: statements.closingBalanceCents, day: statements.closingDay })
    .from(statements)
    .where(
      and(
        eq(statements.accountId, accountId),
        isNotNull(statements.closingBalanceCents),
        isNotNull(statements.closingDay),
      ),
    )
    .orderBy(desc(statements.closingDay))
    .get()
  return row ? { balance: row.balance!, day: row.day! } : null
}
