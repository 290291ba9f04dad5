/** The association, its people, who works with its book, how its machine is reached, and the log of every command. */
import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { flagColumn, id, line, oneOf, words } from './columns.ts';

/** The one association whose book this is. */
export const association = sqliteTable(
  'association',
  {
    id: id(),
    name: text('name').notNull(),
    street: words('street'),
    city: words('city'),
    region: words('region'),
    postcode: words('postcode'),
    phone: words('phone'),
    email: words('email'),
    paper: text('paper').notNull().default('letter'),
    /** IANA, such as America/Denver; empty where nobody has said it. Ask `timeZoneOf` in db/sale/queries.ts. */
    timeZone: words('time_zone'),
    line: line(),
  },
  (t) => [check('association_one', sql`${t.id} = 1`), oneOf('association_paper', t.paper, ['letter', 'a4'])],
);

/** A person as the association knows them now; what stood at one sale is in `particulars`. */
export const person = sqliteTable('person', {
  id: id(),
  ref: text('ref').notNull().unique(),
  ...personColumns(),
  /** The name without diacritics and in lower case, for finding. */
  nameFolded: text('name_folded').notNull(),
  line: integer('line').notNull(),
});

/** The columns that say who somebody is, shared by `person` and `particulars`. */
export function personColumns() {
  return {
    name: text('name').notNull(),
    street: words('street'),
    city: words('city'),
    region: words('region'),
    postcode: words('postcode'),
    phone: words('phone'),
    email: words('email'),
    memberNo: words('member_no'),
    memberUntil: text('member_until'),
    /** The log line that brought this membership: dues, an amendment that changed its day, or how the person came in. */
    memberLine: integer('member_line').notNull(),
    licenceNo: words('licence_no'),
    licenceRegion: words('licence_region'),
    licenceExpires: text('licence_expires'),
    /** Whose name stands on a check for this person instead of their own; empty for most. */
    payee: words('payee'),
  };
}

/** One row at most: under which names the hall reaches this machine, and whether staff may work on an open line. */
export const network = sqliteTable(
  'network',
  {
    id: id(),
    /** Names and addresses besides the machine's own, with one space between. */
    hosts: words('hosts'),
    /** Whether workers may sign in over a line that is not encrypted. */
    plainStaff: flagColumn('plain_staff'),
    /** Whether an entry is answered only once a second laptop has it, or has not answered for a moment. */
    waitsForSecond: flagColumn('waits_for_second'),
    /** Why they may. */
    reason: words('reason'),
    /** Who said so, and when (ISO 8601, UTC). */
    worker: text('worker').notNull(),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [check('network_one', sql`${t.id} = 1`)],
);

/**
 * When a laptop began to lead this book: a second one took over, or a backup was restored. The log of a book that
 * nobody has taken over yet is epoch 1, and each row begins the next one.
 */
export const takeover = sqliteTable(
  'takeover',
  {
    epoch: integer('epoch').primaryKey(),
    kind: text('kind').notNull(),
    /** What the laptop that leads from here on calls itself. */
    laptop: text('laptop').notNull(),
    /** Where the laptop that led before is told of it, such as `https://192.168.1.10:3443`; empty where nobody knows. */
    told: words('told'),
    reason: words('reason'),
    worker: text('worker').notNull(),
    at: text('at').notNull(),
    line: line(),
  },
  (t) => [oneOf('takeover_kind', t.kind, ['takeover', 'restore'])],
);

/**
 * Who works with the book. Of the passphrase it has a mark only: the hash is stored beside the book under that mark, as
 * sign-ins are. A worker who has left stays, because log lines name them.
 */
export const worker = sqliteTable(
  'worker',
  {
    id: id(),
    name: text('name').notNull(),
    /** The name without diacritics and in lower case: two workers never differ in these alone. */
    nameFolded: text('name_folded').notNull().unique(),
    passphraseMark: text('passphrase_mark').notNull(),
    /** The stations' names with one space between, in the order of the house. */
    stations: text('stations').notNull(),
    hasLeft: flagColumn('has_left'),
    line: line(),
  },
  (t) => [check('worker_mark_is_64', sql`length(${t.passphraseMark}) = 64`)],
);

/**
 * One line for every command that changed the book. `input` and `result` are RFC 8785 text; `hash` covers the
 * previous hash and the line, and `key` makes a command that is sent twice answer twice but act once.
 */
export const log = sqliteTable('log', {
  seq: integer('seq').primaryKey(),
  at: text('at').notNull(),
  worker: text('worker').notNull(),
  station: text('station').notNull(),
  command: text('command').notNull(),
  key: text('key').notNull().unique(),
  input: text('input').notNull(),
  result: text('result').notNull(),
  prevHash: text('prev_hash').notNull(),
  hash: text('hash').notNull(),
});
