ALTER TABLE `goods_notes` ADD `kept_to_breed` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `head_tallies` ADD `kept_to_breed` integer DEFAULT false NOT NULL;