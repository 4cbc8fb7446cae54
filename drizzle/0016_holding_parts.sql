-- A thing keeps what all of it cost; a part of it that was sold has a row here.
CREATE TABLE `holding_parts` (
	`id` text PRIMARY KEY NOT NULL,
	`holding_id` text NOT NULL,
	`quantity` real NOT NULL,
	`disposed_day` text NOT NULL,
	`disposed_for_cents` integer,
	`created_at` text NOT NULL,
	FOREIGN KEY (`holding_id`) REFERENCES `holdings`(`id`) ON UPDATE no action ON DELETE restrict,
	CONSTRAINT "holding_parts_quantity" CHECK("holding_parts"."quantity" > 0),
	CONSTRAINT "holding_parts_disposed" CHECK(typeof("holding_parts"."disposed_day") = 'text' AND length("holding_parts"."disposed_day") = 10 AND date("holding_parts"."disposed_day") IS "holding_parts"."disposed_day"),
	CONSTRAINT "holding_parts_disposed_for" CHECK("holding_parts"."disposed_for_cents" IS NULL OR (typeof("holding_parts"."disposed_for_cents") = 'integer' AND "holding_parts"."disposed_for_cents" BETWEEN -1000000000000 AND 1000000000000))
) STRICT;--> statement-breakpoint
CREATE INDEX `holding_parts_holding` ON `holding_parts` (`holding_id`);