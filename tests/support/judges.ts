import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Readable } from 'node:stream';
import { parse } from 'csv-parse/sync';
import { tempFile } from '#tests/support/temp.ts';

/** Asks hledger (hledger.org), a general ledger program. It has to be there; without it whoever asks fails. */

export function hledger(text: string, ...args: string[]): string {
  const file = tempFile('sale.journal');
  writeFileSync(file, text);
  // Names and references may carry any letter, which hledger reads in the encoding of its locale.
  const env = { ...process.env, LANG: 'C.UTF-8', LC_ALL: 'C.UTF-8' };
  return execFileSync('hledger', ['-f', file, ...args], { env, encoding: 'utf8', stdio: 'pipe' });
}

/** The balance of each account as hledger works it out, in the spelling of the exchange folder. */
export function balancesOf(text: string, currency: string): Map<string, string> {
  const out = hledger(text, 'balance', '--flat', '--empty', '--no-total', '--output-format=csv');
  const rows = parse(out, { columns: true }) as { account: string; balance: string }[];
  return new Map(rows.map(({ account, balance }) => [account, spelled(balance, currency)]));
}

function spelled(balance: string, currency: string): string {
  return balance === '0' ? '0.00' : balance.replace(` ${currency}`, '');
}

/**
 * The judge of Table Schema: the `tableschema` package by the authors of the standard, which checks a schema against
 * the published profile and a CSV file cell by cell against the schema. Loaded untyped, as its own types are of an
 * older CSV library.
 */

interface Judge {
  readonly Schema: { load(schema: unknown, options: { strict: boolean }): Promise<unknown> };
  readonly Table: {
    load(source: Readable, options: { schema: unknown; strict: boolean }): Promise<{ read(o: object): Promise<Row[]> }>;
  };
}

export type Row = Readonly<Record<string, unknown>>;

const { Schema, Table }: Judge = createRequire(import.meta.url)('tableschema');

/** The rows with their types, keys and constraints checked. @throws where the schema or a row is not as the standard has it. */
export async function rowsBySchema(schema: unknown, csv: string): Promise<Row[]> {
  await Schema.load(schema, { strict: true });
  const table = await Table.load(Readable.from([csv]), { schema, strict: true });
  return table.read({ keyed: true });
}
