/**
 * Who looks at their own goods, on which device: kept beside the book in `<book>.sign-ins`, not in it, so that a copied
 * or replayed book carries nobody's session. Tokens are kept as SHA-256; losing the file costs a new code.
 */
import { randomBytes } from 'node:crypto';
import Database from 'better-sqlite3';
import { sha256 } from './code.ts';

export const SESSION_MS = 12 * 3_600_000;
const TOKEN_BYTES = 32;

const TABLE = `
  CREATE TABLE IF NOT EXISTS member_session (
    token_hash TEXT PRIMARY KEY, person_id INTEGER NOT NULL, began INTEGER NOT NULL) STRICT`;

export interface OwnSessions {
  /** Begins a session and gives its token, which is nowhere kept. Times are milliseconds since 1970. */
  begin(personId: number, now: number): string;
  /** Whose session it is, or undefined where it is none, or one that is over. */
  personOf(token: string, now: number): number | undefined;
  end(token: string): void;
  close(): void;
}

/** Opens the sessions that belong to a book; `:memory:` for tests. */
export function openOwnSessions(bookFile: string): OwnSessions {
  const sqlite = new Database(bookFile === ':memory:' ? bookFile : `${bookFile}.sign-ins`);
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('journal_mode = WAL');
  sqlite.exec(TABLE);
  return {
    begin(personId, now) {
      const token = randomBytes(TOKEN_BYTES).toString('base64url');
      sqlite.prepare('DELETE FROM member_session WHERE began < ?').run(now - SESSION_MS);
      sqlite.prepare('INSERT INTO member_session VALUES (?, ?, ?)').run(sha256(token), personId, now);
      return token;
    },
    personOf(token, now) {
      const find = sqlite.prepare('SELECT person_id FROM member_session WHERE token_hash = ? AND began >= ?').pluck();
      return find.get(sha256(token), now - SESSION_MS) as number | undefined;
    },
    end: (token) => void sqlite.prepare('DELETE FROM member_session WHERE token_hash = ?').run(sha256(token)),
    close: () => sqlite.close(),
  };
}
