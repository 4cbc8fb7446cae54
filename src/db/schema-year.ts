// What the year's papers need beside the entries: market values, stock and equipment, what cash books do not show.
import { sql } from 'drizzle-orm'
import {
  check,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core'
import { accrualKinds } from '#ledger/reports/accrual.ts'
import { holdingKinds } from '#ledger/reports/stock-inventory.ts'
import { payeeKinds } from '#ledger/tax/payee-kind.ts'
import { taxOffices, taxUses } from '#ledger/tax/tax-use.ts'
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCents,
  isCentsOrNull,
  isDay,
  isDayOrNull,
  isFilled,
  isOneOf,
  isOneOfOrNull,
} from './columns.ts'
import { accounts, postings, sides } from './schema.ts'

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
    /** What tax returns up to that of a year have deducted of it: cents and year. */
    writtenOffBefore: text('written_off_before', { mode: 'json' }),
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

/** A part of a thing that was sold, lost or given away while the rest stayed: of 8 head, 3. The thing keeps what all of it cost. */
export const holdingParts = sqliteTable(
  'holding_parts',
  {
    id: text('id').primaryKey(),
    holdingId: text('holding_id')
      .notNull()
      .references(() => holdings.id, { onDelete: 'restrict' }),
    /** Of the thing’s quantity. */
    quantity: real('quantity').notNull(),
    disposedDay: dayColumn('disposed_day').notNull(),
    disposedForCents: centsColumn('disposed_for_cents'),
    createdAt: instantColumn('created_at').notNull(),
  },
  (part) => [
    index('holding_parts_holding').on(part.holdingId),
    check('holding_parts_quantity', sql`${part.quantity} > 0`),
    isDay('holding_parts_disposed', part.disposedDay),
    isCentsOrNull('holding_parts_disposed_for', part.disposedForCents),
  ],
)

/** What a thing was worth at market, a value a day: a value of this year leaves the papers of earlier ones as they are. */
export const holdingValues = sqliteTable(
  'holding_values',
  {
    holdingId: text('holding_id')
      .notNull()
      .references(() => holdings.id, { onDelete: 'restrict' }),
    day: dayColumn('day').notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
  },
  (value) => [
    primaryKey({ columns: [value.holdingId, value.day] }),
    isDay('holding_values_day', value.day),
    isCents('holding_values_amount', value.amountCents),
  ],
)

/** The year pack as it was when a year was closed, and each amended copy after it. Never changed and never deleted. */
export const keptPacks = sqliteTable(
  'kept_packs',
  {
    id: text('id').primaryKey(),
    year: integer('year').notNull(),
    /** 1 as it was closed; from 2 on amended copies. */
    copyNo: integer('copy_no').notNull(),
    keptAt: instantColumn('kept_at').notNull(),
    actor: text('actor').notNull().default(''),
    /** All sheets as JSON text, byte for byte what the digest is of. */
    sheets: text('sheets').notNull(),
    /** SHA-256 of the sheets, in hex. */
    digest: text('digest').notNull(),
    /** The end of the chain of changes then. */
    chainEnd: text('chain_end').notNull().default(''),
    /** Why it was amended. */
    note: text('note').notNull().default(''),
  },
  (pack) => [
    uniqueIndex('kept_packs_year').on(pack.year, pack.copyNo),
    check(
      'kept_packs_year_valid',
      sql`typeof(${pack.year}) = 'integer' AND ${pack.year} BETWEEN 1000 AND 9999`,
    ),
    check('kept_packs_copy', sql`typeof(${pack.copyNo}) = 'integer' AND ${pack.copyNo} > 0`),
    check('kept_packs_sheets', sql`json_valid(${pack.sheets})`),
    isFilled('kept_packs_digest', pack.digest),
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
    kind: text('kind', { enum: accrualKinds }).notNull(),
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

/** As what a posting counts for tax and for which year, where people said so: the books alone say when money moved. */
export const postingTax = sqliteTable(
  'posting_tax',
  {
    postingId: integer('posting_id')
      .primaryKey()
      .references(() => postings.id, { onDelete: 'restrict' }),
    taxUse: text('tax_use', { enum: taxUses }).notNull(),
    /** Of tax paid: to whom. Of what went into savings: empty. */
    office: text('office', { enum: taxOffices }),
    /** Two letters, of tax paid to a state. */
    state: text('state'),
    taxYear: integer('tax_year').notNull(),
    saidAt: instantColumn('said_at').notNull(),
  },
  (said) => [
    index('posting_tax_year').on(said.taxYear),
    isOneOf('posting_tax_use', said.taxUse, taxUses),
    isOneOfOrNull('posting_tax_office', said.office, taxOffices),
    check('posting_tax_state', sql`${said.state} IS NULL OR ${said.state} GLOB '[A-Z][A-Z]'`),
    check(
      'posting_tax_whose',
      sql`(${said.taxUse} IN ('withheld', 'estimate', 'balance', 'refund')) = (${said.office} IS NOT NULL)`,
    ),
    check(
      'posting_tax_year_valid',
      sql`typeof(${said.taxYear}) = 'integer' AND ${said.taxYear} BETWEEN 1000 AND 9999`,
    ),
  ],
)

/** What is known of a payee of the books: who works here, who sends a bill, and who needs no form at the year's end. */
export const payees = sqliteTable(
  'payees',
  {
    /** As entries name them. */
    name: text('name').primaryKey(),
    kind: text('kind', { enum: payeeKinds }).notNull(),
    /** The name that stands for this one on paper, where the books spell it in several ways. */
    sameAs: text('same_as'),
    /** The signed form with their number lies in the folder. The number itself is never kept here. */
    formOnFile: integer('form_on_file', { mode: 'boolean' }).notNull().default(false),
    note: text('note').notNull().default(''),
    saidAt: instantColumn('said_at').notNull(),
    /** Counts saves, so that two people do not overwrite each other. */
    revision: integer('revision').notNull().default(1),
  },
  (payee) => [isFilled('payees_name', payee.name), isOneOf('payees_kind', payee.kind, payeeKinds)],
)
