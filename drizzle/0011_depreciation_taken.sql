-- Added by hand as a column: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `accounts` ADD COLUMN `contra_kind` text CONSTRAINT "accounts_contra_kind" CHECK("contra_kind" IS NULL OR "contra_kind" IN ('depreciation'));--> statement-breakpoint
-- Until now the account that gathers depreciation was told from what is owned by nothing but its name. That of older books is told by what it was set up as, once.
UPDATE `accounts` SET `contra_kind` = 'depreciation'
WHERE `side_id` <> 'household' AND `number` = 1510 AND `name` = 'Depreciation taken' AND `kind` = 'asset' AND `cash_role` = 'none' AND `crossing_role` IS NULL AND `current_kind` IS NULL;--> statement-breakpoint
-- Accounts are proved by the chain of changes: opening the file takes these, and only these, into a link (src/db/chain/chain.ts).
INSERT INTO `change_log` (`at`, `kind`, `summary`, `details`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.rows', 'The account that gathers depreciation now says so itself', json_object('rows',
  json((SELECT json_group_array(json_array('accounts', json_array(`id`))) FROM `accounts` WHERE `contra_kind` IS NOT NULL)))
WHERE EXISTS (SELECT 1 FROM `accounts` WHERE `contra_kind` IS NOT NULL);
