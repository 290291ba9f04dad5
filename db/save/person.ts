import { and, count, eq, sql } from 'drizzle-orm';
import type { Person } from '#lib/facts.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { foldName } from '#lib/fold.ts';
import { PERSON_FIELDS, type PersonFacts } from '#lib/person/fields.ts';
import type { Scene } from '../command.ts';
import { particularsOf, personByRef } from '../queries/find.ts';
import { insertRow, updateRows } from '../rows.ts';
import { particulars, person } from '../schema/index.ts';

/** Adds a person. An empty reference is drawn from how many people the book knows, passing over those in use. */
export function savePerson(scene: Scene, ref: string, fields: PersonFacts): { id: number; ref: string } {
  const own = ref === '' ? freeRef(scene) : ref;
  const id = insertRow(scene.book, person, {
    ref: own,
    ...factsOfRow(PERSON_FIELDS, fields),
    nameFolded: foldName(fields.name),
    line: scene.line,
  });
  return { id, ref: own };
}

/** Keeps what a person showed at this sale; somebody who is already at it keeps what stands. */
export function saveParticulars(scene: Scene, at: { saleId: number; personId: number }, own: Person): void {
  if (particularsOf(scene.book, at.saleId, at.personId)) return;
  const ref = freeRefAt(scene, at.saleId, own.personId);
  insertRow(scene.book, particulars, { ...at, ref, ...factsOfRow(PERSON_FIELDS, own), line: scene.line });
}

/** A sale read from a folder keeps the folder's references, and one of them may be somebody else's in the book. */
function freeRefAt({ book }: Scene, saleId: number, ref: string): string {
  const find = book.prepared('find particulars by ref', (db) =>
    db
      .select({ id: particulars.id })
      .from(particulars)
      .where(and(eq(particulars.saleId, sql.placeholder('saleId')), eq(particulars.ref, sql.placeholder('ref'))))
      .prepare(),
  );
  let free = ref;
  for (let number = 2; find.get({ saleId, ref: free }); number += 1) free = `${ref}-${number}`;
  return free;
}

/** Changes what the association knows of a person now. */
export function amendPerson(scene: Scene, id: number, fields: PersonFacts): void {
  const row = { ...factsOfRow(PERSON_FIELDS, fields), nameFolded: foldName(fields.name), line: scene.line };
  updateRows(scene.book, { table: person, row }, { name: 'by id', where: 'id = ?', cells: [id] });
}

function freeRef(scene: Scene): string {
  const people = scene.book.prepared('count people', (db) => db.select({ n: count() }).from(person).prepare());
  let number = (people.get()?.n ?? 0) + 1;
  while (personByRef(scene.book, refOf(number))) number += 1;
  return refOf(number);
}

function refOf(number: number): string {
  return `P${String(number).padStart(4, '0')}`;
}
