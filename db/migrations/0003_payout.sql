CREATE TABLE `closing` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`kind` text NOT NULL,
	`model` text,
	`reason` text DEFAULT '' NOT NULL,
	`worker` text NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "closing_kind_known" CHECK("closing"."kind" IN ('closed', 'reopened')),
	CONSTRAINT "closing_report" CHECK(("closing"."kind" = 'closed') = ("closing"."model" IS NOT NULL))
);
--> statement-breakpoint
CREATE INDEX `closing_sale` ON `closing` (`sale_id`);--> statement-breakpoint
CREATE TABLE `seller_check` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`number` integer NOT NULL,
	`payment_id` integer NOT NULL,
	`settlement_id` integer NOT NULL,
	`replaces_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`payment_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`settlement_id`) REFERENCES `settlement`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`replaces_id`) REFERENCES `seller_check`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "seller_check_number_whole" CHECK("seller_check"."number" IS NULL OR typeof("seller_check"."number") = 'integer'),
	CONSTRAINT "seller_check_positive" CHECK("seller_check"."number" > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `seller_check_number` ON `seller_check` (`sale_id`,`number`);--> statement-breakpoint
CREATE UNIQUE INDEX `seller_check_payment` ON `seller_check` (`payment_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `seller_check_replaced_once` ON `seller_check` (`replaces_id`);--> statement-breakpoint
CREATE INDEX `seller_check_settlement` ON `seller_check` (`settlement_id`);--> statement-breakpoint
ALTER TABLE `sale` ADD `sellers_wait` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `sale` ADD `statement_days` integer DEFAULT 10 NOT NULL;--> statement-breakpoint
CREATE TRIGGER `seller_check_no_update` BEFORE UPDATE ON `seller_check`
BEGIN
	SELECT RAISE(ABORT, 'seller_check is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `seller_check_no_delete` BEFORE DELETE ON `seller_check`
BEGIN
	SELECT RAISE(ABORT, 'seller_check is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `closing_no_update` BEFORE UPDATE ON `closing`
BEGIN
	SELECT RAISE(ABORT, 'closing is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `closing_no_delete` BEFORE DELETE ON `closing`
BEGIN
	SELECT RAISE(ABORT, 'closing is append-only: record a further row instead');
END;
