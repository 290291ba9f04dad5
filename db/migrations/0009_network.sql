CREATE TABLE `network` (
	`id` integer PRIMARY KEY NOT NULL,
	`hosts` text DEFAULT '' NOT NULL,
	`plain_staff` integer DEFAULT false NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`worker` text NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "network_one" CHECK("network"."id" = 1)
);
