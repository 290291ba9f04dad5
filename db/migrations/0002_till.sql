CREATE TABLE `drawer_entry` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`kind` text NOT NULL,
	`checks_cents` integer,
	`cards_cents` integer,
	`other_cents` integer,
	`note` text DEFAULT '' NOT NULL,
	`at` text NOT NULL,
	`voids_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `drawer_entry`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "drawer_kind_known" CHECK("drawer_entry"."kind" IN ('opened', 'added', 'taken', 'counted', 'closed')),
	CONSTRAINT "drawer_checks_whole" CHECK("drawer_entry"."checks_cents" IS NULL OR typeof("drawer_entry"."checks_cents") = 'integer'),
	CONSTRAINT "drawer_cards_whole" CHECK("drawer_entry"."cards_cents" IS NULL OR typeof("drawer_entry"."cards_cents") = 'integer'),
	CONSTRAINT "drawer_other_whole" CHECK("drawer_entry"."other_cents" IS NULL OR typeof("drawer_entry"."other_cents") = 'integer')
);
--> statement-breakpoint
CREATE INDEX `drawer_sale` ON `drawer_entry` (`sale_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `drawer_voided_once` ON `drawer_entry` (`voids_id`);--> statement-breakpoint
CREATE TABLE `drawer_piece` (
	`id` integer PRIMARY KEY NOT NULL,
	`entry_id` integer NOT NULL,
	`denomination_cents` integer NOT NULL,
	`pieces` integer NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`entry_id`) REFERENCES `drawer_entry`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "drawer_piece_denomination_whole" CHECK("drawer_piece"."denomination_cents" IS NULL OR typeof("drawer_piece"."denomination_cents") = 'integer'),
	CONSTRAINT "drawer_piece_pieces_whole" CHECK("drawer_piece"."pieces" IS NULL OR typeof("drawer_piece"."pieces") = 'integer'),
	CONSTRAINT "drawer_piece_positive" CHECK("drawer_piece"."denomination_cents" > 0 AND "drawer_piece"."pieces" > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `drawer_piece_once` ON `drawer_piece` (`entry_id`,`denomination_cents`);--> statement-breakpoint
-- No command has written this table before, so there is nothing to carry over.
DROP TABLE `handover`;--> statement-breakpoint
CREATE TABLE `handover` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`buyer_id` integer NOT NULL,
	`kind` text NOT NULL,
	`replaces_id` integer,
	`taken_by` text DEFAULT '' NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`replaces_id`) REFERENCES `handover`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "handover_kind_known" CHECK("handover"."kind" IN ('handed', 'returned')),
	CONSTRAINT "handover_first_handed" CHECK("handover"."replaces_id" IS NOT NULL OR "handover"."kind" = 'handed')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `handover_first` ON `handover` (`lot_id`) WHERE replaces_id IS NULL;--> statement-breakpoint
CREATE UNIQUE INDEX `handover_replaced_once` ON `handover` (`replaces_id`);--> statement-breakpoint
CREATE INDEX `handover_lot` ON `handover` (`lot_id`);--> statement-breakpoint
CREATE INDEX `handover_buyer` ON `handover` (`buyer_id`);--> statement-breakpoint
ALTER TABLE `sale` ADD `hand_over_unpaid` integer DEFAULT false NOT NULL;--> statement-breakpoint
CREATE TRIGGER `handover_no_update` BEFORE UPDATE ON `handover`
BEGIN
	SELECT RAISE(ABORT, 'handover is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `handover_no_delete` BEFORE DELETE ON `handover`
BEGIN
	SELECT RAISE(ABORT, 'handover is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `drawer_entry_no_update` BEFORE UPDATE ON `drawer_entry`
BEGIN
	SELECT RAISE(ABORT, 'drawer_entry is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `drawer_entry_no_delete` BEFORE DELETE ON `drawer_entry`
BEGIN
	SELECT RAISE(ABORT, 'drawer_entry is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `drawer_piece_no_update` BEFORE UPDATE ON `drawer_piece`
BEGIN
	SELECT RAISE(ABORT, 'drawer_piece is append-only: record a further row instead');
END;
--> statement-breakpoint
CREATE TRIGGER `drawer_piece_no_delete` BEFORE DELETE ON `drawer_piece`
BEGIN
	SELECT RAISE(ABORT, 'drawer_piece is append-only: record a further row instead');
END;
