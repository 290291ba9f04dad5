CREATE TABLE `association` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`street` text DEFAULT '' NOT NULL,
	`city` text DEFAULT '' NOT NULL,
	`region` text DEFAULT '' NOT NULL,
	`postcode` text DEFAULT '' NOT NULL,
	`phone` text DEFAULT '' NOT NULL,
	`email` text DEFAULT '' NOT NULL,
	`paper` text DEFAULT 'letter' NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "association_one" CHECK("association"."id" = 1),
	CONSTRAINT "association_paper_known" CHECK("association"."paper" IN ('letter', 'a4'))
);
--> statement-breakpoint
CREATE TABLE `bid` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`buyer_id` integer NOT NULL,
	`kind` text NOT NULL,
	`price_cents` integer NOT NULL,
	`received_at` text DEFAULT '' NOT NULL,
	`retracts_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`retracts_id`) REFERENCES `bid`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "bid_kind_known" CHECK("bid"."kind" IN ('written', 'left', 'under')),
	CONSTRAINT "bid_price_whole" CHECK("bid"."price_cents" IS NULL OR typeof("bid"."price_cents") = 'integer')
);
--> statement-breakpoint
CREATE INDEX `bid_lot` ON `bid` (`lot_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `bid_retracted_once` ON `bid` (`retracts_id`);--> statement-breakpoint
CREATE TABLE `buyer` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`buyer_no` integer NOT NULL,
	`person_id` integer NOT NULL,
	`licence_no` text DEFAULT '' NOT NULL,
	`licence_region` text DEFAULT '' NOT NULL,
	`licence_expires` text,
	`tax_exempt` integer DEFAULT false NOT NULL,
	`exempt_no` text DEFAULT '' NOT NULL,
	`cleared` integer DEFAULT false NOT NULL,
	`cleared_by` text DEFAULT '' NOT NULL,
	`limit_cents` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "buyer_no_whole" CHECK("buyer"."buyer_no" IS NULL OR typeof("buyer"."buyer_no") = 'integer'),
	CONSTRAINT "buyer_limit_whole" CHECK("buyer"."limit_cents" IS NULL OR typeof("buyer"."limit_cents") = 'integer')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `buyer_number` ON `buyer` (`sale_id`,`buyer_no`);--> statement-breakpoint
CREATE TABLE `charge` (
	`id` integer PRIMARY KEY NOT NULL,
	`seller_id` integer NOT NULL,
	`kind` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`how` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`voids_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `charge`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "charge_kind_known" CHECK("charge"."kind" IN ('dues', 'advance', 'adjustment')),
	CONSTRAINT "charge_how_known" CHECK("charge"."how" IN ('deducted', 'cash')),
	CONSTRAINT "charge_amount_whole" CHECK("charge"."amount_cents" IS NULL OR typeof("charge"."amount_cents") = 'integer')
);
--> statement-breakpoint
CREATE INDEX `charge_seller` ON `charge` (`seller_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `charge_voided_once` ON `charge` (`voids_id`);--> statement-breakpoint
CREATE TABLE `commission_override` (
	`sale_id` integer NOT NULL,
	`goods` text NOT NULL,
	`member_pct` text NOT NULL,
	`guest_pct` text NOT NULL,
	`line` integer NOT NULL,
	PRIMARY KEY(`sale_id`, `goods`),
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `goods` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`goods` text NOT NULL,
	`name` text NOT NULL,
	`scientific_name` text DEFAULT '' NOT NULL,
	`by` text NOT NULL,
	`export_tag` integer DEFAULT false NOT NULL,
	`tag_species_code` text DEFAULT '' NOT NULL,
	`season_limit` integer,
	`sizes` text DEFAULT '[]' NOT NULL,
	`grades` text DEFAULT '[]' NOT NULL,
	`caution` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "goods_by_known" CHECK("goods"."by" IN ('piece', 'lot', 'lb', 'oz')),
	CONSTRAINT "goods_season_limit_whole" CHECK("goods"."season_limit" IS NULL OR typeof("goods"."season_limit") = 'integer')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `goods_of_sale` ON `goods` (`sale_id`,`goods`);--> statement-breakpoint
CREATE TABLE `handover` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`taken_by` text DEFAULT '' NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `handover_lot_id_unique` ON `handover` (`lot_id`);--> statement-breakpoint
CREATE TABLE `invoice` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`number` integer NOT NULL,
	`buyer_id` integer NOT NULL,
	`model` text NOT NULL,
	`corrects_id` integer,
	`issued_at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`corrects_id`) REFERENCES `invoice`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `invoice_number` ON `invoice` (`sale_id`,`number`);--> statement-breakpoint
CREATE INDEX `invoice_buyer` ON `invoice` (`buyer_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `invoice_corrected_once` ON `invoice` (`corrects_id`);--> statement-breakpoint
CREATE TABLE `log` (
	`seq` integer PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`worker` text NOT NULL,
	`station` text NOT NULL,
	`command` text NOT NULL,
	`key` text NOT NULL,
	`input` text NOT NULL,
	`result` text NOT NULL,
	`prev_hash` text NOT NULL,
	`hash` text NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `log_key_unique` ON `log` (`key`);--> statement-breakpoint
CREATE TABLE `lot` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`lot_number` integer NOT NULL,
	`lot_letter` text DEFAULT '' NOT NULL,
	`seller_id` integer NOT NULL,
	`goods_id` integer NOT NULL,
	`by` text NOT NULL,
	`count` integer,
	`weight_thousandths` integer,
	`size` text DEFAULT '' NOT NULL,
	`grade` text DEFAULT '' NOT NULL,
	`section` text DEFAULT '' NOT NULL,
	`form` text DEFAULT 'put_up' NOT NULL,
	`taken_in` text DEFAULT '' NOT NULL,
	`minimum_cents` integer,
	`without_reserve` integer DEFAULT false NOT NULL,
	`donated` integer DEFAULT false NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`place` real,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`goods_id`) REFERENCES `goods`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "lot_by_known" CHECK("lot"."by" IN ('piece', 'lot', 'lb', 'oz')),
	CONSTRAINT "lot_form_known" CHECK("lot"."form" IN ('put_up', 'green', 'carcass')),
	CONSTRAINT "lot_number_whole" CHECK("lot"."lot_number" IS NULL OR typeof("lot"."lot_number") = 'integer'),
	CONSTRAINT "lot_count_whole" CHECK("lot"."count" IS NULL OR typeof("lot"."count") = 'integer'),
	CONSTRAINT "lot_weight_whole" CHECK("lot"."weight_thousandths" IS NULL OR typeof("lot"."weight_thousandths") = 'integer'),
	CONSTRAINT "lot_minimum_whole" CHECK("lot"."minimum_cents" IS NULL OR typeof("lot"."minimum_cents") = 'integer'),
	CONSTRAINT "lot_without_reserve" CHECK(NOT "lot"."without_reserve" OR "lot"."minimum_cents" IS NULL)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `lot_number` ON `lot` (`sale_id`,`lot_number`,`lot_letter`);--> statement-breakpoint
CREATE INDEX `lot_seller` ON `lot` (`seller_id`);--> statement-breakpoint
CREATE TABLE `outcome` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`kind` text NOT NULL,
	`price_cents` integer,
	`buyer_id` integer,
	`replaces_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`remarks` text DEFAULT '[]' NOT NULL,
	`awarded` integer DEFAULT false NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`replaces_id`) REFERENCES `outcome`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "outcome_kind_known" CHECK("outcome"."kind" IN ('sold', 'passed', 'withdrawn', 'reopened')),
	CONSTRAINT "outcome_price_whole" CHECK("outcome"."price_cents" IS NULL OR typeof("outcome"."price_cents") = 'integer'),
	CONSTRAINT "outcome_sold_whole" CHECK(("outcome"."kind" = 'sold') = ("outcome"."price_cents" IS NOT NULL) AND ("outcome"."kind" = 'sold') = ("outcome"."buyer_id" IS NOT NULL)),
	CONSTRAINT "outcome_price_positive" CHECK("outcome"."price_cents" IS NULL OR "outcome"."price_cents" > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `outcome_first` ON `outcome` (`lot_id`) WHERE replaces_id IS NULL;--> statement-breakpoint
CREATE UNIQUE INDEX `outcome_replaced_once` ON `outcome` (`replaces_id`);--> statement-breakpoint
CREATE INDEX `outcome_lot` ON `outcome` (`lot_id`);--> statement-breakpoint
CREATE INDEX `outcome_buyer` ON `outcome` (`buyer_id`);--> statement-breakpoint
CREATE TABLE `particulars` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`person_id` integer NOT NULL,
	`ref` text NOT NULL,
	`name` text NOT NULL,
	`street` text DEFAULT '' NOT NULL,
	`city` text DEFAULT '' NOT NULL,
	`region` text DEFAULT '' NOT NULL,
	`postcode` text DEFAULT '' NOT NULL,
	`phone` text DEFAULT '' NOT NULL,
	`email` text DEFAULT '' NOT NULL,
	`member_no` text DEFAULT '' NOT NULL,
	`member_until` text,
	`licence_no` text DEFAULT '' NOT NULL,
	`licence_region` text DEFAULT '' NOT NULL,
	`licence_expires` text,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `particulars_ref` ON `particulars` (`sale_id`,`ref`);--> statement-breakpoint
CREATE UNIQUE INDEX `particulars_person` ON `particulars` (`sale_id`,`person_id`);--> statement-breakpoint
CREATE TABLE `partner` (
	`id` integer PRIMARY KEY NOT NULL,
	`seller_id` integer NOT NULL,
	`position` integer NOT NULL,
	`person_id` integer NOT NULL,
	`parts` integer NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "partner_parts_whole" CHECK("partner"."parts" IS NULL OR typeof("partner"."parts") = 'integer')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `partner_position` ON `partner` (`seller_id`,`position`);--> statement-breakpoint
CREATE INDEX `partner_person` ON `partner` (`person_id`);--> statement-breakpoint
CREATE TABLE `payment` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`direction` text NOT NULL,
	`buyer_id` integer,
	`seller_id` integer,
	`person_id` integer,
	`method` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`reference` text DEFAULT '' NOT NULL,
	`paid_at` text NOT NULL,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "payment_direction_known" CHECK("payment"."direction" IN ('in', 'out')),
	CONSTRAINT "payment_method_known" CHECK("payment"."method" IN ('cash', 'check', 'card', 'other')),
	CONSTRAINT "payment_amount_whole" CHECK("payment"."amount_cents" IS NULL OR typeof("payment"."amount_cents") = 'integer'),
	CONSTRAINT "payment_positive" CHECK("payment"."amount_cents" > 0),
	CONSTRAINT "payment_one_party" CHECK(("payment"."buyer_id" IS NULL OR "payment"."seller_id" IS NULL) AND coalesce("payment"."buyer_id", "payment"."seller_id", "payment"."person_id") IS NOT NULL)
);
--> statement-breakpoint
CREATE INDEX `payment_sale` ON `payment` (`sale_id`);--> statement-breakpoint
CREATE INDEX `payment_buyer` ON `payment` (`buyer_id`);--> statement-breakpoint
CREATE INDEX `payment_seller` ON `payment` (`seller_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `payment_voided_once` ON `payment` (`voids_id`);--> statement-breakpoint
CREATE TABLE `person` (
	`id` integer PRIMARY KEY NOT NULL,
	`ref` text NOT NULL,
	`name` text NOT NULL,
	`street` text DEFAULT '' NOT NULL,
	`city` text DEFAULT '' NOT NULL,
	`region` text DEFAULT '' NOT NULL,
	`postcode` text DEFAULT '' NOT NULL,
	`phone` text DEFAULT '' NOT NULL,
	`email` text DEFAULT '' NOT NULL,
	`member_no` text DEFAULT '' NOT NULL,
	`member_until` text,
	`licence_no` text DEFAULT '' NOT NULL,
	`licence_region` text DEFAULT '' NOT NULL,
	`licence_expires` text,
	`name_folded` text NOT NULL,
	`line` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `person_ref_unique` ON `person` (`ref`);--> statement-breakpoint
CREATE TABLE `sale` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`held_on` text NOT NULL,
	`venue` text DEFAULT '' NOT NULL,
	`season` text NOT NULL,
	`season_closes_on` text,
	`region` text NOT NULL,
	`currency` text NOT NULL,
	`bidding` text NOT NULL,
	`stage` text NOT NULL,
	`commission_member_pct` text NOT NULL,
	`commission_guest_pct` text NOT NULL,
	`commission_min_cents` integer NOT NULL,
	`seller_number_fee_cents` integer NOT NULL,
	`lot_fee_cents` integer NOT NULL,
	`no_sale_flat_cents` integer NOT NULL,
	`no_sale_pct_of_minimum` text NOT NULL,
	`premium_pct` text NOT NULL,
	`tax_pct` text NOT NULL,
	`price_step_cents` integer NOT NULL,
	`guests_may_sell` integer DEFAULT false NOT NULL,
	`dues_cents` integer NOT NULL,
	`running_order` text DEFAULT 'lot' NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "sale_bidding_known" CHECK("sale"."bidding" IN ('floor', 'sealed')),
	CONSTRAINT "sale_stage_known" CHECK("sale"."stage" IN ('planned', 'intake', 'selling', 'settling', 'closed')),
	CONSTRAINT "sale_commission_min_whole" CHECK("sale"."commission_min_cents" IS NULL OR typeof("sale"."commission_min_cents") = 'integer'),
	CONSTRAINT "sale_seller_number_fee_whole" CHECK("sale"."seller_number_fee_cents" IS NULL OR typeof("sale"."seller_number_fee_cents") = 'integer'),
	CONSTRAINT "sale_lot_fee_whole" CHECK("sale"."lot_fee_cents" IS NULL OR typeof("sale"."lot_fee_cents") = 'integer'),
	CONSTRAINT "sale_no_sale_flat_whole" CHECK("sale"."no_sale_flat_cents" IS NULL OR typeof("sale"."no_sale_flat_cents") = 'integer'),
	CONSTRAINT "sale_price_step_whole" CHECK("sale"."price_step_cents" IS NULL OR typeof("sale"."price_step_cents") = 'integer'),
	CONSTRAINT "sale_dues_whole" CHECK("sale"."dues_cents" IS NULL OR typeof("sale"."dues_cents") = 'integer')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `sale_of_day` ON `sale` (`name`,`held_on`);--> statement-breakpoint
CREATE TABLE `seller` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`seller_no` integer NOT NULL,
	`brought_by` text DEFAULT '' NOT NULL,
	`arrived_at` text,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "seller_no_whole" CHECK("seller"."seller_no" IS NULL OR typeof("seller"."seller_no") = 'integer')
);
--> statement-breakpoint
CREATE UNIQUE INDEX `seller_number` ON `seller` (`sale_id`,`seller_no`);--> statement-breakpoint
CREATE TABLE `settlement` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`number` integer NOT NULL,
	`seller_id` integer NOT NULL,
	`model` text NOT NULL,
	`corrects_id` integer,
	`issued_at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`corrects_id`) REFERENCES `settlement`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `settlement_number` ON `settlement` (`sale_id`,`number`);--> statement-breakpoint
CREATE INDEX `settlement_seller` ON `settlement` (`seller_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `settlement_corrected_once` ON `settlement` (`corrects_id`);--> statement-breakpoint
CREATE TABLE `tag` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`position` integer NOT NULL,
	`tag` text NOT NULL,
	`condition` text DEFAULT 'intact' NOT NULL,
	`live` integer DEFAULT true NOT NULL,
	`came_back_from_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`came_back_from_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "tag_condition_known" CHECK("tag"."condition" IN ('intact', 'broken', 'replacement'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `tag_once` ON `tag` (`tag`) WHERE live = 1;--> statement-breakpoint
CREATE INDEX `tag_lot` ON `tag` (`lot_id`,`position`);