CREATE TABLE `arrival` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`method` text NOT NULL,
	`day` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`fee_cents` integer NOT NULL,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `arrival`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "arrival_method_known" CHECK("arrival"."method" IN ('card', 'other')),
	CONSTRAINT "arrival_amount_whole" CHECK("arrival"."amount_cents" IS NULL OR typeof("arrival"."amount_cents") = 'integer'),
	CONSTRAINT "arrival_fee_whole" CHECK("arrival"."fee_cents" IS NULL OR typeof("arrival"."fee_cents") = 'integer'),
	CONSTRAINT "arrival_something" CHECK("arrival"."fee_cents" >= 0 AND "arrival"."amount_cents" > "arrival"."fee_cents")
);
--> statement-breakpoint
CREATE INDEX `arrival_sale` ON `arrival` (`sale_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `arrival_voided_once` ON `arrival` (`voids_id`);--> statement-breakpoint
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
	`time_zone` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "association_one" CHECK("association"."id" = 1),
	CONSTRAINT "association_paper_known" CHECK("association"."paper" IN ('letter', 'a4'))
);
--> statement-breakpoint
CREATE TABLE `bank_mark` (
	`id` integer PRIMARY KEY NOT NULL,
	`entry_id` integer NOT NULL,
	`day` text NOT NULL,
	`voids_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`entry_id`) REFERENCES `journal_entry`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `bank_mark`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `bank_mark_entry` ON `bank_mark` (`entry_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `bank_mark_voided_once` ON `bank_mark` (`voids_id`);--> statement-breakpoint
CREATE TABLE `bid` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`buyer_id` integer NOT NULL,
	`kind` text NOT NULL,
	`price_cents` integer NOT NULL,
	`received_at` text DEFAULT '' NOT NULL,
	`retracts_id` integer,
	`moved` integer DEFAULT false NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`retracts_id`) REFERENCES `bid`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "bid_kind_known" CHECK("bid"."kind" IN ('written', 'left', 'under')),
	CONSTRAINT "bid_price_whole" CHECK("bid"."price_cents" IS NULL OR typeof("bid"."price_cents") = 'integer')
);
--> statement-breakpoint
CREATE INDEX `bid_lot` ON `bid` (`lot_id`);--> statement-breakpoint
CREATE INDEX `bid_buyer` ON `bid` (`buyer_id`);--> statement-breakpoint
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
CREATE TABLE `deposit` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`day` text NOT NULL,
	`cash_cents` integer NOT NULL,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `deposit`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "deposit_cash_whole" CHECK("deposit"."cash_cents" IS NULL OR typeof("deposit"."cash_cents") = 'integer'),
	CONSTRAINT "deposit_cash_not_below" CHECK("deposit"."cash_cents" >= 0)
);
--> statement-breakpoint
CREATE INDEX `deposit_sale` ON `deposit` (`sale_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `deposit_voided_once` ON `deposit` (`voids_id`);--> statement-breakpoint
CREATE TABLE `deposit_item` (
	`id` integer PRIMARY KEY NOT NULL,
	`deposit_id` integer NOT NULL,
	`payment_id` integer NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`deposit_id`) REFERENCES `deposit`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`payment_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `deposit_item_once` ON `deposit_item` (`deposit_id`,`payment_id`);--> statement-breakpoint
CREATE INDEX `deposit_item_payment` ON `deposit_item` (`payment_id`);--> statement-breakpoint
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
CREATE TABLE `dues` (
	`id` integer PRIMARY KEY NOT NULL,
	`person_id` integer NOT NULL,
	`charge_id` integer,
	`payment_id` integer,
	`member_until_before` text,
	`member_until` text,
	`member_line_before` integer NOT NULL,
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
CREATE INDEX `handover_lot` ON `handover` (`lot_id`,`kind`);--> statement-breakpoint
CREATE INDEX `handover_buyer` ON `handover` (`buyer_id`);--> statement-breakpoint
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
CREATE TABLE `journal_entry` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`day` text NOT NULL,
	`memo` text DEFAULT '' NOT NULL,
	`kind` text NOT NULL,
	`source_id` integer NOT NULL,
	`reverses_id` integer,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`reverses_id`) REFERENCES `journal_entry`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "journal_entry_kind_known" CHECK("journal_entry"."kind" IN ('purchases', 'proceeds', 'payment', 'charge', 'taking', 'drawer', 'deposit', 'arrival'))
);
--> statement-breakpoint
CREATE INDEX `journal_entry_sale` ON `journal_entry` (`sale_id`);--> statement-breakpoint
CREATE INDEX `journal_entry_source` ON `journal_entry` (`kind`,`source_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `journal_entry_reversed_once` ON `journal_entry` (`reverses_id`);--> statement-breakpoint
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
	`former_numbers` text DEFAULT '' NOT NULL,
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
CREATE INDEX `lot_goods` ON `lot` (`goods_id`,`by`);--> statement-breakpoint
CREATE INDEX `lot_measure` ON `lot` (`sale_id`,`id`,`by`,`count`,`weight_thousandths`);--> statement-breakpoint
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
CREATE TABLE `network` (
	`id` integer PRIMARY KEY NOT NULL,
	`hosts` text DEFAULT '' NOT NULL,
	`plain_staff` integer DEFAULT false NOT NULL,
	`waits_for_second` integer DEFAULT false NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`worker` text NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "network_one" CHECK("network"."id" = 1)
);
--> statement-breakpoint
CREATE TABLE `outcome` (
	`id` integer PRIMARY KEY NOT NULL,
	`lot_id` integer NOT NULL,
	`kind` text NOT NULL,
	`price_cents` integer,
	`buyer_id` integer,
	`replaces_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`fate` text,
	`remarks` text DEFAULT '[]' NOT NULL,
	`awarded` integer DEFAULT false NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`replaces_id`) REFERENCES `outcome`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "outcome_kind_known" CHECK("outcome"."kind" IN ('sold', 'passed', 'withdrawn', 'bought_back', 'unpaid', 'reopened')),
	CONSTRAINT "outcome_price_whole" CHECK("outcome"."price_cents" IS NULL OR typeof("outcome"."price_cents") = 'integer'),
	CONSTRAINT "outcome_sold_whole" CHECK(("outcome"."kind" IN ('sold', 'bought_back', 'unpaid')) = ("outcome"."price_cents" IS NOT NULL)
        AND ("outcome"."kind" IN ('sold', 'unpaid')) = ("outcome"."buyer_id" IS NOT NULL)),
	CONSTRAINT "outcome_fate_of_unpaid" CHECK(("outcome"."kind" = 'unpaid') = ("outcome"."fate" IS NOT NULL)),
	CONSTRAINT "outcome_fate" CHECK("outcome"."fate" IS NULL OR "outcome"."fate" IN ('seller', 'association', 'again')),
	CONSTRAINT "outcome_price_positive" CHECK("outcome"."price_cents" IS NULL OR "outcome"."price_cents" > 0)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `outcome_first` ON `outcome` (`lot_id`) WHERE replaces_id IS NULL;--> statement-breakpoint
CREATE UNIQUE INDEX `outcome_replaced_once` ON `outcome` (`replaces_id`);--> statement-breakpoint
CREATE INDEX `outcome_lot` ON `outcome` (`lot_id`,`kind`,`price_cents`,`buyer_id`,`fate`);--> statement-breakpoint
CREATE INDEX `outcome_buyer` ON `outcome` (`buyer_id`,`kind`,`lot_id`,`price_cents`);--> statement-breakpoint
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
	`member_line` integer NOT NULL,
	`licence_no` text DEFAULT '' NOT NULL,
	`licence_region` text DEFAULT '' NOT NULL,
	`licence_expires` text,
	`payee` text DEFAULT '' NOT NULL,
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
	`other_half_id` integer,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`buyer_id`) REFERENCES `buyer`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`seller_id`) REFERENCES `seller`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`person_id`) REFERENCES `person`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`other_half_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `payment`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "payment_direction_known" CHECK("payment"."direction" IN ('in', 'out')),
	CONSTRAINT "payment_method_known" CHECK("payment"."method" IN ('cash', 'check', 'card', 'other', 'set_off', 'written_off', 'check_fee')),
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
	`member_line` integer NOT NULL,
	`licence_no` text DEFAULT '' NOT NULL,
	`licence_region` text DEFAULT '' NOT NULL,
	`licence_expires` text,
	`payee` text DEFAULT '' NOT NULL,
	`name_folded` text NOT NULL,
	`line` integer NOT NULL
);
--> statement-breakpoint
CREATE UNIQUE INDEX `person_ref_unique` ON `person` (`ref`);--> statement-breakpoint
CREATE TABLE `posting` (
	`id` integer PRIMARY KEY NOT NULL,
	`entry_id` integer NOT NULL,
	`account` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`entry_id`) REFERENCES `journal_entry`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "posting_amount_whole" CHECK("posting"."amount_cents" IS NULL OR typeof("posting"."amount_cents") = 'integer'),
	CONSTRAINT "posting_moves" CHECK("posting"."amount_cents" <> 0)
);
--> statement-breakpoint
CREATE INDEX `posting_entry` ON `posting` (`entry_id`);--> statement-breakpoint
CREATE INDEX `posting_account` ON `posting` (`account`);--> statement-breakpoint
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
	`left_bids` text DEFAULT 'step' NOT NULL,
	`guests_may_sell` integer DEFAULT false NOT NULL,
	`dues_cents` integer NOT NULL,
	`running_order` text DEFAULT 'lot' NOT NULL,
	`hand_over_unpaid` integer DEFAULT false NOT NULL,
	`sellers_wait` integer DEFAULT false NOT NULL,
	`statement_days` integer DEFAULT 10 NOT NULL,
	`bids_close_at` text,
	`sellers_answer_by` text,
	`bids_closed_at` text,
	`bids_awarded_at` text,
	`no_answer` text DEFAULT 'kept' NOT NULL,
	`licence_required` integer DEFAULT false NOT NULL,
	`dues_until` text,
	`line` integer NOT NULL,
	CONSTRAINT "sale_no_answer_known" CHECK("sale"."no_answer" IN ('kept', 'accepted')),
	CONSTRAINT "sale_left_bids_known" CHECK("sale"."left_bids" IN ('step', 'bid')),
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
CREATE UNIQUE INDEX `seller_check_number` ON `seller_check` (`number`);--> statement-breakpoint
CREATE INDEX `seller_check_sale` ON `seller_check` (`sale_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `seller_check_payment` ON `seller_check` (`payment_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `seller_check_replaced_once` ON `seller_check` (`replaces_id`);--> statement-breakpoint
CREATE INDEX `seller_check_settlement` ON `seller_check` (`settlement_id`);--> statement-breakpoint
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
	`broke_at` text DEFAULT '' NOT NULL,
	`replaces` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`lot_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`came_back_from_id`) REFERENCES `lot`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "tag_condition_known" CHECK("tag"."condition" IN ('intact', 'broken', 'replacement'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `tag_once` ON `tag` (`tag`) WHERE live = 1;--> statement-breakpoint
CREATE INDEX `tag_lot` ON `tag` (`lot_id`,`position`);--> statement-breakpoint
CREATE INDEX `tag_came_back` ON `tag` (`came_back_from_id`) WHERE came_back_from_id IS NOT NULL;--> statement-breakpoint
CREATE TABLE `takeover` (
	`epoch` integer PRIMARY KEY NOT NULL,
	`kind` text NOT NULL,
	`laptop` text NOT NULL,
	`told` text DEFAULT '' NOT NULL,
	`reason` text DEFAULT '' NOT NULL,
	`worker` text NOT NULL,
	`at` text NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "takeover_kind_known" CHECK("takeover"."kind" IN ('takeover', 'restore'))
);
--> statement-breakpoint
CREATE TABLE `taking` (
	`id` integer PRIMARY KEY NOT NULL,
	`sale_id` integer NOT NULL,
	`kind` text NOT NULL,
	`method` text NOT NULL,
	`amount_cents` integer NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`at` text NOT NULL,
	`voids_id` integer,
	`reason` text DEFAULT '' NOT NULL,
	`line` integer NOT NULL,
	FOREIGN KEY (`sale_id`) REFERENCES `sale`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`voids_id`) REFERENCES `taking`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "taking_kind_known" CHECK("taking"."kind" IN ('raffle', 'door', 'donation', 'food', 'other')),
	CONSTRAINT "taking_method_known" CHECK("taking"."method" IN ('cash', 'check', 'card', 'other')),
	CONSTRAINT "taking_amount_whole" CHECK("taking"."amount_cents" IS NULL OR typeof("taking"."amount_cents") = 'integer'),
	CONSTRAINT "taking_positive" CHECK("taking"."amount_cents" > 0)
);
--> statement-breakpoint
CREATE INDEX `taking_sale` ON `taking` (`sale_id`);--> statement-breakpoint
CREATE UNIQUE INDEX `taking_voided_once` ON `taking` (`voids_id`);--> statement-breakpoint
CREATE TABLE `worker` (
	`id` integer PRIMARY KEY NOT NULL,
	`name` text NOT NULL,
	`name_folded` text NOT NULL,
	`passphrase_mark` text NOT NULL,
	`stations` text NOT NULL,
	`has_left` integer DEFAULT false NOT NULL,
	`line` integer NOT NULL,
	CONSTRAINT "worker_mark_is_64" CHECK(length("worker"."passphrase_mark") = 64)
);
--> statement-breakpoint
CREATE UNIQUE INDEX `worker_name_folded_unique` ON `worker` (`name_folded`);--> statement-breakpoint
CREATE VIEW `called_amount` AS select "standing_outcome"."lot_id", "standing_outcome"."id" as "outcome_id", "lot"."sale_id", "standing_outcome"."kind", "standing_outcome"."buyer_id", CASE WHEN "standing_outcome"."kind" <> 'sold' THEN NULL ELSE CASE "lot"."by" WHEN 'lot' THEN "standing_outcome"."price_cents"
  WHEN 'piece' THEN "standing_outcome"."price_cents" * "lot"."count"
  ELSE "standing_outcome"."price_cents" / 1000 * "lot"."weight_thousandths"
    + ("standing_outcome"."price_cents" % 1000 * "lot"."weight_thousandths" * 2 + 1000) / 2000 END END as "amount_cents" from "lot" cross join "standing_outcome" where "standing_outcome"."lot_id" = "lot"."id";--> statement-breakpoint
CREATE VIEW `live_arrival` AS select "id", "sale_id", "method", "day", "amount_cents", "fee_cents", "voids_id", "reason", "line" from "arrival" where ("arrival"."voids_id" is null and not exists (select 1 as "found" from "arrival" "voiding" where "voiding"."voids_id" = "arrival"."id"));--> statement-breakpoint
CREATE VIEW `live_bank_mark` AS select "id", "entry_id", "day", "voids_id", "line" from "bank_mark" where ("bank_mark"."voids_id" is null and not exists (select 1 as "found" from "bank_mark" "voiding" where "voiding"."voids_id" = "bank_mark"."id"));--> statement-breakpoint
CREATE VIEW `live_bid` AS select "id", "lot_id", "buyer_id", "kind", "price_cents", "received_at", "retracts_id", "moved", "reason", "line" from "bid" where ("bid"."retracts_id" is null and not exists (select 1 as "found" from "bid" "retraction" where ("retraction"."lot_id" = "bid"."lot_id" and "retraction"."buyer_id" = "bid"."buyer_id" and "retraction"."retracts_id" is not null and ("retraction"."retracts_id" = "bid"."id" OR ("retraction"."retracts_id" > "bid"."id" AND NOT "retraction"."moved")))));--> statement-breakpoint
CREATE VIEW `live_charge` AS select "id", "seller_id", "kind", "amount_cents", "how", "note", "voids_id", "line" from "charge" where ("charge"."voids_id" is null and not exists (select 1 as "found" from "charge" "voiding" where "voiding"."voids_id" = "charge"."id"));--> statement-breakpoint
CREATE VIEW `live_deposit` AS select "id", "sale_id", "day", "cash_cents", "voids_id", "reason", "line" from "deposit" where ("deposit"."voids_id" is null and not exists (select 1 as "found" from "deposit" "voiding" where "voiding"."voids_id" = "deposit"."id"));--> statement-breakpoint
CREATE VIEW `live_dues` AS select "id", "person_id", "charge_id", "payment_id", "member_until_before", "member_until", "member_line_before", "voids_id", "reason", "line" from "dues" where ("dues"."voids_id" is null and not exists (select 1 as "found" from "dues" "voiding" where "voiding"."voids_id" = "dues"."id"));--> statement-breakpoint
CREATE VIEW `live_payment` AS select "id", "sale_id", "direction", "buyer_id", "seller_id", "person_id", "method", "amount_cents", "reference", "paid_at", "other_half_id", "voids_id", "reason", "line" from "payment" where ("payment"."voids_id" is null and not exists (select 1 as "found" from "payment" "voiding" where "voiding"."voids_id" = "payment"."id"));--> statement-breakpoint
CREATE VIEW `live_taking` AS select "id", "sale_id", "kind", "method", "amount_cents", "note", "at", "voids_id", "reason", "line" from "taking" where ("taking"."voids_id" is null and not exists (select 1 as "found" from "taking" "voiding" where "voiding"."voids_id" = "taking"."id"));--> statement-breakpoint
CREATE VIEW `lot_now` AS select "lot"."id", "lot"."sale_id", "lot"."lot_number", "lot"."lot_letter", "lot"."seller_id", "lot"."goods_id", "lot"."by", "lot"."count", "lot"."weight_thousandths", "lot"."size", "lot"."grade", "lot"."section", "lot"."form", "lot"."taken_in", "lot"."minimum_cents", "lot"."without_reserve", "lot"."donated", "lot"."note", "lot"."former_numbers", "lot"."place", "lot"."line", "seller"."seller_no", "goods"."goods", "goods"."name" as "goods_name", "goods"."export_tag", "standing_outcome"."id" as "outcome_id", "standing_outcome"."kind" as "outcome", "standing_outcome"."fate" as "fate", "standing_outcome"."price_cents", "standing_outcome"."buyer_id", "buyer"."buyer_no" as "buyer_no" from "lot" inner join "seller" on "seller"."id" = "lot"."seller_id" inner join "goods" on "goods"."id" = "lot"."goods_id" left join "standing_outcome" on "standing_outcome"."lot_id" = "lot"."id" left join "buyer" on "buyer"."id" = "standing_outcome"."buyer_id";--> statement-breakpoint
CREATE VIEW `newest_handover` AS select "id", "lot_id", "buyer_id", "kind", "replaces_id", "taken_by", "reason", "at", "line" from "handover" where not exists (select 1 as "found" from "handover" "later" where "later"."replaces_id" = "handover"."id");--> statement-breakpoint
CREATE VIEW `newest_outcome` AS select "id", "lot_id", "kind", "price_cents", "buyer_id", "replaces_id", "reason", "fate", "remarks", "awarded", "at", "line" from "outcome" where not exists (select 1 as "found" from "outcome" "later" where "later"."replaces_id" = "outcome"."id");--> statement-breakpoint
CREATE VIEW `standing_outcome` AS select "id", "lot_id", "kind", "price_cents", "buyer_id", "replaces_id", "reason", "fate", "remarks", "awarded", "at", "line" from "outcome" where ("outcome"."kind" <> 'reopened' and not exists (select 1 as "found" from "outcome" "later" where "later"."replaces_id" = "outcome"."id"));--> statement-breakpoint
-- Written by hand: what drizzle-kit cannot draw from db/schema. It is appended to the generated migration.
-- What people said and did is never changed: a correction is a further row with a reason.
CREATE TRIGGER `arrival_no_update` BEFORE UPDATE ON `arrival`
BEGIN SELECT RAISE(ABORT, 'arrival is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `arrival_no_delete` BEFORE DELETE ON `arrival`
BEGIN SELECT RAISE(ABORT, 'arrival is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `bank_mark_no_update` BEFORE UPDATE ON `bank_mark`
BEGIN SELECT RAISE(ABORT, 'bank_mark is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `bank_mark_no_delete` BEFORE DELETE ON `bank_mark`
BEGIN SELECT RAISE(ABORT, 'bank_mark is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `bid_no_update` BEFORE UPDATE ON `bid`
BEGIN SELECT RAISE(ABORT, 'bid is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `bid_no_delete` BEFORE DELETE ON `bid`
BEGIN SELECT RAISE(ABORT, 'bid is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `charge_no_update` BEFORE UPDATE ON `charge`
BEGIN SELECT RAISE(ABORT, 'charge is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `charge_no_delete` BEFORE DELETE ON `charge`
BEGIN SELECT RAISE(ABORT, 'charge is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `closing_no_update` BEFORE UPDATE ON `closing`
BEGIN SELECT RAISE(ABORT, 'closing is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `closing_no_delete` BEFORE DELETE ON `closing`
BEGIN SELECT RAISE(ABORT, 'closing is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `deposit_no_update` BEFORE UPDATE ON `deposit`
BEGIN SELECT RAISE(ABORT, 'deposit is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `deposit_no_delete` BEFORE DELETE ON `deposit`
BEGIN SELECT RAISE(ABORT, 'deposit is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `deposit_item_no_update` BEFORE UPDATE ON `deposit_item`
BEGIN SELECT RAISE(ABORT, 'deposit_item is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `deposit_item_no_delete` BEFORE DELETE ON `deposit_item`
BEGIN SELECT RAISE(ABORT, 'deposit_item is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `drawer_entry_no_update` BEFORE UPDATE ON `drawer_entry`
BEGIN SELECT RAISE(ABORT, 'drawer_entry is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `drawer_entry_no_delete` BEFORE DELETE ON `drawer_entry`
BEGIN SELECT RAISE(ABORT, 'drawer_entry is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `drawer_piece_no_update` BEFORE UPDATE ON `drawer_piece`
BEGIN SELECT RAISE(ABORT, 'drawer_piece is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `drawer_piece_no_delete` BEFORE DELETE ON `drawer_piece`
BEGIN SELECT RAISE(ABORT, 'drawer_piece is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `dues_no_update` BEFORE UPDATE ON `dues`
BEGIN SELECT RAISE(ABORT, 'dues is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `dues_no_delete` BEFORE DELETE ON `dues`
BEGIN SELECT RAISE(ABORT, 'dues is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `handover_no_update` BEFORE UPDATE ON `handover`
BEGIN SELECT RAISE(ABORT, 'handover is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `handover_no_delete` BEFORE DELETE ON `handover`
BEGIN SELECT RAISE(ABORT, 'handover is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `invoice_no_update` BEFORE UPDATE ON `invoice`
BEGIN SELECT RAISE(ABORT, 'invoice is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `invoice_no_delete` BEFORE DELETE ON `invoice`
BEGIN SELECT RAISE(ABORT, 'invoice is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `journal_entry_no_update` BEFORE UPDATE ON `journal_entry`
BEGIN SELECT RAISE(ABORT, 'journal_entry is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `journal_entry_no_delete` BEFORE DELETE ON `journal_entry`
BEGIN SELECT RAISE(ABORT, 'journal_entry is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `log_no_delete` BEFORE DELETE ON `log`
BEGIN SELECT RAISE(ABORT, 'log is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `outcome_no_update` BEFORE UPDATE ON `outcome`
BEGIN SELECT RAISE(ABORT, 'outcome is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `outcome_no_delete` BEFORE DELETE ON `outcome`
BEGIN SELECT RAISE(ABORT, 'outcome is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_no_update` BEFORE UPDATE ON `payment`
BEGIN SELECT RAISE(ABORT, 'payment is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `payment_no_delete` BEFORE DELETE ON `payment`
BEGIN SELECT RAISE(ABORT, 'payment is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `posting_no_update` BEFORE UPDATE ON `posting`
BEGIN SELECT RAISE(ABORT, 'posting is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `posting_no_delete` BEFORE DELETE ON `posting`
BEGIN SELECT RAISE(ABORT, 'posting is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `price_list_row_no_update` BEFORE UPDATE ON `price_list_row`
BEGIN SELECT RAISE(ABORT, 'price_list_row is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `price_list_row_no_delete` BEFORE DELETE ON `price_list_row`
BEGIN SELECT RAISE(ABORT, 'price_list_row is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `seller_check_no_update` BEFORE UPDATE ON `seller_check`
BEGIN SELECT RAISE(ABORT, 'seller_check is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `seller_check_no_delete` BEFORE DELETE ON `seller_check`
BEGIN SELECT RAISE(ABORT, 'seller_check is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `settlement_no_update` BEFORE UPDATE ON `settlement`
BEGIN SELECT RAISE(ABORT, 'settlement is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `settlement_no_delete` BEFORE DELETE ON `settlement`
BEGIN SELECT RAISE(ABORT, 'settlement is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `taking_no_update` BEFORE UPDATE ON `taking`
BEGIN SELECT RAISE(ABORT, 'taking is append-only: record a further row instead'); END;
--> statement-breakpoint
CREATE TRIGGER `taking_no_delete` BEFORE DELETE ON `taking`
BEGIN SELECT RAISE(ABORT, 'taking is append-only: record a further row instead'); END;
--> statement-breakpoint
-- A line of the log may only lose contact data: shorter input of a command that carries some, and nothing else of it.
-- Whether what is left is what the removal sealed, the proof of the chain says.
CREATE TRIGGER `log_no_update` BEFORE UPDATE ON `log`
WHEN NOT (
	OLD.`command` IN ('person.enrol', 'person.amend', 'sale.import') AND length(NEW.`input`) < length(OLD.`input`)
	AND NEW.`seq` IS OLD.`seq` AND NEW.`at` IS OLD.`at` AND NEW.`worker` IS OLD.`worker`
	AND NEW.`station` IS OLD.`station` AND NEW.`command` IS OLD.`command` AND NEW.`key` IS OLD.`key`
	AND NEW.`result` IS OLD.`result` AND NEW.`prev_hash` IS OLD.`prev_hash` AND NEW.`hash` IS OLD.`hash`
)
BEGIN
	SELECT RAISE(ABORT, 'log is append-only: record a further row instead');
END;
--> statement-breakpoint
-- The tag rule once more, under every command: no tagged lot is put up while it has fewer good tags than pieces.
CREATE TRIGGER `outcome_needs_tags` BEFORE INSERT ON `outcome`
WHEN NEW.`kind` IN ('sold', 'passed', 'bought_back') AND EXISTS (
	SELECT 1 FROM `lot` JOIN `goods` ON `goods`.`id` = `lot`.`goods_id`
	WHERE `lot`.`id` = NEW.`lot_id` AND `goods`.`export_tag` = 1 AND (`lot`.`count` IS NULL OR `lot`.`count` > (
		SELECT count(*) FROM `tag` WHERE `tag`.`lot_id` = `lot`.`id` AND `tag`.`condition` <> 'broken'
	))
)
BEGIN
	SELECT RAISE(ABORT, 'a tagged lot needs one good export tag a piece before it is put up');
END;
--> statement-breakpoint
-- What a file of this kind calls itself, so that no other file is taken for a book ('PLTY').
PRAGMA application_id = 1347179609;
