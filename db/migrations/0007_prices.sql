CREATE TABLE `member_code` (
	`id` integer PRIMARY KEY NOT NULL,
	`person_id` integer NOT NULL,
	`code_hash` text NOT NULL,
	`ends_at` text NOT NULL,
	`used_at` text,
	`line` integer NOT NULL,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "member_code_is_sha256" CHECK(length("member_code"."code_hash") = 64 AND "member_code"."code_hash" NOT GLOB '*[^0-9a-f]*')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `member_code_code_hash_unique` ON `member_code` (`code_hash`);--> statement-breakpoint
CREATE INDEX `member_code_person` ON `member_code` (`person_id`);--> statement-breakpoint
CREATE TABLE `price_list_row` (
	`id` integer PRIMARY KEY NOT NULL,
	`season` text NOT NULL,
	`goods` text NOT NULL,
	`section` text DEFAULT '' NOT NULL,
	`size` text DEFAULT '' NOT NULL,
	`grade` text DEFAULT '' NOT NULL,
	`count` integer NOT NULL,
	`price_cents` integer NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "price_list_count_whole" CHECK("price_list_row"."count" IS NULL OR typeof("price_list_row"."count") = 'integer'),
	CONSTRAINT "price_list_price_whole" CHECK("price_list_row"."price_cents" IS NULL OR typeof("price_list_row"."price_cents") = 'integer'),
	CONSTRAINT "price_list_positive" CHECK("price_list_row"."count" > 0 AND "price_list_row"."price_cents" > 0)
);
--> statement-breakpoint
CREATE INDEX `price_list_season` ON `price_list_row` (`season`,`line`);--> statement-breakpoint
CREATE TABLE `price_setting` (
	`id` integer PRIMARY KEY NOT NULL,
	`fewest` integer NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "price_setting_one" CHECK("price_setting"."id" = 1),
	CONSTRAINT "price_setting_fewest" CHECK(typeof("price_setting"."fewest") = 'integer' AND "price_setting"."fewest" BETWEEN 1 AND 99)
);
--> statement-breakpoint
CREATE TRIGGER `price_list_row_no_update` BEFORE UPDATE ON `price_list_row`
BEGIN
	SELECT RAISE(ABORT, 'price_list_row is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `price_list_row_no_delete` BEFORE DELETE ON `price_list_row`
BEGIN
	SELECT RAISE(ABORT, 'price_list_row is append-only: record a further row instead');
END;
