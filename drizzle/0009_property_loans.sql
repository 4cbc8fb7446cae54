-- Added by hand as a column: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `accounts` ADD COLUMN `property_loan` text CONSTRAINT "accounts_property_loan" CHECK("property_loan" IS NULL OR "property_loan" IN ('loan', 'interest', 'escrow'));--> statement-breakpoint
-- What three numbers said until now is written into the accounts once; from here on only the account's own words count, and Settings changes them.
UPDATE `accounts` SET `property_loan` = CASE `number` WHEN 2100 THEN 'loan' WHEN 5130 THEN 'interest' ELSE 'escrow' END
WHERE `side_id` = 'household' AND (
  (`number` = 2100 AND `kind` = 'liability' AND `cash_role` = 'none' AND `crossing_role` IS NULL AND `tax_kind` IS NULL)
  OR (`number` = 5130 AND `kind` = 'expense' AND `purpose` = 'debt')
  OR (`number` = 5120 AND `kind` = 'expense' AND `purpose` = 'living'));--> statement-breakpoint
-- Accounts are proved by the chain of changes: opening the file takes these, and only these, into a link (src/db/chain/chain.ts).
INSERT INTO `change_log` (`at`, `kind`, `summary`, `details`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.rows', 'Accounts of a loan on the house now say so themselves', json_object('rows',
  -- As JSON by name: newer SQLite takes what a subquery gives for text.
  json((SELECT json_group_array(json_array('accounts', json_array(`id`))) FROM `accounts` WHERE `property_loan` IS NOT NULL)))
WHERE EXISTS (SELECT 1 FROM `accounts` WHERE `property_loan` IS NOT NULL);
