/**
 * The judge of Table Schema: the `tableschema` package by the authors of the standard, which checks a schema against
 * the published profile and a CSV file cell by cell against the schema. Loaded untyped, as its own types are of an
 * older CSV library.
 */
import { createRequire } from 'node:module';
import { Readable } from 'node:stream';

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
