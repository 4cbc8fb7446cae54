// Batches in tables: one lot of an enterprise, the lines of the books that belong to it, and what happened to it.
// Enterprises stand under their tag in the books, markets under their short name in the plan.
import { sql } from 'drizzle-orm'
import { check, index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCentsOrNull,
  isDay,
  isDayOrNull,
  isFilled,
  isOneOf,
} from '#db/columns.ts'
import { postings } from '#db/schema.ts'
import { batchMarkKinds } from '#farm/notebook/kinds.ts'

/** One lot of an enterprise from start to last sale. */
export const batches = sqliteTable(
  'batches',
  {
    id: text('id').primaryKey(),
    enterpriseId: text('enterprise_id').notNull(),
    name: text('name').notNull(),
    startedDay: dayColumn('started_day').notNull(),
    /** So many of the unit at the start: 150 birds, 12 beds. */
    size: real('size').notNull(),
    unit: text('unit').notNull(),
    place: text('place').notNull().default(''),
    /** What one of the unit is hoped to bring. */
    hopedPriceCents: centsColumn('hoped_price_cents'),
    endedDay: dayColumn('ended_day'),
    /** Of an ended one, so many that stay on the farm: kept to breed or to lay. */
    kept: real('kept').notNull().default(0),
    note: text('note').notNull().default(''),
    createdAt: instantColumn('created_at').notNull(),
    /** Counts saves by a person, so that two people do not overwrite each other. */
    revision: integer('revision').notNull().default(1),
  },
  (batch) => [
    index('batches_enterprise').on(batch.enterpriseId, batch.startedDay),
    isFilled('batches_enterprise_filled', batch.enterpriseId),
    isFilled('batches_name', batch.name),
    isFilled('batches_unit', batch.unit),
    isDay('batches_started', batch.startedDay),
    isDayOrNull('batches_ended', batch.endedDay),
    isCentsOrNull('batches_hoped_price', batch.hopedPriceCents),
    check('batches_size', sql`${batch.size} > 0`),
    check('batches_in_order', sql`${batch.endedDay} IS NULL OR ${batch.endedDay} >= ${batch.startedDay}`),
  ],
)

/** A line of the books that belongs to a batch: at most one batch a line. What takes the line back carries the tie too. */
export const batchTies = sqliteTable(
  'batch_ties',
  {
    postingId: integer('posting_id')
      .primaryKey()
      .references(() => postings.id, { onDelete: 'restrict' }),
    batchId: text('batch_id')
      .notNull()
      .references(() => batches.id, { onDelete: 'restrict' }),
    tiedAt: instantColumn('tied_at').notNull(),
  },
  (tie) => [index('batch_ties_batch').on(tie.batchId)],
)

export type Batch = typeof batches.$inferSelect
export type BatchDraft = Omit<Batch, 'id' | 'createdAt' | 'revision' | 'kept'>

/** What happened to a batch: so many lost, processed, sold; what they weighed. */
export const batchMarks = sqliteTable(
  'batch_marks',
  {
    id: text('id').primaryKey(),
    batchId: text('batch_id')
      .notNull()
      .references(() => batches.id, { onDelete: 'restrict' }),
    day: dayColumn('day').notNull(),
    kind: text('kind', { enum: batchMarkKinds }).notNull(),
    /** Of the batch's unit. */
    quantity: real('quantity').notNull(),
    /** Of all of them together. */
    pounds: real('pounds'),
    /** Where they were sold; empty: from the farm. */
    marketId: text('market_id'),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
  },
  (mark) => [
    index('batch_marks_batch').on(mark.batchId, mark.day),
    isDay('batch_marks_day', mark.day),
    isOneOf('batch_marks_kind', mark.kind, batchMarkKinds),
    check('batch_marks_quantity', sql`${mark.quantity} > 0`),
    check('batch_marks_pounds', sql`${mark.pounds} IS NULL OR ${mark.pounds} > 0`),
  ],
)
