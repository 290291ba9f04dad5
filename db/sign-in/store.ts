/**
 * Who may come in: passphrases, who is signed in on which device, and the laptops that follow. Stored in a small file
 * beside the book (`<book>.sign-ins`), not in it: no log, backup or copy of the book carries any of it. Where the file is
 * lost, a code made at the machine lets the office in again.
 * Tokens, keys and codes are stored as SHA-256: they are random enough that nobody can guess them back.
 */
import { createHash, randomBytes } from 'node:crypto';
import Database from 'better-sqlite3';
import { desc, lte, notInArray, sql } from 'drizzle-orm';
import { type BetterSQLite3Database, drizzle } from 'drizzle-orm/better-sqlite3';
import { openInMemory, openQuietly } from '#db/book/open-for-reading.ts';
import { UNPRINTABLE } from '#lib/field/kinds.ts';
import { happening, refusedTry } from './tables.ts';

const UNPRINTABLE_ALL = new RegExp(UNPRINTABLE.source, 'gu');

export interface Store {
  readonly sqlite: Database.Database;
  readonly db: BetterSQLite3Database;
  close(): void;
}

/**
 * Times are milliseconds since 1970. Made here and not by a migration: the file may be lost at any time, and STRICT is
 * nothing that drizzle can say. A test holds it to `tables.ts`.
 */
const TABLES = `
  CREATE TABLE IF NOT EXISTS session (
    token_hash TEXT PRIMARY KEY, worker_id INTEGER NOT NULL, device TEXT NOT NULL,
    began INTEGER NOT NULL, seen INTEGER NOT NULL,
    line INTEGER NOT NULL, hash TEXT NOT NULL, stations TEXT NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS code (
    code_hash TEXT PRIMARY KEY, worker_id INTEGER NOT NULL, ends INTEGER NOT NULL,
    line INTEGER NOT NULL, hash TEXT NOT NULL, stations TEXT NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS member (
    token_hash TEXT PRIMARY KEY, person_id INTEGER NOT NULL, began INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS wrong_try (
    tried TEXT PRIMARY KEY, name_folded TEXT NOT NULL, in_a_row INTEGER NOT NULL, wait_until INTEGER NOT NULL,
    last INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS refused_try (
    counted TEXT PRIMARY KEY, client TEXT NOT NULL, at INTEGER NOT NULL, what TEXT NOT NULL, times INTEGER NOT NULL,
    who TEXT NOT NULL, device TEXT NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS passphrase (
    mark TEXT PRIMARY KEY, hash TEXT NOT NULL, at INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS laptop (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, key_hash TEXT NOT NULL UNIQUE,
    paired INTEGER NOT NULL, seen INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS pairing (code_hash TEXT PRIMARY KEY, ends INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS look (
    id INTEGER PRIMARY KEY, counted TEXT NOT NULL UNIQUE, at INTEGER NOT NULL, worker TEXT NOT NULL,
    person_id INTEGER NOT NULL, what TEXT NOT NULL, times INTEGER NOT NULL) STRICT;
  CREATE TABLE IF NOT EXISTS happening (
    id INTEGER PRIMARY KEY, at INTEGER NOT NULL, what TEXT NOT NULL, who TEXT NOT NULL, device TEXT NOT NULL) STRICT;
`;

/** Sign-ins of an older version do not say where in the log they began: everybody signs in once more. */
function makeTables(sqlite: Database.Database): void {
  const ofOlder = sqlite.prepare("SELECT name FROM pragma_table_info('session') WHERE name IN ('began', 'line')");
  if (ofOlder.all().length === 1) sqlite.exec('DROP TABLE session; DROP TABLE IF EXISTS code;');
  const byName = sqlite.prepare("SELECT 1 FROM pragma_table_info('wrong_try') WHERE name = 'name_folded' AND pk = 1");
  if (byName.get()) sqlite.exec('DROP TABLE wrong_try;');
  sqlite.exec(TABLES);
}

function storeOver(sqlite: Database.Database): Store {
  makeTables(sqlite);
  return { sqlite, db: drizzle(sqlite), close: () => sqlite.close() };
}

/** Opens the file of sign-ins that belongs to a book, and makes it where it is missing. */
export function openStore(bookFile: string): Store {
  // A book in memory has them there, too.
  const sqlite = new Database(bookFile === ':memory:' ? bookFile : `${bookFile}.sign-ins`);
  sqlite.pragma('busy_timeout = 5000');
  sqlite.pragma('journal_mode = WAL');
  // An old hash is overwritten, and not only forgotten.
  sqlite.pragma('secure_delete = ON');
  return storeOver(sqlite);
}

/**
 * The sign-ins of a book whose disk takes nothing: those of the file as far as it can be read, in memory. Who is signed
 * in stays so, and others can sign in to look; what is done here ends with the program.
 */
export function storeInMemory(bookFile: string): Store {
  return storeOver(copyOf(`${bookFile}.sign-ins`) ?? new Database(':memory:'));
}

function copyOf(file: string): Database.Database | undefined {
  try {
    const onDisk = openQuietly(file);
    const bytes = onDisk.serialize();
    onDisk.close();
    return openInMemory(bytes);
  } catch {
    return undefined;
  }
}

export function digestOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

/** 256 random bits in base64url. */
export function drawToken(): string {
  return randomBytes(32).toString('base64url');
}

export type Happening =
  | ('signed in' | 'signed out' | 'code made' | 'passphrase changed')
  | ('laptop paired' | 'laptop revoked' | 'backups locked' | 'backups left open');
export type RefusedTry = 'wrong passphrase' | 'wrong code' | 'made to wait';

interface Noted {
  /** Milliseconds since 1970. */
  readonly at: number;
  readonly who: string;
  readonly device: string;
}

/** What happened last, newest first. */
export function happenings({ db }: Store, most: number): (typeof happening.$inferSelect)[] {
  return db.select().from(happening).orderBy(desc(happening.id)).limit(most).all();
}

/** What was refused last, newest first; each row counts a client, a kind and an hour. */
export function refusals({ db }: Store, most: number): (typeof refusedTry.$inferSelect)[] {
  return db.select().from(refusedTry).orderBy(desc(refusedTry.at)).limit(most).all();
}

/** Enough for some ten years of sales. */
const MOST_HAPPENINGS = 20_000;
/** An attacker makes one of these an hour and kind, so that many addresses can push out one another at most. */
const MOST_REFUSED = 2000;
const HOUR_MS = 3_600_000;

/** What somebody outside calls themselves, without what turns the words around it or cannot be seen. */
export const printable = (text: string) => text.replace(UNPRINTABLE_ALL, '?').slice(0, 80);

const shortened = ({ at, who, device }: Noted) => ({ at, who: printable(who), device: device.slice(0, 120) });

/** Notes who signed in or out; the oldest lines go when there are very many. Never a secret. */
export function noteHappening({ db }: Store, what: Happening, noted: Noted): void {
  const row = { ...shortened(noted), what };
  const { id } = db.insert(happening).values(row).returning({ id: happening.id }).get();
  db.delete(happening)
    .where(lte(happening.id, id - MOST_HAPPENINGS))
    .run();
}

/**
 * Counts who failed to sign in: one row for a client, a kind and an hour, with the last name that was typed. So nobody
 * who cannot sign in adds to the list of those who did.
 */
export function noteRefused({ db }: Store, what: RefusedTry, noted: Noted & { readonly client: string }): void {
  const { client } = noted;
  const counted = `${Math.floor(noted.at / HOUR_MS)} ${what} ${client}`;
  const said = shortened(noted);
  const { times } = db
    .insert(refusedTry)
    .values({ ...said, counted, client, what, times: 1 })
    .onConflictDoUpdate({ target: refusedTry.counted, set: { ...said, times: sql`${refusedTry.times} + 1` } })
    .returning({ times: refusedTry.times })
    .get();
  if (times > 1) return;
  const newest = db.select({ counted: refusedTry.counted }).from(refusedTry);
  const kept = newest.orderBy(desc(refusedTry.at)).limit(MOST_REFUSED);
  db.delete(refusedTry).where(notInArray(refusedTry.counted, kept)).run();
}
