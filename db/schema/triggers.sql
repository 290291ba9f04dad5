--> statement-breakpoint
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
