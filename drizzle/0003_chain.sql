-- The chain of changes, which proves what every act wrote, and revisions of what two people may change at once.
-- A file that holds books already says in its log that it is taken as it is found; opening it then makes the first link (src/db/chain/chain.ts).
CREATE TABLE `chain_links` (
	`no` integer PRIMARY KEY NOT NULL,
	`written` text NOT NULL,
	`digest` text NOT NULL,
	CONSTRAINT "chain_links_written" CHECK(typeof("chain_links"."written") = 'text' AND length(trim("chain_links"."written")) > 0),
	CONSTRAINT "chain_links_digest" CHECK(typeof("chain_links"."digest") = 'text' AND length(trim("chain_links"."digest")) > 0)
) STRICT;
--> statement-breakpoint
CREATE TRIGGER chain_links_insert BEFORE INSERT ON chain_links
WHEN NEW.no <> 1 + coalesce((SELECT max(no) FROM chain_links), 0)
BEGIN SELECT RAISE(ABORT, 'the chain only grows, link by link'); END;
--> statement-breakpoint
CREATE TRIGGER chain_links_update BEFORE UPDATE ON chain_links
BEGIN SELECT RAISE(ABORT, 'a link of the chain is never changed'); END;
--> statement-breakpoint
CREATE TRIGGER chain_links_delete BEFORE DELETE ON chain_links
BEGIN SELECT RAISE(ABORT, 'the chain is never shortened'); END;
--> statement-breakpoint
ALTER TABLE `accounts` ADD `revision` integer DEFAULT 1 NOT NULL;--> statement-breakpoint
ALTER TABLE `sorting_rules` ADD `revision` integer DEFAULT 1 NOT NULL;--> statement-breakpoint
ALTER TABLE `month_closings` ADD `chain_digest` text;--> statement-breakpoint
INSERT INTO `change_log` (`at`, `kind`, `summary`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.begun', 'From here on every change is proved; what was there before was taken as it was found'
WHERE EXISTS (SELECT 1 FROM `sides`);
