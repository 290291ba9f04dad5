CREATE TABLE `dues` (
	`id` integer PRIMARY KEY NOT NULL,
	`person_id` integer NOT NULL,
	`charge_id` integer,
	`payment_id` integer,
	`member_until_before` text,
	`member_until` text,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`charge_id`) REFERENCES `charge`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`payment_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `dues`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "dues_one_way" CHECK(("dues"."charge_id" IS NULL) <> ("dues"."payment_id" IS NULL))
);
--> statement-breakpoint
CREATE INDEX `dues_person` ON `dues` (`person_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `dues_charge` ON `dues` (`charge_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `dues_payment` ON `dues` (`payment_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `dues_voided_once` ON `dues` (`voids_id`);--> statement-breakpoint
ALTER TABLE `sale` ADD `licence_required` integer DEFAULT false NOT NULL;--> statement-breakpoint
ALTER TABLE `sale` ADD `dues_until` text;--> statement-breakpoint
CREATE TRIGGER `dues_no_update` BEFORE UPDATE ON `dues`
BEGIN
	SELECT RAISE(ABORT, 'dues is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `dues_no_delete` BEFORE DELETE ON `dues`
BEGIN
	SELECT RAISE(ABORT, 'dues is append-only: record a further row instead');
END;
