// The notebook of the farm in tables: hours, heads, market days, trips, goods that left the farm without money.
// Enterprises stand under their tag in the books, herds, markets and people under their short names in the plan.
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
import {
  centsColumn,
  dayColumn,
  instantColumn,
  isCents,
  isCentsOrNull,
  isDay,
  isFilled,
  isOneOf,
  isOneOfOrNull,
} from '#db/columns.ts'
import { crossings, entries } from '#db/schema.ts'
import { goodsKinds, goodsStates, headKinds, meansOfPay, tripKinds } from '#farm/notebook/kinds.ts'
import { batches } from './schema-batches.ts'

/** Classes of the first tables; since then young that are kept to breed are marked beside them. */
const storedClasses = ['females', 'young', 'males'] as const

/** Time that somebody worked, for one thing or for the farm as a whole. A row without minutes is a clock that runs. */
export const workHours = sqliteTable(
  'work_hours',
  {
    id: text('id').primaryKey(),
    day: dayColumn('day').notNull(),
    /** Short name of a person of the plan, or the name of somebody who was hired. */
    person: text('person').notNull(),
    hired: integer('hired', { mode: 'boolean' }).notNull().default(false),
    enterpriseId: text('enterprise_id'),
    herdId: text('herd_id'),
    batchId: text('batch_id').references(() => batches.id, { onDelete: 'restrict' }),
    marketId: text('market_id'),
    minutes: integer('minutes'),
    /** When the clock was started; empty for time written as a total. */
    startedAt: instantColumn('started_at'),
    /** What a hired hand was paid for it. */
    payCents: centsColumn('pay_cents'),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
  },
  (work) => [
    index('work_hours_day').on(work.day),
    index('work_hours_batch').on(work.batchId).where(sql`batch_id IS NOT NULL`),
    uniqueIndex('work_hours_clock').on(work.person).where(sql`minutes IS NULL`),
    isDay('work_hours_day_valid', work.day),
    isFilled('work_hours_person', work.person),
    isCentsOrNull('work_hours_pay', work.payCents),
    check('work_hours_minutes', sql`${work.minutes} IS NULL OR ${work.minutes} BETWEEN 1 AND 1440`),
    check('work_hours_clock_started', sql`${work.minutes} IS NOT NULL OR ${work.startedAt} IS NOT NULL`),
    check(
      'work_hours_one_thing',
      sql`(${work.enterpriseId} IS NOT NULL) + (${work.herdId} IS NOT NULL) + (${work.batchId} IS NOT NULL) + (${work.marketId} IS NOT NULL) <= 1`,
    ),
  ],
)

/** Heads of a herd: counted, or come and gone. Heads that went to the kitchen or were bartered stand with the goods. */
export const headTallies = sqliteTable(
  'head_tallies',
  {
    id: text('id').primaryKey(),
    day: dayColumn('day').notNull(),
    herdId: text('herd_id').notNull(),
    kind: text('kind', { enum: headKinds }).notNull(),
    /** Breeding females, young or males; a count names all that stand there of its class. */
    headClass: text('head_class', { enum: storedClasses }).notNull(),
    /** Of young: kept to breed, not to be sold. */
    keptToBreed: integer('kept_to_breed', { mode: 'boolean' }).notNull().default(false),
    count: integer('count').notNull(),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
  },
  (tally) => [
    index('head_tallies_herd').on(tally.herdId, tally.day),
    isDay('head_tallies_day', tally.day),
    isFilled('head_tallies_herd_filled', tally.herdId),
    isOneOf('head_tallies_kind', tally.kind, headKinds),
    isOneOf('head_tallies_class', tally.headClass, storedClasses),
    check(
      'head_tallies_count',
      sql`typeof(${tally.count}) = 'integer' AND ${tally.count} >= 0 AND (${tally.kind} = 'counted' OR ${tally.count} > 0)`,
    ),
  ],
)

/** One day at one market. What was taken stands by product and means in `market_takings`. */
export const marketDays = sqliteTable(
  'market_days',
  {
    id: text('id').primaryKey(),
    day: dayColumn('day').notNull(),
    marketId: text('market_id').notNull(),
    /** Of all who went, loading and driving counted. */
    minutes: integer('minutes'),
    /** Who sold: short names of people of the plan, with commas between. */
    people: text('people').notNull().default(''),
    miles: real('miles'),
    feeCents: centsColumn('fee_cents'),
    note: text('note').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
    /** When somebody said at the table what the books should make of the cash. */
    settledAt: instantColumn('settled_at'),
    /** The entry that booked the cash; empty when the bank's statement shows it. */
    entryNo: integer('entry_no').references(() => entries.no, { onDelete: 'restrict' }),
  },
  (market) => [
    index('market_days_market').on(market.marketId, market.day),
    isDay('market_days_day', market.day),
    isFilled('market_days_market', market.marketId),
    isCentsOrNull('market_days_fee', market.feeCents),
    check('market_days_minutes', sql`${market.minutes} IS NULL OR ${market.minutes} BETWEEN 1 AND 10080`),
    check('market_days_miles', sql`${market.miles} IS NULL OR ${market.miles} >= 0`),
    check('market_days_settled', sql`${market.entryNo} IS NULL OR ${market.settledAt} IS NOT NULL`),
  ],
)

export const marketTakings = sqliteTable(
  'market_takings',
  {
    marketDayId: text('market_day_id')
      .notNull()
      .references(() => marketDays.id, { onDelete: 'restrict' }),
    /** The enterprise sold; empty text when it was not told apart. */
    enterpriseId: text('enterprise_id').notNull().default(''),
    means: text('means', { enum: meansOfPay }).notNull(),
    amountCents: centsColumn('amount_cents').notNull(),
  },
  (taking) => [
    primaryKey({ columns: [taking.marketDayId, taking.enterpriseId, taking.means] }),
    isOneOf('market_takings_means', taking.means, meansOfPay),
    isCents('market_takings_amount', taking.amountCents),
    check('market_takings_above_zero', sql`${taking.amountCents} > 0`),
  ],
)

/** A trip for the farm by its miles, or what the odometer showed at both ends. A reading alone has one end. */
export const trips = sqliteTable(
  'trips',
  {
    id: text('id').primaryKey(),
    day: dayColumn('day').notNull(),
    kind: text('kind', { enum: tripKinds }).notNull(),
    vehicle: text('vehicle').notNull(),
    miles: real('miles'),
    /** Odometer as it left; for a reading, what it showed. */
    odometer: real('odometer'),
    purpose: text('purpose').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
  },
  (trip) => [
    index('trips_day').on(trip.day),
    isDay('trips_day_valid', trip.day),
    isFilled('trips_vehicle', trip.vehicle),
    isOneOf('trips_kind', trip.kind, tripKinds),
    check(
      'trips_measured',
      sql`(${trip.kind} = 'farm' AND coalesce(${trip.miles}, 0) > 0) OR (${trip.kind} = 'reading' AND coalesce(${trip.odometer}, -1) >= 0)`,
    ),
  ],
)

/** Goods that left the farm without money: they wait for the table at home, where a crossing is made of them. */
export const goodsNotes = sqliteTable(
  'goods_notes',
  {
    id: text('id').primaryKey(),
    day: dayColumn('day').notNull(),
    kind: text('kind', { enum: goodsKinds }).notNull(),
    what: text('what').notNull(),
    enterpriseId: text('enterprise_id'),
    batchId: text('batch_id').references(() => batches.id, { onDelete: 'restrict' }),
    herdId: text('herd_id'),
    /** Of heads of a herd: which class they were of. */
    headClass: text('head_class', { enum: storedClasses }),
    keptToBreed: integer('kept_to_breed', { mode: 'boolean' }).notNull().default(false),
    quantity: real('quantity').notNull(),
    unit: text('unit').notNull().default(''),
    /** What one of it sells for. */
    unitPriceCents: centsColumn('unit_price_cents'),
    /** Bartered: with whom, and for what. */
    tradedFor: text('traded_for').notNull().default(''),
    recordedAt: instantColumn('recorded_at').notNull(),
    recordedBy: text('recorded_by').notNull().default(''),
    state: text('state', { enum: goodsStates }).notNull().default('waiting'),
    crossingId: text('crossing_id').references(() => crossings.id, { onDelete: 'restrict' }),
    settledAt: instantColumn('settled_at'),
  },
  (goods) => [
    index('goods_notes_day').on(goods.day),
    index('goods_notes_waiting').on(goods.day).where(sql`state = 'waiting'`),
    index('goods_notes_batch').on(goods.batchId).where(sql`batch_id IS NOT NULL`),
    uniqueIndex('goods_notes_crossing').on(goods.crossingId),
    isDay('goods_notes_day_valid', goods.day),
    isFilled('goods_notes_what', goods.what),
    isOneOf('goods_notes_kind', goods.kind, goodsKinds),
    isOneOfOrNull('goods_notes_class', goods.headClass, storedClasses),
    isOneOf('goods_notes_state', goods.state, goodsStates),
    isCentsOrNull('goods_notes_price', goods.unitPriceCents),
    check('goods_notes_heads', sql`(${goods.herdId} IS NULL) = (${goods.headClass} IS NULL)`),
    check('goods_notes_quantity', sql`${goods.quantity} > 0`),
    check(
      'goods_notes_settled',
      sql`(${goods.state} = 'booked') = (${goods.crossingId} IS NOT NULL) AND (${goods.state} = 'waiting') = (${goods.settledAt} IS NULL)`,
    ),
  ],
)

/**
 * Goods bartered for what the farm itself needed, and the entry of the farm that booked them. No money crossed, so `goods_notes` of the
 * first tables has them as set aside; with a row here they are booked.
 */
export const goodsEntries = sqliteTable(
  'goods_entries',
  {
    goodsId: text('goods_id')
      .primaryKey()
      .references(() => goodsNotes.id, { onDelete: 'restrict' }),
    entryNo: integer('entry_no')
      .notNull()
      .references(() => entries.no, { onDelete: 'restrict' }),
  },
  (goods) => [uniqueIndex('goods_entries_entry').on(goods.entryNo)],
)
