DROP INDEX `market_days_once`;--> statement-breakpoint
CREATE INDEX `market_days_market` ON `market_days` (`market_id`,`day`);--> statement-breakpoint
ALTER TABLE `batches` ADD `kept` real DEFAULT 0 NOT NULL;