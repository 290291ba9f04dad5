/** The one migration is what stands in db/schema: the tables as drizzle-kit draws them, and what is written by hand. */
import { readdirSync, readFileSync } from 'node:fs';
import { generateSQLiteDrizzleJson, generateSQLiteMigration } from 'drizzle-kit/api';
import { describe, expect, it } from 'vitest';
import { knownCount, migrations } from '#db/book/migrate.ts';
import * as schema from '#db/schema/index.ts';

const BREAK = '--> statement-breakpoint';
const statementsOf = (text: string) => text.split(BREAK).map((one) => one.trim());

const file = readFileSync(`${migrations.folder()}/0000_book.sql`, 'utf8');
const byHand = readFileSync('db/schema/triggers.sql', 'utf8');

describe('the migration', () => {
  it('is one, until there are books to be brought up to date', () => {
    expect(knownCount()).toBe(1);
    expect(readdirSync(migrations.folder()).sort()).toEqual(['0000_book.sql', 'meta']);
  });

  it('makes each table, check and index of db/schema, and then what is written by hand', async () => {
    const nothing = await generateSQLiteDrizzleJson({});
    const drawn = await generateSQLiteMigration(nothing, await generateSQLiteDrizzleJson(schema));
    expect(drawn.length).toBeGreaterThan(50);
    const [, ...written] = statementsOf(byHand);
    const made = statementsOf(file);
    expect(made.slice(-written.length)).toEqual(written);
    expect(made.slice(0, -written.length).sort()).toEqual(drawn.flatMap(statementsOf).sort());
  });
});
