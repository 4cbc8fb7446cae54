-- Added by hand as columns: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `statement_lines` ADD COLUMN `corrects_id` integer REFERENCES `statement_lines`(`id`) ON UPDATE no action ON DELETE restrict;--> statement-breakpoint
ALTER TABLE `statement_lines` ADD COLUMN `correction` text CONSTRAINT "statement_lines_correction" CHECK("correction" IS NULL OR "correction" IN ('replace', 'delete'));--> statement-breakpoint
CREATE INDEX `statement_lines_corrects` ON `statement_lines` (`corrects_id`) WHERE corrects_id IS NOT NULL;
