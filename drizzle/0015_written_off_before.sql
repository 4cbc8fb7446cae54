ALTER TABLE `holdings` ADD `written_off_before` text;--> statement-breakpoint
-- What was typed as written off by the last return, for a thing listed by the first steps, stood only in the opening entry of the same form. Where that entry names it once, the thing itself now says so.
UPDATE `holdings` SET `written_off_before` = (
  SELECT json_object('amountCents', -sum(`line`.`amount_cents`), 'through', CAST(substr(`line`.`day`, 1, 4) AS INTEGER) - (substr(`line`.`day`, 6) <> '12-31'))
  FROM `entries` AS `opening` JOIN `postings` AS `line` ON `line`.`entry_no` = `opening`.`no`
  WHERE `opening`.`id` = substr(`holdings`.`id`, 1, instr(`holdings`.`id`, '.thing.')) || `holdings`.`side_id` AND `opening`.`source` = 'opening'
    AND `line`.`memo` = 'Depreciation taken on ' || `holdings`.`name` AND `line`.`amount_cents` < 0
    AND NOT EXISTS (SELECT 1 FROM `entries` AS `back` WHERE `back`.`reverses_no` = `opening`.`no`)
  GROUP BY `opening`.`no` HAVING count(*) = 1)
WHERE instr(`id`, '.thing.') > 0;--> statement-breakpoint
-- Things owned are proved by the chain of changes: opening the file takes these, and only these, into a link (src/db/chain/chain.ts).
INSERT INTO `change_log` (`at`, `kind`, `summary`, `details`)
SELECT strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'chain.rows', 'What the last return wrote off now stands with the thing itself', json_object('rows',
  json((SELECT json_group_array(json_array('holdings', json_array(`id`))) FROM `holdings` WHERE `written_off_before` IS NOT NULL)))
WHERE EXISTS (SELECT 1 FROM `holdings` WHERE `written_off_before` IS NOT NULL);
