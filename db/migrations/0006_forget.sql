-- A line of the log may only lose contact data: shorter input of a command that carries some, and nothing else of it.
-- Whether what is left is what the removal sealed, the proof of the chain says.
DROP TRIGGER `log_no_update`;
--> statement-breakpoint
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
