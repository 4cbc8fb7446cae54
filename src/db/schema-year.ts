// What the year's papers need beside the entries: market values, stock and equipment, what cash books do not show.
import { index, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'
import { holdingKinds } from '#ledger/reports/stock-inventory.ts'
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCents,
  isCentsOrNull,
  isDay,
  isDayOrNull,
  isFilled,
} from './columns.ts'
import { accounts, sides } from './schema.ts'

/** What an account was worth on a day at market, for the second column of the balance sheet. */
export const marketValues = sqliteTable(
  'market_values',
  {
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    day: dayColumn('day').notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
  },
  (value) => [
    primaryKey({ columns: [value.accountId, value.day] }),
    isDay('market_values_day', value.day),
    isCents('market_values_amount', value.amountCents),
  ],
)

/** Stock and equipment by the piece: what the inventory and the depreciation schedule are made from. */
export const holdings = sqliteTable(
  'holdings',
  {
    id: text('id').primaryKey(),
    sideId: text('side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    kind: text('kind', { enum: holdingKinds }).notNull(),
    name: text('name').notNull(),
    enterpriseId: text('enterprise_id'),
    quantity: real('quantity').notNull().default(1),
    unit: text('unit').notNull().default(''),
    accountId: integer('account_id').references(() => accounts.id, { onDelete: 'restrict' }),
    acquiredDay: dayColumn('acquired_day').notNull(),
    inServiceDay: dayColumn('in_service_day'),
    raised: integer('raised', { mode: 'boolean' }).notNull().default(false),
    costCents: centsColumn('cost_cents').notNull(),
    /** Class of property and elections, as the depreciation rules read them. */
    depreciation: text('depreciation', { mode: 'json' }),
    marketValueCents: centsColumn('market_value_cents'),
    disposedDay: dayColumn('disposed_day'),
    disposedForCents: centsColumn('disposed_for_cents'),
    note: text('note').notNull().default(''),
    createdAt: instantColumn('created_at').notNull(),
  },
  (holding) => [
    index('holdings_side').on(holding.sideId, holding.kind),
    isFilled('holdings_name', holding.name),
    isDay('holdings_acquired', holding.acquiredDay),
    isDayOrNull('holdings_in_service', holding.inServiceDay),
    isDayOrNull('holdings_disposed', holding.disposedDay),
    isCents('holdings_cost', holding.costCents),
    isCentsOrNull('holdings_market', holding.marketValueCents),
    isCentsOrNull('holdings_disposed_for', holding.disposedForCents),
  ],
)

/** What cash books do not show at a year's end: owed to us, owed by us, paid ahead, unsold. */
export const accrualAdjustments = sqliteTable(
  'accrual_adjustments',
  {
    id: text('id').primaryKey(),
    sideId: text('side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    day: dayColumn('day').notNull(),
    kind: text('kind', {
      enum: ['receivable', 'payable', 'prepaid', 'inventory', 'accrued_interest', 'accrued_tax'],
    }).notNull(),
    name: text('name').notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
  },
  (adjustment) => [
    index('accrual_adjustments_side').on(adjustment.sideId, adjustment.day),
    isFilled('accrual_adjustments_name', adjustment.name),
    isDay('accrual_adjustments_day', adjustment.day),
    isCents('accrual_adjustments_amount', adjustment.amountCents),
  ],
)
