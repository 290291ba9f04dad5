import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';

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
