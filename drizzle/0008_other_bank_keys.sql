CREATE TABLE `other_bank_keys` (
	`bank_key` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`statement_id` text NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`statement_id`) REFERENCES `statements`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "other_bank_keys_key" CHECK(typeof("other_bank_keys"."bank_key") = 'text' AND length(trim("other_bank_keys"."bank_key")) > 0)
) STRICT, WITHOUT ROWID;
--> statement-breakpoint
CREATE INDEX `other_bank_keys_account` ON `other_bank_keys` (`account_id`);
