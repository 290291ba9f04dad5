/** What SQLite itself can say of the file: its pages and indexes, and references that lead nowhere. */
import type Database from 'better-sqlite3';
import { messageOf } from './chain.ts';
import type { VerifyReport } from './report.ts';

const MOST_MESSAGES = 20;

export function checkIntegrity(sqlite: Database.Database): VerifyReport['integrity'] {
  try {
    const messages = sqlite.prepare(`PRAGMA integrity_check(${MOST_MESSAGES})`).pluck().all() as string[];
    if (messages.length === 1 && messages[0] === 'ok') {
      return { ok: true, message: 'The pages and indexes of the file are whole.', messages: [] };
    }
    return { ok: false, message: `The file is damaged: ${messages[0] ?? 'it says nothing'}.`, messages };
  } catch (fault) {
    const message = messageOf(fault);
    return { ok: false, message: `The file is damaged: ${message}.`, messages: [message] };
  }
}

interface Broken {
  readonly table: string;
  readonly rowid: number | null;
  readonly parent: string;
}

export function checkForeignKeys(sqlite: Database.Database): VerifyReport['foreignKeys'] {
  try {
    const rows = sqlite.prepare('PRAGMA foreign_key_check').all() as Broken[];
    const broken = rows.slice(0, MOST_MESSAGES).map(({ table, rowid, parent }) => ({
      ...{ table, row: rowid, refersTo: parent },
    }));
    const [first] = broken;
    if (!first) return { ok: true, message: 'Every reference leads to a row.', broken };
    const message = `Row ${first.row} of ${first.table} refers to a row of ${first.refersTo} that is not there.`;
    return { ok: false, message, broken };
  } catch (fault) {
    return { ok: false, message: `The references cannot be followed: ${messageOf(fault)}.`, broken: [] };
  }
}
