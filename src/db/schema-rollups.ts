// Sums kept by trigger, so that balances and registers cost a few rows however long the history.
import { index, integer, primaryKey, sqliteTable } from 'drizzle-orm/sqlite-core'
import { centsColumn, monthColumn } from './columns.ts'
import { accounts } from './schema.ts'

/** Sum and count of postings per account and month, kept by trigger. */
export const accountMonths = sqliteTable(
  'account_months',
  {
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    month: monthColumn('month').notNull(),
    sumCents: centsColumn('sum_cents').notNull(),
    count: integer('count').notNull(),
  },
  (rollup) => [
    primaryKey({ columns: [rollup.accountId, rollup.month] }),
    index('account_months_month').on(rollup.month),
  ],
)

/** As `account_months`, per calendar year: a balance today is a few dozen rows however long the history. */
export const accountYears = sqliteTable(
  'account_years',
  {
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    year: integer('year').notNull(),
    sumCents: centsColumn('sum_cents').notNull(),
    count: integer('count').notNull(),
  },
  (rollup) => [primaryKey({ columns: [rollup.accountId, rollup.year] })],
)
