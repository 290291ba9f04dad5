/**
 * The few column shapes that every table shares, and the checks that go with them.
 * A check says `typeof` because SQLite would otherwise keep 12.5 in an INTEGER column as a float.
 */
import { type SQL, sql } from 'drizzle-orm';
import { type AnySQLiteColumn, check, integer, text } from 'drizzle-orm/sqlite-core';
import type { Cents } from '#lib/money/money.ts';

export const id = () => integer('id').primaryKey();

/** The log line that wrote the row last, so that a damaged row can be traced to who wrote it. */
export const line = () => integer('line').notNull();

export const words = (name: string) => text(name).notNull().default('');

export const flagColumn = (name: string) => integer(name, { mode: 'boolean' }).notNull().default(false);

/** The id of the row in another table that this row belongs to. */
export const references = (name: string, target: () => AnySQLiteColumn) => integer(name).notNull().references(target);

/** Whole cents. Pair it with {@link wholeNumberColumn}. */
export const centsColumn = (name: string) => integer(name).$type<Cents>();

/** A check that a money or quantity column holds a whole number or nothing. */
export function wholeNumberColumn(name: string, column: AnySQLiteColumn) {
  return check(`${name}_whole`, sql`${column} IS NULL OR typeof(${column}) = 'integer'`);
}

export function oneOf(name: string, column: AnySQLiteColumn, values: readonly string[]) {
  return check(`${name}_known`, sql`${column} IN (${quoted(values)})`);
}

function quoted(values: readonly string[]): SQL {
  return sql.raw(values.map((value) => `'${value}'`).join(', '));
}
