/** A person: as they are now, as they stood at a sale, and what is left of them once their contact data is removed. */
import { and, count, eq, sql } from 'drizzle-orm';
import type { ContactField } from '#lib/decide-forget.ts';
import type { Person } from '#lib/facts.ts';
import { foldName } from '#lib/fold.ts';
import type { Json, Scene } from '../command.ts';
import { canonical, type LogRow } from '../log.ts';
import { particularsOf, personByRef } from '../queries/find.ts';
import { bareSum, withoutContact } from '../redact.ts';
import { insertRow } from '../rows.ts';
import { log, particulars, person } from '../schema/index.ts';
import { statement } from '../statement.ts';

export type PersonFields = Omit<Person, 'personId'>;

/** Adds a person. An empty reference is drawn from how many people the book knows, passing over those in use. */
export function savePerson(scene: Scene, ref: string, fields: PersonFields): { id: number; ref: string } {
  const own = ref === '' ? freeRef(scene) : ref;
  const id = insertRow(scene.book, person, {
    ref: own,
    ...columnsOf(fields),
    nameFolded: foldName(fields.name),
    line: scene.line,
  });
  return { id, ref: own };
}

/** Keeps what a person showed at this sale; somebody who is already at it keeps what stands. */
export function saveParticulars(scene: Scene, at: { saleId: number; personId: number }, own: Person): void {
  if (particularsOf(scene.book, at.saleId, at.personId)) return;
  const ref = freeRefAt(scene, at.saleId, own.personId);
  insertRow(scene.book, particulars, { ...at, ref, ...columnsOf(own), line: scene.line });
}

const particularsByRef = statement(({ db }) => {
  const theirs = and(eq(particulars.saleId, sql.placeholder('saleId')), eq(particulars.ref, sql.placeholder('ref')));
  return db.select({ id: particulars.id }).from(particulars).where(theirs).prepare();
});

/** A sale read from a folder keeps the folder's references, and one of them may be somebody else's in the book. */
function freeRefAt({ book }: Scene, saleId: number, ref: string): string {
  const find = particularsByRef(book);
  let free = ref;
  for (let number = 2; find.get({ saleId, ref: free }); number += 1) free = `${ref}-${number}`;
  return free;
}

/** Changes what the association knows of a person now. */
export function amendPerson({ book, line }: Scene, id: number, fields: PersonFields): void {
  const row = { ...columnsOf(fields), nameFolded: foldName(fields.name), line };
  book.db.update(person).set(row).where(eq(person.id, id)).run();
}

export function columnsOf(fields: PersonFields) {
  const { name, street, city, region, postcode, phone, email } = fields;
  const { memberNo, memberUntil, licenceNo, licenceRegion, licenceExpires } = fields;
  const address = { name, street, city, region, postcode, phone, email };
  return { ...address, memberNo, memberUntil, licenceNo, licenceRegion, licenceExpires };
}

const countOfPeople = statement(({ db }) => db.select({ n: count() }).from(person).prepare());

function freeRef(scene: Scene): string {
  let number = (countOfPeople(scene.book).get()?.n ?? 0) + 1;
  while (personByRef(scene.book, refOf(number))) number += 1;
  return refOf(number);
}

function refOf(number: number): string {
  return `P${String(number).padStart(4, '0')}`;
}

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
