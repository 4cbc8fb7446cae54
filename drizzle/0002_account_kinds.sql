-- Added by hand as columns: the table as drizzle-kit would rebuild it would lose STRICT and every trigger.
ALTER TABLE `accounts` ADD COLUMN `tax_kind` text CONSTRAINT "accounts_tax_kind" CHECK("tax_kind" IS NULL OR "tax_kind" IN ('federal', 'state', 'local', 'sales', 'payroll', 'unrealized'));--> statement-breakpoint
ALTER TABLE `accounts` ADD COLUMN `savings_kind` text CONSTRAINT "accounts_savings_kind" CHECK("savings_kind" IS NULL OR "savings_kind" IN ('cash', 'taxable', 'traditional', 'roth', 'health'));--> statement-breakpoint
-- What names said until now is proposed once; from here on only the account's own words count, and Settings changes them.
UPDATE `accounts` SET `tax_kind` = CASE
  WHEN name LIKE '%federal%' THEN 'federal'
  WHEN name LIKE '%state%' THEN 'state'
  WHEN name LIKE '%local%' OR name LIKE '%city%' OR name LIKE '%county%' OR name LIKE '%town%' OR name LIKE '%village%' OR name LIKE '%school%' OR name LIKE '%municipal%' OR name LIKE '%borough%' THEN 'local'
  WHEN EXISTS (SELECT 1 FROM (VALUES ('Alabama'), ('Alaska'), ('Arizona'), ('Arkansas'), ('California'), ('Colorado'), ('Connecticut'), ('Delaware'), ('Florida'), ('Georgia'), ('Hawaii'), ('Idaho'), ('Illinois'), ('Indiana'), ('Iowa'), ('Kansas'), ('Kentucky'), ('Louisiana'), ('Maine'), ('Maryland'), ('Massachusetts'), ('Michigan'), ('Minnesota'), ('Mississippi'), ('Missouri'), ('Montana'), ('Nebraska'), ('Nevada'), ('New Hampshire'), ('New Jersey'), ('New Mexico'), ('New York'), ('Carolina'), ('Dakota'), ('Ohio'), ('Oklahoma'), ('Oregon'), ('Pennsylvania'), ('Rhode Island'), ('Tennessee'), ('Texas'), ('Utah'), ('Vermont'), ('Virginia'), ('Washington'), ('Wisconsin'), ('Wyoming'), ('Puerto Rico'), ('District of Columbia')) WHERE `accounts`.name LIKE '%' || column1 || '%') THEN 'state'
  ELSE 'federal' END
WHERE side_id = 'household' AND kind = 'expense' AND purpose = 'tax';--> statement-breakpoint
UPDATE `accounts` SET `tax_kind` = 'unrealized' WHERE side_id = 'household' AND kind = 'income' AND purpose = 'interest' AND number = 4110;--> statement-breakpoint
UPDATE `accounts` SET `tax_kind` = CASE WHEN name LIKE '%sales tax%' THEN 'sales' ELSE 'payroll' END
WHERE kind = 'liability' AND cash_role = 'none' AND crossing_role IS NULL AND (name LIKE '%sales tax%' OR name LIKE '%payroll tax%' OR name LIKE '%tax withheld%' OR name LIKE '%withholding%');--> statement-breakpoint
UPDATE `accounts` SET `savings_kind` = CASE
  WHEN number = 1200 AND cash_role = 'spendable' THEN 'taxable'
  WHEN number = 1300 THEN 'traditional'
  WHEN number = 1310 THEN 'roth'
  WHEN name LIKE '%roth%' THEN 'roth'
  WHEN name LIKE '%health savings%' OR ' ' || name || ' ' LIKE '% hsa %' THEN 'health'
  WHEN name LIKE '%retirement%' OR name LIKE '%401%' OR name LIKE '%403%' OR name LIKE '%457%' OR ' ' || name || ' ' LIKE '% ira %' OR ' ' || name || ' ' LIKE '% sep %' THEN 'traditional'
  WHEN name LIKE '%invest%' OR name LIKE '%brokerage%' OR name LIKE '%stock%' OR name LIKE '%fund%' THEN 'taxable'
  WHEN cash_role = 'spendable' THEN 'cash' END
WHERE side_id = 'household' AND kind = 'asset' AND cash_role IN ('spendable', 'other') AND crossing_role IS NULL;
