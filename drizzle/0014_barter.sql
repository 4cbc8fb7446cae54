CREATE TABLE `goods_entries` (
	`goods_id` text PRIMARY KEY NOT NULL,
	`entry_no` integer NOT NULL,
	FOREIGN KEY (`goods_id`) REFERENCES `goods_notes`(`id`) ON UPDATE no action ON DELETE restrict,
	FOREIGN KEY (`entry_no`) REFERENCES `entries`(`no`) ON UPDATE no action ON DELETE restrict
) STRICT;--> statement-breakpoint
CREATE UNIQUE INDEX `goods_entries_entry` ON `goods_entries` (`entry_no`);