// What the file keeps beside the books: closed months, attachments, plans, settings, what the runway said, and the log of every change and its chain of proof.
import { sql } from 'drizzle-orm'
import { check, index, integer, primaryKey, sqliteTable, text, uniqueIndex } from 'drizzle-orm/sqlite-core'
import {
  centsColumn,
  instantColumn,
  isCentsOrNull,
  isFilled,
  isJson,
  isMonth,
  monthColumn,
} from './columns.ts'
import { entries, sides } from './schema.ts'

/** A side's books are shut up to and including the month, until reopened. Rows stay: they are the trace. */
export const monthClosings = sqliteTable(
  'month_closings',
  {
    id: text('id').primaryKey(),
    sideId: text('side_id')
      .notNull()
      .references(() => sides.id, { onDelete: 'restrict' }),
    month: monthColumn('month').notNull(),
    closedAt: instantColumn('closed_at').notNull(),
    note: text('note').notNull().default(''),
    /** What the checklist said when the month was closed. */
    checklist: text('checklist', { mode: 'json' }).notNull().default([]),
    reopenedAt: instantColumn('reopened_at'),
    reopenReason: text('reopen_reason'),
    /** The newest link of the chain of changes when the month was closed. */
    chainDigest: text('chain_digest'),
  },
  (closing) => [
    uniqueIndex('month_closings_shut').on(closing.sideId, closing.month).where(sql`reopened_at IS NULL`),
    isMonth('month_closings_month', closing.month),
    isJson('month_closings_checklist', closing.checklist),
    check(
      'month_closings_reopened',
      sql`(${closing.reopenedAt} IS NULL) = (${closing.reopenReason} IS NULL)`,
    ),
  ],
)

/** A receipt's photo or PDF, kept in the data folder under its content's SHA-256. */
export const attachments = sqliteTable(
  'attachments',
  {
    id: text('id').primaryKey(),
    entryNo: integer('entry_no')
      .notNull()
      .references(() => entries.no, { onDelete: 'restrict' }),
    contentHash: text('content_hash').notNull(),
    fileName: text('file_name').notNull(),
    mediaType: text('media_type').notNull(),
    byteCount: integer('byte_count').notNull(),
    addedAt: instantColumn('added_at').notNull(),
    removedAt: instantColumn('removed_at'),
  },
  (attachment) => [
    index('attachments_entry').on(attachment.entryNo),
    index('attachments_content').on(attachment.contentHash),
    check(
      'attachments_hash',
      sql`length(${attachment.contentHash}) = 64 AND ${attachment.contentHash} NOT GLOB '*[^0-9a-f]*'`,
    ),
    check(
      'attachments_size',
      sql`typeof(${attachment.byteCount}) = 'integer' AND ${attachment.byteCount} >= 0`,
    ),
  ],
)

export const plans = sqliteTable(
  'plans',
  {
    id: text('id').primaryKey(),
    name: text('name').notNull(),
    createdAt: instantColumn('created_at').notNull(),
    archivedAt: instantColumn('archived_at'),
  },
  (plan) => [isFilled('plans_name', plan.name)],
)

/** Each save of a plan. Saving over a newer revision is refused, so the number must be the next one. */
export const planRevisions = sqliteTable(
  'plan_revisions',
  {
    planId: text('plan_id')
      .notNull()
      .references(() => plans.id, { onDelete: 'restrict' }),
    revisionNo: integer('revision_no').notNull(),
    schemaVersion: integer('schema_version').notNull(),
    document: text('document', { mode: 'json' }).notNull(),
    note: text('note').notNull().default(''),
    savedAt: instantColumn('saved_at').notNull(),
    savedBy: text('saved_by').notNull().default(''),
  },
  (revision) => [
    primaryKey({ columns: [revision.planId, revision.revisionNo] }),
    isJson('plan_revisions_document', revision.document),
  ],
)

export const settings = sqliteTable(
  'settings',
  {
    key: text('key').primaryKey(),
    value: text('value', { mode: 'json' }).notNull(),
    /** Counts saves, so that two people do not overwrite each other. */
    revision: integer('revision').notNull().default(1),
    updatedAt: instantColumn('updated_at').notNull(),
  },
  (setting) => [isJson('settings_value', setting.value), isFilled('settings_key', setting.key)],
)

/** What was said each month: so that next month's answer can be held against it. */
export const runwayHistory = sqliteTable(
  'runway_history',
  {
    month: monthColumn('month').primaryKey(),
    saidAt: instantColumn('said_at').notNull(),
    /** Empty when the savings last to the end of the plan. */
    monthsLeft: integer('months_left'),
    monthsLeftWithoutDraws: integer('months_left_without_draws'),
    carryMonth: monthColumn('carry_month'),
    floorMonth: monthColumn('floor_month'),
    spendableCents: centsColumn('spendable_cents'),
    planId: text('plan_id'),
    planRevisionNo: integer('plan_revision_no'),
    details: text('details', { mode: 'json' }).notNull().default({}),
  },
  (said) => [
    isMonth('runway_history_month', said.month),
    isCentsOrNull('runway_history_spendable', said.spendableCents),
    isJson('runway_history_details', said.details),
  ],
)

/** One row per thing done, in order; nothing in it is ever changed or removed. */
export const changeLog = sqliteTable(
  'change_log',
  {
    id: integer('id').primaryKey({ autoIncrement: true }),
    at: instantColumn('at').notNull(),
    /** What was done, like `entry.posted` or `month.closed`. */
    kind: text('kind').notNull(),
    sideId: text('side_id'),
    /** Id of what it was done to. */
    subject: text('subject').notNull().default(''),
    /** One sentence for the people who share the file. */
    summary: text('summary').notNull().default(''),
    details: text('details', { mode: 'json' }).notNull().default({}),
    /** Which browser or command did it, so that the other one can be told. */
    actor: text('actor').notNull().default(''),
    /** The change this one takes back. */
    undoesId: integer('undoes_id'),
  },
  (change) => [
    index('change_log_subject').on(change.subject),
    uniqueIndex('change_log_undoes').on(change.undoesId),
    isFilled('change_log_kind', change.kind),
    isJson('change_log_details', change.details),
  ],
)

/** One link per transaction that wrote: which rows, with their digests, resting on the link before. See `chain/chain.ts`. */
export const chainLinks = sqliteTable(
  'chain_links',
  {
    no: integer('no').primaryKey(),
    /** Lines of table, key and digest of a row. */
    written: text('written').notNull(),
    /** SHA-256 of number, digest of the link before, and what was written, in hex. */
    digest: text('digest').notNull(),
  },
  (link) => [isFilled('chain_links_written', link.written), isFilled('chain_links_digest', link.digest)],
)

/** Every form that was carried out: the same id and body again is the same success, another body is a conflict. */
export const submissions = sqliteTable(
  'submissions',
  {
    id: text('id').primaryKey(),
    kind: text('kind').notNull(),
    /** SHA-256 of the canonical body, in hex. */
    bodyDigest: text('body_digest').notNull(),
    result: text('result', { mode: 'json' }).notNull(),
    at: instantColumn('at').notNull(),
  },
  (submission) => [
    isFilled('submissions_id', submission.id),
    isFilled('submissions_kind', submission.kind),
    isJson('submissions_result', submission.result),
  ],
)
