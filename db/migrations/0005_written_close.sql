ALTER TABLE `sale` ADD `bids_close_at` text;--> statement-breakpoint
ALTER TABLE `sale` ADD `sellers_answer_by` text;--> statement-breakpoint
ALTER TABLE `sale` ADD `bids_closed_at` text;