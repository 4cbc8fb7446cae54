-- Added by hand as a column: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `accounts` ADD COLUMN `current_kind` text CONSTRAINT "accounts_current_kind" CHECK("current_kind" IS NULL OR "current_kind" IN ('receivable', 'prepaid', 'supplies', 'crops', 'market_stock', 'payable', 'customers', 'operating_loan'));--> statement-breakpoint
-- Until now no account said that it is a loan for the season. New books have one that does; that of older ones is told by what it was set up as, once.
UPDATE `accounts` SET `current_kind` = 'operating_loan'
WHERE `side_id` = 'farm' AND `number` = 2100 AND `name` = 'Operating loan' AND `kind` = 'liability' AND `cash_role` = 'none' AND `crossing_role` IS NULL AND `tax_kind` IS NULL AND `property_loan` IS NULL;--> statement-breakpoint
-- Accounts are proved by the chain of changes: opening the file takes these, and only these, into a link (src/db/chain/chain.ts).
INSERT INTO `change_log` (`at`, `kind`, `summary`, `details`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.rows', 'The farm’s operating loan now says so itself', json_object('rows',
  json((SELECT json_group_array(json_array('accounts', json_array(`id`))) FROM `accounts` WHERE `current_kind` IS NOT NULL)))
WHERE EXISTS (SELECT 1 FROM `accounts` WHERE `current_kind` IS NOT NULL);--> statement-breakpoint
CREATE TABLE `holding_values` (
	`holding_id` text NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`recorded_at` text NOT NULL,
	PRIMARY KEY(`holding_id`, `day`),
	FOREIGN KEY (`holding_id`) REFERENCES `holdings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "holding_values_day" CHECK(typeof("holding_values"."day") = 'text' AND length("holding_values"."day") = 10 AND date("holding_values"."day") IS "holding_values"."day"),
	CONSTRAINT "holding_values_amount" CHECK(typeof("holding_values"."amount_cents") = 'integer' AND "holding_values"."amount_cents" BETWEEN -1000000000000 AND 1000000000000)
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE TABLE `kept_packs` (
	`id` text PRIMARY KEY NOT NULL,
	`year` integer NOT NULL,
	`copy_no` integer NOT NULL,
	`kept_at` text NOT NULL,
	`actor` text DEFAULT '' NOT NULL,
	`sheets` text NOT NULL,
	`digest` text NOT NULL,
	`chain_end` text DEFAULT '' NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	CONSTRAINT "kept_packs_year_valid" CHECK(typeof("kept_packs"."year") = 'integer' AND "kept_packs"."year" BETWEEN 1000 AND 9999),
	CONSTRAINT "kept_packs_copy" CHECK(typeof("kept_packs"."copy_no") = 'integer' AND "kept_packs"."copy_no" > 0),
	CONSTRAINT "kept_packs_sheets" CHECK(json_valid("kept_packs"."sheets")),
	CONSTRAINT "kept_packs_digest" CHECK(typeof("kept_packs"."digest") = 'text' AND length(trim("kept_packs"."digest")) > 0)
) STRICT;
--> statement-breakpoint
CREATE UNIQUE INDEX `kept_packs_year` ON `kept_packs` (`year`,`copy_no`);--> statement-breakpoint
-- What was handed over stays what was handed over: another copy stands beside it, never in its place.
CREATE TRIGGER kept_packs_insert BEFORE INSERT ON kept_packs
WHEN EXISTS (SELECT 1 FROM kept_packs WHERE id = NEW.id OR (year = NEW.year AND copy_no = NEW.copy_no))
BEGIN SELECT RAISE(ABORT, 'a kept pack is never replaced'); END;
--> statement-breakpoint
CREATE TRIGGER kept_packs_update BEFORE UPDATE ON kept_packs
BEGIN SELECT RAISE(ABORT, 'a kept pack is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER kept_packs_delete BEFORE DELETE ON kept_packs
BEGIN SELECT RAISE(ABORT, 'a kept pack is never deleted'); END;
