ALTER TABLE `tag` ADD `broke_at` text DEFAULT '' NOT NULL;--> statement-breakpoint
ALTER TABLE `tag` ADD `replaces` text DEFAULT '' NOT NULL;