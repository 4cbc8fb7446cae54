// Bank statements in tables: files read in, their lines, how lines are sorted, and how accounts are reconciled against them.
import { sql } from 'drizzle-orm'
import {
  check,
  index,
  integer,
  type SQLiteColumn,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core'
import { crossingKinds } from '#ledger/crossing-kind.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCents,
  isCentsOrNull,
  isDay,
  isDayOrNull,
  isFilled,
  isJson,
  isOneOf,
  isOneOfOrNull,
} from './columns.ts'
import { accounts, postings } from './schema.ts'

/** One file read in for one account. The same bytes for the same account are refused the second time. */
export const statements = sqliteTable(
  'statements',
  {
    id: text('id').primaryKey(),
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    format: text('format', { enum: ['ofx', 'csv', 'typed'] }).notNull(),
    fileName: text('file_name').notNull().default(''),
    /** SHA-256 of the file's bytes, in hex. */
    contentHash: text('content_hash').notNull(),
    importedAt: instantColumn('imported_at').notNull(),
    currency: text('currency').notNull().default('USD'),
    firstDay: dayColumn('first_day'),
    lastDay: dayColumn('last_day'),
    openingBalanceCents: centsColumn('opening_balance_cents'),
    closingBalanceCents: centsColumn('closing_balance_cents'),
    closingDay: dayColumn('closing_day'),
    lineCount: integer('line_count').notNull().default(0),
    newLineCount: integer('new_line_count').notNull().default(0),
    mappingId: text('mapping_id').references(() => statementMappings.id, { onDelete: 'restrict' }),
  },
  (statement) => [
    index('statements_account').on(statement.accountId, statement.importedAt),
    uniqueIndex('statements_content').on(statement.accountId, statement.contentHash),
    isOneOf('statements_format', statement.format, ['ofx', 'csv', 'typed']),
    isDayOrNull('statements_first_day', statement.firstDay),
    isDayOrNull('statements_last_day', statement.lastDay),
    isCentsOrNull('statements_opening', statement.openingBalanceCents),
    isCentsOrNull('statements_closing', statement.closingBalanceCents),
  ],
)

/** Further numbers under which the bank's files name an account, like that of a card in place of a lost one. The first stands at the account. */
export const otherBankKeys = sqliteTable(
  'other_bank_keys',
  {
    bankKey: text('bank_key').primaryKey(),
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    /** The file that taught it: taken back, it is forgotten. */
    statementId: text('statement_id')
      .notNull()
      .references(() => statements.id, { onDelete: 'restrict' }),
  },
  (other) => [
    index('other_bank_keys_account').on(other.accountId),
    isFilled('other_bank_keys_key', other.bankKey),
  ],
)

export const lineStates = ['unsorted', 'doubtful', 'posted', 'matched', 'ignored'] as const

export const lineCorrections = ['replace', 'delete'] as const

/** One line of a statement: never there twice for an account, whatever files overlap. */
export const statementLines = sqliteTable(
  'statement_lines',
  {
    id: integer('id').primaryKey(),
    statementId: text('statement_id')
      .notNull()
      .references(() => statements.id, { onDelete: 'restrict' }),
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    /** Bank's id with its occurrence, or a digest of day, amount and text with its occurrence. */
    lineKey: text('line_key').notNull(),
    bankId: text('bank_id'),
    /** Position in its file, from 1. */
    position: integer('position').notNull(),
    day: dayColumn('day').notNull(),
    /** As the bank shows it: money in positive. */
    amountCents: centsColumn('amount_cents').notNull(),
    payee: text('payee').notNull().default(''),
    memo: text('memo').notNull().default(''),
    checkNumber: text('check_number'),
    /** The bank's word for the kind of line, like DEBIT or XFER. */
    bankKind: text('bank_kind'),
    state: text('state', { enum: lineStates }).notNull().default('unsorted'),
    /** The posting in this account that the line stands for, once posted or matched. */
    postingId: integer('posting_id').references(() => postings.id, { onDelete: 'restrict' }),
    ruleId: text('rule_id').references(() => sortingRules.id, { onDelete: 'restrict' }),
    /** Why a line is doubtful, or why it was set aside. */
    note: text('note').notNull().default(''),
    sortedAt: instantColumn('sorted_at'),
    /** The line that this one replaced, or may: the same movement in an earlier form. */
    correctsId: integer('corrects_id').references((): SQLiteColumn => statementLines.id, {
      onDelete: 'restrict',
    }),
    /** What the bank asks for in a correction of its own. */
    correction: text('correction', { enum: lineCorrections }),
  },
  (line) => [
    uniqueIndex('statement_lines_key').on(line.accountId, line.lineKey),
    uniqueIndex('statement_lines_posting').on(line.postingId),
    index('statement_lines_statement').on(line.statementId, line.position),
    index('statement_lines_day').on(line.accountId, line.day, line.amountCents),
    index('statement_lines_open').on(line.accountId, line.day).where(sql`state IN ('unsorted', 'doubtful')`),
    index('statement_lines_corrects').on(line.correctsId).where(sql`corrects_id IS NOT NULL`),
    isDay('statement_lines_day_valid', line.day),
    isCents('statement_lines_amount', line.amountCents),
    isOneOf('statement_lines_state', line.state, lineStates),
    isOneOfOrNull('statement_lines_correction', line.correction, lineCorrections),
    check(
      'statement_lines_posted',
      sql`(${line.state} IN ('posted', 'matched')) = (${line.postingId} IS NOT NULL)`,
    ),
  ],
)

/** A rule learned from an earlier choice: lines whose text matches go to the account, or become the crossing. */
export const sortingRules = sqliteTable(
  'sorting_rules',
  {
    id: text('id').primaryKey(),
    matchKind: text('match_kind', { enum: ['contains', 'equals', 'starts'] }).notNull(),
    /** Compared after lower-casing and squeezing blanks and digits as the sorter does. */
    matchText: text('match_text').notNull(),
    /** Only lines of this bank account; any when empty. */
    onAccountId: integer('on_account_id').references(() => accounts.id, { onDelete: 'restrict' }),
    sign: text('sign', { enum: ['in', 'out'] }),
    minimumCents: centsColumn('minimum_cents'),
    maximumCents: centsColumn('maximum_cents'),
    targetAccountId: integer('target_account_id').references(() => accounts.id, { onDelete: 'restrict' }),
    crossingKind: text('crossing_kind', { enum: crossingKinds }),
    otherAccountId: integer('other_account_id').references(() => accounts.id, { onDelete: 'restrict' }),
    enterpriseId: text('enterprise_id'),
    payee: text('payee'),
    memo: text('memo'),
    priority: integer('priority').notNull().default(0),
    learned: integer('learned', { mode: 'boolean' }).notNull().default(false),
    timesUsed: integer('times_used').notNull().default(0),
    lastUsedAt: instantColumn('last_used_at'),
    createdAt: instantColumn('created_at').notNull(),
    archivedAt: instantColumn('archived_at'),
    /** Counts saves by a person, so that two people do not overwrite each other. */
    revision: integer('revision').notNull().default(1),
    /** Parts of a bill that is always split the same way, by percent or amount; the target is then the first of them. */
    split: text('split', { mode: 'json' }).$type<readonly SplitShare[]>(),
  },
  (rule) => [
    index('sorting_rules_match').on(rule.matchText),
    isFilled('sorting_rules_text', rule.matchText),
    isOneOf('sorting_rules_kind', rule.matchKind, ['contains', 'equals', 'starts']),
    isOneOfOrNull('sorting_rules_sign', rule.sign, ['in', 'out']),
    isOneOfOrNull('sorting_rules_crossing', rule.crossingKind, crossingKinds),
    check(
      'sorting_rules_target',
      sql`${rule.targetAccountId} IS NOT NULL OR (${rule.crossingKind} IS NOT NULL AND ${rule.otherAccountId} IS NOT NULL)`,
    ),
    check('sorting_rules_split', sql`${rule.split} IS NULL OR json_valid(${rule.split})`),
  ],
)

/** What was ticked and chosen on the desk for a waiting line and is not booked yet: gone as soon as the line is. */
export const lineChoices = sqliteTable(
  'line_choices',
  {
    lineId: integer('line_id')
      .primaryKey()
      .references(() => statementLines.id, { onDelete: 'restrict' }),
    take: integer('take', { mode: 'boolean' }).notNull(),
    /** As the list of targets has it; empty when nothing is chosen. */
    goesTo: text('goes_to').notNull().default(''),
    chosenAt: instantColumn('chosen_at').notNull(),
  },
  (choice) => [check('line_choices_take', sql`${choice.take} IN (0, 1)`)],
)

/** How the columns of an account's CSV files are read, remembered from the first time. */
export const statementMappings = sqliteTable(
  'statement_mappings',
  {
    id: text('id').primaryKey(),
    accountId: integer('account_id').references(() => accounts.id, { onDelete: 'restrict' }),
    name: text('name').notNull(),
    /** Digest of the header row the mapping was made for. */
    headerDigest: text('header_digest').notNull().default(''),
    mapping: text('mapping', { mode: 'json' }).notNull(),
    createdAt: instantColumn('created_at').notNull(),
    lastUsedAt: instantColumn('last_used_at'),
  },
  (mapping) => [
    index('statement_mappings_account').on(mapping.accountId, mapping.headerDigest),
    isJson('statement_mappings_json', mapping.mapping),
  ],
)

/** An account held against a statement's balance: open while it is being ticked, finished when the difference is zero. */
export const reconciliations = sqliteTable(
  'reconciliations',
  {
    id: text('id').primaryKey(),
    accountId: integer('account_id')
      .notNull()
      .references(() => accounts.id, { onDelete: 'restrict' }),
    statementDay: dayColumn('statement_day').notNull(),
    /** In the ledger's sign: a card that owes 50.00 is −5000. */
    statementBalanceCents: centsColumn('statement_balance_cents').notNull(),
    /** Balance of the last finished reconciliation of the account before this one, or zero. */
    previousBalanceCents: centsColumn('previous_balance_cents').notNull(),
    state: text('state', { enum: ['open', 'finished'] })
      .notNull()
      .default('open'),
    statementId: text('statement_id').references(() => statements.id, { onDelete: 'restrict' }),
    note: text('note').notNull().default(''),
    startedAt: instantColumn('started_at').notNull(),
    finishedAt: instantColumn('finished_at'),
  },
  (reconciliation) => [
    index('reconciliations_account').on(reconciliation.accountId, reconciliation.statementDay),
    uniqueIndex('reconciliations_one_open').on(reconciliation.accountId).where(sql`state = 'open'`),
    isDay('reconciliations_day', reconciliation.statementDay),
    isCents('reconciliations_balance', reconciliation.statementBalanceCents),
    isCents('reconciliations_previous', reconciliation.previousBalanceCents),
    check(
      'reconciliations_state',
      sql`(${reconciliation.state} = 'finished') = (${reconciliation.finishedAt} IS NOT NULL) AND ${reconciliation.state} IN ('open', 'finished')`,
    ),
  ],
)

/** A posting seen on a statement. Once its reconciliation is finished the tick stays. */
export const reconciliationTicks = sqliteTable(
  'reconciliation_ticks',
  {
    postingId: integer('posting_id')
      .primaryKey()
      .references(() => postings.id, { onDelete: 'restrict' }),
    reconciliationId: text('reconciliation_id')
      .notNull()
      .references(() => reconciliations.id, { onDelete: 'restrict' }),
  },
  (tick) => [index('reconciliation_ticks_reconciliation').on(tick.reconciliationId)],
)
