-- For which year and as what money counts for tax, who payees are, whose an account is; and the line of the form that
-- breeding stock and machinery sold go to, which an account without a line was taken for.
CREATE TABLE `payees` (
	`name` text PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`same_as` text,
	`form_on_file` integer DEFAULT 0 NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`said_at` text NOT NULL,
	`revision` integer DEFAULT 1 NOT NULL,
	CONSTRAINT "payees_name" CHECK(typeof("payees"."name") = 'text' AND length(trim("payees"."name")) > 0),
	CONSTRAINT "payees_kind" CHECK("payees"."kind" IN ('worker', 'contractor', 'company'))
) STRICT;
--> statement-breakpoint
CREATE TABLE `posting_tax` (
	`posting_id` integer PRIMARY KEY NOT NULL,
	`tax_use` text NOT NULL,
	`office` text,
	`state` text,
	`tax_year` integer NOT NULL,
	`said_at` text NOT NULL,
	FOREIGN KEY (`posting_id`) REFERENCES `postings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "posting_tax_use" CHECK("posting_tax"."tax_use" IN ('withheld', 'estimate', 'balance', 'refund', 'contribution', 'rollover')),
	CONSTRAINT "posting_tax_office" CHECK("posting_tax"."office" IS NULL OR "posting_tax"."office" IN ('federal', 'state', 'local', 'payroll', 'sales')),
	CONSTRAINT "posting_tax_state" CHECK("posting_tax"."state" IS NULL OR "posting_tax"."state" GLOB '[A-Z][A-Z]'),
	CONSTRAINT "posting_tax_whose" CHECK(("posting_tax"."tax_use" IN ('withheld', 'estimate', 'balance', 'refund')) = ("posting_tax"."office" IS NOT NULL)),
	CONSTRAINT "posting_tax_year_valid" CHECK(typeof("posting_tax"."tax_year") = 'integer' AND "posting_tax"."tax_year" BETWEEN 1000 AND 9999)
) STRICT;
--> statement-breakpoint
CREATE INDEX `posting_tax_year` ON `posting_tax` (`tax_year`);--> statement-breakpoint
ALTER TABLE `accounts` ADD `person_id` text;--> statement-breakpoint
UPDATE `accounts` SET `schedule_line` = '4797'
WHERE `side_id` = 'farm' AND `kind` = 'income' AND `number` = 4300 AND `schedule_line` IS NULL AND `system_role` IS NULL;--> statement-breakpoint
INSERT INTO `change_log` (`at`, `kind`, `summary`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.begun', 'Sales of breeding stock and equipment were given their form of the tax return; the books were taken as they were found'
WHERE EXISTS (SELECT 1 FROM `chain_links`) AND EXISTS (SELECT 1 FROM `accounts` WHERE `side_id` = 'farm' AND `schedule_line` = '4797');
