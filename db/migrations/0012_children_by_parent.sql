CREATE INDEX `bid_buyer` ON `bid` (`buyer_id`);--> statement-breakpoint
CREATE INDEX `tag_came_back` ON `tag` (`came_back_from_id`) WHERE came_back_from_id IS NOT NULL;