CREATE TABLE `account_months` (
	`account_id` integer NOT NULL,
	`month` integer NOT NULL,
	`sum_cents` integer NOT NULL,
	`count` integer NOT NULL,
	PRIMARY KEY(`account_id`, `month`),
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE INDEX `account_months_month` ON `account_months` (`month`);--> statement-breakpoint
CREATE TABLE `account_years` (
	`account_id` integer NOT NULL,
	`year` integer NOT NULL,
	`sum_cents` integer NOT NULL,
	`count` integer NOT NULL,
	PRIMARY KEY(`account_id`, `year`),
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `accounts` (
	`id` integer PRIMARY KEY NOT NULL,
	`side_id` text NOT NULL,
	`number` integer NOT NULL,
	`name` text NOT NULL,
	`kind` text NOT NULL,
	`cash_role` text DEFAULT 'none' NOT NULL,
	`schedule_line` text,
	`purpose` text,
	`enterprise_id` text,
	`crossing_role` text,
	`crossing_side_id` text,
	`system_role` text,
	`bank_key` text,
	`note` text DEFAULT '' NOT NULL,
	`created_at` text NOT NULL,
	`archived_at` text,
	FOREIGN KEY (`side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`crossing_side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "accounts_kind" CHECK("accounts"."kind" IN ('asset', 'liability', 'equity', 'income', 'expense')),
	CONSTRAINT "accounts_cash_role" CHECK("accounts"."cash_role" IN ('spendable', 'cash', 'other', 'none')),
	CONSTRAINT "accounts_purpose" CHECK("accounts"."purpose" IS NULL OR "accounts"."purpose" IN ('living', 'premium', 'care', 'tax', 'farm_food', 'debt', 'pay', 'benefit', 'interest', 'retirement')),
	CONSTRAINT "accounts_crossing_role" CHECK("accounts"."crossing_role" IS NULL OR "accounts"."crossing_role" IN ('draws', 'contributions', 'reimbursements', 'goods', 'lent', 'borrowed')),
	CONSTRAINT "accounts_system_role" CHECK("accounts"."system_role" IS NULL OR "accounts"."system_role" IN ('opening_balances', 'unsorted_in', 'unsorted_out', 'goods_value', 'goods_cost')),
	CONSTRAINT "accounts_name" CHECK(typeof("accounts"."name") = 'text' AND length(trim("accounts"."name")) > 0),
	CONSTRAINT "accounts_crossing_pair" CHECK(("accounts"."crossing_role" IS NULL) = ("accounts"."crossing_side_id" IS NULL) AND "accounts"."crossing_side_id" IS NOT "accounts"."side_id"),
	CONSTRAINT "accounts_cash_is_money" CHECK("accounts"."cash_role" = 'none' OR "accounts"."kind" IN ('asset', 'liability'))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `accounts_side_number` ON `accounts` (`side_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `accounts_side_name` ON `accounts` (`side_id`,`name`);--> statement-breakpoint
CREATE UNIQUE INDEX `accounts_crossing` ON `accounts` (`side_id`,`crossing_side_id`,`crossing_role`);--> statement-breakpoint
CREATE UNIQUE INDEX `accounts_system` ON `accounts` (`side_id`,`system_role`);--> statement-breakpoint
CREATE TABLE `crossings` (
	`id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`from_side_id` text NOT NULL,
	`to_side_id` text NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`quantity` real,
	`unit` text,
	`unit_price_cents` integer,
	`reverses_id` text,
	`posted_at` text NOT NULL,
	FOREIGN KEY (`from_side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`to_side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`reverses_id`) REFERENCES `crossings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "crossings_kind" CHECK("crossings"."kind" IN ('draw', 'contribution', 'reimbursement', 'loan', 'repayment', 'goods_used_at_home')),
	CONSTRAINT "crossings_day_valid" CHECK(typeof("crossings"."day") = 'text' AND length("crossings"."day") = 10 AND date("crossings"."day") IS "crossings"."day"),
	CONSTRAINT "crossings_amount" CHECK(typeof("crossings"."amount_cents") = 'integer' AND "crossings"."amount_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "crossings_between_two_sides" CHECK("crossings"."amount_cents" > 0 AND "crossings"."from_side_id" <> "crossings"."to_side_id"),
	FOREIGN KEY (`id`) REFERENCES `sealed_crossings`(`crossing_id`) DEFERRABLE INITIALLY DEFERRED
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `crossings_reverses` ON `crossings` (`reverses_id`);--> statement-breakpoint
CREATE INDEX `crossings_day` ON `crossings` (`day`);--> statement-breakpoint
CREATE TABLE `entries` (
	`no` integer PRIMARY KEY NOT NULL,
	`id` text NOT NULL,
	`side_id` text NOT NULL,
	`day` text NOT NULL,
	`payee` text DEFAULT '' NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`source` text NOT NULL,
	`posted_at` text NOT NULL,
	`reverses_no` integer,
	`corrects_no` integer,
	FOREIGN KEY (`side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`reverses_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`corrects_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "entries_day" CHECK(typeof("entries"."day") = 'text' AND length("entries"."day") = 10 AND date("entries"."day") IS "entries"."day"),
	CONSTRAINT "entries_id_filled" CHECK(typeof("entries"."id") = 'text' AND length(trim("entries"."id")) > 0),
	CONSTRAINT "entries_source" CHECK("entries"."source" IN ('form', 'crossing', 'receipt', 'standing', 'statement', 'opening', 'reversal', 'import')),
	FOREIGN KEY (`no`) REFERENCES `sealed_entries`(`entry_no`) DEFERRABLE INITIALLY DEFERRED
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `entries_id` ON `entries` (`id`);--> statement-breakpoint
CREATE UNIQUE INDEX `entries_reverses` ON `entries` (`reverses_no`);--> statement-breakpoint
CREATE INDEX `entries_corrects` ON `entries` (`corrects_no`) WHERE corrects_no IS NOT NULL;--> statement-breakpoint
CREATE INDEX `entries_side_day` ON `entries` (`side_id`,`day`,`no`);--> statement-breakpoint
CREATE TABLE `postings` (
	`id` integer PRIMARY KEY NOT NULL,
	`entry_no` integer NOT NULL,
	`line_no` integer NOT NULL,
	`account_id` integer NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`enterprise_id` text,
	`crossing_id` text,
	FOREIGN KEY (`entry_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`crossing_id`) REFERENCES `crossings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "postings_amount" CHECK(typeof("postings"."amount_cents") = 'integer' AND "postings"."amount_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "postings_not_zero" CHECK("postings"."amount_cents" <> 0),
	CONSTRAINT "postings_day" CHECK(typeof("postings"."day") = 'text' AND length("postings"."day") = 10 AND date("postings"."day") IS "postings"."day")
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `postings_entry_line` ON `postings` (`entry_no`,`line_no`);--> statement-breakpoint
CREATE INDEX `postings_register` ON `postings` (`account_id`,`day`,`id`,`amount_cents`);--> statement-breakpoint
CREATE INDEX `postings_crossing` ON `postings` (`crossing_id`) WHERE crossing_id IS NOT NULL;--> statement-breakpoint
CREATE INDEX `postings_enterprise` ON `postings` (`enterprise_id`,`day`) WHERE enterprise_id IS NOT NULL;--> statement-breakpoint
CREATE TABLE `sealed_crossings` (
	`crossing_id` text PRIMARY KEY NOT NULL,
	FOREIGN KEY (`crossing_id`) REFERENCES `crossings`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `sealed_entries` (
	`entry_no` integer PRIMARY KEY NOT NULL,
	FOREIGN KEY (`entry_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE TABLE `sides` (
	`id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`position` integer DEFAULT 0 NOT NULL,
	`created_at` text NOT NULL,
	`archived_at` text,
	CONSTRAINT "sides_kind" CHECK("sides"."kind" IN ('farm', 'household', 'venture')),
	CONSTRAINT "sides_name" CHECK(typeof("sides"."name") = 'text' AND length(trim("sides"."name")) > 0)
) STRICT;
--> statement-breakpoint
CREATE TABLE `standing_occurrences` (
	`standing_id` text NOT NULL,
	`month` integer NOT NULL,
	`state` text NOT NULL,
	`crossing_id` text,
	`at` text NOT NULL,
	PRIMARY KEY(`standing_id`, `month`),
	FOREIGN KEY (`standing_id`) REFERENCES `standing_transfers`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`crossing_id`) REFERENCES `crossings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "standing_occurrences_month" CHECK(typeof("standing_occurrences"."month") = 'integer' AND "standing_occurrences"."month" BETWEEN 12000 AND 119999),
	CONSTRAINT "standing_occurrences_state" CHECK(("standing_occurrences"."state" = 'posted' AND "standing_occurrences"."crossing_id" IS NOT NULL) OR ("standing_occurrences"."state" = 'skipped' AND "standing_occurrences"."crossing_id" IS NULL))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE UNIQUE INDEX `standing_occurrences_crossing` ON `standing_occurrences` (`crossing_id`);--> statement-breakpoint
CREATE TABLE `standing_transfers` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`kind` text NOT NULL,
	`from_account_id` integer NOT NULL,
	`to_account_id` integer NOT NULL,
	`amount_cents` integer NOT NULL,
	`day_of_month` integer NOT NULL,
	`first_month` integer NOT NULL,
	`last_month` integer,
	`posting` text NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`created_at` text NOT NULL,
	`archived_at` text,
	FOREIGN KEY (`from_account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`to_account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "standing_name" CHECK(typeof("standing_transfers"."name") = 'text' AND length(trim("standing_transfers"."name")) > 0),
	CONSTRAINT "standing_kind" CHECK("standing_transfers"."kind" IN ('draw', 'contribution', 'reimbursement', 'loan', 'repayment', 'goods_used_at_home')),
	CONSTRAINT "standing_posting" CHECK("standing_transfers"."posting" IN ('automatic', 'confirm')),
	CONSTRAINT "standing_amount" CHECK(typeof("standing_transfers"."amount_cents") = 'integer' AND "standing_transfers"."amount_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "standing_first_month" CHECK(typeof("standing_transfers"."first_month") = 'integer' AND "standing_transfers"."first_month" BETWEEN 12000 AND 119999),
	CONSTRAINT "standing_plausible" CHECK("standing_transfers"."amount_cents" > 0 AND "standing_transfers"."day_of_month" BETWEEN 1 AND 31 AND ("standing_transfers"."last_month" IS NULL OR "standing_transfers"."last_month" >= "standing_transfers"."first_month"))
) STRICT;
--> statement-breakpoint
CREATE TABLE `accrual_adjustments` (
	`id` text PRIMARY KEY NOT NULL,
	`side_id` text NOT NULL,
	`day` text NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	FOREIGN KEY (`side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "accrual_adjustments_name" CHECK(typeof("accrual_adjustments"."name") = 'text' AND length(trim("accrual_adjustments"."name")) > 0),
	CONSTRAINT "accrual_adjustments_day" CHECK(typeof("accrual_adjustments"."day") = 'text' AND length("accrual_adjustments"."day") = 10 AND date("accrual_adjustments"."day") IS "accrual_adjustments"."day"),
	CONSTRAINT "accrual_adjustments_amount" CHECK(typeof("accrual_adjustments"."amount_cents") = 'integer' AND "accrual_adjustments"."amount_cents" BETWEEN -1000000000000 AND 1000000000000)
) STRICT;
--> statement-breakpoint
CREATE INDEX `accrual_adjustments_side` ON `accrual_adjustments` (`side_id`,`day`);--> statement-breakpoint
CREATE TABLE `holdings` (
	`id` text PRIMARY KEY NOT NULL,
	`side_id` text NOT NULL,
	`kind` text NOT NULL,
	`name` text NOT NULL,
	`enterprise_id` text,
	`quantity` real DEFAULT 1 NOT NULL,
	`unit` text DEFAULT '' NOT NULL,
	`account_id` integer,
	`acquired_day` text NOT NULL,
	`in_service_day` text,
	`raised` integer DEFAULT false NOT NULL,
	`cost_cents` integer NOT NULL,
	`depreciation` text,
	`market_value_cents` integer,
	`disposed_day` text,
	`disposed_for_cents` integer,
	`note` text DEFAULT '' NOT NULL,
	`created_at` text NOT NULL,
	FOREIGN KEY (`side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "holdings_name" CHECK(typeof("holdings"."name") = 'text' AND length(trim("holdings"."name")) > 0),
	CONSTRAINT "holdings_acquired" CHECK(typeof("holdings"."acquired_day") = 'text' AND length("holdings"."acquired_day") = 10 AND date("holdings"."acquired_day") IS "holdings"."acquired_day"),
	CONSTRAINT "holdings_in_service" CHECK("holdings"."in_service_day" IS NULL OR (typeof("holdings"."in_service_day") = 'text' AND length("holdings"."in_service_day") = 10 AND date("holdings"."in_service_day") IS "holdings"."in_service_day")),
	CONSTRAINT "holdings_disposed" CHECK("holdings"."disposed_day" IS NULL OR (typeof("holdings"."disposed_day") = 'text' AND length("holdings"."disposed_day") = 10 AND date("holdings"."disposed_day") IS "holdings"."disposed_day")),
	CONSTRAINT "holdings_cost" CHECK(typeof("holdings"."cost_cents") = 'integer' AND "holdings"."cost_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "holdings_market" CHECK("holdings"."market_value_cents" IS NULL OR (typeof("holdings"."market_value_cents") = 'integer' AND "holdings"."market_value_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "holdings_disposed_for" CHECK("holdings"."disposed_for_cents" IS NULL OR (typeof("holdings"."disposed_for_cents") = 'integer' AND "holdings"."disposed_for_cents" BETWEEN -1000000000000 AND 1000000000000))
) STRICT;
--> statement-breakpoint
CREATE INDEX `holdings_side` ON `holdings` (`side_id`,`kind`);--> statement-breakpoint
CREATE TABLE `market_values` (
	`account_id` integer NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	PRIMARY KEY(`account_id`, `day`),
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "market_values_day" CHECK(typeof("market_values"."day") = 'text' AND length("market_values"."day") = 10 AND date("market_values"."day") IS "market_values"."day"),
	CONSTRAINT "market_values_amount" CHECK(typeof("market_values"."amount_cents") = 'integer' AND "market_values"."amount_cents" BETWEEN -1000000000000 AND 1000000000000)
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `reconciliation_ticks` (
	`posting_id` integer PRIMARY KEY NOT NULL,
	`reconciliation_id` text NOT NULL,
	FOREIGN KEY (`posting_id`) REFERENCES `postings`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`reconciliation_id`) REFERENCES `reconciliations`(`id`) ON UPDATE no action ON DELETE restrict
) STRICT;
--> statement-breakpoint
CREATE INDEX `reconciliation_ticks_reconciliation` ON `reconciliation_ticks` (`reconciliation_id`);--> statement-breakpoint
CREATE TABLE `reconciliations` (
	`id` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`statement_day` text NOT NULL,
	`statement_balance_cents` integer NOT NULL,
	`previous_balance_cents` integer NOT NULL,
	`state` text DEFAULT 'open' NOT NULL,
	`statement_id` text,
	`note` text DEFAULT '' NOT NULL,
	`started_at` text NOT NULL,
	`finished_at` text,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`statement_id`) REFERENCES `statements`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "reconciliations_day" CHECK(typeof("reconciliations"."statement_day") = 'text' AND length("reconciliations"."statement_day") = 10 AND date("reconciliations"."statement_day") IS "reconciliations"."statement_day"),
	CONSTRAINT "reconciliations_balance" CHECK(typeof("reconciliations"."statement_balance_cents") = 'integer' AND "reconciliations"."statement_balance_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "reconciliations_previous" CHECK(typeof("reconciliations"."previous_balance_cents") = 'integer' AND "reconciliations"."previous_balance_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "reconciliations_state" CHECK(("reconciliations"."state" = 'finished') = ("reconciliations"."finished_at" IS NOT NULL) AND "reconciliations"."state" IN ('open', 'finished'))
) STRICT;
--> statement-breakpoint
CREATE INDEX `reconciliations_account` ON `reconciliations` (`account_id`,`statement_day`);--> statement-breakpoint
CREATE UNIQUE INDEX `reconciliations_one_open` ON `reconciliations` (`account_id`) WHERE state = 'open';--> statement-breakpoint
CREATE TABLE `sorting_rules` (
	`id` text PRIMARY KEY NOT NULL,
	`match_kind` text NOT NULL,
	`match_text` text NOT NULL,
	`on_account_id` integer,
	`sign` text,
	`minimum_cents` integer,
	`maximum_cents` integer,
	`target_account_id` integer,
	`crossing_kind` text,
	`other_account_id` integer,
	`enterprise_id` text,
	`payee` text,
	`memo` text,
	`priority` integer DEFAULT 0 NOT NULL,
	`learned` integer DEFAULT false NOT NULL,
	`times_used` integer DEFAULT 0 NOT NULL,
	`last_used_at` text,
	`created_at` text NOT NULL,
	`archived_at` text,
	FOREIGN KEY (`on_account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`target_account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`other_account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "sorting_rules_text" CHECK(typeof("sorting_rules"."match_text") = 'text' AND length(trim("sorting_rules"."match_text")) > 0),
	CONSTRAINT "sorting_rules_kind" CHECK("sorting_rules"."match_kind" IN ('contains', 'equals', 'starts')),
	CONSTRAINT "sorting_rules_sign" CHECK("sorting_rules"."sign" IS NULL OR "sorting_rules"."sign" IN ('in', 'out')),
	CONSTRAINT "sorting_rules_crossing" CHECK("sorting_rules"."crossing_kind" IS NULL OR "sorting_rules"."crossing_kind" IN ('draw', 'contribution', 'reimbursement', 'loan', 'repayment', 'goods_used_at_home')),
	CONSTRAINT "sorting_rules_target" CHECK("sorting_rules"."target_account_id" IS NOT NULL OR ("sorting_rules"."crossing_kind" IS NOT NULL AND "sorting_rules"."other_account_id" IS NOT NULL))
) STRICT;
--> statement-breakpoint
CREATE INDEX `sorting_rules_match` ON `sorting_rules` (`match_text`);--> statement-breakpoint
CREATE TABLE `statement_lines` (
	`id` integer PRIMARY KEY NOT NULL,
	`statement_id` text NOT NULL,
	`account_id` integer NOT NULL,
	`line_key` text NOT NULL,
	`bank_id` text,
	`position` integer NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`payee` text DEFAULT '' NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`check_number` text,
	`bank_kind` text,
	`state` text DEFAULT 'unsorted' NOT NULL,
	`posting_id` integer,
	`rule_id` text,
	`note` text DEFAULT '' NOT NULL,
	`sorted_at` text,
	FOREIGN KEY (`statement_id`) REFERENCES `statements`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`posting_id`) REFERENCES `postings`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`rule_id`) REFERENCES `sorting_rules`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "statement_lines_day_valid" CHECK(typeof("statement_lines"."day") = 'text' AND length("statement_lines"."day") = 10 AND date("statement_lines"."day") IS "statement_lines"."day"),
	CONSTRAINT "statement_lines_amount" CHECK(typeof("statement_lines"."amount_cents") = 'integer' AND "statement_lines"."amount_cents" BETWEEN -1000000000000 AND 1000000000000),
	CONSTRAINT "statement_lines_state" CHECK("statement_lines"."state" IN ('unsorted', 'doubtful', 'posted', 'matched', 'ignored')),
	CONSTRAINT "statement_lines_posted" CHECK(("statement_lines"."state" IN ('posted', 'matched')) = ("statement_lines"."posting_id" IS NOT NULL))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `statement_lines_key` ON `statement_lines` (`account_id`,`line_key`);--> statement-breakpoint
CREATE UNIQUE INDEX `statement_lines_posting` ON `statement_lines` (`posting_id`);--> statement-breakpoint
CREATE INDEX `statement_lines_statement` ON `statement_lines` (`statement_id`,`position`);--> statement-breakpoint
CREATE INDEX `statement_lines_day` ON `statement_lines` (`account_id`,`day`,`amount_cents`);--> statement-breakpoint
CREATE INDEX `statement_lines_open` ON `statement_lines` (`account_id`,`day`) WHERE state IN ('unsorted', 'doubtful');--> statement-breakpoint
CREATE TABLE `statement_mappings` (
	`id` text PRIMARY KEY NOT NULL,
	`account_id` integer,
	`name` text NOT NULL,
	`header_digest` text DEFAULT '' NOT NULL,
	`mapping` text NOT NULL,
	`created_at` text NOT NULL,
	`last_used_at` text,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "statement_mappings_json" CHECK(json_valid("statement_mappings"."mapping"))
) STRICT;
--> statement-breakpoint
CREATE INDEX `statement_mappings_account` ON `statement_mappings` (`account_id`,`header_digest`);--> statement-breakpoint
CREATE TABLE `statements` (
	`id` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`format` text NOT NULL,
	`file_name` text DEFAULT '' NOT NULL,
	`content_hash` text NOT NULL,
	`imported_at` text NOT NULL,
	`currency` text DEFAULT 'USD' NOT NULL,
	`first_day` text,
	`last_day` text,
	`opening_balance_cents` integer,
	`closing_balance_cents` integer,
	`closing_day` text,
	`line_count` integer DEFAULT 0 NOT NULL,
	`new_line_count` integer DEFAULT 0 NOT NULL,
	`mapping_id` text,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`mapping_id`) REFERENCES `statement_mappings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "statements_format" CHECK("statements"."format" IN ('ofx', 'csv', 'typed')),
	CONSTRAINT "statements_first_day" CHECK("statements"."first_day" IS NULL OR (typeof("statements"."first_day") = 'text' AND length("statements"."first_day") = 10 AND date("statements"."first_day") IS "statements"."first_day")),
	CONSTRAINT "statements_last_day" CHECK("statements"."last_day" IS NULL OR (typeof("statements"."last_day") = 'text' AND length("statements"."last_day") = 10 AND date("statements"."last_day") IS "statements"."last_day")),
	CONSTRAINT "statements_opening" CHECK("statements"."opening_balance_cents" IS NULL OR (typeof("statements"."opening_balance_cents") = 'integer' AND "statements"."opening_balance_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "statements_closing" CHECK("statements"."closing_balance_cents" IS NULL OR (typeof("statements"."closing_balance_cents") = 'integer' AND "statements"."closing_balance_cents" BETWEEN -1000000000000 AND 1000000000000))
) STRICT;
--> statement-breakpoint
CREATE INDEX `statements_account` ON `statements` (`account_id`,`imported_at`);--> statement-breakpoint
CREATE UNIQUE INDEX `statements_content` ON `statements` (`account_id`,`content_hash`);--> statement-breakpoint
CREATE TABLE `attachments` (
	`id` text PRIMARY KEY NOT NULL,
	`entry_no` integer NOT NULL,
	`content_hash` text NOT NULL,
	`file_name` text NOT NULL,
	`media_type` text NOT NULL,
	`byte_count` integer NOT NULL,
	`added_at` text NOT NULL,
	`removed_at` text,
	FOREIGN KEY (`entry_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "attachments_hash" CHECK(length("attachments"."content_hash") = 64 AND "attachments"."content_hash" NOT GLOB '*[^0-9a-f]*'),
	CONSTRAINT "attachments_size" CHECK(typeof("attachments"."byte_count") = 'integer' AND "attachments"."byte_count" >= 0)
) STRICT;
--> statement-breakpoint
CREATE INDEX `attachments_entry` ON `attachments` (`entry_no`);--> statement-breakpoint
CREATE INDEX `attachments_content` ON `attachments` (`content_hash`);--> statement-breakpoint
CREATE TABLE `change_log` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`kind` text NOT NULL,
	`side_id` text,
	`subject` text DEFAULT '' NOT NULL,
	`summary` text DEFAULT '' NOT NULL,
	`details` text DEFAULT '{}' NOT NULL,
	`actor` text DEFAULT '' NOT NULL,
	`undoes_id` integer,
	CONSTRAINT "change_log_kind" CHECK(typeof("change_log"."kind") = 'text' AND length(trim("change_log"."kind")) > 0),
	CONSTRAINT "change_log_details" CHECK(json_valid("change_log"."details"))
) STRICT;
--> statement-breakpoint
CREATE INDEX `change_log_subject` ON `change_log` (`subject`);--> statement-breakpoint
CREATE UNIQUE INDEX `change_log_undoes` ON `change_log` (`undoes_id`);--> statement-breakpoint
CREATE TABLE `month_closings` (
	`id` text PRIMARY KEY NOT NULL,
	`side_id` text NOT NULL,
	`month` integer NOT NULL,
	`closed_at` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`checklist` text DEFAULT '[]' NOT NULL,
	`reopened_at` text,
	`reopen_reason` text,
	FOREIGN KEY (`side_id`) REFERENCES `sides`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "month_closings_month" CHECK(typeof("month_closings"."month") = 'integer' AND "month_closings"."month" BETWEEN 12000 AND 119999),
	CONSTRAINT "month_closings_checklist" CHECK(json_valid("month_closings"."checklist")),
	CONSTRAINT "month_closings_reopened" CHECK(("month_closings"."reopened_at" IS NULL) = ("month_closings"."reopen_reason" IS NULL))
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `month_closings_shut` ON `month_closings` (`side_id`,`month`) WHERE reopened_at IS NULL;--> statement-breakpoint
CREATE TABLE `plan_revisions` (
	`plan_id` text NOT NULL,
	`revision_no` integer NOT NULL,
	`schema_version` integer NOT NULL,
	`document` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`saved_at` text NOT NULL,
	`saved_by` text DEFAULT '' NOT NULL,
	PRIMARY KEY(`plan_id`, `revision_no`),
	FOREIGN KEY (`plan_id`) REFERENCES `plans`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "plan_revisions_document" CHECK(json_valid("plan_revisions"."document"))
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `plans` (
	`id` text PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`created_at` text NOT NULL,
	`archived_at` text,
	CONSTRAINT "plans_name" CHECK(typeof("plans"."name") = 'text' AND length(trim("plans"."name")) > 0)
) STRICT;
--> statement-breakpoint
CREATE TABLE `runway_history` (
	`month` integer PRIMARY KEY NOT NULL,
	`said_at` text NOT NULL,
	`months_left` integer,
	`months_left_without_draws` integer,
	`carry_month` integer,
	`floor_month` integer,
	`spendable_cents` integer,
	`plan_id` text,
	`plan_revision_no` integer,
	`details` text DEFAULT '{}' NOT NULL,
	CONSTRAINT "runway_history_month" CHECK(typeof("runway_history"."month") = 'integer' AND "runway_history"."month" BETWEEN 12000 AND 119999),
	CONSTRAINT "runway_history_spendable" CHECK("runway_history"."spendable_cents" IS NULL OR (typeof("runway_history"."spendable_cents") = 'integer' AND "runway_history"."spendable_cents" BETWEEN -1000000000000 AND 1000000000000)),
	CONSTRAINT "runway_history_details" CHECK(json_valid("runway_history"."details"))
) STRICT;
--> statement-breakpoint
CREATE TABLE `settings` (
	`key` text PRIMARY KEY NOT NULL,
	`value` text NOT NULL,
	`revision` integer DEFAULT 1 NOT NULL,
	`updated_at` text NOT NULL,
	CONSTRAINT "settings_value" CHECK(json_valid("settings"."value")),
	CONSTRAINT "settings_key" CHECK(typeof("settings"."key") = 'text' AND length(trim("settings"."key")) > 0)
) STRICT;
--> statement-breakpoint
CREATE TABLE `submissions` (
	`id` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`body_digest` text NOT NULL,
	`result` text NOT NULL,
	`at` text NOT NULL,
	CONSTRAINT "submissions_id" CHECK(typeof("submissions"."id") = 'text' AND length(trim("submissions"."id")) > 0),
	CONSTRAINT "submissions_kind" CHECK(typeof("submissions"."kind") = 'text' AND length(trim("submissions"."kind")) > 0),
	CONSTRAINT "submissions_result" CHECK(json_valid("submissions"."result"))
) STRICT;
