-- The notebook of the farm: batches with what belongs to them, hours, heads, market days, trips, and goods that left without money.
CREATE TABLE `batch_marks` (
	`id` text PRIMARY KEY NOT NULL,
	`batch_id` text NOT NULL,
	`day` text NOT NULL,
	`kind` text NOT NULL,
	`quantity` real NOT NULL,
	`pounds` real,
	`market_id` text,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	FOREIGN KEY (`batch_id`) REFERENCES `batches`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "batch_marks_day" CHECK(typeof("batch_marks"."day") = 'text' AND length("batch_marks"."day") = 10 AND date("batch_marks"."day") IS "batch_marks"."day"),
	CONSTRAINT "batch_marks_kind" CHECK("batch_marks"."kind" IN ('lost', 'sold', 'processed', 'weighed')),
	CONSTRAINT "batch_marks_quantity" CHECK("batch_marks"."quantity" > 0),
	CONSTRAINT "batch_marks_pounds" CHECK("batch_marks"."pounds" IS NULL OR "batch_marks"."pounds" > 0)
) STRICT;
--> statement-breakpoint
CREATE INDEX `batch_marks_batch` ON `batch_marks` (`batch_id`,`day`);--> statement-breakpoint
CREATE TABLE `batch_ties` (
	`posting_id` integer PRIMARY KEY NOT NULL,
	`batch_id` text NOT NULL,
	`tied_at` text NOT NULL,
	FOREIGN KEY (`posting_id`) REFERENCES `postings`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`batch_id`) REFERENCES `batches`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE INDEX `batch_ties_batch` ON `batch_ties` (`batch_id`);--> statement-breakpoint
CREATE TABLE `batches` (
	`id` text PRIMARY KEY NOT NULL,
	`enterprise_id` text NOT NULL,
	`name` text NOT NULL,
	`started_day` text NOT NULL,
	`size` real NOT NULL,
	`unit` text NOT NULL,
	`place` text DEFAULT '' NOT NULL,
	`hoped_price_cents` integer,
	`ended_day` text,
	`note` text DEFAULT '' NOT NULL,
	`created_at` text NOT NULL,
	`revision` integer DEFAULT 1 NOT NULL,
	CONSTRAINT "batches_enterprise_filled" CHECK(typeof("batches"."enterprise_id") = 'text' AND length(trim("batches"."enterprise_id")) > 0),
	CONSTRAINT "batches_name" CHECK(typeof("batches"."name") = 'text' AND length(trim("batches"."name")) > 0),
	CONSTRAINT "batches_unit" CHECK(typeof("batches"."unit") = 'text' AND length(trim("batches"."unit")) > 0),
	CONSTRAINT "batches_started" CHECK(typeof("batches"."started_day") = 'text' AND length("batches"."started_day") = 10 AND date("batches"."started_day") IS "batches"."started_day"),
	CONSTRAINT "batches_ended" CHECK("batches"."ended_day" IS NULL OR (typeof("batches"."ended_day") = 'text' AND length("batches"."ended_day") = 10 AND date("batches"."ended_day") IS "batches"."ended_day")),
	CONSTRAINT "batches_hoped_price" CHECK("batches"."hoped_price_cents" IS NULL OR (typeof("batches"."hoped_price_cents") = 'integer' AND "batches"."hoped_price_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "batches_size" CHECK("batches"."size" > 0),
	CONSTRAINT "batches_in_order" CHECK("batches"."ended_day" IS NULL OR "batches"."ended_day" >= "batches"."started_day")
) STRICT;
--> statement-breakpoint
CREATE INDEX `batches_enterprise` ON `batches` (`enterprise_id`,`started_day`);--> statement-breakpoint
CREATE TABLE `goods_notes` (
	`id` text PRIMARY KEY NOT NULL,
	`day` text NOT NULL,
	`kind` text NOT NULL,
	`what` text NOT NULL,
	`enterprise_id` text,
	`batch_id` text,
	`herd_id` text,
	`head_class` text,
	`quantity` real NOT NULL,
	`unit` text DEFAULT '' NOT NULL,
	`unit_price_cents` integer,
	`traded_for` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	`state` text DEFAULT 'waiting' NOT NULL,
	`crossing_id` text,
	`settled_at` text,
	FOREIGN KEY (`batch_id`) REFERENCES `batches`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`crossing_id`) REFERENCES `crossings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "goods_notes_day_valid" CHECK(typeof("goods_notes"."day") = 'text' AND length("goods_notes"."day") = 10 AND date("goods_notes"."day") IS "goods_notes"."day"),
	CONSTRAINT "goods_notes_what" CHECK(typeof("goods_notes"."what") = 'text' AND length(trim("goods_notes"."what")) > 0),
	CONSTRAINT "goods_notes_kind" CHECK("goods_notes"."kind" IN ('kitchen', 'bartered')),
	CONSTRAINT "goods_notes_class" CHECK("goods_notes"."head_class" IS NULL OR "goods_notes"."head_class" IN ('females', 'young', 'males')),
	CONSTRAINT "goods_notes_state" CHECK("goods_notes"."state" IN ('waiting', 'booked', 'set_aside')),
	CONSTRAINT "goods_notes_price" CHECK("goods_notes"."unit_price_cents" IS NULL OR (typeof("goods_notes"."unit_price_cents") = 'integer' AND "goods_notes"."unit_price_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "goods_notes_heads" CHECK(("goods_notes"."herd_id" IS NULL) = ("goods_notes"."head_class" IS NULL)),
	CONSTRAINT "goods_notes_quantity" CHECK("goods_notes"."quantity" > 0),
	CONSTRAINT "goods_notes_settled" CHECK(("goods_notes"."state" = 'booked') = ("goods_notes"."crossing_id" IS NOT NULL) AND ("goods_notes"."state" = 'waiting') = ("goods_notes"."settled_at" IS NULL))
) STRICT;
--> statement-breakpoint
CREATE INDEX `goods_notes_day` ON `goods_notes` (`day`);--> statement-breakpoint
CREATE INDEX `goods_notes_waiting` ON `goods_notes` (`day`) WHERE state = 'waiting';--> statement-breakpoint
CREATE INDEX `goods_notes_batch` ON `goods_notes` (`batch_id`) WHERE batch_id IS NOT NULL;--> statement-breakpoint
CREATE UNIQUE INDEX `goods_notes_crossing` ON `goods_notes` (`crossing_id`);--> statement-breakpoint
CREATE TABLE `head_tallies` (
	`id` text PRIMARY KEY NOT NULL,
	`day` text NOT NULL,
	`herd_id` text NOT NULL,
	`kind` text NOT NULL,
	`head_class` text NOT NULL,
	`count` integer NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	CONSTRAINT "head_tallies_day" CHECK(typeof("head_tallies"."day") = 'text' AND length("head_tallies"."day") = 10 AND date("head_tallies"."day") IS "head_tallies"."day"),
	CONSTRAINT "head_tallies_herd_filled" CHECK(typeof("head_tallies"."herd_id") = 'text' AND length(trim("head_tallies"."herd_id")) > 0),
	CONSTRAINT "head_tallies_kind" CHECK("head_tallies"."kind" IN ('counted', 'born', 'bought', 'sold', 'died')),
	CONSTRAINT "head_tallies_class" CHECK("head_tallies"."head_class" IN ('females', 'young', 'males')),
	CONSTRAINT "head_tallies_count" CHECK(typeof("head_tallies"."count") = 'integer' AND "head_tallies"."count" >= 0 AND ("head_tallies"."kind" = 'counted' OR "head_tallies"."count" > 0))
) STRICT;
--> statement-breakpoint
CREATE INDEX `head_tallies_herd` ON `head_tallies` (`herd_id`,`day`);--> statement-breakpoint
CREATE TABLE `market_days` (
	`id` text PRIMARY KEY NOT NULL,
	`day` text NOT NULL,
	`market_id` text NOT NULL,
	`minutes` integer,
	`people` text DEFAULT '' NOT NULL,
	`miles` real,
	`fee_cents` integer,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	`settled_at` text,
	`entry_no` integer,
	FOREIGN KEY (`entry_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "market_days_day" CHECK(typeof("market_days"."day") = 'text' AND length("market_days"."day") = 10 AND date("market_days"."day") IS "market_days"."day"),
	CONSTRAINT "market_days_market" CHECK(typeof("market_days"."market_id") = 'text' AND length(trim("market_days"."market_id")) > 0),
	CONSTRAINT "market_days_fee" CHECK("market_days"."fee_cents" IS NULL OR (typeof("market_days"."fee_cents") = 'integer' AND "market_days"."fee_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "market_days_minutes" CHECK("market_days"."minutes" IS NULL OR "market_days"."minutes" BETWEEN 1 AND 10080),
	CONSTRAINT "market_days_miles" CHECK("market_days"."miles" IS NULL OR "market_days"."miles" >= 0),
	CONSTRAINT "market_days_settled" CHECK("market_days"."entry_no" IS NULL OR "market_days"."settled_at" IS NOT NULL)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `market_days_once` ON `market_days` (`market_id`,`day`);--> statement-breakpoint
CREATE TABLE `market_takings` (
	`market_day_id` text NOT NULL,
	`enterprise_id` text DEFAULT '' NOT NULL,
	`means` text NOT NULL,
	`amount_cents` integer NOT NULL,
	PRIMARY KEY(`market_day_id`, `enterprise_id`, `means`),
	FOREIGN KEY (`market_day_id`) REFERENCES `market_days`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "market_takings_means" CHECK("market_takings"."means" IN ('cash', 'card', 'check', 'other')),
	CONSTRAINT "market_takings_amount" CHECK(typeof("market_takings"."amount_cents") = 'integer' AND "market_takings"."amount_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "market_takings_above_zero" CHECK("market_takings"."amount_cents" > 0)
) STRICT;
--> statement-breakpoint
CREATE TABLE `trips` (
	`id` text PRIMARY KEY NOT NULL,
	`day` text NOT NULL,
	`kind` text NOT NULL,
	`vehicle` text NOT NULL,
	`miles` real,
	`odometer` real,
	`purpose` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	CONSTRAINT "trips_day_valid" CHECK(typeof("trips"."day") = 'text' AND length("trips"."day") = 10 AND date("trips"."day") IS "trips"."day"),
	CONSTRAINT "trips_vehicle" CHECK(typeof("trips"."vehicle") = 'text' AND length(trim("trips"."vehicle")) > 0),
	CONSTRAINT "trips_kind" CHECK("trips"."kind" IN ('farm', 'reading')),
	CONSTRAINT "trips_measured" CHECK(("trips"."kind" = 'farm' AND coalesce("trips"."miles", 0) > 0) OR ("trips"."kind" = 'reading' AND coalesce("trips"."odometer", -1) >= 0))
) STRICT;
--> statement-breakpoint
CREATE INDEX `trips_day` ON `trips` (`day`);--> statement-breakpoint
CREATE TABLE `work_hours` (
	`id` text PRIMARY KEY NOT NULL,
	`day` text NOT NULL,
	`person` text NOT NULL,
	`hired` integer DEFAULT false NOT NULL,
	`enterprise_id` text,
	`herd_id` text,
	`batch_id` text,
	`market_id` text,
	`minutes` integer,
	`started_at` text,
	`pay_cents` integer,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	`recorded_by` text DEFAULT '' NOT NULL,
	FOREIGN KEY (`batch_id`) REFERENCES `batches`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "work_hours_day_valid" CHECK(typeof("work_hours"."day") = 'text' AND length("work_hours"."day") = 10 AND date("work_hours"."day") IS "work_hours"."day"),
	CONSTRAINT "work_hours_person" CHECK(typeof("work_hours"."person") = 'text' AND length(trim("work_hours"."person")) > 0),
	CONSTRAINT "work_hours_pay" CHECK("work_hours"."pay_cents" IS NULL OR (typeof("work_hours"."pay_cents") = 'integer' AND "work_hours"."pay_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "work_hours_minutes" CHECK("work_hours"."minutes" IS NULL OR "work_hours"."minutes" BETWEEN 1 AND 1440),
	CONSTRAINT "work_hours_clock_started" CHECK("work_hours"."minutes" IS NOT NULL OR "work_hours"."started_at" IS NOT NULL),
	CONSTRAINT "work_hours_one_thing" CHECK(("work_hours"."enterprise_id" IS NOT NULL) + ("work_hours"."herd_id" IS NOT NULL) + ("work_hours"."batch_id" IS NOT NULL) + ("work_hours"."market_id" IS NOT NULL) <= 1)
) STRICT;
--> statement-breakpoint
CREATE INDEX `work_hours_day` ON `work_hours` (`day`);--> statement-breakpoint
CREATE INDEX `work_hours_batch` ON `work_hours` (`batch_id`) WHERE batch_id IS NOT NULL;--> statement-breakpoint
CREATE UNIQUE INDEX `work_hours_clock` ON `work_hours` (`person`) WHERE minutes IS NULL;