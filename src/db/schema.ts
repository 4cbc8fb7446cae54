// The books in tables: sides, accounts, entries with their postings, crossings and standing transfers.
// Rollups: schema-rollups.ts. Statements: schema-statements.ts. The year's papers: schema-year.ts. The farm’s notebook: notebook/schema-*.ts. The rest: schema-records.ts. Triggers: drizzle/0001_*.sql.
import { sql } from 'drizzle-orm'
import {
  check,
  index,
  integer,
  primaryKey,
  real,
  type SQLiteColumn,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core'
import {
  accountKinds,
  accountPurposes,
  cashRoles,
  contraKinds,
  crossingRoles,
  currentKinds,
  propertyLoanParts,
  savingsKinds,
  sideKinds,
  systemRoles,
  taxKinds,
} from '#ledger/account.ts'
import { crossingKinds } from '#ledger/crossing-kind.ts'
import { entrySources } from '#ledger/entry.ts'
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCents,
  isDay,
  isFilled,
  isMonth,
  isOneOf,
  isOneOfOrNull,
  monthColumn,
} from './columns.ts'

/** The separate sets of books. `farm` and `household` always exist; a venture's id is made from its name. */
export const sides = sqliteTable(
  'sides',
  {
    id: text('id').primaryKey(),
    kind: text('kind', { enum: sideKinds }).notNull(),
    name: text('name').notNull(),
    position: integer('position').notNull().default(0),
    createdAt: instantColumn('created_at').notNull(),
    archivedAt: instantColumn('archived_at'),
  },
  (side) => [isOneOf('sides_kind', side.kind, sideKinds), isFilled('sides_name', side.name)],
)

export const accounts = sqliteTable(
  'accounts',
  {
    id: integer('id').primaryKey(),
    sideId: text('side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    /** Sorts the list of accounts: 1000s assets, 2000s liabilities, 3000s equity, 4000s income, 5000s and up expenses. */
    number: integer('number').notNull(),
    name: text('name').notNull(),
    kind: text('kind', { enum: accountKinds }).notNull(),
    /** spendable: counts as spendable savings; cash: working cash that is not savings; other: retirement and the like. */
    cashRole: text('cash_role', { enum: cashRoles }).notNull().default('none'),
    /** Line of Schedule F (farm) or C (venture), like `2` or `32a`, on income and expense accounts. */
    scheduleLine: text('schedule_line'),
    /** What household money is for: premiums and taxes are told apart from living costs in the monthly facts. */
    purpose: text('purpose', { enum: accountPurposes }),
    /** Which tax is paid or owed here, or that no tax knows this income yet. */
    taxKind: text('tax_kind', { enum: taxKinds }),
    /** What kind of savings lies here, as the plan takes it over. */
    savingsKind: text('savings_kind', { enum: savingsKinds }),
    /** Whose pay, premiums or retirement savings these are: the plan's person. */
    personId: text('person_id'),
    /** What it is to a loan on house or land. */
    propertyLoan: text('property_loan', { enum: propertyLoanParts }),
    /** What it holds that turns over within a year; empty for what lasts and for loans. */
    currentKind: text('current_kind', { enum: currentKinds }),
    /** What it stands against: depreciation taken is no thing owned. */
    contraKind: text('contra_kind', { enum: contraKinds }),
    enterpriseId: text('enterprise_id'),
    /** Set on accounts that stand for another side; only crossings may post to them. */
    crossingRole: text('crossing_role', { enum: crossingRoles }),
    crossingSideId: text('crossing_side_id').references((): SQLiteColumn => sides.id, {
      onDelete: 'restrict',
    }),
    /** Accounts the code itself must find: opening balances, unsorted money, goods used at home. One per side. */
    systemRole: text('system_role', { enum: systemRoles }),
    /** How a bank's file names this account, so that its statements find their way. */
    bankKey: text('bank_key'),
    note: text('note').notNull().default(''),
    createdAt: instantColumn('created_at').notNull(),
    archivedAt: instantColumn('archived_at'),
    /** Counts saves, so that two people do not overwrite each other. */
    revision: integer('revision').notNull().default(1),
  },
  (account) => [
    uniqueIndex('accounts_side_number').on(account.sideId, account.number),
    uniqueIndex('accounts_side_name').on(account.sideId, account.name),
    uniqueIndex('accounts_crossing').on(account.sideId, account.crossingSideId, account.crossingRole),
    uniqueIndex('accounts_system').on(account.sideId, account.systemRole),
    isOneOf('accounts_kind', account.kind, accountKinds),
    isOneOf('accounts_cash_role', account.cashRole, cashRoles),
    isOneOfOrNull('accounts_purpose', account.purpose, accountPurposes),
    isOneOfOrNull('accounts_tax_kind', account.taxKind, taxKinds),
    isOneOfOrNull('accounts_savings_kind', account.savingsKind, savingsKinds),
    isOneOfOrNull('accounts_property_loan', account.propertyLoan, propertyLoanParts),
    isOneOfOrNull('accounts_current_kind', account.currentKind, currentKinds),
    isOneOfOrNull('accounts_contra_kind', account.contraKind, contraKinds),
    isOneOfOrNull('accounts_crossing_role', account.crossingRole, crossingRoles),
    isOneOfOrNull('accounts_system_role', account.systemRole, systemRoles),
    isFilled('accounts_name', account.name),
    check(
      'accounts_crossing_pair',
      sql`(${account.crossingRole} IS NULL) = (${account.crossingSideId} IS NULL) AND ${account.crossingSideId} IS NOT ${account.sideId}`,
    ),
    // A card's debt may count against spendable savings, so liabilities have a cash role too.
    check(
      'accounts_cash_is_money',
      sql`${account.cashRole} = 'none' OR ${account.kind} IN ('asset', 'liability')`,
    ),
  ],
)

/** Never changed and never deleted. An entry can only be committed together with its row in `sealed_entries`. */
export const entries = sqliteTable(
  'entries',
  {
    no: integer('no').primaryKey(),
    /** Made by the form that sent it, so that sending twice books once. */
    id: text('id').notNull(),
    sideId: text('side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    day: dayColumn('day').notNull(),
    payee: text('payee').notNull().default(''),
    memo: text('memo').notNull().default(''),
    source: text('source', { enum: entrySources }).notNull(),
    postedAt: instantColumn('posted_at').notNull(),
    /** The entry this one takes back, line for line. */
    reversesNo: integer('reverses_no').references((): SQLiteColumn => entries.no, { onDelete: 'restrict' }),
    /** The entry this one stands in for after it was taken back. */
    correctsNo: integer('corrects_no').references((): SQLiteColumn => entries.no, { onDelete: 'restrict' }),
  },
  (entry) => [
    uniqueIndex('entries_id').on(entry.id),
    // Nearly every entry reverses none: statements write `+reverses_no IS NULL`, so that SQLite does not walk them all by this.
    uniqueIndex('entries_reverses').on(entry.reversesNo),
    index('entries_corrects').on(entry.correctsNo).where(sql`corrects_no IS NOT NULL`),
    index('entries_side_day').on(entry.sideId, entry.day, entry.no),
    isDay('entries_day', entry.day),
    isFilled('entries_id_filled', entry.id),
    isOneOf('entries_source', entry.source, entrySources),
  ],
)

export const postings = sqliteTable(
  'postings',
  {
    id: integer('id').primaryKey(),
    entryNo: integer('entry_no')
      .notNull()
      .references(() => entries.no, { onDelete: 'restrict' }),
    lineNo: integer('line_no').notNull(),
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    /** The entry's day again: registers read one index and nothing else. */
    day: dayColumn('day').notNull(),
    /** Debits positive. */
    amountCents: centsColumn('amount_cents').notNull(),
    memo: text('memo').notNull().default(''),
    enterpriseId: text('enterprise_id'),
    crossingId: text('crossing_id').references((): SQLiteColumn => crossings.id, { onDelete: 'restrict' }),
  },
  (posting) => [
    uniqueIndex('postings_entry_line').on(posting.entryNo, posting.lineNo),
    index('postings_register').on(posting.accountId, posting.day, posting.id, posting.amountCents),
    index('postings_crossing').on(posting.crossingId).where(sql`crossing_id IS NOT NULL`),
    index('postings_enterprise').on(posting.enterpriseId, posting.day).where(sql`enterprise_id IS NOT NULL`),
    isCents('postings_amount', posting.amountCents),
    check('postings_not_zero', sql`${posting.amountCents} <> 0`),
    isDay('postings_day', posting.day),
  ],
)

/** A row here says the entry was checked: balanced, two lines or more, all on its side, its month open. */
export const sealedEntries = sqliteTable('sealed_entries', {
  entryNo: integer('entry_no')
    .primaryKey()
    .references(() => entries.no, { onDelete: 'restrict' }),
})

/** Value that moved between two sides, recorded once. Its halves are the postings that carry its id. */
export const crossings = sqliteTable(
  'crossings',
  {
    id: text('id').primaryKey(),
    kind: text('kind', { enum: crossingKinds }).notNull(),
    day: dayColumn('day').notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
    /** The side the value leaves. A reversing crossing has the sides of the first one swapped. */
    fromSideId: text('from_side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    toSideId: text('to_side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    memo: text('memo').notNull().default(''),
    /** Farm goods used at home: so many of a unit at a price each. */
    quantity: real('quantity'),
    unit: text('unit'),
    unitPriceCents: centsColumn('unit_price_cents'),
    reversesId: text('reverses_id').references((): SQLiteColumn => crossings.id, { onDelete: 'restrict' }),
    postedAt: instantColumn('posted_at').notNull(),
  },
  (crossing) => [
    uniqueIndex('crossings_reverses').on(crossing.reversesId),
    index('crossings_day').on(crossing.day),
    isOneOf('crossings_kind', crossing.kind, crossingKinds),
    isDay('crossings_day_valid', crossing.day),
    isCents('crossings_amount', crossing.amountCents),
    check(
      'crossings_between_two_sides',
      sql`${crossing.amountCents} > 0 AND ${crossing.fromSideId} <> ${crossing.toSideId}`,
    ),
  ],
)

/** A row here says both halves were checked and are equal. */
export const sealedCrossings = sqliteTable('sealed_crossings', {
  crossingId: text('crossing_id')
    .primaryKey()
    .references(() => crossings.id, { onDelete: 'restrict' }),
})

/** A crossing that comes back every month. A change of amount ends one and starts the next. */
export const standingTransfers = sqliteTable(
  'standing_transfers',
  {
    id: text('id').primaryKey(),
    name: text('name').notNull(),
    kind: text('kind', { enum: crossingKinds }).notNull(),
    fromAccountId: integer('from_account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    toAccountId: integer('to_account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    amountCents: centsColumn('amount_cents').notNull(),
    dayOfMonth: integer('day_of_month').notNull(),
    firstMonth: monthColumn('first_month').notNull(),
    lastMonth: monthColumn('last_month'),
    /** automatic: posts by itself when due; confirm: waits for a yes. */
    posting: text('posting', { enum: ['automatic', 'confirm'] }).notNull(),
    memo: text('memo').notNull().default(''),
    createdAt: instantColumn('created_at').notNull(),
    archivedAt: instantColumn('archived_at'),
  },
  (standing) => [
    isFilled('standing_name', standing.name),
    isOneOf('standing_kind', standing.kind, crossingKinds),
    isOneOf('standing_posting', standing.posting, ['automatic', 'confirm']),
    isCents('standing_amount', standing.amountCents),
    isMonth('standing_first_month', standing.firstMonth),
    check(
      'standing_plausible',
      sql`${standing.amountCents} > 0 AND ${standing.dayOfMonth} BETWEEN 1 AND 31 AND (${standing.lastMonth} IS NULL OR ${standing.lastMonth} >= ${standing.firstMonth})`,
    ),
  ],
)

/** At most one per transfer and month: posted with its crossing, or skipped on purpose. */
export const standingOccurrences = sqliteTable(
  'standing_occurrences',
  {
    standingId: text('standing_id')
      .notNull()
      .references(() => standingTransfers.id, { onDelete: 'restrict' }),
    month: monthColumn('month').notNull(),
    state: text('state', { enum: ['posted', 'skipped'] }).notNull(),
    crossingId: text('crossing_id').references(() => crossings.id, { onDelete: 'restrict' }),
    at: instantColumn('at').notNull(),
  },
  (occurrence) => [
    primaryKey({ columns: [occurrence.standingId, occurrence.month] }),
    uniqueIndex('standing_occurrences_crossing').on(occurrence.crossingId),
    isMonth('standing_occurrences_month', occurrence.month),
    check(
      'standing_occurrences_state',
      sql`(${occurrence.state} = 'posted' AND ${occurrence.crossingId} IS NOT NULL) OR (${occurrence.state} = 'skipped' AND ${occurrence.crossingId} IS NULL)`,
    ),
  ],
)
