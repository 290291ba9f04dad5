/** The tables of the file of sign-ins beside the book, as drizzle reads them; `store.ts` makes them. */
import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

/** Whose it is, and where in the book's log it began: see `Since`. */
const since = () => ({
  workerId: integer('worker_id').notNull(),
  line: integer('line').notNull(),
  hash: text('hash').notNull(),
  stations: text('stations').notNull(),
});

export const session = sqliteTable('session', {
  tokenHash: text('token_hash').primaryKey(),
  device: text('device').notNull(),
  began: integer('began').notNull(),
  seen: integer('seen').notNull(),
  ...since(),
});

export const code = sqliteTable('code', {
  codeHash: text('code_hash').primaryKey(),
  ends: integer('ends').notNull(),
  ...since(),
});

export const member = sqliteTable('member', {
  tokenHash: text('token_hash').primaryKey(),
  personId: integer('person_id').notNull(),
  began: integer('began').notNull(),
});

export const wrongTry = sqliteTable('wrong_try', {
  tried: text('tried').primaryKey(),
  nameFolded: text('name_folded').notNull(),
  inARow: integer('in_a_row').notNull(),
  waitUntil: integer('wait_until').notNull(),
  last: integer('last').notNull(),
});

/** Hashes of passphrases, under the mark that a worker's row in the book names. */
export const passphrase = sqliteTable('passphrase', {
  mark: text('mark').primaryKey(),
  /** scrypt in the PHC string format. */
  hash: text('hash').notNull(),
  at: integer('at').notNull(),
});

/** Laptops that may follow, each with a key of its own. */
export const laptop = sqliteTable('laptop', {
  id: integer('id').primaryKey(),
  name: text('name').notNull(),
  keyHash: text('key_hash').notNull(),
  paired: integer('paired').notNull(),
  seen: integer('seen').notNull(),
});

export const pairing = sqliteTable('pairing', {
  codeHash: text('code_hash').primaryKey(),
  ends: integer('ends').notNull(),
});

export const happening = sqliteTable('happening', {
  id: integer('id').primaryKey(),
  at: integer('at').notNull(),
  what: text('what').notNull(),
  who: text('who').notNull(),
  device: text('device').notNull(),
});

export const refusedTry = sqliteTable('refused_try', {
  counted: text('counted').primaryKey(),
  client: text('client').notNull(),
  at: integer('at').notNull(),
  what: text('what').notNull(),
  times: integer('times').notNull(),
  who: text('who').notNull(),
  device: text('device').notNull(),
});

export const look = sqliteTable('look', {
  id: integer('id').primaryKey(),
  counted: text('counted').notNull(),
  at: integer('at').notNull(),
  worker: text('worker').notNull(),
  personId: integer('person_id').notNull(),
  what: text('what').notNull(),
  times: integer('times').notNull(),
});
