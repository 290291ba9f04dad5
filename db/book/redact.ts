/**
 * The redacted form of a log line: its input without somebody's contact data. The line keeps the hash it was sealed
 * with, so the chain goes on; what stands in for that hash is the sum of its bare form, which the line of the removal
 * has sealed. The bare form is without anybody's contact data: it stays the same, whoever is removed next.
 */
import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';
import { fieldNames } from '#lib/field/fields.ts';
import { REMOVED_FIELDS, type RemovedField } from '#lib/person/fields.ts';
import type { Json } from './command.ts';
import { canonical, type LogRow } from './log.ts';

/** The commands whose input says where a person lives. Only these lines can ever be redacted. */
const CARRIES_CONTACT = ['person.enrol', 'person.amend', 'sale.import'] as const;
const FORGET = 'person.forget';

type Fields = Readonly<Record<string, Json>>;

/** Whether a row of people in an import is one to take the fields from. */
type Whose = (ref: string) => boolean;

/** The input without these fields of these people; of an input about one person, without the fields. */
export function withoutContact(input: Json, fields: readonly RemovedField[], whose: Whose): Json {
  const said = input as Fields;
  if (!Array.isArray(said.people)) return without(said, fields);
  const people = (said.people as unknown as [number, Fields][]).map(([line, cells]) =>
    whose(String(cells.person_id ?? '')) ? [line, without(cells, fields)] : [line, cells],
  );
  return { ...said, people } as Json;
}

function without(said: Fields, fields: readonly string[]): Fields {
  return Object.fromEntries(Object.entries(said).filter(([name]) => !fields.includes(name)));
}

/** SHA-256 in hex of the canonical line, but for its hash and for anybody's contact data. */
export function bareSum({ hash: _, ...line }: LogRow): string {
  const bare = withoutContact(JSON.parse(line.input) as Json, fieldNames(REMOVED_FIELDS), () => true);
  return createHash('sha256')
    .update(canonical({ ...line, input: canonical(bare) }))
    .digest('hex');
}

/** Lines that a removal speaks for: by their number, the sum of their bare form and the line that sealed it. */
export type Redactions = ReadonlyMap<number, { readonly sum: string; readonly by: number }>;

export const NO_REDACTIONS: Redactions = new Map();

/** What the removals in a log say. What cannot be read says nothing; the proof of the chain then finds that line. */
export function redactionsIn(sqlite: Database.Database): Redactions {
  const rows = sqlite
    .prepare<[string], { seq: number; result: string }>('SELECT seq, result FROM log WHERE command = ? ORDER BY seq')
    .all(FORGET);
  const said = new Map<number, { sum: string; by: number }>();
  for (const { seq, result } of rows) {
    for (const { line, sum } of linesSaid(result)) if (line < seq) said.set(line, { sum, by: seq });
  }
  return said;
}

function linesSaid(result: string): readonly { readonly line: number; readonly sum: string }[] {
  try {
    return (JSON.parse(result) as { lines: { line: number; sum: string }[] }).lines;
  } catch {
    return [];
  }
}

/** Whether this line is a redacted one as it should be: sealed over more than it still says, and nothing else changed. */
export function isRedacted(row: LogRow, all: Redactions): boolean {
  const said = all.get(row.seq);
  return said !== undefined && CARRIES_CONTACT.some((name) => name === row.command) && bareSum(row) === said.sum;
}
