CREATE TABLE `worker` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`name_folded` text NOT NULL,
	`passphrase_hash` text NOT NULL,
	`stations` text NOT NULL,
	`has_left` integer DEFAULT false NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "worker_hash_is_scrypt" CHECK("worker"."passphrase_hash" LIKE '$scrypt$%')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `worker_name_folded_unique` ON `worker` (`name_folded`);