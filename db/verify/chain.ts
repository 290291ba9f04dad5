/** Reads the log from its first line and proves that each line follows the one before it. */
import type Database from 'better-sqlite3';
import { canonical, EMPTY_HEAD, hashOfLine, type LogHead, type LogRow } from '#db/book/log.ts';
import { isRedacted, type Redactions, redactionsIn } from '#db/book/redact.ts';
import type { ChainReport, VerifyReport } from './report.ts';

const LINES = `SELECT seq, at, worker, station, command, key, input, result, prev_hash AS prevHash, hash
  FROM log WHERE seq > ? ORDER BY seq`;

/** Every log line behind `from`, in order, one at a time. Damage in the file is thrown while reading. */
export function* logLines(sqlite: Database.Database, from: LogHead = EMPTY_HEAD): Generator<LogRow, void, undefined> {
  const rows = sqlite.prepare<[number], LogRow>(LINES).iterate(from.seq);
  try {
    yield* rows;
  } finally {
    // A damaged page ends the walk in the middle, and must not keep the connection busy.
    rows.return?.();
  }
}

/** Proves the chain behind `from`, a head that was found good before. */
export function checkChain(sqlite: Database.Database, from: LogHead = EMPTY_HEAD): ChainReport {
  let head = from;
  try {
    const redactions = redactionsIn(sqlite);
    for (const row of logLines(sqlite, from)) {
      const wrong = wrongWith(row, head, redactions);
      if (wrong !== null) return broken(from, head, wrong);
      head = { seq: row.seq, hash: row.hash };
    }
  } catch (fault) {
    return broken(from, head, `line ${head.seq + 1} cannot be read: ${messageOf(fault)}`);
  }
  const lines = head.seq - from.seq;
  return { ok: true, lines, head, firstBadLine: null, message: `${lines} lines, each sealed over the one before.` };
}

function broken(from: LogHead, head: LogHead, wrong: string): ChainReport {
  const message = `The log is not as it was written: ${wrong}.`;
  return { ok: false, lines: head.seq - from.seq, head, firstBadLine: head.seq + 1, message };
}

function wrongWith(row: LogRow, head: LogHead, redactions: Redactions): string | null {
  const seq = head.seq + 1;
  if (row.seq !== seq) return `line ${seq} is missing`;
  if (row.prevHash !== head.hash) return `line ${seq} does not follow the line before it`;
  if (hashOfRow(row) !== row.hash && !isRedactedRow(row, redactions)) return `line ${seq} does not say what was sealed`;
  return isCanonical(row.input) && isCanonical(row.result) ? null : `line ${seq} is not in canonical form`;
}

/** The hash a row ought to have, or an empty text where its cells cannot even be put in canonical form. */
function hashOfRow({ hash: _, ...unsealed }: LogRow): string {
  try {
    return hashOfLine(unsealed);
  } catch {
    return '';
  }
}

/** A damaged input cannot even be read; then nothing speaks for the line. */
function isRedactedRow(row: LogRow, redactions: Redactions): boolean {
  try {
    return isRedacted(row, redactions);
  } catch {
    return false;
  }
}

function isCanonical(text: string): boolean {
  try {
    return canonical(JSON.parse(text)) === text;
  } catch {
    return false;
  }
}

export function messageOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}

const MOST_MESSAGES = 20;

/** What SQLite itself says of the pages and indexes of the file. */
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

type Broken = { readonly table: string; readonly rowid: number | null; readonly parent: string };

/** References that lead nowhere. */
export function checkForeignKeys(sqlite: Database.Database): VerifyReport['foreignKeys'] {
  try {
    const rows = sqlite.prepare('PRAGMA foreign_key_check').all() as Broken[];
    const shown = rows.slice(0, MOST_MESSAGES);
    const broken = shown.map(({ table, rowid, parent }) => ({ table, row: rowid, refersTo: parent }));
    const [first] = broken;
    if (!first) return { ok: true, message: 'Every reference leads to a row.', broken };
    const message = `Row ${first.row} of ${first.table} refers to a row of ${first.refersTo} that is not there.`;
    return { ok: false, message, broken };
  } catch (fault) {
    return { ok: false, message: `The references cannot be followed: ${messageOf(fault)}.`, broken: [] };
  }
}
