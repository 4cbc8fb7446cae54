CREATE TABLE `line_choices` (
	`line_id` integer PRIMARY KEY NOT NULL,
	`take` integer NOT NULL,
	`goes_to` text DEFAULT '' NOT NULL,
	`chosen_at` text NOT NULL,
	FOREIGN KEY (`line_id`) REFERENCES `statement_lines`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "line_choices_take" CHECK("line_choices"."take" IN (0, 1))
) STRICT;
--> statement-breakpoint
-- Added by hand as a column: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `sorting_rules` ADD COLUMN `split` text CONSTRAINT "sorting_rules_split" CHECK("split" IS NULL OR json_valid("split"));
