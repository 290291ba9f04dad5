/** Takes the contact data of a person out of their rows and out of the log lines that brought it in. */
import { eq, sql } from 'drizzle-orm';
import type { ContactField } from '#lib/person/fields.ts';
import type { Json, Scene } from '../command.ts';
import { canonical, type LogRow } from '../log.ts';
import { bareSum, withoutContact } from '../redact.ts';
import { log, particulars, person } from '../schema/index.ts';

export interface RedactedLine {
  readonly line: number;
  /** SHA-256 in hex of the line's bare form. */
  readonly sum: string;
}

/** Empties the fields in the person's row and in their particulars of every sale. */
export function blankRows({ book, line }: Scene, personId: number, fields: readonly ContactField[]): void {
  const blank = { ...Object.fromEntries(fields.map((field) => [field, ''])), line };
  book.db.update(person).set(blank).where(eq(person.id, personId)).run();
  book.db.update(particulars).set(blank).where(eq(particulars.personId, personId)).run();
}

interface Carrying extends LogRow {
  /** The person's id in the folder, for a line that imported a sale. */
  readonly ref: string | null;
}

/** Redacts every line that carries the person's contact data; gives their numbers with what is sealed of them. */
export function redactLines({ book }: Scene, personId: number, fields: readonly ContactField[]): RedactedLine[] {
  const lines = book.db.all<Carrying>(CARRYING(personId));
  return lines.map(({ ref, ...row }) => {
    const { seq, input } = row;
    const redacted = canonical(withoutContact(JSON.parse(input) as Json, fields, (own) => own === ref));
    if (redacted !== input) book.db.update(log).set({ input: redacted }).where(eq(log.seq, seq)).run();
    return { line: seq, sum: bareSum({ ...row, input: redacted }) };
  });
}

const LINE = sql.raw('seq, at, worker, station, command, key, input, result, prev_hash AS prevHash, hash');

const CARRYING = (personId: number) => sql`
  SELECT ${LINE}, NULL AS ref FROM log
  WHERE (command = 'person.enrol' AND json_extract(result, '$.personId') = ${personId})
     OR (command = 'person.amend' AND json_extract(input, '$.personId') = ${personId})
  UNION ALL
  SELECT log.seq, log.at, worker, station, command, key, input, result, prev_hash AS prevHash, hash, particulars.ref FROM log
  JOIN particulars ON particulars.sale_id = json_extract(result, '$.saleId') AND particulars.person_id = ${personId}
  WHERE command = 'sale.import'
  ORDER BY seq`;
